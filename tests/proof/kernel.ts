/**
 * Questions put to the exact kernel (Open CASCADE): where two volumes are nearest, what lumps a solid has, whether a
 * point is in it.
 */
import { inRoom, type Oc, type Shape } from '../../server/src/export/exact/kernel';
import type { Vec3 } from '../../server/src/geometry/types';

export interface Nearest {
  readonly mm: number;
  readonly p: Vec3;
  readonly q: Vec3;
}

/** The shortest line between two shapes, by the kernel's search for extrema between their faces, edges and corners. */
export function nearest(oc: Oc, a: Shape, b: Shape): Nearest {
  return inRoom(oc, 'measuring a distance', (room) => {
    const progress = room.keep(new oc.Message_ProgressRange());
    const search = room.keep(new oc.BRepExtrema_DistShapeShape());
    search.LoadS1(a);
    search.LoadS2(b);
    search.Perform(progress);
    if (!search.IsDone() || search.NbSolution() < 1) throw new Error('no distance was found');
    const p = room.keep(search.PointOnShape1(1));
    const q = room.keep(search.PointOnShape2(1));
    return { mm: search.Value(), p: [p.X(), p.Y(), p.Z()], q: [q.X(), q.Y(), q.Z()] };
  });
}

/** Distance of a point to a solid, mm: 0 inside it. */
export function pointOff(oc: Oc, at: Vec3, solid: Shape): number {
  return inRoom(oc, 'measuring a distance', (room) => {
    const p = room.keep(new oc.gp_Pnt(at[0], at[1], at[2]));
    const vertex = room.keep(room.keep(new oc.BRepBuilderAPI_MakeVertex(p)).Vertex());
    return nearest(oc, vertex, solid).mm;
  });
}

/** Volumes of the lumps, mm³, largest first. */
export function lumpsOf(oc: Oc, shape: Shape): readonly number[] {
  return inRoom(oc, 'measuring the lumps', (room) => {
    const out: number[] = [];
    const each = room.keep(new oc.TopExp_Explorer(shape, 'TopAbs_SOLID', 'TopAbs_SHAPE'));
    for (; each.More(); each.Next()) {
      const whole = room.keep(new oc.GProp_GProps());
      oc.BRepGProp.VolumeProperties(room.keep(each.Current()), whole, true, false, false);
      out.push(whole.Mass());
    }
    return out.sort((x, y) => y - x);
  });
}

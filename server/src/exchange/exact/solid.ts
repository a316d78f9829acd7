/** The finished part as an exact solid: the body less all that its features remove. */
import { bodyPrism } from '../../geometry/body';
import type { Prism } from '../../geometry/prism';
import type { BodyShape, Void } from '../../geometry/types';
import { ExactError, inRoom, type Oc, type Room, type Shape } from './kernel';
import { volumeOf } from './volume';

/** What the exact solid is made from: plain data, which may come from another thread. */
export interface Cuttings {
  readonly body: BodyShape;
  readonly voids: readonly Void[];
}

/** The caller deletes what is answered. Throws `ExactError`. */
export function exactSolid(oc: Oc, { body, voids }: Cuttings): Shape {
  return inRoom(oc, 'cutting the part', (room) => {
    const block = volumeOf(room, bodyPrism(body));
    const cutters = voids.map((v) => cutterOf(room, v));
    return cutters.length === 0 ? block : cut(room, block, cutters);
  });
}

function cutterOf(room: Room, v: Void): Shape {
  try {
    return volumeOf(room, v);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    const member = v.member > 0 ? `[${v.member}]` : '';
    throw new ExactError(`The ${v.role} of \`${v.feature}${member}\` could not be drawn exactly: ${error.message}.`);
  }
}

function cut(room: Room, block: Shape, cutters: readonly Shape[]): Shape {
  const { oc } = room;
  const maker = room.keep(new oc.BRepAlgoAPI_Cut());
  maker.SetArguments(listOf(room, [block]));
  maker.SetTools(listOf(room, cutters));
  maker.SetRunParallel(false);
  maker.Build(room.keep(new oc.Message_ProgressRange()));
  if (!maker.IsDone() || maker.HasErrors()) throw new ExactError('The volumes could not be cut from the body.');
  return room.keep(maker.Shape());
}

export function listOf(room: Room, shapes: readonly Shape[]) {
  const list = room.keep(new room.oc.NCollection_List_TopoDS_Shape());
  for (const shape of shapes) room.keep(list.Append(shape));
  return list;
}

/** One removed volume, or the body, alone. The caller deletes it. */
export function exactVolume(oc: Oc, prism: Prism): Shape {
  return inRoom(oc, 'drawing a volume', (room) => volumeOf(room, prism));
}

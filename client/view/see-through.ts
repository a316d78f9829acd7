/** What is drawn as a ghost: the bar that the part is cut from, and what stands round the work in a set-up, to size. */
import {
  BoxGeometry,
  type BufferGeometry,
  CylinderGeometry,
  EdgesGeometry,
  ExtrudeGeometry,
  GreaterDepth,
  Group,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  Quaternion,
  Shape,
  Vector2,
  Vector3,
} from 'three';
import type { PictureCutter, PictureSetup, PictureThing, PictureWords } from '../../server/src/service/view/protocol';
import type { Bounds, Point } from './orbit';
import type { Colours } from './theme';

export class SeeThrough {
  readonly group = new Group();
  readonly #faces: MeshBasicMaterial;
  readonly #edges = new LineBasicMaterial({ transparent: true });

  /** `hidden`: only what material hides. */
  constructor(opacity: number, hidden = false) {
    this.#faces = new MeshBasicMaterial({ transparent: true, opacity, depthWrite: false });
    if (hidden) {
      this.#faces.depthFunc = GreaterDepth;
      this.#edges.depthFunc = GreaterDepth;
    }
    this.#edges.opacity = Math.min(1, 4 * opacity);
  }

  show(shapes: readonly BufferGeometry[]): void {
    this.group.traverse((o) => (o as Partial<Mesh>).geometry?.dispose());
    this.group.clear();
    for (const shape of shapes) {
      const faces = new Mesh(shape, this.#faces);
      const edges = new LineSegments(new EdgesGeometry(shape, 30), this.#edges);
      faces.renderOrder = 5;
      edges.renderOrder = 6;
      this.group.add(faces, edges);
    }
  }

  paint(colour: Colours['ghost']): void {
    this.#faces.color.copy(colour);
    this.#edges.color.copy(colour);
  }
}

export function stockShape(stock: PictureWords['stock']): BufferGeometry {
  const { min, max, radiusMm, axis } = stock;
  if (stock.outline) return thingShape(stock);
  if (radiusMm === undefined || axis === undefined) return boxShape({ min, max });
  const shape = new CylinderGeometry(radiusMm, radiusMm, max[axis] - min[axis], 64);
  if (axis === 0) shape.rotateZ(Math.PI / 2);
  if (axis === 2) shape.rotateX(Math.PI / 2);
  return shape.translate((min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2);
}

export function aroundShapes(setup: PictureSetup | undefined): readonly BufferGeometry[] {
  return (setup?.around ?? []).map(thingShape);
}

/** Tools as they stand: what cuts and its shank, or the holders above them. */
export function cutterShapes(cutters: readonly PictureCutter[], what: 'tool' | 'holder'): readonly BufferGeometry[] {
  return cutters.flatMap(({ tip, towards, parts }) => {
    const turn = new Quaternion().setFromUnitVectors(new Vector3(0, 1, 0), new Vector3(...towards));
    return parts
      .filter((p) => (p.what === 'holder') === (what === 'holder'))
      .map(({ radiusMm, tipRadiusMm = radiusMm, fromMm, toMm }) =>
        new CylinderGeometry(radiusMm, tipRadiusMm, toMm - fromMm, 48)
          .translate(0, (fromMm + toMm) / 2, 0)
          .applyQuaternion(turn)
          .translate(...tip),
      );
  });
}

/** The box round a tool that stands. */
export function cutterBounds({ tip, towards, parts }: PictureCutter): Bounds {
  const wide = Math.max(...parts.map((p) => p.radiusMm));
  const high = Math.max(...parts.map((p) => p.toMm));
  const ends = [tip, tip.map((c, i) => c + towards[i]! * high)];
  const side = towards.map((t) => wide * Math.sqrt(Math.max(0, 1 - t * t)));
  const each = (pick: (...n: number[]) => number, sign: number) =>
    [0, 1, 2].map((i) => pick(...ends.map((e) => e[i]!)) + sign * side[i]!) as unknown as Point;
  return { min: each(Math.min, -1), max: each(Math.max, 1) };
}

/** A box; or what has an outline, drawn out along its axis. */
function thingShape(thing: Omit<PictureThing, 'what'>): BufferGeometry {
  const { along, outline, holes = [], min, max } = thing;
  if (along === undefined || !outline) return boxShape(thing);
  const lines = (points: NonNullable<PictureThing['outline']>) => new Shape(points.map(([a, b]) => new Vector2(a, b)));
  const shape = lines(outline);
  shape.holes.push(...holes.map(lines));
  const made = new ExtrudeGeometry(shape, { depth: max[along] - min[along], bevelEnabled: false });
  const [a, b] = [0, 1, 2].filter((i) => i !== along) as [number, number];
  const unit = (i: number, by = 1) => new Vector3().setComponent(i, by);
  // Right-handed: along y the outline's own way out is the other one.
  const way = along === 1 ? -1 : 1;
  const turn = new Matrix4().makeBasis(unit(a), unit(b), unit(along, way));
  turn.setPosition(unit(along, way > 0 ? min[along] : max[along]));
  return made.applyMatrix4(turn);
}

function boxShape({ min, max }: Bounds): BufferGeometry {
  const shape = new BoxGeometry(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  return shape.translate((min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2);
}

/** Parts of any mix of features on any faces, often over an edge and through each other. */
import fc from 'fast-check';
import type { Vec3 } from '../../../server/src/geometry/types';
import { FACE_PLANE, FACES, type Face, type Feature, type Part } from '../../../server/src/model/model';
import {
  at,
  box,
  chamfer,
  circle,
  contour,
  corner,
  deep,
  engraving,
  groove,
  hole,
  incline,
  part,
  pocket,
  rectangle,
  rod,
  round,
  slot,
  step,
  THROUGH,
} from '../parts';

const BLOCK: Vec3 = [40, 30, 20];
const BAR: Vec3 = [40, 24, 24];

const anyFeature = (size: Vec3, straight: boolean): fc.Arbitrary<Feature> =>
  fc
    .record({
      kind: fc.integer({ min: 0, max: 14 }),
      face: fc.constantFrom<Face>(...FACES),
      u: fc.integer({ min: 0, max: 40 }),
      v: fc.integer({ min: 0, max: 40 }),
      size: fc.integer({ min: 2, max: 12 }),
      other: fc.integer({ min: 2, max: 12 }),
      depth: fc.integer({ min: 1, max: 12 }),
      through: fc.boolean(),
      side: fc.integer({ min: 0, max: 3 }),
      lean: fc.integer({ min: -25, max: 25 }),
    })
    .map((o): Feature => {
      const { face } = o;
      const [a, b] = FACE_PLANE[face].map((x) => size['xyz'.indexOf(x)]!) as [number, number];
      const [u, v] = [(o.u / 40) * a, (o.v / 40) * b];
      const places = [at(u, v)];
      const depth = o.through ? THROUGH : deep(o.depth);
      const shallow = deep(Math.min(6, o.depth));
      const sides = FACES.filter((f) => !FACE_PLANE[face].every((x) => FACE_PLANE[f].includes(x)));
      const along = sides[o.side]!;
      const name = `f-${o.kind}-${face}-${o.u}-${o.v}-${o.size}-${o.other}-${o.depth}-${o.side}`;
      const floorRadius = o.side;
      switch (o.kind) {
        case 0:
          return hole({ name, face, places, diameter: o.size, depth, bottom: 'cone' });
        case 1:
          return hole({
            name,
            face,
            places,
            diameter: o.size / 2,
            depth,
            counterbore: [o.size, o.depth / 3],
            countersink: [o.size + 2, 90],
          });
        case 2:
          return pocket({
            name,
            face,
            places,
            shape: rectangle(o.size + 2, o.other + 2, o.side / 2, o.side * 15),
            depth,
          });
        case 3:
          return pocket({
            name,
            face,
            places,
            shape: circle(o.size + 4),
            depth: deep(o.depth + 1),
            islands: [{ shape: rectangle(3, 3), at: at(1, 0), height: o.other / 3 }],
          });
        case 4:
          return slot({
            name,
            face,
            line: [corner(u - 5, v), corner(u, v + 9), corner(a / 2, b / 3)],
            width: o.size / 3,
            depth,
          });
        case 5:
          return step({
            name,
            face,
            along: [along],
            widths: [o.size],
            depth: deep(Math.min(8, o.depth)),
            floorRadius: o.through ? 1 : 0,
          });
        case 6:
          return chamfer({ name, edges: [face], size: o.size / 6, angle: o.through ? 45 : 30 });
        case 7:
          return round({ name, edges: [[face, along]], radius: o.size / 4 });
        case 8:
          return incline({ name, face, along, width: o.size, depth: o.other });
        case 9:
          return groove({ name, face, places, diameter: o.size, width: 2, depth: shallow });
        case 10:
          return pocket({
            name,
            face,
            places,
            shape: rectangle(o.size + 3, o.other + 3, o.side / 2),
            depth: deep(o.depth),
            floorRadius,
          });
        case 11:
          return slot({
            name,
            face,
            line: [corner(u - o.size, v), corner(u + o.size, v + o.side)],
            width: 4,
            depth: deep(6),
            ...(o.through ? { dovetail: 60 } : { tee: [8, 3] as [number, number] }),
          });
        case 12:
          return engraving({ name, face, places, text: 'AR', height: o.size, depth: deep(0.5), stroke: 0.6 });
        case 13:
          return straight
            ? contour({
                name,
                face,
                places: [at(a / 2, b / 2)],
                shapes: [rectangle(a - 4, b - 4, 3)],
                depth: deep(o.depth),
                floorRadius: floorRadius / 2,
              })
            : hole({ name, face, places, diameter: o.size, depth });
        default:
          return hole({
            name,
            face,
            places,
            diameter: o.size / 2 + 1,
            depth,
            countersink: [o.size / 2 + 3, 90],
            tilt: { about: FACE_PLANE[face][0], angle: o.lean },
          });
      }
    });

const unique = (features: readonly Feature[]) => [...new Map(features.map((f) => [f.name, f])).values()];

export const anyPart: fc.Arbitrary<Part> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .array(anyFeature(BLOCK, true), { minLength: 1, maxLength: 6 })
      .map((f) => part(box(...BLOCK), ...unique(f))),
  },
  {
    weight: 1,
    arbitrary: fc
      .array(anyFeature(BAR, false), { minLength: 1, maxLength: 5 })
      .map((f) => part(rod(24, 40, 'x'), ...unique(f))),
  },
);

/** One part or more for every feature kind and profile, for the meshes to be proved on. */
import type { Face, Feature, Part } from '../../../server/src/model/model';
import {
  at,
  box,
  chamfer,
  circle,
  contour,
  corner,
  deep,
  deg,
  engraving,
  groove,
  hole,
  incline,
  part,
  path,
  pocket,
  rectangle,
  rod,
  round,
  slot,
  step,
  THROUGH,
} from '../parts';

const on = (...features: Feature[]): Part => part(box(60, 40, 20), ...features);
const middle = [at(30, 20)];
const run = [corner(14, 20), corner(46, 20)];
const bend = [corner(14, 12), corner(30, 28, { round: 6 }), corner(46, 12)];
const arms = path(
  corner(-14, -9, { round: 3 }),
  corner(14, -9, { bevel: 3 }),
  corner(14, 2, { round: 2 }),
  corner(2, 2, { round: 2 }),
  corner(2, 10),
  corner(-14, 10, { round: 4 }),
);
const lean = { about: 'y' as const, angle: 20 };
const SIDES: readonly Face[] = ['left', 'right', 'front', 'back', 'bottom', 'top'];

export const KINDS: Readonly<Record<string, Part>> = {
  'nothing cut': on(),
  'blind hole with a point': on(hole({ places: middle, diameter: 8.5, depth: deep(10), bottom: 'cone' })),
  'through hole, counterbored and sunk': on(
    hole({ places: middle, diameter: 5.5, depth: THROUGH, counterbore: [10, 5.7], countersink: [12, 90] }),
    hole({ places: [at(12, 12)], diameter: 5.5, depth: deep(12), countersink: [11.2, 90], bottom: 'cone' }),
    hole({ places: [at(48, 12)], diameter: 4.2, depth: deep(12), counterbore: [8, 4], countersink: [6, 90] }),
  ),
  'holes of every face, crossing': on(
    ...SIDES.map((face, i) =>
      hole({
        face,
        places: [
          face === 'top' || face === 'bottom'
            ? at(30, 20)
            : face === 'left' || face === 'right'
              ? at(20, 10)
              : at(30, 10),
        ],
        diameter: 5 + i,
        depth: deep(16),
        bottom: 'cone',
      }),
    ),
  ),
  'leaning hole, sunk': on(
    hole({ places: middle, diameter: 5.5, depth: THROUGH, countersink: [11, 90], tilt: lean }),
    hole({ places: [at(12, 20)], diameter: 6, depth: deep(9), bottom: 'cone', tilt: { about: 'x', angle: -15 } }),
  ),
  'leaning pocket': on(pocket({ places: middle, shape: rectangle(14, 10, 2), depth: deep(6), tilt: lean })),
  pocket: on(pocket({ places: middle, shape: rectangle(30, 20, 4), depth: deep(8) })),
  'pocket of free outline, turned': on(pocket({ places: middle, shape: arms, depth: deep(8), floorRadius: 1 })),
  'pocket through': on(pocket({ places: middle, shape: rectangle(30, 20, 4, 30), depth: THROUGH })),
  'pocket with floor fillet': on(
    pocket({ places: middle, shape: rectangle(30, 20, 4), depth: deep(8), floorRadius: 2 }),
  ),
  'pocket with sharp corners and floor fillet': on(
    pocket({ places: middle, shape: rectangle(30, 20), depth: deep(8), floorRadius: 2 }),
  ),
  'pocket that is all fillet': on(
    pocket({ places: middle, shape: rectangle(30, 20, 6), depth: deep(5), floorRadius: 5 }),
  ),
  'pocket narrower than its fillets': on(
    pocket({ places: middle, shape: rectangle(30, 6, 2), depth: deep(8), floorRadius: 3.5 }),
  ),
  'round pocket, ball bottom': on(pocket({ places: middle, shape: circle(16), depth: deep(10), floorRadius: 8 })),
  'pocket with islands': on(
    pocket({
      places: middle,
      shape: rectangle(40, 26, 4),
      depth: deep(10),
      floorRadius: 1,
      islands: [
        { shape: circle(8), at: at(-10, 0), height: 6 },
        { shape: rectangle(6, 8, 1), at: at(8, 3), height: 10 },
      ],
    }),
  ),
  'pocket with reliefs': on(pocket({ places: middle, shape: rectangle(30, 20), depth: deep(8), relief: 4 })),
  'pocket open at a side': on(pocket({ places: [at(50, 20)], shape: rectangle(20, 20), depth: deep(8) })),
  slot: on(slot({ line: run, width: 6, depth: deep(5) })),
  'slot with a bend, out of the side': on(slot({ line: [...bend, corner(70, 12)], width: 6, depth: deep(5) })),
  'ball slot': on(slot({ line: bend, width: 6, depth: deep(7), floorRadius: 3 })),
  'slot with floor fillet': on(slot({ line: bend, width: 6, depth: deep(7), floorRadius: 1.5 })),
  'tee slot': on(slot({ line: [corner(-5, 20), corner(65, 20)], width: 6, depth: deep(10), tee: [11, 4] })),
  'dovetail slot': on(slot({ line: [corner(-12, 20), corner(72, 20)], width: 12, depth: deep(6), dovetail: 60 })),
  'pocket with draft round an island': on({
    ...pocket({
      places: middle,
      shape: rectangle(40, 24, 5),
      depth: deep(10),
      islands: [{ shape: circle(6), at: at(0, 0), height: 10 }],
    }),
    draft: deg(4),
  }),
  'pocket with draft of an outline': on({ ...pocket({ places: middle, shape: arms, depth: deep(6) }), draft: deg(5) }),
  'countersunk slot': on(slot({ line: run, width: 6, depth: THROUGH, countersink: [12, 90] })),
  'countersunk slot with a bend, out of the side': on(
    slot({ line: [...bend, corner(70, 12)], width: 6, depth: deep(8), countersink: [11, 82], floorRadius: 1 }),
  ),
  'counterbored slot with a bend': on(slot({ line: bend, width: 5, depth: THROUGH, counterbore: [9, 5] })),
  'dovetail slot with a bend': on(slot({ line: bend, width: 8, depth: deep(5), dovetail: 60 })),
  steps: on(
    step({ along: ['left'], widths: [8], depth: deep(5) }),
    step({ along: ['right', 'back'], widths: [12, 9], depth: deep(7) }),
    step({ face: 'front', along: ['bottom'], widths: [4], depth: deep(6), floorRadius: 1 }),
  ),
  contour: on(contour({ places: middle, shapes: [rectangle(50, 32, 6)], depth: THROUGH })),
  'contour with floor fillet': on(
    contour({ places: middle, shapes: [rectangle(30, 20, 3), circle(8)], depth: deep(6), floorRadius: 2 }),
  ),
  'chamfered faces': on(
    chamfer({ edges: ['top', 'front'], size: 1 }),
    chamfer({ face: 'bottom', edges: [['bottom', 'back']], size: 2, angle: 30 }),
  ),
  'chamfered contour': on(
    contour({ places: middle, shapes: [arms], depth: deep(8) }),
    chamfer({ edges: ['top'], size: 0.5 }),
  ),
  'a boss on a boss, chamfered': on(
    contour({ places: middle, shapes: [rectangle(50, 32, 6)], depth: deep(9) }),
    contour({ places: middle, shapes: [rectangle(30, 20, 4)], depth: deep(4) }),
    chamfer({ edges: ['top'], size: 0.5 }),
  ),
  'rims broken': on(
    hole({ name: 'bore', places: [at(14, 20)], diameter: 8, depth: deep(10), bottom: 'cone' }),
    pocket({ name: 'cell', places: [at(40, 20)], shape: rectangle(20, 16, 3), depth: deep(6) }),
    chamfer({ edges: [{ rim: 'bore' }], size: 0.8 }),
    round({ edges: [{ rim: 'cell' }], radius: 1.5 }),
  ),
  'far rims broken': on(
    hole({ name: 'bore', places: [at(14, 20)], diameter: 8, depth: THROUGH, bottom: 'cone' }),
    pocket({ name: 'cell', places: [at(40, 18)], shape: rectangle(20, 16, 3), depth: THROUGH }),
    chamfer({ face: 'bottom', edges: [{ rim: 'bore', far: true }], size: 0.8 }),
    round({ face: 'bottom', edges: [{ rim: 'cell', far: true }], radius: 1.5 }),
  ),
  'rounded edges': on(round({ edges: ['top'], radius: 3 }), round({ edges: [['left', 'front']], radius: 2 })),
  'rounded contour': on(
    contour({ places: middle, shapes: [rectangle(40, 28, 6)], depth: deep(8) }),
    round({ edges: ['top'], radius: 2 }),
  ),
  'groove on a face': on(groove({ places: middle, diameter: 20, width: 3, depth: deep(2) })),
  'groove in a hole': on(
    hole({ name: 'bore', places: middle, diameter: 12, depth: THROUGH }),
    groove({ in: 'bore', diameter: 15, width: 1.3, below: 8 }),
  ),
  engraving: on(
    engraving({ places: middle, text: 'AB8', height: 8, depth: deep(0.5), stroke: 0.8 }),
    engraving({ face: 'front', places: [at(30, 10)], text: 'Ø9', height: 6, depth: deep(0.3), stroke: 0.6 }),
  ),
  inclines: on(
    incline({ along: 'left', width: 12, depth: 6 }),
    incline({ face: 'front', along: 'top', width: 3, depth: 40 }),
  ),
  'all of it on a bar': part(
    rod(30, 50, 'x'),
    hole({ face: 'left', places: [at(15, 15)], diameter: 8, depth: THROUGH, counterbore: [14, 6] }),
    step({ face: 'top', along: ['right'], widths: [18], depth: deep(6) }),
    pocket({ face: 'top', places: [at(12, 15)], shape: rectangle(10, 8, 2), depth: deep(6), floorRadius: 0.5 }),
    chamfer({ face: 'left', edges: ['left'], size: 1 }),
    round({ face: 'right', edges: ['right'], radius: 2 }),
  ),
  'a bar with a dome': part(rod(20, 30, 'z'), round({ edges: ['top'], radius: 10 })),
};

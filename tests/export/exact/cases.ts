/**
 * One part for every kind of feature, with the volume it removes in closed form and the surfaces it must leave. The formulas are
 * standard results (from memory; Archimedes, Pappus–Guldin, Steiner's formula for parallel outlines); none is taken from the
 * project's own measures.
 */
import type { Feature, Part } from '../../../server/src/model/model';
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
  path,
  pocket,
  rectangle,
  rod,
  round,
  slot,
  step,
  THROUGH,
} from '../../geometry/parts';

const { PI, SQRT2, cos, hypot, tan } = Math;
const RAD = PI / 180;

/** 60 × 40 × 16 */
const BLOCK = 38400;

interface Case {
  readonly name: string;
  readonly part: Part;
  readonly volume: number;
  /** Curved faces; planes are counted only where they are named. */
  readonly faces: { readonly [kind in 'plane' | 'cylinder' | 'cone' | 'sphere' | 'torus' | 'turned']?: number };
}

/** ∫ of the inset and of its square over a fillet's height: what a quarter circle leaves in a corner. */
const first = (r: number) => r * r * (1 - PI / 4);
const second = (r: number) => r ** 3 * (5 / 3 - PI / 2);
/** Left standing by a floor radius inside an outline: perimeter, and what its corners turn by (4 where square, π where round). */
const floorRing = (perimeter: number, turn: number, r: number) => perimeter * first(r) - turn * second(r);
/** The same round the outside of something that stands. */
const footRing = (perimeter: number, r: number) => perimeter * first(r) + PI * second(r);
const roundedArea = (a: number, b: number, r: number) => a * b - (4 - PI) * r * r;
const roundedPerimeter = (a: number, b: number, r: number) => 2 * (a + b) - (8 - 2 * PI) * r;
const frustum = (R: number, r: number, h: number) => (PI * h * (R * R + R * r + r * r)) / 3;

const cut = (name: string, removed: number, faces: Case['faces'], ...features: Feature[]): Case => ({
  name,
  part: part(box(60, 40, 16), ...features),
  volume: BLOCK - removed,
  faces,
});
const turned = (name: string, volume: number, faces: Case['faces'], ...features: Feature[]): Case => ({
  name,
  part: part(rod(30, 50, 'z'), ...features),
  volume,
  faces,
});
const middle = { places: [at(30, 20)] };
const recess = (cornerRadius: number, floorRadius = 0, name = 'recess') =>
  pocket({ ...middle, name, shape: rectangle(20, 14, cornerRadius), depth: deep(6), floorRadius });
const bore = (name = 'bore') => hole({ ...middle, name, diameter: 8, depth: THROUGH });

/** A five-sided outline: one corner rounded by 4, one bevelled by 5, the others square; 45 × 25. */
const plate = path(corner(5, 5, { round: 4 }), corner(50, 5), corner(50, 30, { bevel: 5 }), corner(5, 30));
const PLATE = { area: 45 * 25 - (1 - PI / 4) * 16 - 12.5, perimeter: 140 - 8 + 2 * PI - 10 + 5 * SQRT2 };

const across = [corner(-10, 20), corner(70, 20)];
const along = [corner(10, 20), corner(50, 20)];

export const CASES: readonly Case[] = [
  cut('a block', 0, { plane: 6 }),
  turned('a round bar', PI * 225 * 50, { plane: 2, cylinder: 1 }),
  cut(
    'a drilled hole with its point',
    PI * 16 * 8 + (PI * 16 * (4 / tan(59 * RAD))) / 3,
    { plane: 6, cylinder: 1, cone: 1 },
    hole({ ...middle, diameter: 8, depth: deep(8), bottom: 'cone' }),
  ),
  cut('a flat hole', PI * 16 * 8, { plane: 7, cylinder: 1 }, hole({ ...middle, diameter: 8, depth: deep(8) })),
  cut(
    'a countersunk hole',
    PI * 16 * 14 + frustum(6, 4, 2),
    { plane: 6, cylinder: 1, cone: 1 },
    hole({ ...middle, diameter: 8, depth: THROUGH, countersink: [12, 90] }),
  ),
  cut(
    'a counterbored hole',
    PI * 25 * 5 + PI * 6.25 * 11,
    { plane: 7, cylinder: 2 },
    hole({ ...middle, diameter: 5, depth: THROUGH, counterbore: [10, 5] }),
  ),
  cut(
    'a leaning hole',
    (PI * 16 * 16) / cos(20 * RAD),
    { plane: 6, cylinder: 1 },
    hole({ ...middle, diameter: 8, depth: THROUGH, tilt: { about: 'x', angle: 20 } }),
  ),
  cut(
    'a pattern of four holes',
    4 * PI * 4 * 16,
    { plane: 6, cylinder: 4 },
    hole({ places: [at(10, 10), at(50, 10), at(50, 30), at(10, 30)], diameter: 4, depth: THROUGH }),
  ),
  cut('a pocket with corner radii', roundedArea(20, 14, 3) * 6, { plane: 11, cylinder: 4 }, recess(3)),
  cut('a square pocket', 280 * 6, { plane: 11, cylinder: 0 }, recess(0)),
  cut(
    'a floor radius below the corner radius',
    roundedArea(20, 14, 3) * 6 - floorRing(roundedPerimeter(20, 14, 3), PI, 1),
    { plane: 11, cylinder: 8, torus: 4 },
    recess(3, 1),
  ),
  cut(
    'a floor radius of half the corner radius',
    roundedArea(20, 14, 3) * 6 - floorRing(roundedPerimeter(20, 14, 3), PI, 1.5),
    { plane: 11, cylinder: 8, torus: 4 },
    recess(3, 1.5),
  ),
  cut(
    'a floor radius of nearly the corner radius',
    roundedArea(20, 14, 3) * 6 - floorRing(roundedPerimeter(20, 14, 3), PI, 2.5),
    { plane: 11, cylinder: 8, turned: 4 },
    recess(3, 2.5),
  ),
  cut(
    'a floor radius equal to the corner radius',
    roundedArea(20, 14, 3) * 6 - floorRing(roundedPerimeter(20, 14, 3), PI, 3),
    { plane: 11, cylinder: 8, sphere: 4, torus: 0 },
    recess(3, 3),
  ),
  cut(
    'a floor radius in square corners',
    280 * 6 - floorRing(68, 4, 1),
    { plane: 11, cylinder: 4, torus: 0 },
    recess(0, 1),
  ),
  cut(
    'a round pocket with a floor radius',
    PI * 81 * 6 - floorRing(18 * PI, PI, 2),
    { plane: 7, cylinder: 1, torus: 1 },
    pocket({ ...middle, shape: circle(18), depth: deep(6), floorRadius: 2 }),
  ),
  cut(
    'a bowl',
    (2 * PI * 343) / 3,
    { plane: 6, cylinder: 0, sphere: 1 },
    pocket({ ...middle, shape: circle(14), depth: deep(7), floorRadius: 7 }),
  ),
  cut(
    'a round pocket with a floor radius past half its own',
    PI * 25 * 6 - floorRing(10 * PI, PI, 4),
    { plane: 7, cylinder: 1, turned: 1 },
    pocket({ ...middle, shape: circle(10), depth: deep(6), floorRadius: 4 }),
  ),
  cut(
    'a floor radius that outlives its bevelled corners',
    bevelledPocket(),
    {},
    pocket({
      ...middle,
      shape: path(
        corner(-5, -5, { bevel: 1 }),
        corner(5, -5, { bevel: 1 }),
        corner(5, 5, { bevel: 1 }),
        corner(-5, 5, { bevel: 1 }),
      ),
      depth: deep(6),
      floorRadius: 2,
    }),
  ),
  cut(
    'a pocket round an island',
    roundedArea(30, 24, 3) * 6 - PI * 16 * 4 - floorRing(roundedPerimeter(30, 24, 3), PI, 1) - footRing(8 * PI, 1),
    { plane: 12, cylinder: 9, torus: 5 },
    pocket({
      ...middle,
      shape: rectangle(30, 24, 3),
      depth: deep(6),
      floorRadius: 1,
      islands: [{ shape: circle(8), at: at(0, 0), height: 4 }],
    }),
  ),
  cut(
    'a pocket round a square island',
    roundedArea(30, 24, 3) * 6 - 48 * 6 - floorRing(roundedPerimeter(30, 24, 3), PI, 1) - footRing(28, 1),
    { plane: 16, cylinder: 12, torus: 8 },
    pocket({
      ...middle,
      shape: rectangle(30, 24, 3),
      depth: deep(6),
      floorRadius: 1,
      islands: [{ shape: rectangle(8, 6), at: at(0, 0), height: 6 }],
    }),
  ),
  cut(
    'a pocket by a path with a round side',
    // a rectangle and a circle's segment on a chord of 16, 2 high: r = 17
    (16 * 8 + (289 * (2 * Math.asin(8 / 17) - Math.sin(2 * Math.asin(8 / 17)))) / 2) * 6,
    { plane: 10, cylinder: 1 },
    pocket({
      places: [at(20, 18)],
      shape: path(corner(-8, -4, { arc: [0, -6] }), corner(8, -4), corner(8, 4), corner(-8, 4)),
      depth: deep(6),
    }),
  ),
  cut(
    'reliefs in square corners',
    280 * 6 + 4 * 2.25 * (PI / 2 - 1) * 6,
    { plane: 11, cylinder: 4 },
    pocket({ ...middle, shape: rectangle(20, 14), depth: deep(6), relief: 3 }),
  ),
  cut('a slot', (40 * 6 + PI * 9) * 5, { plane: 9, cylinder: 2 }, slot({ line: along, width: 6, depth: deep(5) })),
  cut(
    'a ball-nosed slot',
    40 * (6 * 2 + (PI * 9) / 2) + PI * 9 * 2 + (2 * PI * 27) / 3,
    { plane: 8, cylinder: 3, sphere: 2 },
    slot({ line: along, width: 6, depth: deep(5), floorRadius: 3 }),
  ),
  cut(
    'an open slot with a floor radius',
    60 * (6 * 5 - 2 * first(1)),
    { plane: 10, cylinder: 2 },
    slot({ line: across, width: 6, depth: deep(5), floorRadius: 1 }),
  ),
  cut(
    'a T-slot',
    60 * (6 * 6 + 12 * 4),
    { plane: 14 },
    slot({ line: across, width: 6, depth: deep(10), tee: [12, 4] }),
  ),
  cut(
    'a dovetail',
    60 * 5 * (10 + 5 / tan(60 * RAD)),
    { plane: 10 },
    slot({ line: across, width: 10, depth: deep(5), dovetail: 60 }),
  ),
  cut(
    'a dovetail with round ends',
    // Steiner: area of the stadium moved out by i is A + P i + π i²
    (40 * 10 + PI * 25) * 5 + ((80 + 10 * PI) * 25) / 2 / tan(60 * RAD) + (PI * 125) / 3 / tan(60 * RAD) ** 2,
    { plane: 9, cone: 2 },
    slot({ line: along, width: 10, depth: deep(5), dovetail: 60 }),
  ),
  cut('a step', 8 * 5 * 60, { plane: 8 }, step({ along: ['front'], widths: [8], depth: deep(5) })),
  cut(
    'a step with a floor radius',
    60 * (40 - first(2)),
    { plane: 8, cylinder: 1 },
    step({ along: ['front'], widths: [8], depth: deep(5), floorRadius: 2 }),
  ),
  cut(
    'a corner step with a floor radius',
    9 * 8 * 5 - (17 * first(2) - second(2)),
    { plane: 9, cylinder: 2 },
    step({ along: ['front', 'left'], widths: [8, 9], depth: deep(5), floorRadius: 2 }),
  ),
  cut(
    'a boss by a contour',
    (2400 - PLATE.area) * 8,
    { plane: 12, cylinder: 1 },
    contour({ shapes: [plate], depth: deep(8) }),
  ),
  cut(
    'a boss with a radius at its foot',
    (2400 - PLATE.area) * 8 - footRing(PLATE.perimeter, 2),
    { plane: 12, cylinder: 6, torus: 5 },
    contour({ shapes: [plate], depth: deep(8), floorRadius: 2 }),
  ),
  cut('a chamfer round the top', 100 - 4 / 3, { plane: 10 }, chamfer({ edges: ['top'], size: 1 })),
  cut(
    'a round about the top',
    200 * first(2) - 4 * second(2),
    { plane: 6, cylinder: 4 },
    round({ edges: ['top'], radius: 2 }),
  ),
  cut(
    'a chamfer on one edge, 30°',
    (1 * tan(30 * RAD) * 40) / 2,
    { plane: 7 },
    chamfer({ edges: [['top', 'left']], size: 1, angle: 30 }),
  ),
  cut(
    'a chamfered bore',
    PI * 16 * 16 + frustum(5, 4, 1) - PI * 16,
    { plane: 6, cylinder: 1, cone: 1 },
    bore(),
    chamfer({ edges: [{ rim: 'bore' }], size: 1 }),
  ),
  cut(
    'a bore chamfered where it comes out, and rounded where it begins',
    PI * 16 * 16 + frustum(5, 4, 1) - PI * 16 + footRing(8 * PI, 1),
    { plane: 6, cylinder: 1, cone: 1, torus: 1 },
    bore(),
    chamfer({ face: 'bottom', edges: [{ rim: 'bore', far: true }], size: 1 }),
    round({ edges: [{ rim: 'bore' }], radius: 1 }),
  ),
  cut(
    'a rounded bore',
    PI * 16 * 16 + footRing(8 * PI, 1),
    { plane: 6, cylinder: 1, torus: 1 },
    bore(),
    round({ edges: [{ rim: 'bore' }], radius: 1 }),
  ),
  cut(
    'a chamfered pocket',
    roundedArea(20, 14, 3) * 6 + roundedPerimeter(20, 14, 3) / 2 + PI / 3,
    { plane: 15, cylinder: 4, cone: 4 },
    recess(3),
    chamfer({ edges: [{ rim: 'recess' }], size: 1 }),
  ),
  cut(
    'a rounded pocket',
    roundedArea(20, 14, 3) * 6 + footRing(roundedPerimeter(20, 14, 3), 1),
    { plane: 11, cylinder: 8, torus: 4 },
    recess(3),
    round({ edges: [{ rim: 'recess' }], radius: 1 }),
  ),
  cut(
    'a square pocket chamfered by a turning cutter',
    280 * 6 + 68 / 2 + PI / 3,
    { plane: 15, cone: 4 },
    recess(0),
    chamfer({ edges: [{ rim: 'recess' }], size: 1 }),
  ),
  cut(
    'an outline cut through and chamfered',
    38400 - PLATE.area * 16 + PLATE.perimeter / 2 - chamferTurn(1),
    { plane: 12, cylinder: 1, cone: 1 },
    contour({ shapes: [plate], depth: THROUGH }),
    chamfer({ edges: ['top'], size: 1 }),
  ),
  turned(
    'a chamfered bar end',
    PI * 225 * 48 + frustum(15, 13, 2),
    { plane: 2, cylinder: 1, cone: 1 },
    chamfer({ edges: ['top'], size: 2 }),
  ),
  turned(
    'a rounded bar end',
    PI * 225 * 50 - (30 * PI * first(2) - PI * second(2)),
    { plane: 2, cylinder: 1, torus: 1 },
    round({ edges: ['top'], radius: 2 }),
  ),
  turned(
    'a domed bar end',
    PI * 225 * 35 + (2 * PI * 15 ** 3) / 3,
    { plane: 1, cylinder: 1, sphere: 1 },
    round({ edges: ['top'], radius: 15 }),
  ),
  cut(
    'a ring groove',
    PI * (64 - 25) * 2,
    { plane: 8, cylinder: 2 },
    groove({ ...middle, diameter: 10, width: 3, depth: deep(2) }),
  ),
  cut(
    'a groove in a bore',
    PI * 16 * 16 + PI * (25 - 16) * 2,
    { plane: 8, cylinder: 3 },
    bore(),
    groove({ in: 'bore', diameter: 10, width: 2, below: 4 }),
  ),
  cut('an incline', (20 * 6 * 40) / 2, { plane: 7 }, incline({ along: 'left', width: 20, depth: 6 })),
  cut(
    'an engraved stroke',
    (0.6 * 4.4 + PI * 0.09) * 0.3,
    { plane: 9, cylinder: 2 },
    engraving({ text: 'I', height: 5, stroke: 0.6, depth: deep(0.3), ...middle }),
  ),
  ...combined(),
];

/** What a bevelled and rounded outline's corners take from Steiner's formula when it is drawn in, to the third order. */
function chamferTurn(size: number): number {
  // A(i) = A − P i + c i², c = Σ tan(φ/2) over sharp corners + φ/2 of the round one: three of 90° as two square and two of 45°
  const c = 2 * 1 + 2 * tan(22.5 * RAD) + PI / 4;
  return (c * size ** 3) / 3;
}

/** A 10 × 10 pocket, corners bevelled by 1, floor radius 2: drawn in by 1.707 the bevels are gone, and a square is left. */
function bevelledPocket(): number {
  const slope = 8 * tan(22.5 * RAD);
  const gone = SQRT2 / 2 / tan(22.5 * RAD);
  const area = (i: number) => (i < gone ? 98 - (32 + 4 * SQRT2) * i + slope * i * i : (10 - 2 * i) ** 2);
  // over the fillet's angle (height 2 sin), in two pieces, by Simpson's rule
  const bend = (angle: number) => area(2 * (1 - cos(angle))) * 2 * cos(angle);
  const at = Math.acos(1 - gone / 2);
  return 98 * 4 + simpson(bend, 0, at) + simpson(bend, at, PI / 2);
}

function simpson(f: (x: number) => number, a: number, b: number): number {
  const n = 2000;
  const h = (b - a) / n;
  let sum = f(a) + f(b);
  for (let k = 1; k < n; k++) sum += (k % 2 ? 4 : 2) * f(a + k * h);
  return (sum * h) / 3;
}

/** Features that meet. */
function combined(): readonly Case[] {
  const crossed = part(
    box(60, 60, 60),
    hole({ face: 'left', places: [at(30, 30)], diameter: 20, depth: THROUGH }),
    hole({ face: 'front', places: [at(30, 30)], diameter: 20, depth: THROUGH }),
  );
  return [
    {
      name: 'two equal bores that cross (Archimedes, The Method: 16 r³ / 3 in common)',
      part: crossed,
      volume: 216000 - (2 * PI * 100 * 60 - 16000 / 3),
      // each bore is left at both ends of the crossing
      faces: { plane: 6, cylinder: 4 },
    },
    cut(
      'a side hole into a pocket',
      roundedArea(20, 14, 3) * 6 + PI * 4 * 13,
      { plane: 11, cylinder: 5 },
      recess(3),
      hole({ face: 'front', places: [at(30, 13)], diameter: 4, depth: deep(20) }),
    ),
    cut(
      'a slot across a bore',
      60 * 6 * 5 + PI * 16 * 11 + 5 * (PI * 16 - bandOfCircle(4, 3)),
      { plane: 13, cylinder: 1 },
      slot({ line: across, width: 6, depth: deep(5) }),
      bore(),
    ),
    cut(
      'two bores that run into each other',
      5 * (2 * PI * 36 - lens(6, 9)),
      { plane: 7, cylinder: 2 },
      hole({ places: [at(20, 20), at(29, 20)], diameter: 12, depth: deep(5) }),
    ),
    cut(
      'a bore half off the side',
      4 * (PI * 64 - (64 * (segmentAngle(5, 8) - Math.sin(segmentAngle(5, 8)))) / 2),
      { plane: 7, cylinder: 1 },
      hole({ places: [at(5, 20)], diameter: 16, depth: deep(4) }),
    ),
    {
      name: 'a bar with a flat',
      part: part(rod(30, 50, 'x'), step({ face: 'top', along: ['left'], widths: [20], depth: deep(5) })),
      volume: PI * 225 * 50 - (20 * (225 * (segmentAngle(10, 15) - Math.sin(segmentAngle(10, 15))))) / 2,
      faces: { plane: 4, cylinder: 1 },
    },
  ];
}

/** The part of a circle within `half` of a diameter. */
function bandOfCircle(r: number, half: number): number {
  return 2 * (half * hypot(Math.sqrt(r * r - half * half)) + r * r * Math.asin(half / r));
}
function segmentAngle(away: number, r: number): number {
  return 2 * Math.acos(away / r);
}
function lens(r: number, apart: number): number {
  const angle = segmentAngle(apart / 2, r);
  return r * r * (angle - Math.sin(angle));
}

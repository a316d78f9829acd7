/** The sizes of a feature as they are written, each with its two ends on the part and its place in the text; and what is typed over one. */

import { centroidOf, regionMoments } from '../../geometry/2d/moments';
import { featureFrame, fromFrame } from '../../geometry/frame';
import type { Frame, Solid, Vec3, Void } from '../../geometry/types';
import { AXIS_INDEX, add, scale } from '../../geometry/vector';
import { type ByForm, type Forms, homeOf, ofForm } from '../../model/feature-kinds';
import {
  type Depth,
  FACE_AXIS,
  FACE_PLANE,
  type Feature,
  type Length,
  type Part,
  type Place,
  type Shape,
} from '../../model/model';
import { sized } from '../../sheet/part/numbers';
import { formatLength } from '../../text/format';
import type { Span } from '../../text/tree';
import { SAME } from '../../tolerance';

/** One size: what it is of the feature, as a drawing has it, from where to where. */
interface Sized {
  /** `diameter`, `depth`, `thread`, `from left`. */
  readonly what: string;
  readonly text: string;
  /** Both the same: it is told at that place. */
  readonly at: readonly [Vec3, Vec3];
  /** Where it stands in the text; absent where it follows from something else. */
  readonly span?: Span;
}

/** A size with where it begins and ends in the feature's own frame. */
type Ends = readonly [from: readonly [number, number, number], to: readonly [number, number, number]];

interface Of<F extends Feature = Feature> {
  readonly feature: F;
  readonly part: Part;
  readonly solid: Solid;
  readonly frame: Frame;
}

export function sizesOf(feature: Feature, part: Part, solid: Solid): readonly Sized[] {
  const place = feature.places[0];
  const frame = featureFrame(feature, part.size, place ?? { u: 0, v: 0 });
  const of = { feature, part, solid, frame };
  const own = ofForm(BY_FORM, feature, of);
  return [...own, ...distances(of, place), ...pitches(of)].filter(({ at }) => at.flat().every(Number.isFinite));
}

const BY_FORM: ByForm<[Of], readonly Sized[]> = {
  hole: (hole, of) => {
    const { diameter, depth, thread, threadDepth, counterbore, countersink, clearance } = hole;
    const r = diameter.mm / 2;
    const named = thread ?? clearance;
    const across = diagonal(r);
    const bored = (counterbore?.diameter.mm ?? countersink?.diameter.mm ?? 0) / 2;
    return [
      ...(named
        ? [
            {
              what: thread ? 'thread' : 'clearance',
              text: 'designation' in named ? named.designation : named.screw,
              at: placed(across, of),
              span: named.span,
            },
          ]
        : [length('diameter', diameter, across, of, '⌀#')]),
      ...deep(depth, r, of),
      ...(threadDepth ? [length('thread depth', threadDepth, down(-r, threadDepth.mm), of, '# of thread')] : []),
      ...(counterbore
        ? [
            length('counterbore', counterbore.diameter, flat(0, bored), of, '⌀#'),
            length('counterbore depth', counterbore.depth, down(bored, counterbore.depth.mm), of),
          ]
        : []),
      ...(countersink ? [length('countersink', countersink.diameter, flat(0, bored), of, '⌀#')] : []),
    ];
  },
  opening: (pocket, of) => {
    const { shape, depth } = pocket;
    return [...shaped(shape, of), ...deep(depth, cornerOf(shape), of), ...floor(pocket, of)];
  },
  channel: (slot, of) => {
    const [a, b] = [slot.line[0], slot.line.at(-1)];
    const mid = a && b ? ([(a.u + b.u) / 2, (a.v + b.v) / 2] as const) : ([0, 0] as const);
    const [du, dv] = a && b ? [b.u - a.u, b.v - a.v] : [1, 0];
    const long = Math.hypot(du, dv) || 1;
    const [nu, nv] = [(-dv / long) * (slot.width.mm / 2), (du / long) * (slot.width.mm / 2)];
    const across: Ends = [
      [mid[0] - nu, mid[1] - nv, 0],
      [mid[0] + nu, mid[1] + nv, 0],
    ];
    const { depth } = slot;
    const end: Ends = [
      [b?.u ?? 0, b?.v ?? 0, 0],
      [b?.u ?? 0, b?.v ?? 0, depth.mm],
    ];
    return [
      length('width', slot.width, across, of),
      ...(depth.length ? [length('depth', depth.length, end, of, '# deep')] : []),
      ...mouth(slot, mid, [nu, nv], of),
      ...floor(slot, of),
    ];
  },
  shoulder: (step, of) => [
    ...step.along.flatMap((along, i): readonly Sized[] => {
      const width = step.widths[i];
      if (!width) return [];
      const at = besideEdge(along.name, width.mm, of);
      return [stated('width', width, at, of)];
    }),
    ...(step.depth.length
      ? [stated('depth', step.depth.length, downFrom(edgeMiddle(step.along[0]?.name, of), step.depth.mm, of), of)]
      : []),
    ...floor(step, of),
  ],
  outside: (contour, of) => [...contour.shapes.flatMap((s) => shaped(s, of)), ...deep(contour.depth, 0, of)],
  edge: (edge, of) => {
    const round = 'radius' in edge;
    return [statedAtFeature(round ? 'radius' : 'size', round ? edge.radius : edge.size, round ? 'R' : '', of)];
  },
  ring: (ring, of) => {
    const r = ring.diameter.mm / 2;
    const wide: Ends = ring.in
      ? down(r, ring.width.mm, ring.below?.mm ?? 0)
      : [
          [r, 0, 0],
          [r + ring.width.mm, 0, 0],
        ];
    return [
      length('diameter', ring.diameter, flat(ring.below?.mm ?? 0, r), of, '⌀#'),
      length('width', ring.width, wide, of),
      ...(ring.below ? [length('below', ring.below, down(-r, ring.below.mm), of)] : []),
      ...(ring.depth ? deep(ring.depth, r, of) : []),
    ];
  },
  letters: (letters, of) => {
    const half = letters.height.mm / 2;
    const high: Ends = [
      [0, -half, 0],
      [0, half, 0],
    ];
    return [length('height', letters.height, high, of), ...deep(letters.depth, 0, of)];
  },
  slope: (slope, of) => {
    const mouth = edgeMiddle(slope.along.name, of);
    const isWidth = Math.abs(slope.given.mm - slope.widthMm) < SAME;
    const ends = isWidth ? besideEdge(slope.along.name, slope.given.mm, of) : downFrom(mouth, slope.depthMm, of);
    const { text, span } = slope.angle;
    return [
      stated(isWidth ? 'width' : 'depth', slope.given, ends, of),
      { what: 'angle', text: `${text.replace(/°?$/, '')}°`, at: [mouth, mouth], span },
    ];
  },
};

function placed([from, to]: Ends, { frame }: Pick<Of, 'frame'>): Sized['at'] {
  return [at3(from, frame), at3(to, frame)];
}

function at3([u, v, w]: readonly [number, number, number], frame: Frame): Vec3 {
  return fromFrame(frame, u, v, w);
}

function down(beside: number, mm: number, fromMm = 0): Ends {
  return [
    [beside, 0, fromMm],
    [beside, 0, fromMm + mm],
  ];
}

/** Across a circle, off the lines along which its middle is told. */
function diagonal(r: number, level = 0): Ends {
  const d = r * Math.SQRT1_2;
  return [
    [-d, -d, level],
    [d, d, level],
  ];
}

function flat(level: number, r: number): Ends {
  return [
    [0, -r, level],
    [0, r, level],
  ];
}

/** One written value with where it is, in words of a drawing: `form` with the value in the place of `#`. */
function length(what: string, value: Length, ends: Ends, of: Of, form = '#'): Sized {
  const start = of.feature.startMm;
  const lowered = ends.map(([u, v, w]) => [u, v, w + start]) as unknown as Ends;
  return { ...stated(what, value, placed(lowered, of), of), text: form.replace('#', sized(value, of.part.units)) };
}

function stated(what: string, value: Length, at: Sized['at'], { part }: Of): Sized {
  const text = sized(value, part.units);
  return { what, text, at, ...(value.from === undefined && { span: value.span }) };
}

/** At the feature itself, half way of what it takes off, where no line says more. */
function statedAtFeature(what: string, value: Length, before: string, of: Of): Sized {
  const [first] = of.solid.voidsOf(of.feature.name);
  const middle = first ? halfWay(first) : edgeMiddle(undefined, of);
  return { ...stated(what, value, [middle, middle], of), text: `${before}${sized(value, of.part.units)}` };
}

function halfWay({ frame, region, from, to, profile }: Void): Vec3 {
  const rim = region.holes[0]?.edges[0]?.a ?? region.outer.edges[0]?.a;
  const { u, v } = profile.type === 'straight' || !rim ? centroidOf(regionMoments(region)) : rim;
  return fromFrame(frame, u, v, profile.type === 'straight' ? (from + to) / 2 : from);
}

function deep(depth: Depth, beside: number, of: Of): readonly Sized[] {
  if (depth.length) return [length('depth', depth.length, down(beside, depth.mm), of, '# deep')];
  const ends = placed(down(beside, depth.mm), of);
  return depth.through ? [{ what: 'depth', text: 'through', at: ends, span: depth.span }] : [];
}

function shaped(shape: Shape, of: Of): readonly Sized[] {
  if (shape.type === 'circle') return [length('diameter', shape.diameter, diagonal(shape.diameter.mm / 2), of, '⌀#')];
  if (shape.type === 'path') return [];
  const turn = (shape.rotateDeg * Math.PI) / 180;
  const p = (u: number, v: number) =>
    [u * Math.cos(turn) - v * Math.sin(turn), u * Math.sin(turn) + v * Math.cos(turn), 0] as const;
  const [a, b] = [shape.u.mm / 2, shape.v.mm / 2];
  const [first, second] = FACE_PLANE[of.feature.face];
  const corner = shape.cornerRadius;
  const inset = corner.mm * (1 - Math.SQRT1_2);
  const spot = p(a - inset, b - inset);
  return [
    length(first, shape.u, [p(-a, 0), p(a, 0)], of),
    length(second, shape.v, [p(0, -b), p(0, b)], of),
    ...(corner.mm > SAME ? [length('corner radius', corner, [spot, spot], of, 'R#')] : []),
  ];
}

function cornerOf(shape: Shape): number {
  return shape.type === 'circle' ? shape.diameter.mm / 2 : shape.type === 'rectangle' ? -shape.u.mm / 2 : 0;
}

/** The radius between wall and floor, where one is written. */
/** Across what is wider at a slot's mouth, and how deep that is. */
function mouth(slot: Forms['channel'], mid: Flat, half: Flat, of: Of): readonly Sized[] {
  const { counterbore, countersink, width } = slot;
  const wide = (counterbore ?? countersink)?.width;
  if (!wide) return [];
  const k = wide.mm / width.mm;
  const at = (t: number, w: number) => [mid[0] + t * half[0], mid[1] + t * half[1], w] as const;
  return [
    length(counterbore ? 'counterbore' : 'countersink', wide, [at(-k, 0), at(k, 0)], of),
    ...(counterbore
      ? [length('counterbore depth', counterbore.depth, [at(k, 0), at(k, counterbore.depth.mm)], of)]
      : []),
  ];
}
type Flat = readonly [u: number, v: number];

function floor(feature: Feature & { readonly floorRadius: Length }, of: Of): readonly Sized[] {
  const { floorRadius } = feature;
  if (floorRadius.from !== undefined || floorRadius.mm < SAME) return [];
  const depthMm = homeOf(feature).stands(feature).floor?.mm ?? 0;
  return [
    length(
      'floor radius',
      floorRadius,
      [
        [0, 0, depthMm],
        [0, 0, depthMm],
      ],
      of,
      'R#',
    ),
  ];
}

/** In the middle of the edge between the feature's face and another; without one, in the middle of the face. */
function edgeMiddle(along: keyof typeof FACE_AXIS | undefined, { feature, part }: Of): Vec3 {
  const p = part.size.map((s) => s / 2) as [number, number, number];
  for (const face of along ? [feature.face, along] : [feature.face]) {
    const i = AXIS_INDEX[FACE_AXIS[face].axis];
    p[i] = FACE_AXIS[face].sign > 0 ? part.size[i]! : 0;
  }
  return p;
}

function besideEdge(along: keyof typeof FACE_AXIS, mm: number, of: Of): Sized['at'] {
  const edge = edgeMiddle(along, of);
  const i = AXIS_INDEX[FACE_AXIS[along].axis];
  const inward: Vec3 = [0, 0, 0].map((_, k) => (k === i ? -FACE_AXIS[along].sign : 0)) as unknown as Vec3;
  return [edge, add(edge, inward, mm)];
}

function downFrom(p: Vec3, mm: number, { frame }: Of): Sized['at'] {
  return [p, add(p, frame.w, mm)];
}

/** From what its place counts from to its middle, along each of the face's axes. */
function distances(of: Of, place: Place | undefined): readonly Sized[] {
  const { feature, part } = of;
  if (!place?.written) return [];
  const level = add(at3([0, 0, 0], of.frame), scale(of.frame.w, feature.startMm));
  return place.written.map(({ key, length: value }): Sized => {
    const axis = key in AXIS_INDEX ? (key as keyof typeof AXIS_INDEX) : FACE_AXIS[key as keyof typeof FACE_AXIS].axis;
    const i = AXIS_INDEX[axis];
    const from: [number, number, number] = [...level];
    from[i] = key in FACE_AXIS && FACE_AXIS[key as keyof typeof FACE_AXIS].sign > 0 ? part.size[i]! : 0;
    const mm = Math.abs(level[i] - from[i]);
    const tolerated = value.tolerance ? sized(value, part.units) : undefined;
    const text = tolerated ?? formatLength(Number(mm.toFixed(6)), part.units).replace(/ (mm|in)$/, '');
    return {
      what: key in AXIS_INDEX ? key : `from ${key}`,
      text,
      at: [from, level],
      ...(value.from === undefined && { span: value.span }),
    };
  });
}

/** Between the first two members along each axis that a pattern runs. */
function pitches(of: Of): readonly Sized[] {
  const { feature, part } = of;
  const { pattern, places } = feature;
  const first = places[0];
  if (!pattern?.pitch || !first) return [];
  const start = feature.startMm;
  return FACE_PLANE[feature.face].flatMap((axis, k): readonly Sized[] => {
    const pitch = pattern.pitch?.[axis];
    if (!pitch) return [];
    const which = k === 0 ? 'u' : 'v';
    const other = k === 0 ? 'v' : 'u';
    const next = places
      .filter((p) => Math.abs(p[other] - first[other]) < SAME && p[which] - first[which] > SAME)
      .sort((a, b) => a[which] - b[which])[0];
    if (!next) return [];
    const to = featureFrame(feature, part.size, next);
    const at = [at3([0, 0, start], of.frame), at3([0, 0, start], to)] as const;
    return [stated(`pitch along ${axis}`, pitch, at, of)];
  });
}

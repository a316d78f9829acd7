/** Parts and features for the geometry tests, built straight from the model's shapes: no text is read. */
import type {
  Angle,
  Axis,
  Body,
  Chamfer,
  Contour,
  Depth,
  EdgeChoice,
  EdgeRound,
  Engraving,
  Face,
  Feature,
  Groove,
  Hole,
  Length,
  Named,
  Part,
  PathCorner,
  Place,
  Pocket,
  Shape,
  Slope,
  Slot,
  Step,
} from '../../server/src/model/model';
import type { Span } from '../../server/src/text/tree';

const NOWHERE: Span = { block: '', from: 0, to: 0 };
let serial = 0;

function mm(value: number): Length {
  return { mm: value, text: String(value), span: NOWHERE };
}
export function deg(value: number): Angle {
  return { deg: value, text: String(value), span: NOWHERE };
}
function named<N extends string>(name: N): Named & { readonly name: N } {
  return { name, span: NOWHERE };
}
export function at(u: number, v: number): Place {
  return { u, v, span: NOWHERE };
}
export function deep(value: number): Depth {
  return { through: false, mm: value, length: mm(value), span: NOWHERE };
}
export const THROUGH: Depth = { through: true, mm: 1e3, span: NOWHERE };

export function corner(
  u: number,
  v: number,
  more: { round?: number; bevel?: number; arc?: [number, number] } = {},
): PathCorner {
  return {
    u,
    v,
    span: NOWHERE,
    ...(more.round === undefined ? {} : { round: mm(more.round) }),
    ...(more.bevel === undefined ? {} : { bevel: mm(more.bevel) }),
    ...(more.arc ? { arc: at(more.arc[0], more.arc[1]) } : {}),
  };
}
export function rectangle(u: number, v: number, cornerRadius = 0, rotateDeg = 0): Shape {
  return { type: 'rectangle', u: mm(u), v: mm(v), cornerRadius: mm(cornerRadius), rotateDeg, span: NOWHERE };
}
export function circle(diameter: number): Shape {
  return { type: 'circle', diameter: mm(diameter), span: NOWHERE };
}
export function path(...corners: PathCorner[]): Shape {
  return { type: 'path', corners, span: NOWHERE };
}

interface Common {
  name?: string;
  face?: Face;
  places?: readonly Place[];
  startMm?: number;
  tilt?: { about: Axis; angle: number };
}
function base(kind: string, o: Common) {
  const name = o.name ?? `${kind}-${++serial}`;
  return {
    name,
    nameSpan: NOWHERE,
    span: NOWHERE,
    kindSpan: NOWHERE,
    block: `features/${name}`,
    face: o.face ?? ('top' as Face),
    faceSpan: NOWHERE,
    startMm: o.startMm ?? 0,
    places: o.places ?? [at(0, 0)],
    ...(o.tilt ? { tilt: { about: o.tilt.about, angle: deg(o.tilt.angle), span: NOWHERE } } : {}),
  };
}

export function hole(
  o: Common & {
    diameter: number;
    depth: Depth;
    bottom?: 'cone' | 'flat';
    point?: number;
    counterbore?: [number, number];
    countersink?: [number, number];
  },
): Hole {
  return {
    ...base('hole', o),
    kind: 'hole',
    diameter: mm(o.diameter),
    diameterGiven: true,
    depth: o.depth,
    bottom: o.bottom ?? 'flat',
    point: deg(o.point ?? 118),
    ...(o.counterbore
      ? { counterbore: { diameter: mm(o.counterbore[0]), depth: mm(o.counterbore[1]), span: NOWHERE } }
      : {}),
    ...(o.countersink
      ? { countersink: { diameter: mm(o.countersink[0]), angle: deg(o.countersink[1]), span: NOWHERE } }
      : {}),
  };
}
export function pocket(
  o: Common & {
    shape: Shape;
    depth: Depth;
    floorRadius?: number;
    /** Diameter of the reliefs. */
    relief?: number;
    islands?: { shape: Shape; at: Place; height: number }[];
  },
): Pocket {
  return {
    ...base('pocket', o),
    kind: 'pocket',
    shape: o.shape,
    depth: o.depth,
    floorRadius: mm(o.floorRadius ?? 0),
    ...(o.relief === undefined ? {} : { relief: { style: 'corner' as const, diameter: mm(o.relief), span: NOWHERE } }),
    islands: (o.islands ?? []).map((i, n) => ({
      ...named(`i${n}`),
      shape: i.shape,
      place: i.at,
      height: mm(i.height),
    })),
  };
}
export function slot(
  o: Common & {
    line: PathCorner[];
    width: number;
    depth: Depth;
    floorRadius?: number;
    tee?: [number, number];
    dovetail?: number;
    counterbore?: [number, number];
    countersink?: [number, number];
  },
): Slot {
  return {
    ...base('slot', o),
    kind: 'slot',
    line: o.line,
    width: mm(o.width),
    depth: o.depth,
    floorRadius: mm(o.floorRadius ?? 0),
    ...(o.tee ? { tee: { width: mm(o.tee[0]), height: mm(o.tee[1]), span: NOWHERE } } : {}),
    ...(o.dovetail ? { dovetail: { angle: deg(o.dovetail), span: NOWHERE } } : {}),
    ...(o.counterbore
      ? { counterbore: { width: mm(o.counterbore[0]), depth: mm(o.counterbore[1]), span: NOWHERE } }
      : {}),
    ...(o.countersink
      ? { countersink: { width: mm(o.countersink[0]), angle: deg(o.countersink[1]), span: NOWHERE } }
      : {}),
  };
}
export function step(o: Common & { along: Face[]; widths: number[]; depth: Depth; floorRadius?: number }): Step {
  return {
    ...base('step', o),
    kind: 'step',
    along: o.along.map((f) => named(f)),
    widths: o.widths.map(mm),
    depth: o.depth,
    floorRadius: mm(o.floorRadius ?? 0),
  };
}
export function contour(o: Common & { shapes: Shape[]; depth: Depth; floorRadius?: number }): Contour {
  return {
    ...base('contour', o),
    kind: 'contour',
    shapes: o.shapes,
    depth: o.depth,
    floorRadius: mm(o.floorRadius ?? 0),
  };
}
type Edges = Face | [Face, Face] | { rim: string; far?: boolean };
function choice(e: Edges): EdgeChoice {
  if (typeof e === 'string') return { type: 'face', face: e, span: NOWHERE };
  if (Array.isArray(e)) return { type: 'edge', faces: e, span: NOWHERE };
  return { type: 'rim', feature: named(e.rim), far: e.far ?? false, face: e.far ? 'bottom' : 'top', span: NOWHERE };
}
export function chamfer(o: Common & { edges: Edges[]; size: number; angle?: number }): Chamfer {
  return {
    ...base('chamfer', o),
    kind: 'chamfer',
    edges: o.edges.map(choice),
    size: mm(o.size),
    angle: deg(o.angle ?? 45),
  };
}
export function round(o: Common & { edges: Edges[]; radius: number }): EdgeRound {
  return { ...base('edge-round', o), kind: 'edge-round', edges: o.edges.map(choice), radius: mm(o.radius) };
}
export function groove(
  o: Common & { diameter: number; width: number; depth?: Depth; in?: string; below?: number },
): Groove {
  return {
    ...base('groove', o),
    kind: 'groove',
    diameter: mm(o.diameter),
    width: mm(o.width),
    ...(o.depth ? { depth: o.depth } : {}),
    ...(o.in ? { in: named(o.in) } : {}),
    ...(o.below === undefined ? {} : { below: mm(o.below) }),
  };
}
export function engraving(o: Common & { text: string; height: number; depth: Depth; stroke: number }): Engraving {
  return {
    ...base('engraving', o),
    kind: 'engraving',
    text: o.text,
    height: mm(o.height),
    depth: o.depth,
    stroke: mm(o.stroke),
  };
}
export function incline(o: Common & { along: Face; width: number; depth: number }): Slope {
  const angle = (Math.atan2(o.depth, o.width) * 180) / Math.PI;
  return {
    ...base('slope', o),
    kind: 'slope',
    along: named(o.along),
    angle: deg(angle),
    widthMm: o.width,
    depthMm: o.depth,
    given: mm(o.width),
  };
}

export function box(x: number, y: number, z: number): Body {
  return { form: 'box', x: mm(x), y: mm(y), z: mm(z), span: NOWHERE };
}
export function rod(diameter: number, length: number, axis: Axis): Body {
  return { form: 'round', diameter: mm(diameter), length: mm(length), axis, span: NOWHERE };
}

export function part(body: Body, ...features: Feature[]): Part {
  const size: [number, number, number] =
    body.form === 'box'
      ? [body.x.mm, body.y.mm, body.z.mm]
      : (['x', 'y', 'z'].map((a) => (a === body.axis ? body.length.mm : body.diameter.mm)) as [number, number, number]);
  return {
    name: 'test',
    nameSpan: NOWHERE,
    units: 'mm',
    quantity: 1,
    parameters: new Map(),
    body,
    size,
    stock: { written: false, form: 'block', sawn: [], extra: {}, span: NOWHERE },
    features,
    featureByName: new Map(features.map((f) => [f.name, f])),
    broken: new Set(),
    datums: new Map(),
    tolerances: [],
    accept: [],
    variants: [],
    notes: [],
    problems: [],
    root: NOWHERE,
  };
}

/** The same part again with other features: what did not change is the same object. */
export function withFeatures(p: Part, features: readonly Feature[]): Part {
  return { ...p, features, featureByName: new Map(features.map((f) => [f.name, f])) };
}

import type { Point2, Solid } from '../../geometry/types';
import { homeOf } from '../../model/feature-kinds';
import { FACE_AXIS, type Feature, type Incline, OPPOSITE, type PathCorner } from '../../model/model';
import { addEntry, moveFeature, nodeAt, setLength } from '../edits';
import type { SharpEdge } from '../finding-data';
import { fact, memberOf, roundUp, spanOf } from '../message';
import type { Finding, Fix, Rule, RuleContext } from '../rule';
import { dot, minus } from '../voids';
import { cutSide, isVoid } from './walls';
import { type Wedge, wedges } from './wedges';

/** What is left standing where an incline would run out to nothing, mm. */
const LAND = 0.5;

export const knifeEdge: Rule = {
  name: 'wall/knife-edge',
  severity: 'warning',
  summary: 'Material that runs out to a sharp edge.',
  why: 'An acute edge has nothing behind it: it rolls over into a burr, chips, and comes out at no size anyone can measure. It also cuts whoever takes the part out of the vise.',
  formula:
    'The angle of the material (`angle_deg`) at the corners of an outline, where a cut leaves through a side of the body, where two cuts meet, where a tilted cut enters (90° less its lean), and where an incline reaches the far face. A round hole of radius r, its centre d inside a side that it breaks, leaves acos(d / r).',
  limits: [
    {
      name: 'angle',
      value: 30,
      unit: 'deg',
      what: 'Least angle of an edge of the part.',
      source: 'common practice, no source',
    },
  ],
  bad: `part: cam
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  outline:
    kind: contour
    face: top
    path:
      - { x: 5, y: 15 }
      - { x: 55, y: 20 }
      - { x: 5, y: 25 }
    depth: through
`,
  good: `part: cam
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  outline:
    kind: contour
    face: top
    path:
      - { x: 5, y: 15 }
      - { x: 55, y: 20, round: 2 }
      - { x: 5, y: 25 }
    depth: through
`,
  *find(context): Iterable<Finding> {
    const limit = context.limit('angle');
    const sharpest = new Map<string, Wedge>();
    for (const w of wedges(context.solid, limit)) {
      const key = `${w.a.feature} ${isVoid(w.b) ? w.b.feature : w.b}`;
      const known = sharpest.get(key);
      if (!known || w.angleDeg < known.angleDeg) sharpest.set(key, w);
    }
    for (const w of sharpest.values()) yield ofWedge(w, limit, context);
    for (const feature of context.part.features) {
      yield* ofTilt(feature, limit);
      if (feature.kind === 'incline') yield* ofIncline(feature, limit, context);
    }
  },
  mends: 'A rounding at the corner; a hole moved until it no longer breaks the side; an incline that ends on a land.',
  *mend(finding, context): Iterable<Fix> {
    const sharp = finding.data?.sharp;
    const feature = context.part.featureByName.get(finding.of[0]?.replace(/\[.*$/, '') ?? '');
    if (!feature) return;
    if (feature.kind === 'incline') yield* onALand(feature, context);
    if (!sharp) return;
    yield* rounded(feature, sharp, context);
    yield* inside(feature, sharp, context);
  },
};

const RULE = 'wall/knife-edge' as const;

function ofWedge(w: Wedge, limit: number, { part, solid }: RuleContext): Finding {
  const feature = part.featureByName.get(w.a.feature);
  const other = isVoid(w.b) ? part.featureByName.get(w.b.feature) : undefined;
  const corner = feature && cornerAt(feature, w.point);
  const angle = Math.round(w.angleDeg * 10) / 10;
  const name = `\`${memberOf(w.a)}\``;
  const where = !isVoid(w.b)
    ? `where ${name} breaks the ${w.b} face`
    : w.b === w.a
      ? `at a corner of ${name}`
      : `where ${name} and \`${memberOf(w.b)}\` meet`;
  return {
    rule: RULE,
    severity: 'warning',
    message: `The material runs out to an edge of ${angle}° ${where}; under ${limit}° it burrs and chips (a rule of thumb). A rounding, or moving the cut until the edge is blunter, would do.`,
    of: isVoid(w.b) && w.b !== w.a ? [...new Set([memberOf(w.a), memberOf(w.b)])] : [memberOf(w.a)],
    span: corner?.span ?? (feature ? spanOf(feature, 'at', 'name') : part.nameSpan),
    related:
      other && other !== feature
        ? [{ span: other.nameSpan, message: `\`${other.name}\` is the other side of the edge` }]
        : [],
    facts: { angle_deg: angle, limit_deg: limit },
    at: [w.at],
    data: { sharp: sharpEdge(w, solid) },
  };
}

function sharpEdge({ a, b, point }: Wedge, { body }: Solid): SharpEdge {
  if (isVoid(b)) return { point, cut: cutSide(a) };
  const { axis, sign } = FACE_AXIS[b];
  const i = 'xyz'.indexOf(axis);
  const byMm = sign > 0 ? a.bounds.max[i]! - body.box.max[i]! : body.box.min[i]! - a.bounds.min[i]!;
  return { point, cut: cutSide(a), breaks: { face: b, byMm } };
}

/** The corner of a written path that stands at a point of the feature's plane, for any member. */
function cornerAt(feature: Feature, p: Point2): PathCorner | undefined {
  return writtenCorners(feature).find(({ corner }) =>
    [{ u: 0, v: 0 }, ...feature.places].some((o) => Math.hypot(corner.u + o.u - p.u, corner.v + o.v - p.v) < 1e-6),
  )?.corner;
}

function writtenCorners(feature: Feature): readonly { corner: PathCorner; path: readonly (string | number)[] }[] {
  const shapes = homeOf(feature).shapes(feature);
  return shapes.flatMap((shape, s) =>
    shape.type !== 'path'
      ? []
      : shape.corners.map((corner, i) => ({ corner, path: shapes.length > 1 ? ['paths', s, i] : ['path', i] })),
  );
}

function* rounded(feature: Feature, { point }: SharpEdge, { tree, part, length, write }: RuleContext): Iterable<Fix> {
  const corner = cornerAt(feature, point);
  const found = writtenCorners(feature).find((c) => c.corner === corner);
  const node = found && nodeAt(tree, feature.name, ...found.path);
  if (node?.type !== 'map' || corner?.round) return;
  for (const mm of [1, 0.5]) {
    const radius = roundUp(mm, part.units);
    const edit = addEntry(tree, node, 'round', write(radius));
    if (edit) yield { title: `Round the corner with ${length(radius)}`, safe: false, edits: [edit] };
  }
}

/** Moves a feature into the body until it clears the side it breaks. */
function* inside(feature: Feature, { cut, breaks }: SharpEdge, { part, tree, length }: RuleContext): Iterable<Fix> {
  if (!breaks) return;
  const { axis, sign } = FACE_AXIS[breaks.face];
  const i = 'xyz'.indexOf(axis);
  const by = roundUp(breaks.byMm + 1.5, part.units);
  const inward = [0, 1, 2].map((k) => (k === i ? -sign : 0)) as unknown as readonly [number, number, number];
  const edits = moveFeature(
    tree,
    part,
    feature,
    dot(inward, cut.frame.u) * by,
    dot(inward, cut.frame.v) * by,
    cut.member,
  );
  if (edits)
    yield { title: `Move \`${feature.name}\` ${length(by)} in, clear of the ${breaks.face} face`, safe: false, edits };
}

function* ofTilt(feature: Feature, limit: number): Iterable<Finding> {
  if (!feature.tilt) return;
  const lean = Math.abs(feature.tilt.angle.deg);
  const angle = 90 - lean;
  if (angle >= limit || angle <= 0) return;
  yield {
    rule: RULE,
    severity: 'warning',
    message: `\`${feature.name}\` leans by ${fact(lean)}°, so the face runs out to an edge of ${fact(angle)}° beside it; under ${limit}° it burrs and chips (a rule of thumb). A lean of ${90 - limit}° would do.`,
    of: [feature.name],
    span: feature.tilt.angle.span,
    related: [],
    facts: { tilt_deg: fact(lean), angle_deg: fact(angle), limit_deg: limit, widest_deg: 90 - limit },
  };
}

/** An incline that reaches the far face leaves a wedge of its own angle there. */
function* ofIncline(feature: Incline, limit: number, { part, solid, length }: RuleContext): Iterable<Finding> {
  const extent = part.size['xyz'.indexOf(FACE_AXIS[feature.face].axis)]!;
  const angle = feature.angle.deg;
  if (angle >= limit || feature.depthMm < extent - 1e-6) return;
  const edge = solid.voidsOf(feature.name)[0];
  yield {
    rule: RULE,
    severity: 'warning',
    message: `\`${feature.name}\` comes down ${length(feature.depthMm)} in a body of ${length(extent)}: on the ${OPPOSITE[feature.face]} face it leaves an edge of ${fact(angle)}°, under the ${limit}° below which it burrs and chips (a rule of thumb). A land of ${length(LAND)} would do.`,
    of: [feature.name],
    span: feature.given.span,
    related: part.body ? [{ span: part.body.span, message: 'the body' }] : [],
    facts: {
      angle_deg: fact(angle),
      limit_deg: limit,
      depth_mm: fact(feature.depthMm),
      body_mm: fact(extent),
      land_mm: LAND,
    },
    ...(edge ? { at: [minus(edge.frame.origin, [0, 0, 0])] } : {}),
  };
}

function* onALand(feature: Incline, { part, length }: RuleContext): Iterable<Fix> {
  const extent = part.size['xyz'.indexOf(FACE_AXIS[feature.face].axis)]!;
  const share = (extent - LAND) / feature.depthMm;
  const edit = share > 0 ? setLength(feature.given, feature.given.mm * share, part) : undefined;
  if (edit) yield { title: `End \`${feature.name}\` on a land of ${length(LAND)}`, safe: false, edits: [edit] };
}

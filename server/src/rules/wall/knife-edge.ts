import type { Point2, Solid } from '../../geometry/types';
import { homeOf } from '../../model/feature-kinds';
import {
  FACE_AXIS,
  type Face,
  type Feature,
  OPPOSITE,
  type Part,
  type PathCorner,
  type Slope,
} from '../../model/model';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { addEntry, moveFeature, nodeAt, placeAfter, setLength } from '../kit/edits';
import { figure, memberOf, memberPhrase, roundUp, spanOf, subjectOf } from '../kit/message';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { dot, minus } from '../kit/voids';
import { type CutSide, cutSide, isVoid } from './walls';
import { type Wedge, wedges } from './wedges';

/** A sharp edge at a corner of an outline, or where a cut leaves through a side of the body, as its finding keeps it. */
interface SharpEdge {
  /** In the plane of the cut. */
  readonly point: Point2;
  readonly cut: CutSide;
  /** The side of the body it breaks, and how far it reaches beyond, mm. */
  readonly breaks?: { readonly face: Face; readonly byMm: number };
}

/** Two lines that meet, a tilted cut where it enters, a slope at the far face. */
type Sharp =
  | { readonly wedge: Wedge }
  | { readonly tilted: Feature; readonly lean: number }
  | { readonly slope: Slope };

const BAD = `part: cam
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
`;

/** What is left standing where a slope would run out to nothing, mm. */
const LAND = 0.5;

export const knifeEdge: Rule = defineRule({
  name: 'wall/knife-edge',
  severity: 'warning',
  summary: 'Material that runs out to a sharp edge.',
  why: 'A sharp edge has nothing behind it. It rolls over into a burr, chips, and cannot be measured. It also cuts the hand that takes the part out of the vise.',
  formula:
    'The angle of the material is checked at corners of an outline. It is also checked where a cut leaves through a face, and where two cuts meet. A tilted cut leaves 90° less its tilt; a sloped face leaves its own angle at the far face. A round hole of radius r with its centre d inside the face that it breaks leaves acos(d / r).',
  limits: [
    {
      name: 'angle',
      value: 30,
      unit: 'deg',
      what: 'Smallest angle of an edge of the part.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['x: 55, y: 20', 'x: 55, y: 20, round: 2']),
  *find({ part, solid, limit }): Generator<Sharp> {
    const least = limit('angle');
    const sharpest = new Map<string, Wedge>();
    for (const w of wedges(solid, least)) {
      const key = `${w.a.feature} ${isVoid(w.b) ? w.b.feature : w.b}`;
      const known = sharpest.get(key);
      if (!known || w.angleDeg < known.angleDeg) sharpest.set(key, w);
    }
    for (const wedge of sharpest.values()) yield { wedge };
    for (const feature of part.features) {
      const lean = Math.abs(feature.tilt?.angle.deg ?? 0);
      if (feature.tilt && 90 - lean < least && lean < 90) yield { tilted: feature, lean };
      if (feature.kind !== 'slope' || feature.angle.deg >= least) continue;
      if (feature.depthMm >= throughMm(feature, part) - SAME) yield { slope: feature };
    }
  },
  tell(hit, context) {
    if ('wedge' in hit) return ofWedge(hit.wedge, context);
    return 'slope' in hit ? ofSlope(hit.slope, context) : ofTilt(hit.tilted, hit.lean, context);
  },
  mends: 'Round the corner, move the hole clear of the face, or end the slope on a flat land.',
  keep(hit, { solid }): { readonly of: string; readonly sharp?: SharpEdge } {
    if ('wedge' in hit) return { of: hit.wedge.a.feature, sharp: sharpEdge(hit.wedge, solid) };
    return { of: ('slope' in hit ? hit.slope : hit.tilted).name };
  },
  *mend({ of, sharp }, context) {
    const feature = context.part.featureByName.get(of);
    if (feature?.kind === 'slope') yield onALand(feature, context);
    if (!feature || !sharp) return;
    yield* rounded(feature, sharp, context);
    yield inside(feature, sharp, context);
  },
});

function ofWedge(w: Wedge, { part, limit }: RuleContext): Told {
  const least = limit('angle');
  const feature = part.featureByName.get(w.a.feature);
  const other = isVoid(w.b) ? part.featureByName.get(w.b.feature) : undefined;
  const corner = feature && cornerAt(feature, w.point);
  const angle = Math.round(w.angleDeg * 10) / 10;
  const name = memberPhrase(part, memberOf(w.a));
  const where = !isVoid(w.b)
    ? `where ${name} breaks through the ${w.b} face`
    : w.b === w.a
      ? `at a corner of ${name}`
      : `where ${name} meets ${memberPhrase(part, memberOf(w.b))}`;
  return {
    message: `A sharp edge of ${angle}° is left ${where}. An edge under ${least}° burrs and chips (rule of thumb). Round it, or move the cut until the edge is blunter.`,
    has: `${angle}°`,
    needs: `${least}°`,
    of: isVoid(w.b) && w.b !== w.a ? [...new Set([memberOf(w.a), memberOf(w.b)])] : [memberOf(w.a)],
    span: corner?.span ?? (feature ? spanOf(feature, 'at', 'name') : part.nameSpan),
    related: [
      other && other !== feature
        ? { span: other.nameSpan, message: `${other.name} is the other side of the edge` }
        : undefined,
    ],
    facts: { angle_deg: angle, limit_deg: least },
    at: [w.at],
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
    [{ u: 0, v: 0 }, ...feature.places].some((o) => Math.hypot(corner.u + o.u - p.u, corner.v + o.v - p.v) < SAME),
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

function* rounded(
  feature: Feature,
  { point }: SharpEdge,
  { tree, part, length, write }: RuleContext,
): Iterable<Fix | undefined> {
  const corner = cornerAt(feature, point);
  const found = writtenCorners(feature).find((c) => c.corner === corner);
  const node = found && nodeAt(tree, feature.name, ...found.path);
  if (node?.type !== 'map' || corner?.round) return;
  for (const mm of [1, 0.5]) {
    const radius = roundUp(mm, part.units);
    yield change(`Round the corner with ${length(radius)}`, addEntry(tree, node, 'round', write(radius)));
  }
}

/** Moves a feature into the body until it clears the side it breaks. */
function inside(feature: Feature, { cut, breaks }: SharpEdge, { part, tree }: RuleContext): Fix | undefined {
  if (!breaks) return undefined;
  const { axis, sign } = FACE_AXIS[breaks.face];
  const i = 'xyz'.indexOf(axis);
  const by = roundUp(breaks.byMm + 1.5, part.units);
  const inward = [0, 1, 2].map((k) => (k === i ? -sign : 0)) as unknown as readonly [number, number, number];
  const [du, dv] = [dot(inward, cut.frame.u) * by, dot(inward, cut.frame.v) * by];
  const to = placeAfter({ tree, part }, feature, [du, dv], cut.member);
  return change(
    `Move ${feature.name} to ${to}, clear of the ${breaks.face} face`,
    to === undefined ? undefined : moveFeature({ tree, part }, feature, [du, dv], cut.member),
  );
}

function ofTilt(feature: Feature, lean: number, { part, limit }: RuleContext): Told {
  const least = limit('angle');
  return {
    message: `${subjectOf(part, feature.name)} is tilted by ${figure(lean)}° and leaves a sharp edge of ${figure(90 - lean, least)}° beside it. An edge under ${least}° burrs and chips (rule of thumb). Make the tilt ${90 - least}° at most.`,
    has: `${figure(90 - lean, least)}°`,
    needs: `${least}°`,
    of: [feature.name],
    span: feature.tilt!.angle.span,
    facts: { tilt_deg: lean, angle_deg: 90 - lean, limit_deg: least, widest_deg: 90 - least },
  };
}

/** A slope that reaches the far face leaves a wedge of its own angle there. */
function ofSlope(feature: Slope, { part, solid, limit, length }: RuleContext): Told {
  const least = limit('angle');
  const bodyMm = throughMm(feature, part);
  const angle = feature.angle.deg;
  const edge = solid.voidsOf(feature.name)[0];
  return {
    message: `${subjectOf(part, feature.name)} comes down ${length(feature.depthMm)} in a body of ${length(bodyMm)}. It leaves an edge of ${figure(angle, least)}° at the ${OPPOSITE[feature.face]} face; under ${least}° an edge burrs and chips (rule of thumb). Leave a land of ${length(LAND)}.`,
    has: `${figure(angle, least)}°`,
    needs: `${least}°`,
    of: [feature.name],
    span: feature.given.span,
    related: [part.body && { span: part.body.span, message: 'the body' }],
    facts: { angle_deg: angle, limit_deg: least, depth_mm: feature.depthMm, body_mm: bodyMm, land_mm: LAND },
    at: edge && [minus(edge.frame.origin, [0, 0, 0])],
  };
}

/** How thick the body is below the face a slope starts from. */
function throughMm({ face }: Slope, { size }: Pick<Part, 'size'>): number {
  return size['xyz'.indexOf(FACE_AXIS[face].axis)]!;
}

function onALand(feature: Slope, { part, length }: RuleContext): Fix | undefined {
  const share = (throughMm(feature, part) - LAND) / feature.depthMm;
  const edit = share > 0 ? setLength(feature.given, feature.given.mm * share, part) : undefined;
  return change(`End ${feature.name} on a land of ${length(LAND)}`, edit);
}

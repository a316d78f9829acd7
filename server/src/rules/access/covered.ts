/** access/covered – material lies over a feature, whichever way a tool comes. */

import { edgeRect, pointAt, tangentAt } from '../../geometry/2d/edge';
import { regionEdges } from '../../geometry/2d/moments';
import type { Edge, Point2, Vec3, Void } from '../../geometry/types';
import { memo } from '../../memo';
import type { Face, Feature, Part } from '../../model/model';
import { approachesOf } from '../../process/approach';
import { beside, depthBelow, inward, materialAlong, type Place } from '../../process/column';
import { facesToJudge } from '../../process/milling';
import { dot, insideBy, ofFrame, through } from '../../process/section';
import { type Cut, cutsOf, timelineOf } from '../../process/stock';
import { HAIR, SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField } from '../kit/fields';
import { list, memberOf, subjectOf } from '../kit/message';
import { moveCut } from '../kit/moves';
import type { Rule, RuleContext } from '../kit/rule';

const STRAIGHT: ReadonlySet<Void['role']> = new Set([
  'bore',
  'counterbore',
  'countersink',
  'pocket',
  'slot',
  'step',
  'contour',
  'engraving',
]);

interface Buried {
  readonly feature: Feature;
  readonly of: Void;
  readonly face: Face;
  readonly overMm: number;
  /** The set-up's cut, where set-ups say when: and what still stands over it only then. */
  readonly cut?: Cut;
  readonly until?: readonly string[];
  /** Of the points looked at, how many are covered, 0 … 1. */
  readonly share: number;
  readonly at: Vec3;
}

function* buriedOnes(context: RuleContext): Generator<Buried> {
  const { part, solid } = context;
  for (const feature of part.features) {
    // What starts on its own face has nothing over it.
    if (feature.startMm <= SAME || feature.tilt || feature.kind === 'groove') continue;
    const cuts = context.part.setups ? cutsOf(timelineOf(part, solid), feature) : [];
    const then = cuts.flatMap((cut) => buriedThen(cut, feature, context) ?? []);
    yield* then;
    const faces = facesToJudge(feature, part, solid);
    for (const v of solid.voidsOf(feature.name)) {
      if (!STRAIGHT.has(v.role)) continue;
      const best = leastCovered(v, faces, solid);
      // What is never open is told once, of the finished part.
      if (best && best.overMm > 0.01 && !then.some((b) => b.of === v)) {
        yield { feature, of: v, ...best };
        break;
      }
    }
  }
}

/**
 * Over it in its set-up stands what a later cut takes away. What it starts on is taken as cut: in which order is
 * `setup/order`'s to say.
 */
function buriedThen(cut: Cut, feature: Feature, context: RuleContext): Buried | undefined {
  const { part, solid } = context;
  const timeline = timelineOf(part, solid);
  const setup = timeline.setups[cut.setup]!;
  const { up } = setup;
  if (!up || setup.setup.hold?.type === 'angle' || !approachesOf(feature, part, solid).includes(up)) return undefined;
  const down = inward(up);
  const below = chain(feature, part).flatMap((f) => solid.voidsOf(f.name));
  for (const v of solid.voidsOf(feature.name)) {
    if (!STRAIGHT.has(v.role) || Math.abs(dot(v.frame.w, down)) < 0.5) continue;
    const cover = leastCovered(v, [up], { body: cut.after.body, voids: [...cut.after.voids, ...below] });
    if (!cover || cover.overMm <= 0.01) continue;
    const onFinished = leastCovered(v, [up], solid);
    if (onFinished && onFinished.overMm > 0.01) continue;
    const later = timeline.setups.flatMap((s) =>
      s.cuts.filter((c) => s.index > cut.setup || (s.index === cut.setup && c.order > cut.order)),
    );
    const over = later.filter((c) =>
      c.removes.some((r) => through(r, cover.at, [-down[0], -down[1], -down[2]]).some((x) => x.to > 0.01)),
    );
    return { feature, of: v, ...cover, cut, until: [...new Set(over.map((c) => c.name))] };
  }
  return undefined;
}

/** What a feature starts on, and what that starts on. */
function chain(feature: Feature, part: Part): readonly Feature[] {
  const found: Feature[] = [];
  let next = feature.from && part.featureByName.get(feature.from.name);
  while (next && !found.includes(next)) {
    found.push(next);
    next = next.from && part.featureByName.get(next.from.name);
  }
  return found;
}

type Cover = Omit<Buried, 'feature' | 'of' | 'cut' | 'until'>;

/** From the face that leaves least over it. */
function leastCovered(v: Void, faces: readonly Face[], { body, voids }: Place): Cover | undefined {
  return coverFrom(v, faces, body, beside(v, { voids }));
}

/** Kept as long as what a line up from it can meet stays the same: on the finished part, and as it is in its set-ups. */
const coverFrom = memo(
  (v: Void, faces: readonly Face[], body: Place['body'], near: readonly Void[]): Cover | undefined =>
    faces.map((face) => coverOf(v, face, { body, voids: near })).sort((a, b) => a.overMm - b.overMm)[0],
  { size: 4 },
);

function coverOf(v: Void, face: Face, place: Place): Cover {
  const points = pointsIn(v);
  let overMm = 0;
  let covered = 0;
  let where: Vec3 = points[0] ?? v.frame.origin;
  for (const p of points) {
    const depth = depthBelow(place, face, p);
    const over = materialAlong(place, face, p)
      .filter((s) => s.from < depth - HAIR)
      .reduce((sum, s) => sum + Math.min(s.to, depth) - s.from, 0);
    if (over > 0.01) covered++;
    if (over > overMm) {
      overMm = over;
      where = p;
    }
  }
  return { face, overMm, share: points.length > 0 ? covered / points.length : 0, at: where };
}

/** Points just inside the outline where the void begins, and one at its heart. */
function pointsIn(v: Void): readonly Vec3[] {
  const found: Vec3[] = [];
  for (const e of regionEdges(v.region)) {
    const r = edgeRect(e);
    const n = Math.min(8, 2 + Math.ceil(Math.hypot(r.u1 - r.u0, r.v1 - r.v0) / 6));
    for (let i = 0; i < n; i++) {
      const t = (i + 0.5) / n;
      const p = nearEdge(e, t);
      if (insideBy(v.region, p) > 0) found.push(ofFrame(v.frame, p.u, p.v, v.from));
    }
  }
  return found;
}

/** A hair to the left of an edge, inside its region, at a share of its length. */
function nearEdge(e: Edge, share: number): Point2 {
  const p = pointAt(e, share);
  const t = tangentAt(e, p);
  return { u: p.u - 0.05 * t.v, v: p.v + 0.05 * t.u };
}

const BAD = `part: housing
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  well: { kind: pocket, face: top, at: { x: 20, y: center }, size: { x: 20, y: 20 }, corner-radius: 4, depth: 10 }
  seat:
    kind: hole
    face: top
    from: well
    at: { x: 29, y: center }
    diameter: 6
    depth: 4
    bottom: flat
`;

export const covered: Rule = defineRule({
  name: 'access/covered',
  severity: 'error',
  summary: 'Material covers a feature along the spindle.',
  why: 'A feature below the surface is reached through what was cut above it. Where that is narrower or elsewhere, the tool would cut material that must stay.',
  formula:
    'Lines run from points just inside the feature’s outline up to the face that it is cut from. For a through feature the opposite face counts too. The most finished material on such a line is told, and the share of the outline that is covered. In a set-up it is the workpiece as it is then.',
  bounds: 'Geometry: above what is cut, the way must be open.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['x: 29', 'x: 24']),
  mends: 'Start the feature on its face instead of the floor below it, or cut it after what covers it.',
  find: buriedOnes,
  tell({ feature, of, face, overMm, share, at, cut, until = [] }, { part, about }) {
    const above = feature.from && part.featureByName.get(feature.from.name);
    const percent = Math.round(share * 100);
    const what = percent >= 99 ? feature.name : `${percent} % of ${feature.name}`;
    const shown = {
      of: [memberOf(of)],
      facts: { over_mm: overMm, share_percent: percent, start_mm: feature.startMm },
      at: [at],
    };
    if (cut)
      return {
        ...shown,
        message: `Set-up ${part.setups![cut.setup]!.name} (${face} up): ${about(overMm)} of material still cover ${what}. ${until.length > 0 ? `Cut ${list(until)} first.` : 'Cut it later, or in another set-up.'}`,
        span: cut.span,
        related: [{ span: feature.nameSpan, message: 'what is cut' }],
      };
    return {
      ...shown,
      message: `${subjectOf(part, memberOf(of))} ${above ? `starts on the floor of ${above.name} but is not fully inside it` : `is covered`}. Seen from ${face}, ${about(overMm)} of material cover ${percent} % of it. Move it ${above ? `inside ${above.name}, make ${above.name} larger` : 'under what is open, make that larger'}, or start it on the ${feature.face} face.`,
      span: feature.places[0]?.span ?? feature.from?.span ?? feature.nameSpan,
      related: [above && { span: above.nameSpan, message: 'what it starts on' }],
    };
  },
  keep: ({ feature, cut }) => ({ feature: feature.name, face: feature.face, setup: cut?.setup }),
  *mend({ feature, face, setup }, context) {
    const setups = context.part.setups ?? [];
    const own = setup === undefined ? undefined : setups[setup];
    if (!own) yield change(`Start it on the ${face} face`, removeField(context.tree, feature, 'from'));
    for (const to of own ? setups : [])
      yield change(
        to === own ? `Cut it last in ${to.name}` : `Cut it in ${to.name}`,
        moveCut(context, own!, to, feature),
      );
  },
});

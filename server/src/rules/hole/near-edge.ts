/** hole/near-edge – a tapped hole with too little material beside it. */

import type { BodyShape, Vec3, Void } from '../../geometry/types';
import { memo } from '../../memo';
import { FACE_AXIS, FACES, type Hole } from '../../model/model';
import { type Bored, parallel } from '../../process/drilling';
import { dot, inFrame, insideBy } from '../../process/section';
import type { Thread } from '../../tables/thread-form';
import { THREADS } from '../../tables/threads';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { moveFeature, placeAfter } from '../kit/edits';
import { list, memberOf, roundUp, spanOf, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holes } from './bores';

interface Near {
  readonly hole: Hole;
  readonly b: Bored;
  readonly webMm: number;
  readonly needMm: number;
  readonly to: string;
  /** Away from the outside, in part axes. */
  readonly away: Vec3;
}

/** For each tapped hole the thinnest web to the outside. Thin webs of any hole are `wall/thin`'s matter. */
function* nearOnes(context: RuleContext): Generator<Near> {
  for (const [hole, bores] of holes(context)) {
    const spec = hole.thread?.spec;
    if (!spec) continue;
    const needMm = context.limit('web') * spec.diameterMm;
    const webs = bores.flatMap((b) => websOf(b, context).map((w) => ({ hole, b, needMm, ...w })));
    const worst = webs.reduce<Near | undefined>((w, x) => (w && w.webMm <= x.webMm ? w : x), undefined);
    // A hole whose side is open has no web: it breaks out.
    if (worst && worst.webMm < needMm - SAME && worst.webMm > 0) yield worst;
  }
}

type Web = Pick<Near, 'webMm' | 'to' | 'away'>;

/** From the hole's wall to the sides of the body, and to steps, contours and slopes that took them away. */
function websOf(b: Bored, { solid, part }: RuleContext): readonly Web[] {
  const { body, voids } = solid;
  const along = [0, 1, 2].findIndex((i) => Math.abs(b.of.frame.w[i]!) > 0.5);
  const webs: Web[] = [];
  for (const i of [0, 1, 2] as const) {
    if (i === along || (body.form === 'round' && i !== body.axis)) continue;
    const [low, high] = FACES.filter((f) => 'xyz'.indexOf(FACE_AXIS[f].axis) === i);
    webs.push({ webMm: b.axis[i] - body.box.min[i] - b.radiusMm, to: low!, away: unit(i, 1) });
    webs.push({ webMm: body.box.max[i] - b.axis[i] - b.radiusMm, to: high!, away: unit(i, -1) });
  }
  if (body.form === 'round' && body.axis === along) {
    const off = [0, 1, 2].map((i) => (i === along ? 0 : b.axis[i]! - (body.box.min[i]! + body.box.max[i]!) / 2));
    const r = Math.hypot(...off) || 1;
    const away: Vec3 = [-off[0]! / r, -off[1]! / r, -off[2]! / r];
    webs.push({ webMm: body.radius - Math.hypot(...off) - b.radiusMm, to: 'round side', away });
  }
  for (const v of outsides(body, voids)) {
    if (!parallel(v, b.of) || !sharesDepth(v, b, along)) continue;
    const { u, v: q } = inFrame(v.frame, b.axis);
    if (!OUTER.has(v.role) && !isOpenAt(v, body, along) && !isOnIsland(v, u, q)) continue;
    const webMm = -insideBy(v.region, { u, v: q }) - b.radiusMm;
    const h = 0.01;
    const du = insideBy(v.region, { u: u + h, v: q }) - insideBy(v.region, { u: u - h, v: q });
    const dv = insideBy(v.region, { u, v: q + h }) - insideBy(v.region, { u, v: q - h });
    const away = [0, 1, 2].map((i) => -(du * v.frame.u[i]! + dv * v.frame.v[i]!) / (2 * h)) as unknown as Vec3;
    webs.push({ webMm, to: part.featureByName.has(v.feature) ? v.feature : 'outside', away });
  }
  return webs;
}

/** What may be the outside to a hole beside it: steps, contours, what reaches a side, what has an island. */
const outsides = memo((body: BodyShape, voids: readonly Void[]) =>
  voids.filter((v) => OUTER.has(v.role) || v.region.holes.length > 0 || [0, 1, 2].some((i) => isOpenAt(v, body, i))),
);

/** A pocket or slot that reaches a side of the body: what is in it is the open air. */
function isOpenAt(v: Void, body: BodyShape, along: number): boolean {
  if (v.role !== 'pocket' && v.role !== 'slot') return false;
  const { min, max } = body.box;
  return [0, 1, 2].some(
    (i) => i !== along && (v.bounds.min[i]! <= min[i]! + SAME || v.bounds.max[i]! >= max[i]! - SAME),
  );
}

/** The hole stands on an island of a pocket: the pocket is all round it, as the outside is. */
function isOnIsland(v: Void, u: number, q: number): boolean {
  if (v.role !== 'pocket' || v.region.holes.length === 0) return false;
  return insideBy(v.region, { u, v: q }) < 0 && insideBy({ outer: v.region.outer, holes: [] }, { u, v: q }) > 0;
}

interface WayIn {
  /** By how much, in part axes. */
  readonly by: Vec3;
  /** The sides it moves away from. */
  readonly from: readonly string[];
}

/** Away from every side that is too near, by what is missing there; none where that brings another side too near. */
function wayIn({ b, needMm }: Near, context: RuleContext): WayIn | undefined {
  const short = websOf(b, context).filter((w) => w.webMm > 0 && w.webMm < needMm - SAME);
  const by = [0, 1, 2].map((i) =>
    short.reduce((sum, w) => {
      const step = roundUp(needMm - w.webMm, context.part.units) * w.away[i]!;
      return Math.abs(sum) > Math.abs(step) && sum * step >= 0 ? sum : sum * step > 0 ? step : sum + step;
    }, 0),
  ) as unknown as Vec3;
  const axis = [0, 1, 2].map((i) => b.axis[i]! + by[i]!) as unknown as Vec3;
  const enough = websOf({ ...b, axis }, context).every((w) => w.webMm >= needMm - SAME);
  return enough ? { by, from: short.sort((v, w) => v.webMm - w.webMm).map((w) => w.to) } : undefined;
}

/** Metric screws that every drawer holds, mm. */
const USUAL: readonly number[] = [2, 2.5, 3, 4, 5, 6, 8, 10, 12];

/** The largest coarse metric thread that has its web here without being moved; the web grows as the tap hole shrinks. */
function thinner({ hole, b, webMm }: Near, context: RuleContext): Thread | undefined {
  const spec = hole.thread?.spec;
  if (spec?.series !== 'coarse') return undefined;
  return THREADS.filter((t) => t.series === 'coarse' && USUAL.includes(t.diameterMm) && t.diameterMm < spec.diameterMm)
    .sort((a, c) => c.diameterMm - a.diameterMm)
    .find((t) => webMm + b.radiusMm - t.tapDrillMm / 2 >= context.limit('web') * t.diameterMm);
}

const OUTER: ReadonlySet<string> = new Set(['step', 'contour']);
const unit = (i: number, sign: number): Vec3 => [i === 0 ? sign : 0, i === 1 ? sign : 0, i === 2 ? sign : 0];
const sharesDepth = (v: Void, b: Bored, axis: number) =>
  v.bounds.min[axis]! < b.of.bounds.max[axis]! - SAME && v.bounds.max[axis]! > b.of.bounds.min[axis]! + SAME;

const BAD = `part: bracket
material: aluminium-6061-t6
body: { x: 50, y: 20, z: 12 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: 5 }
    thread: M6
    depth: through
`;

export const nearEdge: Rule = defineRule({
  name: 'hole/near-edge',
  severity: 'hint',
  summary: 'A tapped hole has too little material beside it.',
  why: 'A thread spreads the wall around it. With too little material the wall bulges when it is tapped, and splits when the screw is tightened.',
  formula:
    'The material from the wall of the tap hole to the nearest outer face of the finished part. It must be `web` × the diameter of the thread.',
  limits: [
    {
      name: 'web',
      value: 0.5,
      unit: 'ratio',
      what: 'Material beside a tapped hole, as a share of the thread’s diameter (hint below).',
      source: 'common practice, no source (half a diameter is everyday, 1 to 1.5 comfortable)',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['y: 5 }', 'y: 6 }']),
  mends: 'Move the hole in. Where it is in the middle already, use the largest thread that has enough material there.',
  *find(context) {
    for (const near of nearOnes(context)) {
      const way = wayIn(near, context);
      yield { ...near, way, slim: way ? undefined : thinner(near, context) };
    }
  },
  tell({ hole, b, webMm, needMm, to, way, slim }, { length, limit, part, about }) {
    const ratio = limit('web');
    const also = way?.from.filter((side) => side !== to).map(placeName) ?? [];
    const share = ratio === 0.5 ? 'half its diameter' : ratio === 1 ? 'its diameter' : `${ratio} times its diameter`;
    const cure = way
      ? `Move it in by ${length(needMm - webMm)}${also.length > 0 ? ` there, and away from ${list(also)}` : ''}.`
      : `Use ${slim ? `${slim.designation}, or add` : 'a smaller thread, or add'} material around it.`;
    return {
      message: `${subjectOf(part, memberOf(b.of))} (${hole.thread!.designation}) has only ${about(webMm, needMm)} of material to ${placeName(to)}. It needs ${about(needMm)}: ${share} (rule of thumb), or the wall bulges. ${cure}`,
      has: about(webMm, needMm),
      needs: about(needMm),
      of: [memberOf(b.of)],
      span: spanOf(hole, 'at', 'thread'),
      facts: { web_mm: webMm, needed_mm: needMm, ratio, missing_mm: needMm - webMm, thinner: slim?.designation },
      at: [b.axis],
    };
  },
  keep: ({ hole, b: { of }, way, slim }) => ({
    of: hole.name,
    member: of.member,
    move: way && { du: dot(of.frame.u, way.by), dv: dot(of.frame.v, way.by) },
    slim: slim?.designation,
  }),
  *mend({ of, member, move, slim }, { part, tree }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    const to = move && placeAfter({ tree, part }, hole, [move.du, move.dv], member);
    if (move)
      yield change(
        `Move it to ${to}`,
        to === undefined ? undefined : moveFeature({ tree, part }, hole, [move.du, move.dv], member),
      );
    else if (slim && hole.thread && !hole.diameterGiven)
      yield change(`Use ${slim}`, { span: hole.thread.span, newText: slim });
  },
});

function placeName(to: string): string {
  if (to === 'outside' || to === 'round side') return `the ${to}`;
  return FACES.includes(to as (typeof FACES)[number]) ? `the ${to} face` : to;
}

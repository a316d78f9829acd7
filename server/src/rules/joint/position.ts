/** joint/position – holes may lie farther off than the screw’s play allows. */
import type { Screwed } from '../../model/joint-model';
import { columnOf, type Layer } from '../../process/joints/layers';
import { type Zone, zoneOf } from '../../process/joints/zones';
import { holeLimits } from '../../process/tolerances/fastener';
import { clearanceHole } from '../../tables/clearance';
import { fixedSumMm, floatingZoneMm } from '../../tables/position';
import { ROUNDING } from '../../tolerance';
import { defineRule, said } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { nameOf, pattern } from './pattern';
import { assembled } from './screwed';

export const position: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/position',
  severity: 'warning',
  summary: 'By their limits the holes of a joint may lie farther off than the screw allows.',
  why: 'Every hole lies a little off. Where both together may be off by more than the screw’s play, two good parts do not go together.',
  formula:
    'ASME Y14.5, appendix B, sizes at maximum material. Floating, with a nut: T₁ + T₂ is at most the play of the screw, (H₁ − F) + (H₂ − F). Fixed, with a thread: T₁ + T₂ is at most H − F; the zone of the thread projected above its face. Where it is not projected, or not so far, T₁ + T₂ (1 + 2 P / D) counts, as a hint. P is the thickness above, D the depth of thread. At maximum material a zone grows by as much as its hole, and so does the play. So the smallest holes decide. T is the position tolerance of the holes. Without one it is what the distance of two holes may be off, by its own or the general tolerance. It is a hint then. Of single holes nothing is said: the parts are shifted until they meet.',
  bounds: 'ASME Y14.5, appendix B.',
  limits: [],
  bad: example('  top: { screw: M4, through: lid.screws, into: tub.screws }\n'),
  good: example('  left: { screw: M5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  mends: 'Give the holes closer zones, or the next wider clearance hole.',
});

export function* positionFindings(joint: Screwed, context: JointContext): Generator<Finding> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  if (!found || found.mismatches.length > 0 || found.rows.length < 2) return;
  const through = found.layers.filter((l) => l.holes.some((h) => joint.through.includes(h.meeting)));
  const threaded = joint.nut ? undefined : found.layers.at(-1);
  const pairs = threaded
    ? through.map((l, i) => ({ layers: [l, threaded] as const, above: through.slice(i) }))
    : through.slice(1).map((l, i) => ({ layers: [through[i]!, l] as const, above: [] }));
  for (const { layers, above } of pairs) {
    const [za, zb] = [zoneOf(layers[0]), zoneOf(layers[1])];
    if (!za || !zb || layers[0] === layers[1]) continue;
    const finding = judged({ joint, layers, zones: [za, zb], above, context });
    if (finding) yield finding;
  }
}

/** Two parts whose holes lie over each other. `above`: of a thread, the parts between its face and the far side of the first. */
interface Pair {
  readonly joint: Screwed;
  readonly layers: readonly [Layer, Layer];
  readonly zones: readonly [Zone, Zone];
  readonly above: readonly Layer[];
  readonly context: JointContext;
}

function judged(pair: Pair): Finding | undefined {
  const { joint, layers, zones } = pair;
  const isFixed = !joint.nut;
  const playMm = playIn(joint, layers[0]) + (isFixed ? 0 : playIn(joint, layers[1]));
  const together = zones[0].mm + zones[1].mm;
  if (playMm <= 0) return undefined;
  const leaning = isFixed ? leaningIn(pair) : undefined;
  const leaningMm = leaning && fixedSumMm(zones[0].mm, zones[1].mm, leaning);
  const isGiven = zones.every((z) => z.by === 'position');
  const round = (mm: number) => pair.context.length(Number(trimmed(mm, mm < 1 ? 3 : 2)));
  if (together > playMm + ROUNDING)
    return told(pair, {
      severity: isGiven ? 'warning' : 'hint',
      has: together,
      needs: playMm,
      leaningMm,
      says: `the screw leaves ${round(playMm)} for both. Give each a position of ${round(eachOf(playMm))}${widerHoles(pair)}.`,
    });
  if (!isGiven || !leaning || leaningMm === undefined || leaningMm <= playMm + ROUNDING) return undefined;
  const far = leaning.projectedMm === undefined ? 'Its zone is not projected' : 'Its zone is projected too little';
  return told(pair, {
    severity: 'hint',
    has: leaningMm,
    needs: playMm,
    leaningMm,
    says: `the screw leaves ${round(playMm)}. ${far}, so that screws may stand tilted. Write \`projected: ${round(leaning.aboveMm)}\` there, or closer zones.`,
  });
}

interface Said {
  readonly severity: 'warning' | 'hint';
  readonly has: number;
  readonly needs: number;
  readonly leaningMm: number | undefined;
  readonly says: string;
}

function told({ joint, layers, zones, context }: Pair, { severity, has, needs, leaningMm, says }: Said): Finding {
  const [[a, b], [za, zb]] = [layers, zones];
  const round = (mm: number) => context.length(Number(trimmed(mm, mm < 1 ? 3 : 2)));
  return said(position, {
    severity,
    message: `${nameOf(a)} may be off by ${round(za.mm)} (${za.how}), ${nameOf(b)} by ${round(zb.mm)} (${zb.how}); ${says}`,
    has: round(has),
    needs: round(needs),
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: a.holes[0]!.meeting.span,
    related: [[a, za] as const, [b, zb] as const].map(([l, z]) =>
      context.there(l.piece, z.of?.span ?? l.holes[0]!.hole.nameSpan, `joint ${joint.name}: ${z.how}`),
    ),
    facts: {
      zones_mm: za.mm + zb.mm,
      play_mm: needs,
      first_mm: za.mm,
      second_mm: zb.mm,
      each_mm: eachOf(needs),
      unprojected_mm: leaningMm,
      ...(za.bonusMm !== undefined && { first_bonus_mm: za.bonusMm }),
      ...(zb.bonusMm !== undefined && joint.nut && { second_bonus_mm: zb.bonusMm }),
    },
  });
}

function eachOf(playMm: number): number {
  return Math.floor((playMm / 2) * 1000 + ROUNDING) / 1000;
}

/** What else would do. */
function widerHoles({ joint, layers: [a], context }: Pair): string {
  const wider = joint.screw.size && clearanceHole(joint.screw.size, 'coarse');
  const most = Math.max(...a.holes.map((h) => h.hole.diameter.mm));
  return wider && wider.diameterMm > most + ROUNDING
    ? `, or make the holes of ${a.piece.name} ${context.length(wider.diameterMm)}`
    : '';
}

/** How the thread lies under what is above its face, and how far its zone is projected. */
function leaningIn({ joint, layers: [, b], zones: [, zb], above }: Pair): Parameters<typeof fixedSumMm>[2] {
  const { threadDepth } = b.holes[0]!.hole;
  const columns = above.map((l) => columnOf(l.holes[0]!, l.piece));
  if (!threadDepth || columns.length === 0 || columns.includes(undefined)) return undefined;
  const aboveMm = columns.reduce((sum, c) => sum + c!.bottomMm - c!.topMm, joint.betweenMm);
  return { aboveMm, depthMm: threadDepth.mm, projectedMm: zb.projectedMm };
}

function playIn({ screw }: Screwed, { holes, piece }: Layer): number {
  return Math.min(...holes.map((h) => floatingZoneMm(holeLimits(h.hole, piece.part).leastMm, screw.diameterMm)));
}

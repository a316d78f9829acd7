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
    'ASME Y14.5, appendix B, sizes at maximum material. Floating, with a nut: T₁ + T₂ is at most the play of the screw, (H₁ − F) + (H₂ − F). Fixed, with a thread: T₁ + T₂ is at most H − F; the zone of the thread projected above its face. Where it is not projected, T₁ + T₂ (1 + 2 P / D) counts. P is the thickness above, D the depth of thread. T is the position tolerance of the holes. Without one it is what the distance of two holes may be off, by its own or the general tolerance. It is a hint then. Of single holes nothing is said: the parts are shifted until they meet.',
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
    ? through.map((l) => [l, threaded] as const)
    : through.slice(1).map((l, i) => [through[i]!, l] as const);
  for (const [a, b] of pairs) {
    const [za, zb] = [zoneOf(a), zoneOf(b)];
    if (!za || !zb || a === b) continue;
    const finding = judged(joint, [a, b], [za, zb], context);
    if (finding) yield finding;
  }
}

function judged(
  joint: Screwed,
  [a, b]: readonly [Layer, Layer],
  [za, zb]: readonly [Zone, Zone],
  context: JointContext,
): Finding | undefined {
  const isFixed = !joint.nut;
  const playMm = playIn(joint, a) + (isFixed ? 0 : playIn(joint, b));
  const zones = za.mm + zb.mm;
  if (zones <= playMm + ROUNDING || playMm <= 0) return undefined;
  const { length, there } = context;
  const by = za.by === 'position' && zb.by === 'position' ? 'position' : 'dimensions';
  const round = (mm: number) => length(Number(trimmed(mm, mm < 1 ? 3 : 2)));
  const wider = joint.screw.size && clearanceHole(joint.screw.size, 'coarse');
  const most = Math.max(...a.holes.map((h) => h.hole.diameter.mm));
  const holes =
    wider && wider.diameterMm > most + ROUNDING
      ? `, or make the holes of ${a.piece.name} ${length(wider.diameterMm)}`
      : '';
  const each = Math.floor((playMm / 2) * 1000 + ROUNDING) / 1000;
  return said(position, {
    severity: by === 'position' ? 'warning' : 'hint',
    message: `${nameOf(a)} may be off by ${round(za.mm)} (${za.how}), ${nameOf(b)} by ${round(zb.mm)} (${zb.how}); the screw leaves ${round(playMm)} for both. Give each a position of ${round(each)}${holes}.`,
    has: round(zones),
    needs: round(playMm),
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: a.holes[0]!.meeting.span,
    related: [[a, za] as const, [b, zb] as const].map(([l, z]) =>
      there(l.piece, z.of?.span ?? l.holes[0]!.hole.nameSpan, `joint ${joint.name}: ${z.how}`),
    ),
    facts: {
      zones_mm: zones,
      play_mm: playMm,
      first_mm: za.mm,
      second_mm: zb.mm,
      each_mm: each,
      unprojected_mm: isFixed ? unprojected([a, b], [za, zb]) : undefined,
    },
  });
}

/** What the two zones take of the play where that of the thread is not projected. */
function unprojected([a, b]: readonly [Layer, Layer], [za, zb]: readonly [Zone, Zone]): number | undefined {
  const [above, in_] = [columnOf(a.holes[0]!, a.piece), columnOf(b.holes[0]!, b.piece)];
  const { threadDepth } = b.holes[0]!.hole;
  if (!above || !in_ || !threadDepth) return undefined;
  return fixedSumMm(za.mm, zb.mm, { aboveMm: above.bottomMm - above.topMm, depthMm: threadDepth.mm });
}

function playIn({ screw }: Screwed, { holes, piece }: Layer): number {
  return Math.min(...holes.map((h) => floatingZoneMm(holeLimits(h.hole, piece.part).leastMm, screw.diameterMm)));
}

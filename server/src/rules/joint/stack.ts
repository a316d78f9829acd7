/** joint/stack – by the limits of its heights a stack leaves too little or too much. */
import type { Stacked } from '../../model/joint-model';
import { featureOf, type Pieces } from '../../process/joints/layers';
import { bodySize, depthIn, type Sized } from '../../process/joints/plays';
import { limitsOf } from '../../process/tolerances/limits';
import { ROUNDING } from '../../tolerance';
import { defineRule, said } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';

export const stack: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/stack',
  severity: 'warning',
  summary: 'A stack of heights may leave too little, or too much.',
  why: 'Heights add up, and so do their limits. At one end of all limits a lid clamps the housing and not the bearing, at the other end nothing.',
  formula:
    'As drawn, it is the sum of the heights. The least and the most left are all of them at their worst. The likely ± is the root of the sum of their squares, about the middle: it is seldom exceeded. A warning where least or most lies outside `leaves`. A hint where only the worst case does, and the likely one does not. An error where the drawing itself does.',
  bounds: 'The `leaves` of the joint in the job.',
  limits: [],
  bad: example('  seat: { stack: [bearing-block.bearing-seat, -7 +0/-0.12], leaves: [0, 0.1] }\n'),
  good: example('  seat: { stack: [bearing-block.bearing-seat, -7 +0/-0.12], leaves: [-0.3, 0.4] }\n'),
  mends: 'Give the widest of them closer limits, or more room to the stack.',
});

/** What a height is; undefined where its part, or the feature, is not known. */
function heightOf(height: Stacked['heights'][number]['height'], pieces: Pieces): Sized | undefined {
  if ('size' in height) return { length: height.size };
  const piece = pieces.get(height.of.piece.name);
  return piece && (bodySize(piece, height.of.feature.name) ?? depthIn(featureOf(height.of, pieces)));
}

/** All heights with their limits, and what they come to; undefined where one is not known. */
export function heightsOf(joint: Stacked, pieces: Pieces) {
  const all = joint.heights.map((h) => ({ ...h, sized: heightOf(h.height, pieces) }));
  if (all.length === 0 || all.some((h) => !h.sized)) return undefined;
  let [nominalMm, middleMm, worstMm, squares] = [0, 0, 0, 0];
  const ranges = all.map(({ sign, sized, height, text }) => {
    const { mm } = sized!.length;
    const limits = limitsOf(sized!.length, sized!.part) ?? { leastMm: mm, mostMm: mm };
    const half = (limits.mostMm - limits.leastMm) / 2;
    nominalMm += sign * mm;
    middleMm += (sign * (limits.leastMm + limits.mostMm)) / 2;
    worstMm += half;
    squares += half ** 2;
    return { sign, half, sized: sized!, height, text };
  });
  return { ranges, nominalMm, middleMm, worstMm, likelyMm: Math.sqrt(squares) };
}

export function* stackFindings(joint: Stacked, { pieces, length, there }: JointContext): Generator<Finding> {
  const stacked = heightsOf(joint, pieces);
  if (!stacked) return;
  const { ranges, nominalMm: nominal, middleMm: middle, worstMm: worst, likelyMm: likely } = stacked;
  const { leastMm, mostMm } = joint;
  const out = (low: number, high: number) => low < leastMm - ROUNDING || high > mostMm + ROUNDING;
  if (!out(middle - worst, middle + worst)) return;
  const widest = ranges.reduce((a, b) => (b.half > a.half ? b : a));
  const round = (mm: number) => length(Number(trimmed(mm, Math.abs(mm) < 1 ? 3 : 2)));
  const severity = out(nominal, nominal) ? 'error' : out(middle - likely, middle + likely) ? 'warning' : 'hint';
  const at = 'of' in widest.height ? widest.height.of : undefined;
  const piece = at && pieces.get(at.piece.name);
  const seldom = severity === 'hint' ? ', which seldom happens' : '';
  yield said(stack, {
    severity,
    message: `The stack leaves ${round(middle - worst)} to ${round(middle + worst)} at worst${seldom}; it may leave ${round(leastMm)} to ${round(mostMm)}. ${severity !== 'error' && worst > 0 ? `Give ${widest.text} closer limits than ± ${round(widest.half)}.` : 'Make one of its heights another.'}`,
    has: `${round(middle - worst)} to ${round(middle + worst)}`,
    needs: `${round(leastMm)} to ${round(mostMm)}`,
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: joint.leavesSpan,
    related: piece ? [there(piece, widest.sized.length.span, `joint ${joint.name}: the widest of its heights`)] : [],
    facts: { nominal_mm: nominal, least_mm: middle - worst, most_mm: middle + worst, likely_mm: likely },
  });
}

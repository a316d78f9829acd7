/** Boxes by their spans along the three part axes, in any order. */
import type { Box } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';

type Spans = Partial<Record<AxisIndex, readonly [number, number]>>;

export function boxOf(spans: Spans): Box {
  const low = (i: AxisIndex) => Math.min(...spans[i]!);
  const high = (i: AxisIndex) => Math.max(...spans[i]!);
  return { min: [low(0), low(1), low(2)], max: [high(0), high(1), high(2)] };
}

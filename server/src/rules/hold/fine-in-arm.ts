/** Part of hold/squeeze: a bore to a fit is made in an arm that a slit has freed, while the jaws press across the slit. */

import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Hole } from '../../model/model';
import type { Cut } from '../../process/stock/types';
import type { InJaws } from '../../process/workholding/in-jaws';
import type { Squeezed } from '../../process/workholding/squeeze';
import { SAME } from '../../tolerance';
import type { Told } from '../kit/define';
import type { RuleContext } from '../kit/rule';

export interface Fine {
  readonly x: InJaws;
  readonly cut: Cut;
  readonly gap: string;
  readonly widthMm: number;
}

/** Each bore once, whatever number of gaps free its arm. */
export function* finesInArms(
  x: InJaws,
  squeezed: readonly Squeezed[],
  context: RuleContext,
  tightestMm: (hole: Hole) => number | undefined,
): Generator<Fine> {
  const arms = squeezed.filter((q) => q.as === 'arm');
  if (arms.length === 0) return;
  for (const cut of x.inTime.cuts) {
    const { feature } = cut;
    if (feature?.kind !== 'hole') continue;
    const widthMm = tightestMm(feature);
    if (widthMm === undefined || widthMm > context.limit('fine')) continue;
    const arm = arms.find((q) => isThereBefore(q.of.feature, cut, x) && liesInArm(cut, q, x));
    if (arm) yield { x, cut, gap: arm.of.feature, widthMm };
  }
}

function isThereBefore(gap: string, cut: Cut, { inTime: s }: InJaws): boolean {
  const own = s.cuts.find((c) => c.name === gap);
  return gap !== cut.name && (own === undefined || own.order < cut.order);
}

/** Some of it in the metal between the gap and a jaw, beside the gap's length. */
function liesInArm(cut: Cut, { of }: Squeezed, { inVise: h }: InJaws): boolean {
  const deep = ([0, 1, 2] as const).find((i) => Math.abs(of.frame.w[i]) > 0.5)!;
  const across = (3 - h.jawAxis - deep) as AxisIndex;
  const { min, max } = of.bounds;
  return cut.removes.some(({ bounds: b }) => {
    const beside = b.min[h.jawAxis] < min[h.jawAxis] - SAME || b.max[h.jawAxis] > max[h.jawAxis] + SAME;
    return beside && b.max[across] > min[across] + SAME && b.min[across] < max[across] - SAME;
  });
}

export function tellFine({ x, cut, gap, widthMm }: Fine, context: RuleContext): Told {
  const { inTime: s, inVise: h, hold } = x;
  const up = s.up ? AXIS_INDEX[FACE_AXIS[s.up].axis] : undefined;
  const other = (['back', 'left', 'bottom'] as const).find((f) => {
    const i = AXIS_INDEX[FACE_AXIS[f].axis];
    return i !== h.jawAxis && i !== up;
  });
  const clamp = other ? `, or grip ${other} and the face opposite` : '';
  return {
    message: `Set-up ${s.setup.name}: the jaws press across ${gap}, which is open by then. Feature ${cut.name} in the arm beside it has a tolerance ${context.length(widthMm)} wide, and moves when the vise opens. Make ${cut.name} before ${gap}${clamp}.`,
    of: [cut.name],
    span: cut.span,
    related: [{ span: hold.jaws?.[0]?.span ?? hold.span, message: 'the jaws' }],
    facts: {
      set_up: s.setup.name,
      gap,
      width_mm: widthMm,
      fine_mm: context.limit('fine'),
      as: 'fit in an arm',
    },
  };
}

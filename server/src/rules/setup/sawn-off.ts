/** setup/sawn-off – the part is to be sawn off where there is nothing to saw. */
import { RUN_OUT_MM } from '../../process/stock/sawn-off';
import type { SawnOff, SetupInTime } from '../../process/stock/types';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { PRINTED_ALIKE_MM } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { setupsIn } from '../kit/setups';

interface Trouble {
  readonly s: SetupInTime;
  readonly off: SawnOff;
  /** It was sawn off there before. */
  readonly twice: boolean;
}

function* wrong(context: RuleContext): Generator<Trouble> {
  const before = new Set<string>();
  for (const s of setupsIn(context)) {
    const off = s.sawnOff;
    if (!off) continue;
    const twice = before.has(off.face);
    before.add(off.face);
    const settled = s.index < (context.part.settled ?? 0);
    if (!settled && (twice || off.restMm < context.limit('kerf') - PRINTED_ALIKE_MM)) yield { s, off, twice };
  }
}

const BAD = `part: latch
material: brass-cw614n
body: { x: 30, y: 12, z: 10 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 1.5 } }
features:
  pin: { kind: hole, face: top, at: { x: 25, y: center }, diameter: 3, depth: through }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, overhang: { right: 14 } }
    cuts: [pin, { cut: left, by: saw, leave: 1 }]
  second:
    up: left
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 6 }
    cuts: [left]
`;

export const sawnOff: Rule = defineRule({
  name: 'setup/sawn-off',
  severity: 'error',
  summary: 'The part is sawn off where no stock is left to saw.',
  why: 'Work on the end of a bar is held by what stays in the vise. Where nothing is left beyond the cut, the saw has nothing to guide it and eats into the part.',
  formula: `The stock beyond the saw cut is what \`extra\` says, less \`leave\`. It must be as wide as a saw, \`kerf\`. What is milled across that end before it is sawn off runs out ${RUN_OUT_MM} mm beyond the cut (rule of thumb).`,
  limits: [
    {
      name: 'kerf',
      value: 2,
      unit: 'mm',
      what: 'Width that a saw cuts away.',
      source: 'common practice, no source: 1 to 3 mm, as `saw-kerf` of a job',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['extra: { left: 1.5', 'extra: { left: 40']),
  find: wrong,
  tell({ s, off: { face, restMm, span }, twice }, { length, limit }) {
    const where = `Set-up ${s.setup.name} saws the part off at the ${face} face`;
    return {
      message: twice
        ? `${where}, and so does an earlier one. After that nothing is left to saw. Delete one of the two.`
        : `${where}. Beyond the cut there is ${restMm > 0 ? `only ${length(restMm)} of` : 'no'} stock; a saw cuts ${length(limit('kerf'))}. Leave more stock on ${face}, or face it instead.`,
      ...(!twice && { has: length(restMm), needs: length(limit('kerf')) }),
      of: [face],
      span,
      facts: { set_up: s.setup.name, rest_mm: restMm, run_out_mm: RUN_OUT_MM },
    };
  },
});

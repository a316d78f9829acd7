/** hold/opening – the work is wider than the vise opens, or much longer than its jaws. */

import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { apartFor } from '../../process/workholding/jaws-along';
import { ROUNDING, SAME } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { heldIn, otherJaws, setHold } from '../kit/holds';
import { figure } from '../kit/message';
import { laidDown } from '../kit/other-holds';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { held, SEAT } from './samples';

interface Misfit {
  readonly x: InJaws;
  /** Of work that is long for the jaws; of what is too wide for the vise nothing. */
  readonly longMm?: number;
  /** Two vises in line that there are not, or that would stand in each other. */
  readonly two?: 'one' | 'near';
}

function misfitOf(x: InJaws, { limit }: RuleContext): Misfit | undefined {
  const { inVise: h, hold } = x;
  if (h.openingMm + h.blockMm > h.vise.opensMm + SAME) return { x };
  if (hold.apart && !h.gapMm) return { x, two: 'near' };
  if (hold.apart && h.vise.count < 2) return { x, two: 'one' };
  const longMm = h.workToMm - h.workFromMm;
  return longMm / h.vise.jawWidthMm > limit('length') + ROUNDING ? { x, longMm } : undefined;
}

function tellWide({ inTime: s, inVise: h, hold }: InJaws, { length, shop }: RuleContext): Told {
  const wider = shop.vises.filter((v) => v.opensMm >= h.openingMm).map((v) => v.name);
  return {
    message: `Set-up ${s.setup.name}: the workpiece is ${length(h.openingMm)} wide from ${h.fixed} to ${h.moving}${h.blockMm > 0 ? `, plus ${hold.vBlock ? 'a V-block' : 'a soft strip'} of ${length(h.blockMm)}` : ''}. ${h.vise.name} opens ${length(h.vise.opensMm)}. ${wider.length > 0 ? `Use ${wider.join(' or ')}.` : 'Grip the narrower faces, or clamp it on the table.'}`,
    has: length(h.vise.opensMm),
    needs: length(h.openingMm + h.blockMm),
    of: [],
    span: hold.jaws?.[0]?.span ?? hold.span,
    facts: { set_up: s.setup.name, opening_mm: h.openingMm, opens_mm: h.vise.opensMm, vise: h.vise.name },
  };
}

function tellTwo({ inTime: s, inVise: h, hold }: InJaws, two: 'one' | 'near', { length }: RuleContext): Told {
  const why =
    two === 'one'
      ? `the shop has one ${h.vise.name}. Two in line must be alike, or the workpiece rocks. Use one and support its ends, or write \`count: 2\` in the shop.`
      : `two ${h.vise.name} cannot be ${length(hold.apart!.mm)} apart: their jaws are ${length(h.vise.jawWidthMm)} wide. Move them farther apart.`;
  return {
    message: `Set-up ${s.setup.name} grips in two vises in line, but ${why}`,
    of: [],
    span: hold.apart!.span,
    facts: { set_up: s.setup.name, apart_mm: hold.apart!.mm, vise: h.vise.name, count: h.vise.count },
  };
}

function tellLong({ inTime: s, inVise: h, hold }: InJaws, longMm: number, { length, limit }: RuleContext): Told {
  const ratio = longMm / h.vise.jawWidthMm;
  return {
    severity: 'warning',
    message: `Set-up ${s.setup.name}: the workpiece is ${length(longMm)} long, ${figure(ratio)} times the jaws of ${h.vise.name} (${length(h.vise.jawWidthMm)}). Its ends bend and vibrate under the cutter. Support them, use two vises in line, or clamp it on the table.`,
    of: [],
    span: hold.vise?.span ?? hold.span,
    facts: {
      set_up: s.setup.name,
      length_mm: longMm,
      jaw_mm: h.vise.jawWidthMm,
      ratio,
      limit_ratio: limit('length'),
    },
  };
}

const SAMPLE = { body: '{ x: 100, y: 120, z: 20 }', features: SEAT, cuts: '[seat]' };

export const opening: Rule = defineRule({
  name: 'hold/opening',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'The workpiece is wider than the vise opens, or much longer than its jaws.',
  why: 'You notice that a vise does not open far enough only with the part in hand. If the jaws are too short for the workpiece, its ends vibrate under the cutter.',
  formula:
    'The width between the two gripped surfaces, against what the vise opens. The length of the workpiece along the jaws over the jaw width, against the limit `length`. Two vises in line (`apart`) must be alike and side by side. The jaws reach from the first to the last of them.',
  limits: [
    {
      name: 'length',
      value: 1.5,
      unit: 'ratio',
      what: 'Largest length of the workpiece over the width of the jaws.',
      source: 'common practice, no source',
    },
  ],
  bad: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }' }),
  good: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [left, right], grip: 10, parallels: 22 }' }),
  mends: 'Use a vise that opens far enough, grip the other pair of faces, or use clamps or screws.',
  find: (context) => heldOf(context).flatMap((x) => misfitOf(x, context) ?? []),
  tell({ x, longMm, two }, context) {
    if (two) return tellTwo(x, two, context);
    return longMm === undefined ? tellWide(x, context) : tellLong(x, longMm, context);
  },
  keep: ({ x, longMm }) => ({ setup: x.inTime.setup.name, isLong: longMm !== undefined }),
  *mend({ setup, isLong }, context): Generator<Fix | undefined> {
    const x = heldIn(setup, context);
    if (!x) return;
    const { min, max } = x.seating.box;
    const other = max[x.inVise.alongAxis] - min[x.inVise.alongAxis];
    if (isLong || other <= x.inVise.vise.opensMm) yield otherJaws(x, context);
    for (const vise of context.shop.vises) {
      if (vise.name === x.inVise.vise.name || vise.opensMm < x.inVise.openingMm) continue;
      yield change(`Hold it in ${vise.name}`, setHold(context, x.inTime.setup, 'vise', vise.name));
    }
    if (isLong && x.inVise.vise.count > 1) {
      const apart = apartFor(x.inVise.workToMm - x.inVise.workFromMm, x.inVise.vise.jawWidthMm);
      yield change(
        'Hold it in two such vises in line',
        setHold(context, x.inTime.setup, 'apart', context.write(apart)),
      );
    }
    yield* laidDown(x, context);
  },
});

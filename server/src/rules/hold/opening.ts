/** hold/opening – the work is wider than the vise opens, or much longer than its jaws. */
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { heldFor, otherJaws, setHold } from '../kit/holds';
import { fact, trimmed } from '../kit/message';
import { laidDown } from '../kit/other-holds';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { held } from './samples';

const NAME = 'hold/opening';

function* findingsOf(x: InJaws, context: RuleContext): Generator<Finding> {
  const { length, shop, limit } = context;
  const { s, h, hold } = x;
  const base = { rule: NAME, of: [], related: [] };
  if (h.openingMm > h.vise.opensMm + 1e-6) {
    const wider = shop.vises.filter((v) => v.opensMm >= h.openingMm).map((v) => v.name);
    yield {
      ...base,
      severity: shop.builtIn ? 'warning' : 'error',
      message: `In ${s.setup.name} the work is ${length(h.openingMm)} wide from ${h.fixed} to ${h.moving}, and ${h.vise.name} opens ${length(h.vise.opensMm)}. ${wider.length > 0 ? `${wider.join(' or ')} opens wide enough.` : 'Clamp the narrower sides, or clamp it down on the table.'}`,
      span: hold.jaws?.[0]?.span ?? hold.span,
      facts: {
        set_up: s.setup.name,
        opening_mm: fact(h.openingMm),
        opens_mm: fact(h.vise.opensMm),
        vise: h.vise.name,
      },
    };
    return;
  }
  const long = h.workToMm - h.workFromMm;
  const ratio = long / h.vise.jawWidthMm;
  if (ratio <= limit('length') + 1e-9) return;
  yield {
    ...base,
    severity: 'warning',
    message: `In ${s.setup.name} the work is ${length(long)} long and the jaws of ${h.vise.name} are ${length(h.vise.jawWidthMm)} wide: ${trimmed(ratio, 1)} times. Its ends sag and ring under the cutter; prop them, hold it in two vises in line, or clamp it down on the table.`,
    span: hold.vise?.span ?? hold.span,
    facts: {
      set_up: s.setup.name,
      length_mm: fact(long),
      jaw_mm: fact(h.vise.jawWidthMm),
      ratio: fact(ratio),
      limit_ratio: limit('length'),
    },
  };
}

export const opening: Rule = {
  name: NAME,
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'Wider than the vise opens, or much longer than its jaws.',
  why: 'A vise that does not open far enough is found out with the part in hand. One that is short for the work leaves its ends in the air, where they sing under the cutter.',
  formula:
    '`opening_mm` between the two clamped surfaces within the grip, against what the vise opens; `length_mm` of the work along the jaws over `jaw_mm`, against the limit `length`.',
  limits: [
    {
      name: 'length',
      value: 1.5,
      unit: 'ratio',
      what: 'Length of the work over the width of the jaws, at most',
      source: 'common practice, no source',
    },
  ],
  bad: held({
    body: '{ x: 100, y: 120, z: 20 }',
    features:
      '  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }\n',
    hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }',
    cuts: '[seat]',
  }),
  good: held({
    body: '{ x: 100, y: 120, z: 20 }',
    features:
      '  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }\n',
    hold: '{ vise: mill-vise-100, jaws: [left, right], grip: 10, parallels: 22 }',
    cuts: '[seat]',
  }),
  mends:
    'Another vise that opens far enough, or the other pair of sides clamped; clamps on the table, or screws through its own holes.',
  *find(context) {
    for (const x of heldOf(context.part, context.solid, context.shop)) yield* findingsOf(x, context);
  },
  *mend(finding, context): Generator<Fix> {
    const x = heldFor(finding, context);
    if (!x) return;
    const { min, max } = x.seating.box;
    const other = max[x.h.alongAxis] - min[x.h.alongAxis];
    const turned =
      finding.facts.opening_mm === undefined || other <= x.h.vise.opensMm ? otherJaws(x, context) : undefined;
    if (turned) yield turned;
    for (const vise of context.shop.vises) {
      if (vise === x.h.vise || vise.opensMm < x.h.openingMm) continue;
      const edits = setHold(context, x.s.setup, 'vise', vise.name);
      if (edits) yield { title: `Hold it in ${vise.name}`, safe: false, edits };
    }
    yield* laidDown(x, context);
  },
};

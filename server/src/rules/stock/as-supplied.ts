/** stock/as-supplied – both faces of a size stay as the bar came, and the bar is not made as closely as the size asks. */

import type { Face, Length, Part } from '../../model/model';
import { sectionKind } from '../../model/section';
import { ENDS, suppliedAcross, suppliedRound } from '../../process/supplied';
import type { BarDeviation } from '../../tables/bar-tolerances';
import { generalLinear, parseGeneralTolerance } from '../../tables/general-tolerances';
import { writeLength } from '../../text/format';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { list, roundUp } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { setExtra } from './extra';

interface Size {
  /** `y`, or `diameter`; and the faces it is between. */
  readonly what: string;
  readonly faces: readonly Face[];
  readonly off: BarDeviation;
  readonly length: Length;
}

interface Loose extends Size {
  readonly allowed: readonly [lower: number, upper: number];
  /** By the part's general tolerance, which nobody wrote for this size. */
  readonly general: boolean;
}

function* sizesOf({ part, shop }: RuleContext): Generator<Size> {
  const { body } = part;
  if (body?.form === 'box')
    for (const { axis, faces, off } of suppliedAcross(part, shop)) {
      yield { what: axis, faces, off, length: body[axis] };
      // The same said of its two faces as a distance.
      for (const { characteristic, of, value } of part.tolerances)
        if (characteristic === 'distance' && of.length === 2 && ENDS[axis].every((f) => of.some((o) => o.name === f)))
          yield { what: `From ${ENDS[axis].join(' to ')} it`, faces, off, length: value };
    }
  const off = suppliedRound(part, shop);
  if (body?.form === 'round' && off) yield { what: 'diameter', faces: [], off, length: body.diameter };
}

function* loose(context: RuleContext): Generator<Loose> {
  const { part, limit } = context;
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  for (const size of sizesOf(context)) {
    const { tolerance, mm } = size.length;
    const { upperMm, lowerMm } = size.off;
    if (tolerance) {
      if (tolerance.upperMm === undefined || tolerance.lowerMm === undefined) continue;
      if (lowerMm >= tolerance.lowerMm - ROUNDING && upperMm <= tolerance.upperMm + ROUNDING) continue;
      yield { ...size, allowed: [tolerance.lowerMm, tolerance.upperMm], general: false };
      continue;
    }
    const half = general && generalLinear(mm, general.linear, size.length.text)?.value;
    if (half === undefined || Math.max(upperMm, -lowerMm) <= limit('general') * half + ROUNDING) continue;
    yield { ...size, allowed: [-half, half], general: true };
  }
}

/** Then more outside the body would be another bar than the one that is written. */
const sizesWritten = ({ stock }: Part) => stock.thickness !== undefined || stock.width !== undefined;

const signed = (mm: number, { units }: Part) => `${mm < 0 ? '−' : '+'}${writeLength(Math.abs(mm), units)}`;

function rangeText([lower, upper]: readonly [number, number], part: Part): string {
  const { units } = part;
  if (Math.abs(lower + upper) < ROUNDING) return `±${writeLength(upper, units)}`;
  return `${upper === 0 ? '0' : signed(upper, part)} / ${lower === 0 ? '0' : signed(lower, part)}`;
}

const BAD = `part: slider
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40 ±0.05, z: 16 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
`;

export const asSupplied: Rule = defineRule({
  name: 'stock/as-supplied',
  severity: 'warning',
  summary: 'A size between two faces as supplied has a closer tolerance than bars have.',
  why: 'These two faces are not cut, so the part is as wide as the bar. Bars are rolled, drawn or extruded within limits of their own. For a closer size mill one side, or measure the bar and choose it.',
  formula:
    'The limits of the bar’s section, or of a plate’s thickness, against the tolerance of that size of the body. Extruded aluminium: EN 755-3, -4, -5 by alloy group, ASTM B221. Plate: EN 485-3. Cold drawn steel and stainless: EN 10278, ASTM A108. Brass and copper: EN 12164, EN 12167. Tube, angle, channel and tee of aluminium: EN 755-8, -9. Steel tube and angle: EN 10219-2, EN 10056-2. Inch documents use the American ones. Limits that the part writes under `stock` count before those, then limits of the rack. Castings: ISO 8062-3 by `grade`, and there one face that stays as cast is enough. It counts where neither face is sawn, has stock on it or is faced. The general tolerance gives a hint, where the bar’s limits are over `general` times as wide.',
  limits: [
    {
      name: 'general',
      value: 2,
      unit: 'ratio',
      what: 'Times the general tolerance that the bar’s own limits may be.',
      source: 'common practice, no source: most bars lie well inside their limits',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['40 ±0.05', '40 ±0.5']),
  mends: 'Use the bar’s own limits as tolerance, or leave a little on one face to be milled.',
  find: loose,
  tell({ what, faces, off, length, allowed, general }, { part, length: shown }) {
    const bar = [off.lowerMm, off.upperMm] as const;
    const { form } = part.stock;
    const kind = form === 'plate' || form === 'casting' || sectionKind(form) ? form : 'bar';
    const both = faces.length > 1;
    const stays = both
      ? `${list(faces)} both stay as supplied`
      : faces.length > 0
        ? `${faces[0]} stays as cast`
        : 'it stays as supplied';
    const would = both ? 'Mill one of them' : faces.length > 0 ? 'Mill it' : 'Have it turned or ground';
    const by = general ? part.tolerance! : undefined;
    return {
      severity: general ? 'hint' : 'warning',
      message: `${what} is ${shown(length.mm)} ${rangeText(allowed, part)}${by ? ` by ${by.name}` : ''}, and ${stays}. The ${kind} has ${rangeText(bar, part)} (${off.source}). ${would}, or allow what the ${kind} has.`,
      has: rangeText(bar, part),
      needs: rangeText(allowed, part),
      of: [...faces],
      span: length.span,
      related: [
        { span: part.stock.span, message: 'no stock is left outside these faces' },
        by && { span: by.span, message: by.name },
      ],
      facts: {
        size_mm: length.mm,
        allowed_lower_mm: allowed[0],
        allowed_upper_mm: allowed[1],
        bar_lower_mm: off.lowerMm,
        bar_upper_mm: off.upperMm,
      },
    };
  },
  keep: ({ length, off: { lowerMm, upperMm }, faces }, { part }) =>
    length.from
      ? undefined
      : {
          span: length.span,
          text: length.text,
          tolerance: length.tolerance?.text,
          lowerMm,
          upperMm,
          face: sizesWritten(part) ? undefined : faces.at(-1),
        },
  *mend({ span, text: size, tolerance, lowerMm, upperMm, face }, context) {
    const { part, length: shown } = context;
    const value = (tolerance ? size.slice(0, size.lastIndexOf(tolerance)) : size).trim();
    const own = Math.abs(lowerMm + upperMm) < ROUNDING;
    const number = (mm: number) => writeLength(Math.abs(mm), part.units, 'up');
    // Limits are in the document's unit: behind a value with a unit of its own they would be read in that one.
    if (!/[a-z"]\s*$/i.test(value)) {
      const newText = `${value} ${own ? `±${number(upperMm)}` : `+${number(upperMm)}/-${number(lowerMm)}`}`;
      yield change(`Allow what the bar has: ${newText}`, { span, newText });
    }
    const more = roundUp(Math.max(0.5, upperMm - lowerMm), part.units);
    if (face) yield change(`Leave ${shown(more)} on the ${face} face, to be milled`, setExtra(face, more, context));
  },
});

/** tol/measured – a piece that was made and measured is out of its limits: told where its record is read. */
import type { Measured } from '../../model/record';
import { MM_PER_INCH } from '../../text/format';
import { ROUNDING } from '../../tolerance';
import { defineRule, said } from '../kit/define';
import type { Finding, Rule } from '../kit/rule';

const example = (value: string) => `record: bearing-block.part.yaml
measured:
  - { piece: 1, of: bearing-seat, size: diameter, value: ${value} }
`;

export const measuredOut: Rule = defineRule({
  name: 'tol/measured',
  severity: 'warning',
  summary: 'A piece that was measured is out of the limits of a size.',
  why: 'A piece that is out does not fit, or fits too well to come off again. Before it is scrapped it is worth a second measuring, by a second hand.',
  formula:
    'What the record says was measured lies outside the limits that the part gives that size today. By how much is positive above them, negative below. What an older text was made by is checked by today’s limits too.',
  bounds: 'The limits that the part gives the size.',
  limits: [],
  // about a record, not a part: told as it is read, as what is about a whole job is
  when: 'job',
  bad: example('22.031'),
  good: example('22.012'),
  find: () => [],
  tell: (hit: never) => hit,
});

/** Written in the other unit it would be near: that is asked first. */
function whatNow({ valueMm }: Measured, least: number, most: number): string {
  const middle = (least + most) / 2;
  const isNear = (mm: number) => Math.abs(mm - middle) < OTHER_UNIT * middle;
  const write = (typed: number, unit: string, name: string) =>
    `Write \`${Number(typed.toFixed(4))} ${unit}\` if it was measured in ${name}.`;
  if (isNear(valueMm)) return AGAIN;
  if (isNear(valueMm * MM_PER_INCH)) return write(valueMm, 'in', 'inches');
  return isNear(valueMm / MM_PER_INCH) ? write(valueMm / MM_PER_INCH, 'mm', 'millimetres') : AGAIN;
}

const AGAIN = 'Measure it again before it is used.';

/** So near to its size, as a share of that, a value in the other unit is taken to be. */
const OTHER_UNIT = 0.05;

interface OutSize {
  readonly measured: Measured;
  readonly name: string;
  readonly limitsMm: readonly [least: number, most: number];
  readonly outMm: number;
}

export function measuredFindings(sizes: readonly OutSize[], length: (mm: number) => string): readonly Finding[] {
  return sizes.flatMap(({ measured, name, limitsMm: [least, most], outMm }) => {
    if (Math.abs(outMm) <= ROUNDING) return [];
    const piece = measured.piece === undefined ? '' : `Piece ${measured.piece}: `;
    const over = outMm > 0 ? 'over its most' : 'under its least';
    const limits = `${length(least)} to ${length(most)}`;
    return [
      said(measuredOut, {
        message: `${piece}${name} is ${length(measured.valueMm)}, ${length(Math.abs(outMm))} ${over}; it may be ${limits}. ${whatNow(measured, least, most)}`,
        has: length(measured.valueMm),
        needs: limits,
        of: measured.of ? [measured.of.name] : [],
        span: measured.span,
        facts: { out_mm: outMm, least_mm: least, most_mm: most, measured_mm: measured.valueMm },
      }),
    ];
  });
}

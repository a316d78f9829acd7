/** A judged record in words, and as JSON. What it offers for the shop's file is told as lines to put there: nothing is written. */
import type { PartRecord } from '../../model/record';
import { formatFine } from '../../text/format';
import { json } from '../../text/shown';
import type { JudgedRecord, JudgedSize } from './record';
import { ENOUGH } from './spread';

type Units = PartRecord['units'];

export function recordLines(path: string, judged: JudgedRecord, record: PartRecord): readonly string[] {
  const { sizes, processes, times } = judged;
  const out = sizes.filter((s) => s.current && s.outMm !== 0);
  const older = sizes.filter((s) => !s.current).length;
  return [
    `${path}: ${sizes.length} ${sizes.length === 1 ? 'size' : 'sizes'} measured, ${out.length} out of limits`,
    ...out.map((s) => `  out   ${sizeText(s, record.units)}`),
    ...(older > 0 ? [`  ${older} made by an older text: not checked by today’s limits`] : []),
    ...(processes.length > 0 ? ['  what is held here', ...processes.map((p) => `    ${processText(p)}`)] : []),
    ...(times.length > 0
      ? [
          '  times in this shop',
          ...times.map(
            (t) => `    ${t.what}: ${rangeText(t.minutes)} min (${t.count === 1 ? 'once' : `${t.count} times`})`,
          ),
        ]
      : []),
    ...record.changed.map((text) => `  changed at the machine: ${text}`),
    ...offered(judged),
  ];
}

function sizeText({ measured, name, limitsMm, outMm }: JudgedSize, units: Units): string {
  const length = (mm: number) => formatFine(Number(mm.toFixed(4)), units);
  const piece = measured.piece === undefined ? '' : `piece ${measured.piece}: `;
  const over = `${length(Math.abs(outMm))} ${outMm > 0 ? 'over' : 'under'}`;
  return `${piece}${name} ${length(measured.valueMm)}, ${over} ${length(limitsMm[0])} … ${length(limitsMm[1])}`;
}

function processText({ process, spread }: JudgedRecord['processes'][number]): string {
  const { count, mean, deviation, grade } = spread;
  const i = (x: number) => x.toFixed(1);
  const held =
    count < ENOUGH
      ? `${ENOUGH - count} more before a grade can be given`
      : grade === undefined
        ? 'wider than any grade'
        : `holds IT${grade}: 95 of 100 pieces, with 95 % confidence`;
  return `${process}: ${count} measured, ${i(mean)} i off the middle, standard deviation ${i(deviation)} i; ${held}`;
}

function rangeText([low, high]: readonly [number, number]): string {
  const [a, b] = [Number(low.toFixed(1)), Number(high.toFixed(1))];
  return a === b ? String(a) : `${a} to ${b}`;
}

/** From ten values on, as the shop's file would say it. */
function offered({ processes, times }: JudgedRecord): readonly string[] {
  const grades = processes.flatMap(({ process, spread }) => (spread.grade ? [`${process}: ${spread.grade}`] : []));
  const minutes = times.flatMap(({ what, count, minutes: [low, high] }) =>
    count >= ENOUGH ? [`${what}: [${Number(low.toFixed(1))}, ${Number(high.toFixed(1))}]`] : [],
  );
  if (grades.length + minutes.length === 0) return [];
  return [
    '  the shop’s own figures, to put into its file:',
    ...(grades.length > 0 ? [`    limits: { tol/process: { ${grades.join(', ')} } }`] : []),
    ...(minutes.length > 0 ? [`    times: { ${minutes.join(', ')} }`] : []),
  ];
}

export function recordJson(path: string, { sizes, processes, times, unknown }: JudgedRecord): string {
  return `${json({
    format: 1,
    path,
    sizes: sizes.map(({ measured, name, limitsMm, outMm, current }) => ({
      name,
      piece: measured.piece ?? null,
      value_mm: measured.valueMm,
      limits_mm: limitsMm,
      out_mm: outMm,
      current,
    })),
    unknown: unknown.map(({ why }) => why),
    processes: processes.map(({ process, spread }) => ({
      process,
      count: spread.count,
      mean_i: spread.mean,
      deviation_i: spread.deviation,
      grade: spread.grade ?? null,
    })),
    times: times.map(({ what, count, minutes }) => ({ what, count, minutes })),
  })}\n`;
}

/** The cut list for a spreadsheet, by RFC 4180: a row for each bar as it is cut. */
import type { JobPaper } from './data';

export function jobCsv({ bars }: JobPaper): string {
  const rows = bars.flatMap((need) =>
    need.list.bars.map(({ times, lengthMm, cutsMm, leftMm, offcut }) => [
      need.what,
      String(times),
      String(lengthMm),
      cutsMm.join(' + '),
      String(leftMm),
      offcut ? 'rack' : 'bought',
    ]),
  );
  const table = [['stock', 'bars', 'length_mm', 'cuts_mm', 'left_mm', 'from'], ...rows];
  return table.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

/** Nothing that a spreadsheet would take for a formula. */
function cell(text: string): string {
  const plain = /^[=+\-@\t]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}

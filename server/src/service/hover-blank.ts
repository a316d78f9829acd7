/** Hover on the file of a blank: how large it is, what stands outside the part, and what it has already. */
import { stockVolumeMm3 } from '../geometry/stock-volume';
import { FACES } from '../model/model';
import { stockSizeMm } from '../model/stock';
import { comesCut } from '../process/stock/brought';
import { formatLength } from '../text/format';
import { code, escapeMarkdown } from '../text/markdown';
import type { Cursor } from './cursor';
import type { PartSnapshot } from './snapshot';

export function blankText({ checked: { part, solid } }: PartSnapshot, { path }: Cursor): string[] {
  const { blank, extra } = part.stock;
  if (!blank || path[0] !== 'stock' || path[1] !== 'from') return [];
  const length = (mm: number) => formatLength(Number(mm.toFixed(3)), part.units);
  const outside = FACES.flatMap((f) => (extra[f] ? [`${length(extra[f].mm)} at the ${f}`] : []));
  const cut = part.features.filter((f) => comesCut(f, part, solid)).map((f) => code(f.name));
  const lines = [
    `${escapeMarkdown(blank.part.name)}: ${stockSizeMm(part).map(length).join(' × ')} as it lies here, ${(stockVolumeMm3(part) / 1000).toFixed(2)} cm³`,
    `outside this part: ${outside.length > 0 ? outside.join(', ') : 'nothing'}`,
    ...(cut.length > 0 ? [`cut already: ${cut.join(', ')}`] : []),
  ];
  return [lines.map((line) => `- ${line}`).join('\n')];
}

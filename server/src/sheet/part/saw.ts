/** What to saw: pieces and length, the bar they come from, and how much of it. */
import { type Bar, barOf, barSizes, rackSection } from '../../model/bar';
import type { Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { stockSizeMm } from '../../model/stock';
import { type BarNeed, barsNeeded, rackFor } from '../../planning/bars';
import { USUAL_SAW } from '../../planning/cost';
import type { Figure } from '../draw/marks';
import { column, framed } from '../draw/stack';
import { bold, LARGE, textFigure } from '../draw/text';
import type { SheetWords } from '../language/en';
import { num } from './numbers';

export function sawFigure(part: Part, shop: Shop, words: SheetWords, w: number): Figure {
  const inner = w - 4;
  const { units } = part;
  const bar = barOf(part);
  const size = stockSizeMm(part).map((mm) => num(mm, units));
  const form = words.forms[part.stock.form];
  const lines: Figure[] = [textFigure(bold(bar ? words.saw : words.asBlock), { width: inner })];
  const line = (text: string) => lines.push(textFigure(text, { width: inner }));
  const rack = rackFor(part, shop);
  const need =
    rack && rackSection(rack) ? barsNeeded([{ part, shop, quantity: part.quantity }], USUAL_SAW)[0] : undefined;
  if (bar) {
    for (const [n, mm] of lengthsOf(bar, part.quantity, bar.staysMm > 0 ? need : undefined))
      lines.push(textFigure(bold(words.sawLine(n, `${num(mm, units)} ${units}`)), { cap: LARGE, width: inner }));
    if (bar.staysMm > 0) line(words.offBar(part.quantity, num(bar.pieceMm - bar.staysMm, units)));
    line(`${barText(part, bar, words)}, ${part.material?.name ?? ''}`);
  } else {
    lines.push(textFigure(bold(words.sawLine(part.quantity, size.join(' × '))), { cap: LARGE, width: inner }));
    line([form, part.stock.blank?.file, part.material?.name].filter(Boolean).join(', '));
  }
  const known = knownOf(part);
  if (known) line(known);
  if (need) line(words.ofBar(`${num(need.usedMm, units)} ${units}`));
  const mark = part.revision ?? part.name;
  line(`☐ ${words.sawn}  ☐ ${words.burrsOff}  ☐ ${words.marked(mark)}`);
  return framed(column(lines), w, { pad: 2 });
}

/** Limits that its sizes have as supplied, as the part writes them. */
function knownOf({ stock }: Part): string | undefined {
  const sizes = [stock.thickness, stock.width, stock.diameter].filter((l) => l?.tolerance && !l.from);
  const texts = [...sizes.map((l) => l!.text), ...(stock.flatness ? [`⏥ ${stock.flatness.text}`] : [])];
  return texts.length > 0 ? texts.join(', ') : undefined;
}

/** `flat bar 40 × 16`, `tube ⌀40 × 5`; a section that is no full bar with the radius of its inside corners. */
export function barText(part: Part, bar: Bar, words: SheetWords): string {
  const { stock, units } = part;
  const sizes = barSizes(part, bar).map((mm) => num(mm, units));
  const root = stock.section?.root?.mm ?? 0;
  const inside = root > 0 && !stock.diameter ? `, ${words.insideCorners(num(root, units))}` : '';
  return `${words.forms[stock.form]} ${stock.diameter ? '⌀' : ''}${sizes.join(' × ')}${inside}`;
}

/** How many of which length: a piece each; or bars on the end of which one part is made after another and sawn off last. */
function lengthsOf(
  { pieceMm, staysMm }: Bar,
  quantity: number,
  need: BarNeed | undefined,
): readonly (readonly [count: number, mm: number])[] {
  if (staysMm === 0) return [[quantity, pieceMm]];
  const { kerfMm } = USUAL_SAW;
  const long = (n: number) => n * (pieceMm - staysMm) + (n - 1) * kerfMm + staysMm;
  return need ? need.list.bars.map((b) => [b.times, long(b.cutsMm.length)] as const) : [[1, long(quantity)]];
}

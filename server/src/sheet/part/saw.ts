/** What to saw: pieces and length, the bar they come from, and how much of it. */
import { barOf, rackSection } from '../../model/bar';
import type { Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { stockSizeMm } from '../../model/stock';
import { barsNeeded, rackFor } from '../../planning/bars';
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
  if (bar) {
    lines.push(
      textFigure(bold(words.sawLine(part.quantity, `${num(bar.pieceMm, units)} ${units}`)), {
        cap: LARGE,
        width: inner,
      }),
    );
    const [a, b] = bar.sectionMm;
    const across =
      part.stock.form === 'flat-bar'
        ? `${num(a, units)} × ${num(b, units)}`
        : part.stock.form === 'round-bar'
          ? `⌀${num(a, units)}`
          : num(a, units);
    line(`${form} ${across}, ${part.material?.name ?? ''}`);
  } else {
    lines.push(textFigure(bold(words.sawLine(part.quantity, size.join(' × '))), { cap: LARGE, width: inner }));
    line(`${form}, ${part.material?.name ?? ''}`);
  }
  const rack = rackFor(part, shop);
  const need =
    rack && rackSection(rack) ? barsNeeded([{ part, shop, quantity: part.quantity }], USUAL_SAW)[0] : undefined;
  if (need) line(words.ofBar(`${num(need.usedMm, units)} ${units}`));
  const mark = part.revision ?? part.name;
  line(`☐ ${words.sawn}  ☐ ${words.burrsOff}  ☐ ${words.marked(mark)}`);
  return framed(column(lines), w, { pad: 2 });
}

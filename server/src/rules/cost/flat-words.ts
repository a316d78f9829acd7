/** What is said of a blank cut flat: the comparison in minutes, what is left to the mill, the cut and the plate. Facts keep the numbers. */
import { materialOf } from '../../model/material-of';
import { fact } from '../kit/message';
import type { Facts, RuleContext } from '../kit/rule';
import { type Compared, compared, type FlatBlank, type Minutes, metalOf } from './flat';

interface Said {
  readonly words: readonly string[];
  readonly facts: Facts;
  readonly compared?: Compared;
}

/** ` Milling all of it takes …`: sentences to come after the first. */
export function comparison(blank: FlatBlank, context: RuleContext): Said {
  const { part, solid, shop } = context;
  const { cutMm, starts, finish, rest } = blank;
  const found = compared(blank, { part, solid, shop });
  const { plateMm3, stockMm3 } = metalOf(blank, part);
  const grams = (mm3: number) => (mm3 * (materialOf(part)?.densityGPerCm3 ?? 0)) / 1000;
  const words: string[] = [];
  const facts: Record<string, number> = { cut_mm: fact(cutMm), starts };
  if (found) {
    const remains = [...finish.map((f) => f.feature.name), ...rest.map((f) => f.name)];
    words.push(
      `That saves ${text(found.saved)} a piece${remains.length === 0 ? ` and one set-up of ${text(shop.times['set-up'])}` : `; ${text(found.flat)} of milling remain`}.`,
    );
    facts.milled_low_min = fact(found.milled[0]);
    facts.milled_high_min = fact(found.milled[1]);
    facts.left_low_min = fact(found.flat[0]);
    facts.left_high_min = fact(found.flat[1]);
    facts.saved_low_min = fact(found.saved[0]);
    facts.saved_high_min = fact(found.saved[1]);
  }
  if (grams(plateMm3) > 0) {
    words.push(`It needs ${grams(plateMm3).toFixed(0)} g of plate (stock: ${grams(stockMm3).toFixed(0)} g).`);
    facts.plate_g = fact(grams(plateMm3));
    facts.stock_g = fact(grams(stockMm3));
  }
  return { words, facts, ...(found && { compared: found }) };
}

function text([low, high]: Minutes): string {
  if (high < 0.05) return 'nothing';
  const digits = high < 10 ? 1 : 0;
  const [a, b] = [low.toFixed(digits), high.toFixed(digits)];
  return `${a === b ? a : `${a} to ${b}`} min`;
}

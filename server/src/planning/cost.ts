/**
 * What pieces cost by the shop's own rates: material bought by the metre or in whole bars, hours of the machine, hours of
 * a person. Ranges from ranges of time. A shop that sets no rate is told no money.
 */

import type { Shop } from '../model/shop-model';
import type { ReadPart } from '../rules/judging';
import { type BarNeed, barsNeeded } from './bars';
import { type PieceTime, pieceTime, type Spent, spentOn } from './piece-time';
import { add, type Range, scaled, sum } from './ranges';

/** What the saw takes where no job says. */
export const KERF_MM = 2;

interface Made {
  readonly checked: ReadPart;
  readonly quantity: number;
  /** In other set-ups than its own. */
  readonly time?: PieceTime;
}

export interface Cost {
  readonly currency: string;
  /** By the metre, and in whole bars; of what the rack has a price for. */
  readonly material: Range;
  readonly machine: Range;
  readonly person: Range;
  readonly total: Range;
  /** Parts whose material the rack has no price for: not in the sum. */
  readonly unpriced: readonly string[];
}

function hasRates({ rates }: Shop): boolean {
  return rates.machineHour > 0 || rates.personHour > 0;
}

/** What pieces made together take in money; undefined without rates, without a time, or in two currencies. */
export function costOf(made: readonly Made[], kerfMm = KERF_MM): Cost | undefined {
  const [first] = made;
  if (!first || !made.every((m) => hasRates(m.checked.shop))) return undefined;
  const { currency } = first.checked.shop.rates;
  if (made.some((m) => m.checked.shop.rates.currency !== currency)) return undefined;
  const spent = made.map(spentBy);
  if (spent.some((s) => s === undefined)) return undefined;
  const by = (pick: (s: Spent) => Range, rate: (shop: Shop) => number) =>
    sum(made.map((m, i) => scaled(pick(spent[i]!), rate(m.checked.shop) / 60)));
  const machine = by(
    (s) => s.machine,
    (shop) => shop.rates.machineHour,
  );
  const person = by(
    (s) => s.person,
    (shop) => shop.rates.personHour,
  );
  const bars = barsNeeded(made.map(sawn), kerfMm);
  const material = sum(bars.map(priceOfBars));
  return {
    currency,
    material,
    machine,
    person,
    total: add(material, machine, person),
    unpriced: made.filter((m) => !isPriced(m, kerfMm)).map((m) => m.checked.part.name),
  };
}

export function spentBy({ checked, quantity, time = pieceTime(checked) }: Made): Spent | undefined {
  return time && spentOn(time, quantity);
}

export function sawn({ checked: { part, shop }, quantity }: Made) {
  return { part, shop, quantity };
}

/** [by the metre, whole bars]; nothing without a price. */
export function priceOfBars({ perMetre = 0, usedMm, count, lengthMm }: BarNeed): Range {
  return [(usedMm / 1000) * perMetre, ((count * lengthMm) / 1000) * perMetre];
}

function isPriced(made: Made, kerfMm: number): boolean {
  return barsNeeded([{ ...sawn(made), quantity: 1 }], kerfMm).some((b) => b.perMetre !== undefined);
}

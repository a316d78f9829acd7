/**
 * What pieces cost by the shop's own rates: material bought by the metre or in whole bars, hours of the machine, hours of
 * a person. Ranges from ranges of time. A shop that sets no rate is told no money.
 */

import type { Saw } from '../model/job-model';
import type { Shop } from '../model/shop-model';
import type { ReadPart } from '../rules/judging';
import { type BarNeed, barsNeeded } from './bars';
import { type PieceTime, pieceTime, type Spent, spentOn } from './piece-time';
import { add, type Range, scaled, sum } from './ranges';

/** A band saw's kerf, the bar used to its end: common practice, no source. A job says its own. */
export const USUAL_SAW: Saw = { kerfMm: 2, clampMm: 0, trimMm: 0 };

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
export function costOf(made: readonly Made[], saw = USUAL_SAW): Cost | undefined {
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
  const bars = barsNeeded(made.map(sawn), saw);
  const material = sum(bars.map(priceOfBars));
  return {
    currency,
    material,
    machine,
    person,
    total: add(material, machine, person),
    unpriced: made.filter((m) => !isPriced(m, saw)).map((m) => m.checked.part.name),
  };
}

export function spentBy({ checked, quantity, time = pieceTime(checked) }: Made): Spent | undefined {
  return time && spentOn(time, quantity);
}

export function sawn({ checked: { part, shop }, quantity }: Made) {
  return { part, shop, quantity };
}

/** [by the metre, whole bars]; nothing without a price. Bars that are sold whole only are paid whole. */
export function priceOfBars({ perMetre, usedMm, bought }: BarNeed): Range {
  const whole = bought.reduce((sum, { count, price = 0 }) => sum + count * price, 0);
  return [perMetre === undefined ? whole : Math.min((usedMm / 1000) * perMetre, whole), whole];
}

/** What lies on the rack costs nothing more. */
export function isPricedBar({ bought }: BarNeed): boolean {
  return bought.every((b) => b.price !== undefined);
}

function isPriced(made: Made, saw: Saw): boolean {
  return barsNeeded([{ ...sawn(made), quantity: 1 }], saw).some(isPricedBar);
}

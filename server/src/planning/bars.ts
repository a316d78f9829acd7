/** Bars and plates that pieces are sawn from: how many, how much of each is used, what is left, and what a metre costs. */

import { barOf, barsFor, rackSection, rackSizes } from '../model/bar';
import type { Saw } from '../model/job-model';
import type { Part } from '../model/model';
import type { RackItem, Shop } from '../model/shop-model';
import { stockSizeMm } from '../model/stock';
import { formatLength } from '../text/format';
import { ROUNDING } from '../tolerance';
import { cutList, provenCutList } from './cut-list/cut-list';
import type { Solver } from './cut-list/program';
import type { CutList, CutListAsk, Demand, SawnBar } from './cut-list/types';

export interface BarNeed {
  /** `flat-bar 40 × 16 mm aluminium-6061-t6` */
  readonly what: string;
  /** With which `what` begins. */
  readonly form: RackItem['form'];
  /** How each bar is cut. */
  readonly list: CutList;
  /** To buy, the longest first. */
  readonly bought: readonly Bought[];
  /** Off the rack, so many of a length. */
  readonly offcuts: readonly { readonly lengthMm: number; readonly count: number }[];
  readonly pieces: number;
  /** Along the bar, the longest first; of a plate, rows. Without the kerf. */
  readonly cuts: readonly Demand[];
  /** Of the bars to buy, with the saw's kerf for each piece: what is paid where it is sold by the metre. */
  readonly usedMm: number;
  /** Of each bar so much stays in the vise while parts are made on its end. */
  readonly staysMm?: number;
  /** What is left of the bars, the longest first, and of how many. */
  readonly remnants: readonly Left[];
  /** Pieces that come out of one whole bar to buy, where all are alike. */
  readonly toBar?: number;
  /** Of a metre; absent where the rack does not say. */
  readonly perMetre?: number;
}

interface Bought {
  readonly lengthMm: number;
  readonly count: number;
  /** Of one whole bar; absent where the rack does not say. */
  readonly price?: number;
}

interface Left {
  readonly mm: number;
  readonly bars: number;
}

interface Sawn {
  readonly part: Part;
  readonly shop: Shop;
  readonly quantity: number;
}

/** So many lengths alike along the bar: pieces or, of a plate, rows of them. */
interface Length {
  readonly mm: number;
  readonly times: number;
  readonly pieces: number;
  /** Pieces in a row. */
  readonly abreast: number;
}

interface Lot {
  readonly what: string;
  readonly rack: RackItem;
  readonly lengths: Length[];
  /** Of each bar so much is held by while the last piece comes off it. */
  readonly staysMm: number;
}

/** Bars at the least cost, as far as it is found at once; pieces that nothing on the rack holds are left out. */
export function barsNeeded(sawn: readonly Sawn[], saw: Saw): readonly BarNeed[] {
  return lotsOf(sawn, saw.kerfMm).flatMap((lot) => needOf(lot, saw, cutList(askOf(lot, saw))) ?? []);
}

/** The same, and proven where the solver can in its time. */
export async function provenBars(sawn: readonly Sawn[], saw: Saw, solve: Solver): Promise<readonly BarNeed[]> {
  const needs: BarNeed[] = [];
  for (const lot of lotsOf(sawn, saw.kerfMm)) {
    const need = needOf(lot, saw, await provenCutList(askOf(lot, saw), solve));
    if (need) needs.push(need);
  }
  return needs;
}

function lotsOf(sawn: readonly Sawn[], kerfMm: number): readonly Lot[] {
  const lots = new Map<RackItem, Lot>();
  for (const one of sawn) {
    const lot = lotOf(one, kerfMm);
    if (!lot) continue;
    const known = lots.get(lot.rack);
    if (!known) lots.set(lot.rack, lot);
    else {
      const lengths = [...known.lengths, ...lot.lengths];
      lots.set(lot.rack, { ...known, lengths, staysMm: Math.max(known.staysMm, lot.staysMm) });
    }
  }
  return [...lots.values()];
}

/** What one part is sawn from; undefined where the rack has nothing of its section and material. */
export function rackFor(part: Part, shop: Shop): RackItem | undefined {
  const bar = barOf(part);
  const fitting = bar ? barsFor(part, bar, shop) : part.stock.form === 'plate' ? platesFor(part, shop) : [];
  const usable = fitting.filter((r) => r.lengthsMm.length > 0 || r.offcutsMm.length > 0);
  const priced = usable.filter((r) => r.perMetre !== undefined).sort((a, b) => a.perMetre! - b.perMetre!);
  return priced[0] ?? usable[0];
}

function lotOf({ part, shop, quantity }: Sawn, kerfMm: number): Lot | undefined {
  const rack = rackFor(part, shop);
  if (!rack || quantity < 1) return undefined;
  const section = rackSizes(rack)
    .map((mm) => formatLength(mm, part.units).replace(/ \w+$/, ''))
    .join(' × ');
  const what = `${rack.form} ${section} ${part.units} ${rack.material}`;
  const bar = barOf(part);
  const lengths = bar
    ? [{ mm: bar.pieceMm - bar.staysMm, times: quantity, pieces: quantity, abreast: 1 }]
    : rowsOf(part, rack, quantity, kerfMm);
  return { what, rack, lengths, staysMm: bar?.staysMm ?? 0 };
}

/** Plates as thick as one side of the piece, and wide enough for another. */
function platesFor(part: Part, shop: Shop): readonly RackItem[] {
  return shop.rack.filter((r) => r.form === 'plate' && r.material === part.material?.name && laid(part, r).length > 0);
}

/** The ways to lay a piece on a plate: across it and along it, mm. */
function laid(part: Part, rack: RackItem): readonly { readonly acrossMm: number; readonly alongMm: number }[] {
  const section = rackSection(rack);
  if (!section) return [];
  const size = stockSizeMm(part);
  return size.flatMap((thick, i) => {
    if (Math.abs(thick - section[1]) > 0.1) return [];
    const [a, b] = size.filter((_, k) => k !== i) as [number, number];
    return [
      { acrossMm: a, alongMm: b },
      { acrossMm: b, alongMm: a },
    ].filter(({ acrossMm }) => acrossMm <= section[0] + 0.1);
  });
}

/** Sawn across the plate in rows: the way of laying that takes the least of its length. */
function rowsOf(part: Part, rack: RackItem, quantity: number, kerfMm: number): Length[] {
  const width = rackSection(rack)![0] + 0.1;
  const ways = laid(part, rack).map(({ acrossMm, alongMm }): Length => {
    const abreast = Math.max(1, Math.floor((width + kerfMm) / (acrossMm + kerfMm)));
    return { mm: alongMm, times: Math.ceil(quantity / abreast), pieces: quantity, abreast };
  });
  return ways.sort((a, b) => a.times * (a.mm + kerfMm) - b.times * (b.mm + kerfMm)).slice(0, 1);
}

/** An offcut is taken before a bar is bought, and a short one before a long one: this share of what its length would cost. */
const OFFCUT_SHARE = 0.001;

/** In money where every length has a price, else in millimetres of metal. */
function askOf({ rack, lengths, staysMm }: Lot, saw: Saw): CutListAsk {
  const prices = rack.lengthsMm.map((_, i) => priceAt(rack, i));
  // for nothing says nothing of which is the better
  const priced = prices.every((p) => p !== undefined && p > 0);
  const bought = rack.lengthsMm.map((mm, i) => ({ mm, cost: priced ? prices[i]! : mm }));
  const perMm = Math.min(...bought.map((b) => b.cost / b.mm), 1);
  const offcuts = new Map<number, number>();
  for (const mm of rack.offcutsMm) offcuts.set(mm, (offcuts.get(mm) ?? 0) + 1);
  return {
    pieces: lengths.map(({ mm, times }) => ({ mm, times })),
    bars: [...[...offcuts].map(([mm, count]) => ({ mm, cost: OFFCUT_SHARE * perMm * mm, count })), ...bought],
    saw: heldBy(staysMm, saw),
  };
}

/** The vise of the mill or of the saw, whichever needs more of the bar's end. */
function heldBy(staysMm: number, saw: Saw): Saw {
  return { ...saw, clampMm: Math.max(saw.clampMm, staysMm) };
}

/** Of a whole bar of the rack's length number `i`. */
function priceAt({ lengthsMm, prices, perMetre }: RackItem, i: number): number | undefined {
  return prices?.[i] ?? (perMetre === undefined ? undefined : (perMetre * lengthsMm[i]!) / 1000);
}

function needOf({ what, rack, lengths: asked, staysMm }: Lot, saw: Saw, list: CutList): BarNeed | undefined {
  const lost = new Set(list.unplaced.map((d) => Math.round(d.mm * 1000)));
  const lengths = asked.filter((l) => !lost.has(Math.round(l.mm * 1000))).sort((a, b) => b.mm - a.mm);
  const longest = lengths[0];
  if (!longest) return undefined;
  const [offcuts, bars] = parted(list.bars, (b) => b.offcut ?? false);
  const alike = lengths.every((l) => Math.abs(l.mm - longest.mm) < ROUNDING && l.abreast === longest.abreast);
  const whole = counted(bars);
  return {
    what,
    form: rack.form,
    list,
    bought: whole.map(({ lengthMm, count }) => {
      const price = priceAt(rack, rack.lengthsMm.indexOf(lengthMm));
      return { lengthMm, count, ...(price !== undefined && { price }) };
    }),
    offcuts: counted(offcuts),
    pieces: lengths.reduce((n, l) => n + l.pieces, 0),
    cuts: lengths.map(({ mm, times }) => ({ mm, times })),
    usedMm: bars.reduce((sum, b) => sum + b.times * usedOf(b, staysMm, saw), 0),
    ...(staysMm > 0 && { staysMm }),
    remnants: leftOf(list.bars),
    ...(alike &&
      whole.length === 1 && { toBar: fitting(whole[0]!.lengthMm, longest.mm, heldBy(staysMm, saw)) * longest.abreast }),
    ...(rack.perMetre !== undefined && { perMetre: rack.perMetre }),
  };
}

/** The last saw cut of what stays is counted there already. */
function usedOf({ cutsMm }: SawnBar, staysMm: number, { kerfMm }: Saw): number {
  return cutsMm.reduce((mm, cut) => mm + cut + kerfMm, Math.max(0, staysMm - kerfMm));
}

function parted(bars: readonly SawnBar[], first: (bar: SawnBar) => boolean): [SawnBar[], SawnBar[]] {
  return [bars.filter(first), bars.filter((b) => !first(b))];
}

/** By length, the longest first. */
function counted(bars: readonly SawnBar[]): { readonly lengthMm: number; readonly count: number }[] {
  const by = new Map<number, number>();
  for (const { lengthMm, times } of bars) by.set(lengthMm, (by.get(lengthMm) ?? 0) + times);
  return [...by].map(([lengthMm, count]) => ({ lengthMm, count })).sort((a, b) => b.lengthMm - a.lengthMm);
}

function leftOf(bars: readonly SawnBar[]): Left[] {
  const by = new Map<number, number>();
  for (const { leftMm, times } of bars) by.set(leftMm, (by.get(leftMm) ?? 0) + times);
  return [...by].map(([mm, n]) => ({ mm, bars: n })).sort((a, b) => b.mm - a.mm);
}

/** How many of a length come out of one bar: the last cut may run out of the bar's end. */
function fitting(lengthMm: number, mm: number, { kerfMm, clampMm, trimMm }: Saw): number {
  return Math.floor((lengthMm + kerfMm - clampMm - trimMm) / (mm + kerfMm) + ROUNDING);
}

/** Bars and plates that pieces are sawn from: how many, how much of each is used, what is left, and what a metre costs. */
import { barOf, barsFor, rackSection } from '../model/bar';
import type { Part } from '../model/model';
import type { RackItem, Shop } from '../model/shop-model';
import { stockSizeMm } from '../model/stock';
import { formatLength } from '../text/format';

export interface BarNeed {
  /** `flat-bar 40 × 16 mm aluminium-6061-t6` */
  readonly what: string;
  /** Of one whole bar. */
  readonly lengthMm: number;
  /** Whole bars. */
  readonly count: number;
  readonly pieces: number;
  /** Along the bar, the longest first; of a plate, rows. Without the kerf. */
  readonly cuts?: readonly Cut[];
  /** With the saw's kerf for each piece: what is paid where it is sold by the metre. */
  readonly usedMm: number;
  /** What is left of the whole bars, the longest first, and of how many. */
  readonly left: readonly Left[];
  /** Pieces that come out of one whole bar, where all are alike. */
  readonly toBar?: number;
  /** Of a metre; absent where the rack does not say. */
  readonly perMetre?: number;
}

interface Cut {
  readonly mm: number;
  readonly times: number;
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
}

/** Longest pieces first into the first bar they fit; pieces that nothing on the rack holds are left out. */
export function barsNeeded(sawn: readonly Sawn[], kerfMm: number): readonly BarNeed[] {
  const lots = new Map<RackItem, Lot>();
  for (const one of sawn) {
    const lot = lotOf(one, kerfMm);
    if (!lot) continue;
    const known = lots.get(lot.rack);
    if (known) known.lengths.push(...lot.lengths);
    else lots.set(lot.rack, lot);
  }
  return [...lots.values()].flatMap((lot) => packed(lot, kerfMm) ?? []);
}

/** What one part is sawn from; undefined where the rack has nothing of its section and material. */
export function rackFor(part: Part, shop: Shop): RackItem | undefined {
  const bar = barOf(part);
  const fitting = bar ? barsFor(part, bar, shop) : part.stock.form === 'plate' ? platesFor(part, shop) : [];
  const usable = fitting.filter((r) => r.lengthsMm.length > 0);
  const priced = usable.filter((r) => r.perMetre !== undefined).sort((a, b) => a.perMetre! - b.perMetre!);
  return priced[0] ?? usable[0];
}

function lotOf({ part, shop, quantity }: Sawn, kerfMm: number): Lot | undefined {
  const rack = rackFor(part, shop);
  if (!rack || quantity < 1) return undefined;
  const section = rackSection(rack)!
    .map((mm) => formatLength(mm, part.units).replace(/ \w+$/, ''))
    .slice(0, rack.form === 'round-bar' || rack.form === 'square-bar' ? 1 : 2)
    .join(' × ');
  const what = `${rack.form} ${section} ${part.units} ${rack.material}`;
  const bar = barOf(part);
  const lengths = bar
    ? [{ mm: bar.pieceMm, times: quantity, pieces: quantity, abreast: 1 }]
    : rowsOf(part, rack, quantity, kerfMm);
  return { what, rack, lengths };
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

/** By the length on sale that takes the least metal in all. */
function packed({ what, rack, lengths: asked }: Lot, kerfMm: number): BarNeed | undefined {
  const most = Math.max(...rack.lengthsMm);
  const lengths = asked.filter((l) => l.mm <= most + 1e-9).sort((a, b) => b.mm - a.mm);
  const longest = lengths[0];
  if (!longest) return undefined;
  const ways = rack.lengthsMm
    .filter((mm) => mm >= longest.mm - 1e-9)
    .map((lengthMm) => {
      const left = into(lengths, lengthMm, kerfMm);
      return { lengthMm, left, count: left.reduce((n, l) => n + l.bars, 0) };
    })
    .sort((a, b) => a.lengthMm * a.count - b.lengthMm * b.count || a.lengthMm - b.lengthMm);
  const best = ways[0];
  if (!best) return undefined;
  const alike = lengths.every((l) => Math.abs(l.mm - longest.mm) < 1e-9 && l.abreast === longest.abreast);
  return {
    what,
    lengthMm: best.lengthMm,
    count: best.count,
    pieces: lengths.reduce((n, l) => n + l.pieces, 0),
    cuts: lengths.map(({ mm, times }) => ({ mm, times })),
    usedMm: lengths.reduce((mm, l) => mm + l.times * (l.mm + kerfMm), 0),
    left: best.left.toSorted((a, b) => b.mm - a.mm),
    ...(alike && { toBar: fitting(best.lengthMm, longest.mm, kerfMm) * longest.abreast }),
    ...(rack.perMetre !== undefined && { perMetre: rack.perMetre }),
  };
}

/** How many of a length come out of what is left: the last cut may run out of the bar's end. */
function fitting(leftMm: number, mm: number, kerfMm: number): number {
  return Math.floor((leftMm + kerfMm) / (mm + kerfMm) + 1e-9);
}

/** Longest first into the first bar that has room. Bars that are left alike are kept as one entry: a million pieces take no longer than ten. */
function into(lengths: readonly Length[], lengthMm: number, kerfMm: number): Left[] {
  let bars: Left[] = [];
  for (const { mm, times } of lengths) {
    let rest = times;
    const after: Left[] = [];
    const cut = (from: Left) => {
      const most = fitting(from.mm, mm, kerfMm);
      const full = most === 0 ? 0 : Math.min(from.bars, Math.floor(rest / most));
      const some = full < from.bars && most > 0 ? rest - full * most : 0;
      const remains = (n: number) => Math.max(0, from.mm - n * (mm + kerfMm));
      if (full > 0) after.push({ mm: remains(most), bars: full });
      if (some > 0) after.push({ mm: remains(some), bars: 1 });
      rest -= full * most + some;
      return from.bars - full - (some > 0 ? 1 : 0);
    };
    for (const bar of bars) {
      const untouched = cut(bar);
      if (untouched > 0) after.push({ mm: bar.mm, bars: untouched });
    }
    if (rest > 0) cut({ mm: lengthMm, bars: rest });
    bars = after;
  }
  return bars;
}

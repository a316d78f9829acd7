/** Which bars of the rack a part could be cut from instead, what is milled off, and what a size of the body made to a bar would save. */

import { type Bar, barSizes, rackLengths, rackSection, rackSizes } from '../../model/bar';
import type { Axis, Part } from '../../model/model';
import type { RackItem, Shop } from '../../model/shop-model';
import { stockSizeMm } from '../../model/stock';
import { ROUNDING, SAME } from '../../tolerance';

export interface Offer {
  readonly item: RackItem;
  readonly section: readonly [number, number];
  /** Of one piece, mm³: all of the bar. */
  readonly pieceMm3: number;
  /** What the piece costs by the metre, kerf not counted; absent without a price. */
  readonly price?: number;
}

/** The body's sizes across the bar with the stock's along them, the wider first. */
interface Across {
  readonly axis: Axis;
  readonly stockMm: number;
  readonly bodyMm: number;
}

const AXES: readonly Axis[] = ['x', 'y', 'z'];

export function acrossOf(part: Part, bar: Bar): readonly [Across, Across] {
  const stock = stockSizeMm(part);
  const found = AXES.filter((a) => a !== bar.axis).map((axis) => {
    const i = AXES.indexOf(axis);
    return { axis, stockMm: stock[i]!, bodyMm: part.size[i]! };
  });
  return found.sort((a, b) => b.stockMm - a.stockMm) as unknown as readonly [Across, Across];
}

function offer(item: RackItem, pieceMm: number): Offer | undefined {
  const section = rackSection(item);
  if (!section || !rackLengths(item).some((mm) => mm >= pieceMm - ROUNDING)) return undefined;
  const area = item.form === 'round-bar' ? (Math.PI / 4) * section[0] ** 2 : section[0] * section[1];
  const price = item.perMetre === undefined ? {} : { price: (item.perMetre * pieceMm) / 1000 };
  return { item, section, pieceMm3: area * pieceMm, ...price };
}

function offersOf(part: Part, bar: Bar, shop: Shop): readonly Offer[] {
  return shop.rack.flatMap((r) =>
    r.material === part.material?.name && r.form !== 'plate' && r.wallMm === undefined
      ? (offer(r, bar.pieceMm) ?? [])
      : [],
  );
}

/** The smallest bar that the stock's own section goes into. */
export function holding(part: Part, bar: Bar, shop: Shop): Offer | undefined {
  // A section is drawn as it comes: nobody mills its hollow from a full bar.
  if (bar.wallsMm) return undefined;
  const inside = ({ item, section }: Offer) =>
    item.form === 'round-bar'
      ? Math.hypot(...bar.sectionMm) <= section[0]
      : bar.sectionMm.every((mm, i) => mm <= section[i]! + SAME);
  return offersOf(part, bar, shop)
    .filter(inside)
    .sort((a, b) => a.pieceMm3 - b.pieceMm3)[0];
}

export interface Change {
  readonly offer: Offer;
  readonly axis: Axis;
  readonly fromMm: number;
  readonly toMm: number;
}

/**
 * A bar that would do if one size of the body were smaller by no more than `share` of it: the one that changes it least.
 * The other size must be the bar's, or leave something to mill off.
 */
export function madeToBar(part: Part, bar: Bar, shop: Shop, share: number): Change | undefined {
  if (part.stock.form === 'round-bar' || bar.wallsMm) return undefined;
  const across = acrossOf(part, bar);
  const changes = offersOf(part, bar, shop).flatMap((o): Change[] => {
    if (o.item.form !== part.stock.form) return [];
    const short = across.flatMap((a, i) =>
      o.section[i]! < a.stockMm - SAME ? [{ ...a, sectionMm: o.section[i]! }] : [],
    );
    const [only] = short;
    if (short.length !== 1 || !only) return [];
    const toMm = only.bodyMm - (only.stockMm - only.sectionMm);
    return toMm >= (1 - share) * only.bodyMm - ROUNDING
      ? [{ offer: o, axis: only.axis, fromMm: only.bodyMm, toMm }]
      : [];
  });
  return changes.sort((a, b) => a.fromMm - a.toMm - (b.fromMm - b.toMm) || a.offer.pieceMm3 - b.offer.pieceMm3)[0];
}

/** A bar of the stock's section is there, but none as long as the piece: the longest, mm. */
export function longestOf(items: readonly RackItem[]): number | undefined {
  const lengths = items.flatMap(rackLengths);
  return lengths.length > 0 ? Math.max(...lengths) : undefined;
}

/** Of the sections of this form and material on the rack the one that differs least, by all its sizes together. */
export function likest(part: Part, bar: Bar, shop: Shop): RackItem | undefined {
  const wanted = barSizes(part, bar);
  const off = (item: RackItem) => {
    const has = rackSizes(item);
    return wanted.reduce((sum, mm, i) => sum + Math.abs(mm - (has[i] ?? has.at(-1)!)), 0);
  };
  return shop.rack
    .filter(
      (r) =>
        r.form === part.stock.form &&
        r.material === part.material?.name &&
        (r.diameterMm !== undefined) === (part.stock.diameter !== undefined),
    )
    .sort((a, b) => off(a) - off(b))[0];
}

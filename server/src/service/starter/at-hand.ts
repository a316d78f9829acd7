/** What a new part can be cut from: the offcuts that lie there first, then the bars and plates that can be had. */
import { rackSizes } from '../../model/bar';
import type { StockForm } from '../../model/model';
import type { RackItem, Shop } from '../../model/shop-model';
import { formatLength, writeLength } from '../../text/format';

/** A piece of the rack. Plain data: it goes to the thread beside, and to an editor. */
export interface AtHand {
  readonly form: StockForm;
  readonly material: string;
  /** Across: width and thickness; of a round bar its diameter, twice. */
  readonly acrossMm: readonly [number, number];
  /** Of tube, angle, channel and tee. */
  readonly wallMm?: number;
  readonly flangeMm?: number;
  readonly isRound: boolean;
  /** Of the piece that lies there, or the longest that can be had. */
  readonly longestMm?: number;
  readonly isOffcut: boolean;
  /** As a person names it: `flat-bar 40 x 16`. */
  readonly label: string;
  readonly detail: string;
}

export function stockAtHand(shop: Shop): readonly AtHand[] {
  const offcuts = shop.rack.flatMap((item) =>
    [...new Set(item.offcutsMm)].sort((a, b) => a - b).flatMap((mm) => piece(item, shop, mm)),
  );
  return [...offcuts, ...shop.rack.flatMap((item) => piece(item, shop))];
}

function piece(item: RackItem, { units }: Shop, offcutMm?: number): AtHand[] {
  const { form, material, widthMm, thicknessMm, diameterMm, wallMm, flangeMm, lengthsMm } = item;
  const wide = diameterMm ?? widthMm ?? thicknessMm;
  const thick = diameterMm ?? thicknessMm ?? widthMm;
  if (wide === undefined || thick === undefined) return [];
  const across = rackSizes(item).map((mm) => writeLength(mm, units));
  const most = offcutMm ?? (lengthsMm.length > 0 ? Math.max(...lengthsMm) : undefined);
  const long = most === undefined ? 'any length' : formatLength(most, units);
  return [
    {
      form,
      material,
      acrossMm: [wide, thick],
      isRound: diameterMm !== undefined,
      ...(wallMm !== undefined && { wallMm }),
      ...(flangeMm !== undefined && { flangeMm }),
      ...(most !== undefined && { longestMm: most }),
      isOffcut: offcutMm !== undefined,
      label: `${form} ${across.join(' x ')}`,
      detail: `${material}, ${offcutMm === undefined ? `to ${long}`.replace('to any', 'any') : `offcut of ${long}`}`,
    },
  ];
}

/** The pieces that words mean, of whatever spacing and sign of multiplication: `flat-bar 40x16`, `7075 offcut`. */
export function meantBy(words: string, all: readonly AtHand[]): readonly AtHand[] {
  const plain = (text: string) =>
    text
      .toLowerCase()
      .replaceAll('×', 'x')
      .replace(/\s*x\s*/g, 'x');
  const wanted = plain(words)
    .split(/[\s,]+/)
    .filter((w) => w !== '');
  const has = (item: AtHand) => plain(`${item.label} ${item.detail}`).split(/[\s,]+/);
  const found = all.filter((item) => wanted.every((w) => has(item).some((word) => word === w)));
  return found.length > 0
    ? found
    : all.filter((item) => wanted.every((w) => has(item).some((word) => word.startsWith(w) || word.includes(`-${w}`))));
}

/** The piece to begin with where nobody chose: an offcut of bar, else a flat bar of middling width. */
export function likelyPiece(all: readonly AtHand[]): AtHand | undefined {
  const middling = (item: AtHand) =>
    Math.abs(Math.log(item.acrossMm[0] / 40)) + Math.abs(Math.log(item.acrossMm[1] / 16));
  const flat = all.filter((item) => !item.isRound && item.wallMm === undefined && item.form !== 'plate');
  return [...(flat.length > 0 ? flat : all)].sort(
    (a, b) => Number(b.isOffcut) - Number(a.isOffcut) || middling(a) - middling(b),
  )[0];
}

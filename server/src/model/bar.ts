/** The bar a part is cut from: which way it runs, and its section and piece length in mm. */
import type { Axis, Face, Part } from './model';
import { leftBySaw, sawnOffAt } from './sawn-off';
import type { RackItem, Shop } from './shop-model';
import { stockSizeMm } from './stock';

export interface Bar {
  readonly axis: Axis;
  /** Across the bar: width and thickness, the wider first; twice the diameter for a round one. */
  readonly sectionMm: readonly [number, number];
  /** Along it: one piece, without the saw's kerf. */
  readonly pieceMm: number;
  /** Of that, where the part is sawn off it last: what is left of the bar, that cut included. The next piece comes off it. */
  readonly staysMm: number;
}

const AXES: readonly Axis[] = ['x', 'y', 'z'];
const ENDS: Readonly<Record<Axis, readonly [Face, Face]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};

/** Undefined for stock that is no bar, or without a body. A flat or square bar runs where it is sawn, else along its longest side. */
export function barOf(part: Part): Bar | undefined {
  const { stock } = part;
  if (!part.body || !['flat-bar', 'square-bar', 'round-bar'].includes(stock.form)) return undefined;
  const size = stockSizeMm(part);
  const sawn = AXES.filter((a) => ENDS[a].some((f) => stock.sawn.some((s) => s.name === f)));
  const longest = AXES[size.indexOf(Math.max(...size))]!;
  const axis =
    stock.form === 'round-bar'
      ? (stock.axis ?? (part.body.form === 'round' ? part.body.axis : 'z'))
      : sawn.length === 1
        ? sawn[0]!
        : longest;
  const across = AXES.filter((a) => a !== axis)
    .map((a) => size[AXES.indexOf(a)]!)
    .sort((a, b) => b - a);
  const stays = ENDS[axis].map((f) =>
    sawnOffAt(f, part) ? Math.max(0, (stock.extra[f]?.mm ?? 0) - leftBySaw(f, part)) : 0,
  );
  return {
    axis,
    sectionMm: [across[0]!, across[1]!],
    pieceMm: size[AXES.indexOf(axis)]!,
    staysMm: Math.max(...stays),
  };
}

/** Section of what lies on the rack, the wider first. */
export function rackSection({
  form,
  widthMm,
  thicknessMm,
  diameterMm,
}: RackItem): readonly [number, number] | undefined {
  if (form === 'round-bar') return diameterMm === undefined ? undefined : [diameterMm, diameterMm];
  const width = widthMm ?? thicknessMm;
  const thickness = thicknessMm ?? widthMm;
  if (width === undefined || thickness === undefined) return undefined;
  return width >= thickness ? [width, thickness] : [thickness, width];
}

/** Bars of the shop with this section and material, to a tenth of a millimetre. */
export function barsFor(part: Part, bar: Bar, shop: Shop): readonly RackItem[] {
  return shop.rack.filter((r) => {
    const section = rackSection(r);
    return (
      r.form === part.stock.form &&
      r.material === part.material?.name &&
      section?.every((mm, i) => Math.abs(mm - bar.sectionMm[i]!) <= 0.1)
    );
  });
}

/** That there are: to buy, or on the rack. */
export function rackLengths({ lengthsMm, offcutsMm }: RackItem): readonly number[] {
  return [...lengthsMm, ...offcutsMm];
}

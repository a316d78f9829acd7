/** The bar a part is cut from: which way it runs, and its section and piece length in mm. */
import { type Axis, FACE_AXIS, type Face, type Part } from './model';
import { leftBySaw, sawnOffAt } from './sawn-off';
import { sectionKind } from './section';
import type { RackItem, Shop } from './shop-model';
import { stockSizeMm } from './stock';

export interface Bar {
  readonly axis: Axis;
  /** Across the bar: width and thickness, the wider first; twice the diameter for a round one. Of channel and tee first along the web or flange. */
  readonly sectionMm: readonly [number, number];
  /** Of tube, angle, channel and tee: the wall, and the flanges where they are of another thickness. */
  readonly wallsMm?: readonly [wall: number, flange: number];
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
  if (!part.body || ['plate', 'block', 'blank', 'casting'].includes(stock.form)) return undefined;
  const size = stockSizeMm(part);
  const sawn = AXES.filter((a) => ENDS[a].some((f) => stock.sawn.some((s) => s.name === f)));
  const longest = AXES[size.indexOf(Math.max(...size))]!;
  const axis =
    stock.section || stock.form === 'round-bar'
      ? (stock.axis ?? (part.body.form === 'round' ? part.body.axis : 'z'))
      : sawn.length === 1
        ? sawn[0]!
        : longest;
  const across = AXES.filter((a) => a !== axis)
    .sort((a, b) => size[AXES.indexOf(b)]! - size[AXES.indexOf(a)]!)
    .sort((a, b) => openAlong(a, part) - openAlong(b, part))
    .map((a) => size[AXES.indexOf(a)]!);
  const stays = ENDS[axis].map((f) =>
    sawnOffAt(f, part) ? Math.max(0, (stock.extra[f]?.mm ?? 0) - leftBySaw(f, part)) : 0,
  );
  return {
    axis,
    sectionMm: [across[0]!, across[1]!],
    ...(stock.section && {
      wallsMm: [stock.section.wall.mm, (stock.section.flange ?? stock.section.wall).mm] as const,
    }),
    pieceMm: size[AXES.indexOf(axis)]!,
    staysMm: Math.max(...stays),
  };
}

/** 1 where a channel or tee is open along that axis, else 0. */
function openAlong(axis: Axis, { stock }: Part): 0 | 1 {
  const [only, ...more] = stock.section?.open ?? [];
  return only && more.length === 0 && FACE_AXIS[only.name].axis === axis ? 1 : 0;
}

/** Section of what lies on the rack, the wider first; of channel and tee as it is written. */
export function rackSection({
  form,
  widthMm,
  thicknessMm,
  diameterMm,
}: RackItem): readonly [number, number] | undefined {
  if (diameterMm !== undefined) return [diameterMm, diameterMm];
  if (form === 'round-bar') return undefined;
  const width = widthMm ?? thicknessMm;
  const thickness = thicknessMm ?? widthMm;
  if (width === undefined || thickness === undefined) return undefined;
  return width >= thickness || sectionKind(form)?.flanges ? [width, thickness] : [thickness, width];
}

/** The sizes that it is ordered by: `40`, `40 × 16`; of a section with its wall, and flanges that are of another thickness. */
export function rackSizes(item: RackItem): readonly number[] {
  const [a, b] = rackSection(item) ?? [];
  if (a === undefined || b === undefined) return [];
  const one = item.diameterMm !== undefined || item.form === 'square-bar';
  return [...(one ? [a] : [a, b]), ...[item.wallMm ?? [], item.flangeMm ?? []].flat()];
}

/** The same of the bar that a part is cut from. */
export function barSizes(part: Part, { sectionMm: [a, b], wallsMm }: Bar): readonly number[] {
  const one = part.stock.diameter !== undefined || part.stock.form === 'square-bar';
  const [wall, flange] = wallsMm ?? [];
  return [...(one ? [a] : [a, b]), ...(wall === undefined ? [] : flange === wall ? [wall] : [wall, flange!])];
}

const SAME_BAR_MM = 0.1;

/** Hollow alike: both round or neither, with the same walls. */
function wallsAlike({ wallMm, flangeMm = wallMm, diameterMm }: RackItem, { wallsMm }: Bar, round: boolean): boolean {
  if (!wallsMm) return wallMm === undefined;
  const near = (mm: number | undefined, to: number) => mm !== undefined && Math.abs(mm - to) <= SAME_BAR_MM;
  return (diameterMm !== undefined) === round && near(wallMm, wallsMm[0]) && near(flangeMm, wallsMm[1]);
}

/** Bars of the shop with this section and material, to a tenth of a millimetre. */
export function barsFor(part: Part, bar: Bar, shop: Shop): readonly RackItem[] {
  return shop.rack.filter((r) => {
    const section = rackSection(r);
    return (
      r.form === part.stock.form &&
      r.material === part.material?.name &&
      section?.every((mm, i) => Math.abs(mm - bar.sectionMm[i]!) <= SAME_BAR_MM) &&
      wallsAlike(r, bar, part.stock.diameter !== undefined)
    );
  });
}

/** What the shop has to make the part from: bars of its section, or plates of its thickness. */
export function rackOf(part: Part, shop: Shop): readonly RackItem[] {
  const bar = barOf(part);
  if (bar) return barsFor(part, bar, shop);
  if (part.stock.form !== 'plate') return [];
  const thickMm = Math.min(...stockSizeMm(part));
  return shop.rack.filter(
    (r) =>
      r.form === 'plate' && r.material === part.material?.name && Math.abs((rackSection(r)?.[1] ?? 0) - thickMm) <= 0.1,
  );
}

/** That there are: to buy, or on the rack. */
export function rackLengths({ lengthsMm, offcutsMm }: RackItem): readonly number[] {
  return [...lengthsMm, ...offcutsMm];
}

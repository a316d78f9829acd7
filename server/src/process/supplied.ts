/** Sides of a part that stay as the bar came, and how far a bar is off there. */

import { barOf, rackOf } from '../model/bar';
import { materialOf } from '../model/material-of';
import type { Axis, Face, Length, Part } from '../model/model';
import { sawnFaces } from '../model/sawn-off';
import { sectionKind } from '../model/section';
import type { RackItem, Shop } from '../model/shop-model';
import { stockSizeMm } from '../model/stock';
import { alloyOf, type BarDeviation, type BarSort, barDeviation, carbonOf } from '../tables/bar-tolerances';
import { castingDeviation } from '../tables/castings';
import { type SectionSort, sectionDeviation, sectionFlatness, wallDeviation } from '../tables/section-tolerances';
import { ROUNDING, SAME } from '../tolerance';

export const ENDS: Readonly<Record<Axis, readonly [Face, Face]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};
const AXES: readonly Axis[] = ['x', 'y', 'z'];

interface Supplied {
  readonly axis: Axis;
  readonly faces: readonly Face[];
  readonly sizeMm: number;
  readonly off: SuppliedOff;
}

interface SuppliedOff extends BarDeviation {
  /** Said of this stock by part or rack, not by the standard of such bars. */
  readonly known?: true;
}

/** Stock that comes with flat sides: bar, plate, and sections but for round tube. */
export function hasSides({ stock }: Part): boolean {
  if (!stock.written) return false;
  return ['flat-bar', 'square-bar', 'plate'].includes(stock.form) || (!!stock.section && !stock.diameter);
}

/**
 * Of a flat or square bar or a section: each side across it of which neither face is sawn, has anything outside it, or is faced in a
 * set-up. Of a plate its thickness, by the same.
 */
export function suppliedAcross(part: Part, shop: Shop): readonly Supplied[] {
  const cast = part.stock.form === 'casting';
  if (!part.body || !(cast || hasSides(part))) return [];
  const bar = barOf(part);
  return AXES.flatMap((axis) => {
    const stay = ENDS[axis].filter((f) => staysAsSupplied(f, part));
    // A bar is as thick as it came while nothing is cut; a cast face is where it was cast, whatever is milled opposite.
    const untouched = cast ? stay.length > 0 : stay.length === 2;
    const faces = cast ? stay : ENDS[axis];
    const off = untouched && axis !== bar?.axis ? barOff(part, axis, shop) : undefined;
    return off ? [{ axis, faces, sizeMm: stockSizeMm(part)[AXES.indexOf(axis)]!, off }] : [];
  });
}

/** No saw, no stock outside it, and no set-up that faces it. */
export function staysAsSupplied(face: Face, part: Part): boolean {
  return (
    part.stock.written &&
    (part.stock.extra[face]?.mm ?? 0) <= ROUNDING &&
    !sawnFaces(part).some((s) => s.name === face) &&
    !(part.setups ?? []).some((s) => s.cuts.some((c) => c.name === face && !part.featureByName.has(face)))
  );
}

/** How far the diameter of a round body is off that stays as its bar came; undefined where something is turned or milled off it. */
export function suppliedRound(part: Part, shop: Shop): SuppliedOff | undefined {
  const { body, stock } = part;
  if (body?.form !== 'round' || !stock.written || !(stock.form === 'round-bar' || stock.section)) return undefined;
  const across = AXES.filter((a) => a !== body.axis);
  if ((stock.axis ?? body.axis) !== body.axis || (stock.diameter && stock.diameter.mm > body.diameter.mm + ROUNDING))
    return undefined;
  if (across.some((a) => ENDS[a].some((f) => (stock.extra[f]?.mm ?? 0) > ROUNDING))) return undefined;
  return barOff(part, across[0]!, shop);
}

const FORMS: Readonly<Record<string, BarSort['form']>> = {
  'flat-bar': 'flat',
  'square-bar': 'square',
  'round-bar': 'round',
  plate: 'plate',
};

/** How far the part's bar or plate may be off along one of its own axes across it: as the part says, else as the rack does, else by its standard. */
export function barOff(part: Part, axis: Axis, shop: Shop): SuppliedOff | undefined {
  if (!part.body) return undefined;
  const sizes = stockSizeMm(part);
  const sizeMm = sizes[AXES.indexOf(axis)]!;
  if (part.stock.form === 'casting') return castingDeviation(sizeMm, part.stock.grade);
  // A plate is as thick as it is thin; its other sides are sawn from it.
  if (!barOf(part) && sizeMm > Math.min(...sizes) + ROUNDING) return undefined;
  return writtenOff(part, sizeMm) ?? offInShop(part, axis, shop);
}

/** By the text of the part. */
export function writtenOff({ stock }: Part, sizeMm: number): SuppliedOff | undefined {
  const sizes: readonly (Length | undefined)[] = [stock.thickness, stock.width, stock.diameter];
  // A diameter that is not written is the body’s, with what the body wants of it.
  const tolerance = sizes.find((l) => l && !l.from && Math.abs(l.mm - sizeMm) < SAME)?.tolerance;
  if (tolerance?.upperMm === undefined || tolerance.lowerMm === undefined) return undefined;
  return { upperMm: tolerance.upperMm, lowerMm: tolerance.lowerMm, source: 'by `stock`', known: true };
}

/** Whatever the part says of it: by what lies on the rack, else by the standard of such bars. */
export function offInShop(part: Part, axis: Axis, shop: Shop): SuppliedOff | undefined {
  const sizes = stockSizeMm(part);
  const sizeMm = sizes[AXES.indexOf(axis)]!;
  const bar = barOf(part);
  const there = rackOf(part, shop);
  const known = widest(
    there.map((item) => rackOff(item, sizeMm)),
    shop,
  );
  if (known) return known;
  const sort = sectionSortOf(part);
  if (sort) return part.units === 'in' ? undefined : sectionDeviation(sizeMm, sort);
  const material = materialOf(part);
  const form = FORMS[part.stock.form];
  if (!form || !material) return undefined;
  const carbon = carbonOf(material.name);
  const alloy = alloyOf(material.name);
  return barDeviation(sizeMm, material.family, {
    form,
    side: bar && sizeMm < bar.sectionMm[0] - ROUNDING ? 'thickness' : 'width',
    inch: part.units === 'in',
    ...(carbon !== undefined && { carbon }),
    ...(alloy !== undefined && { alloy }),
  });
}

/** Undefined for stock that is no section, and without a material. */
function sectionSortOf(part: Part): SectionSort | undefined {
  const [material, bar] = [materialOf(part), barOf(part)];
  const kind = sectionKind(part.stock.form);
  if (!kind || !material || !bar) return undefined;
  const round = part.stock.diameter !== undefined;
  const alloy = alloyOf(material.name);
  return {
    family: material.family,
    tube: kind.open === 0,
    angle: kind.open === 2,
    round,
    circleMm: round ? bar.sectionMm[0] : Math.hypot(...bar.sectionMm),
    ...(alloy !== undefined && { alloy }),
  };
}

/** What a wall or flange of the section may be off: by the rack, else by the standard. */
export function wallOff(part: Part, side: 'wall' | 'flange', wallMm: number, shop: Shop): BarDeviation | undefined {
  const known = widest(
    rackOf(part, shop).map((item) => item.limits?.[side]),
    shop,
  );
  if (known) return known;
  const sort = part.units === 'in' ? undefined : sectionSortOf(part);
  return sort && wallDeviation(wallMm, sort);
}

/** How flat a side as supplied is by the standard of its section; undefined where no row has it. */
export function sectionFlatAt(face: Face, part: Part): { readonly mm: number; readonly source: string } | undefined {
  const [sort, bar] = [sectionSortOf(part), barOf(part)];
  if (!sort || !bar?.wallsMm || sort.round || part.units === 'in') return undefined;
  const sizes = stockSizeMm(part);
  const across = AXES.find((a) => a !== bar.axis && !ENDS[a].includes(face))!;
  const widthMm = sizes[AXES.indexOf(across)]!;
  return sectionFlatness(sort, Math.min(...bar.wallsMm), [widthMm, bar.pieceMm]);
}

/** Of all that lie on the rack, where each says its limits. */
function widest(all: readonly (Pick<BarDeviation, 'upperMm' | 'lowerMm'> | undefined)[], { name }: Shop) {
  const known = all.filter((off) => off !== undefined);
  if (known.length === 0 || known.length < all.length) return undefined;
  return {
    upperMm: Math.max(...known.map((off) => off.upperMm)),
    lowerMm: Math.min(...known.map((off) => off.lowerMm)),
    source: `by the rack of ${name}`,
    known: true,
  } as const;
}

/** To a tenth of a millimetre, as bars are found. */
const NEAR_MM = 0.1;

function rackOff(item: RackItem, sizeMm: number) {
  const sides = [
    ['thickness', item.thicknessMm],
    ['width', item.widthMm],
    ['diameter', item.diameterMm],
  ] as const;
  const side = sides.find(([, mm]) => mm !== undefined && Math.abs(mm - sizeMm) <= NEAR_MM);
  return side && item.limits?.[side[0]];
}

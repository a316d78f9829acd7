/** Sides of a part that stay as the bar came, and how far a bar is off there. */

import { barOf } from '../model/bar';
import { materialOf } from '../model/material-of';
import type { Axis, Face, Part } from '../model/model';
import { sawnFaces } from '../model/sawn-off';
import { stockSizeMm } from '../model/stock';
import { alloyOf, type BarDeviation, type BarSort, barDeviation, carbonOf } from '../tables/bar-tolerances';
import { ROUNDING } from '../tolerance';

export const ENDS: Readonly<Record<Axis, readonly [Face, Face]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};
const AXES: readonly Axis[] = ['x', 'y', 'z'];

interface Supplied {
  readonly axis: Axis;
  readonly faces: readonly [Face, Face];
  readonly sizeMm: number;
  readonly off: BarDeviation;
}

/**
 * Of a flat or square bar: each side across it of which neither face is sawn, has anything outside it, or is faced in a
 * set-up. Of a plate its thickness, by the same.
 */
export function suppliedAcross(part: Part): readonly Supplied[] {
  const { stock } = part;
  if (!part.body || !stock.written || !['flat-bar', 'square-bar', 'plate'].includes(stock.form)) return [];
  const bar = barOf(part);
  const cut = new Set([
    ...sawnFaces(part).map((s) => s.name as string),
    ...(part.setups ?? []).flatMap((s) => s.cuts.map((c) => c.name)).filter((n) => !part.featureByName.has(n)),
  ]);
  return AXES.flatMap((axis) => {
    const faces = ENDS[axis];
    const untouched = faces.every((f) => !cut.has(f) && (stock.extra[f]?.mm ?? 0) <= ROUNDING);
    const off = untouched && axis !== bar?.axis ? barOff(part, axis) : undefined;
    return off ? [{ axis, faces, sizeMm: stockSizeMm(part)[AXES.indexOf(axis)]!, off }] : [];
  });
}

/** How far the diameter of a round body is off that stays as its bar came; undefined where something is turned or milled off it. */
export function suppliedRound(part: Part): BarDeviation | undefined {
  const { body, stock } = part;
  if (body?.form !== 'round' || !stock.written || stock.form !== 'round-bar') return undefined;
  const across = AXES.filter((a) => a !== body.axis);
  if ((stock.axis ?? body.axis) !== body.axis || (stock.diameter && stock.diameter.mm > body.diameter.mm + ROUNDING))
    return undefined;
  if (across.some((a) => ENDS[a].some((f) => (stock.extra[f]?.mm ?? 0) > ROUNDING))) return undefined;
  return barOff(part, across[0]!);
}

const FORMS: Readonly<Record<string, BarSort['form']>> = {
  'flat-bar': 'flat',
  'square-bar': 'square',
  'round-bar': 'round',
  plate: 'plate',
};

/** How far the part's bar or plate may be off along one of its own axes across it; undefined where no table has it. */
export function barOff(part: Part, axis: Axis): BarDeviation | undefined {
  const material = materialOf(part);
  const form = FORMS[part.stock.form];
  if (!form || !material || !part.body) return undefined;
  const bar = barOf(part);
  const sizes = stockSizeMm(part);
  const sizeMm = sizes[AXES.indexOf(axis)]!;
  // A plate is as thick as it is thin; its other sides are sawn from it.
  if (!bar && sizeMm > Math.min(...sizes) + ROUNDING) return undefined;
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

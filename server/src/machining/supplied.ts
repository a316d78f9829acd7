/** Sides of a part that stay as the bar came, and how far a bar is off there. */
import { type BarDeviation, barDeviation, carbonOf } from '../reference/bar-tolerances';
import { findMaterial } from '../reference/materials';
import { barOf } from '../spec/bar';
import type { Axis, Face, Part } from '../spec/model';
import { stockSizeMm } from '../spec/stock';

export const ENDS: Readonly<Record<Axis, readonly [Face, Face]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};
const AXES: readonly Axis[] = ['x', 'y', 'z'];

export interface Supplied {
  readonly axis: Axis;
  readonly faces: readonly [Face, Face];
  readonly sizeMm: number;
  readonly off: BarDeviation;
}

/** Of a flat or square bar: each side across it of which neither face is sawn, has anything outside it, or is faced in a set-up. */
export function suppliedAcross(part: Part): readonly Supplied[] {
  const { stock } = part;
  const bar = barOf(part);
  if (!bar || !stock.written || (stock.form !== 'flat-bar' && stock.form !== 'square-bar')) return [];
  const cut = new Set([
    ...stock.sawn.map((s) => s.name as string),
    ...(part.setups ?? []).flatMap((s) => s.cuts.map((c) => c.name)).filter((n) => !part.featureByName.has(n)),
  ]);
  return AXES.flatMap((axis) => {
    const faces = ENDS[axis];
    const untouched = faces.every((f) => !cut.has(f) && (stock.extra[f]?.mm ?? 0) <= 1e-9);
    const off = axis !== bar.axis && untouched ? barOff(part, axis) : undefined;
    return off ? [{ axis, faces, sizeMm: stockSizeMm(part)[AXES.indexOf(axis)]!, off }] : [];
  });
}

/** How far the part's bar may be off along one of its own axes across the bar; undefined where no table has it. */
export function barOff(part: Part, axis: Axis): BarDeviation | undefined {
  const bar = barOf(part);
  const material = part.material && findMaterial(part.material.name);
  if (!bar || !material) return undefined;
  const sizeMm = stockSizeMm(part)[AXES.indexOf(axis)]!;
  const carbon = carbonOf(material.name);
  return barDeviation(sizeMm, material.family, {
    side: sizeMm < bar.sectionMm[0] - 1e-9 ? 'thickness' : 'width',
    square: part.stock.form === 'square-bar',
    inch: part.units === 'in',
    ...(carbon !== undefined && { carbon }),
  });
}

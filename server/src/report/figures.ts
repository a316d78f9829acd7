/** A part's figures as every report gives them: keys end in their unit. */

import { findMaterial } from '../reference/materials';
import type { CheckedPart } from '../rules/check';
import { stockSizeMm } from '../spec/stock';

export interface PartFigures {
  readonly name: string;
  /** Of the finished part; null where the text does not say enough. */
  readonly volume_mm3: number | null;
  /** False where an approximation took part in the volume. */
  readonly exact: boolean;
  /** Null without a known material. */
  readonly mass_g: number | null;
  readonly centroid_mm: readonly [number, number, number] | null;
  readonly stock_mm: readonly [number, number, number] | null;
  /** How many the text gives; null where it gives none. */
  readonly setups: number | null;
}

/** The numbers of one part; the unit is in each key. Null where it could not be worked out. */
export function figuresOf(checked: CheckedPart): PartFigures {
  const { part, solid } = checked;
  const density = part.material ? findMaterial(part.material.name)?.densityGPerCm3 : undefined;
  const measures = part.body ? solid.measures : undefined;
  return {
    name: part.name,
    volume_mm3: measures ? round(measures.volumeMm3, 3) : null,
    exact: measures?.exact ?? false,
    mass_g: measures && density !== undefined ? round((measures.volumeMm3 * density) / 1000, 3) : null,
    centroid_mm: measures ? triple(measures.centroid) : null,
    stock_mm: part.body ? triple(stockSizeMm(part)) : null,
    setups: part.setups ? part.setups.length : null,
  };
}

function triple(v: readonly [number, number, number]): readonly [number, number, number] {
  return [round(v[0], 4), round(v[1], 4), round(v[2], 4)];
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

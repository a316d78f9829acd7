/** A part's figures as every report gives them: keys end in their unit. */

import { materialOf } from '../model/material-of';
import { stockSizeMm } from '../model/stock';
import { costOf } from '../planning/cost';
import { type Order, pieceTime, spentOn } from '../planning/piece-time';
import type { Range } from '../planning/ranges';
import type { ReadPart } from '../rules/judging';
import { type LeftOut, leftOutOf } from './left-out';

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
  /** Features and set-ups that stand in the text, could not be read, and are in none of the figures; absent where there are none. */
  readonly left_out?: LeftOut;
}

/** What its pieces take; null where that cannot be said. Ranges: a quick hand and a slow one. */
export interface SpentFigures {
  /** Whose set-ups it is by: `written`, `planned`, `rough`. */
  readonly order: Order | null;
  readonly first_piece_min: Range | null;
  readonly each_further_min: Range | null;
  readonly quantity: number;
  readonly machine_min: Range | null;
  readonly person_min: Range | null;
  /** By the shop's rates; null where it sets none. */
  readonly cost: { readonly currency: string; readonly total: Range; readonly material_priced: boolean } | null;
}

export function spentFigures(checked: ReadPart): SpentFigures {
  const { quantity } = checked.part;
  const time = pieceTime(checked);
  const spent = time && spentOn(time, quantity);
  const cost = costOf([{ checked, quantity }]);
  const pair = (range: Range | undefined): Range | null => (range ? [round(range[0], 3), round(range[1], 3)] : null);
  return {
    order: time?.order ?? null,
    first_piece_min: pair(time?.machine.firstPiece),
    each_further_min: pair(time?.machine.eachFurther),
    quantity,
    machine_min: pair(spent?.machine),
    person_min: pair(spent?.person),
    cost: cost
      ? { currency: cost.currency, total: pair(cost.total)!, material_priced: cost.unpriced.length === 0 }
      : null,
  };
}

/** The numbers of one part; the unit is in each key. Null where it could not be worked out. */
export function figuresOf(checked: ReadPart): PartFigures {
  const { part, solid } = checked;
  const leftOut = leftOutOf(checked);
  const lacks = leftOut.features.length + leftOut.setups.length > 0;
  const density = materialOf(part)?.densityGPerCm3;
  const measures = part.body ? solid.measures : undefined;
  return {
    name: part.name,
    volume_mm3: measures ? round(measures.volumeMm3, 3) : null,
    exact: measures?.exact ?? false,
    mass_g: measures && density !== undefined ? round((measures.volumeMm3 * density) / 1000, 3) : null,
    centroid_mm: measures ? triple(measures.centroid) : null,
    stock_mm: part.body ? triple(stockSizeMm(part)) : null,
    setups: part.setups ? part.setups.length : null,
    ...(lacks && { left_out: leftOut }),
  };
}

function triple(v: readonly [number, number, number]): readonly [number, number, number] {
  return [round(v[0], 4), round(v[1], 4), round(v[2], 4)];
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

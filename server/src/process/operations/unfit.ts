/** A cut that no end would come of: the cutter chosen bends, stalls or cannot be turned fast enough, however little it takes. */

import type { Machine } from '../../model/shop-model';
import type { Material } from '../../tables/materials';
import { priceOf } from './priced';
import type { Operation } from './types';

/** What it would take instead, in the words of a cut that lacks its tool; undefined where the cutter stands it. */
export function unfit(
  operation: Operation,
  material: Material | undefined,
  machine: Machine | undefined,
): string | undefined {
  if (operation.does === 'missing' || !material || !machine) return undefined;
  if (priceOf(operation, material, machine).minutes.every(Number.isFinite)) return undefined;
  return `a cutter that stands the cut, for ${operation.tool.name} does not`;
}

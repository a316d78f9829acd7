/**
 * What parts are made of: density, stiffness, strength, machining group, and what can hurt. The rows are in
 * `materials.data.ts` and `plastics.data.ts`. Values are typical ones for choosing and weighing, not for releasing a structure.
 */
import { CAUTIONS } from './cautions.data';
import type { CuttingRow, KienzleRow } from './cutting.data';
import { type MaterialFamily, METAL_ROWS } from './materials.data';
import { PLASTIC_ROWS } from './plastics.data';

const MATERIAL_ROWS = [...METAL_ROWS, ...PLASTIC_ROWS];

import { editDistance, least } from './nearest';

export interface Material {
  /** As a part file writes it: `aluminium-6061-t6`. */
  readonly name: string;
  /** By its standard's designation. */
  readonly title: string;
  readonly family: MaterialFamily;
  readonly class: 'metal' | 'plastic' | 'composite';
  readonly densityGPerCm3: number;
  readonly youngMPa: number;
  readonly yieldMPa?: number;
  readonly ultimateMPa?: number;
  /** ISO 513: P steel, M stainless, K cast iron, N non-ferrous, S titanium and hot-strength alloys; absent for plastics. */
  readonly group?: 'P' | 'M' | 'K' | 'N' | 'S' | 'H';
  readonly aliases: readonly string[];
  /** The usual caution for what can hurt; defer to the shop's rules and trained staff. */
  readonly caution?: { readonly text: string; readonly source: string };
  readonly source: string;
  /** Where a shop says how its own is cut: the law of its force, its speeds; the tables' where it does not. */
  readonly cut?: { readonly law?: KienzleRow; readonly row?: CuttingRow };
}

export const MATERIALS: readonly Material[] = MATERIAL_ROWS.map((row) => ({
  name: row.name,
  title: row.title,
  family: row.family,
  class: row.family === 'plastic' || row.family === 'composite' ? row.family : 'metal',
  densityGPerCm3: row.values[0],
  youngMPa: row.values[1] * 1000,
  ...(row.values[2] === null ? {} : { yieldMPa: row.values[2] }),
  ...(row.values[3] === null ? {} : { ultimateMPa: row.values[3] }),
  ...(row.group === null ? {} : { group: row.group }),
  aliases: row.aliases,
  ...(row.caution === undefined ? {} : { caution: CAUTIONS[row.caution] }),
  source: row.source,
}));

const byName = new Map<string, Material>();
for (const material of MATERIALS) {
  for (const name of [material.name, ...material.aliases]) byName.set(name, material);
}

/** The material of a name, in any case and spacing, by our name or a usual one: `aluminium-6061-t6`, `6061-T6`, `aluminum 6061`. */
export function findMaterial(name: string): Material | undefined {
  return byName.get(spelling(name));
}

/** The material whose name is most like this one, or undefined where none is near. */
export function nearestMaterial(name: string): Material | undefined {
  const wanted = spelling(name);
  if (wanted.length < 2) return undefined;
  const [best] = least(byName, ([known]) => editDistance(wanted, known)) ?? [];
  if (best !== undefined && editDistance(wanted, best) <= Math.max(1, Math.floor(wanted.length / 4))) {
    return byName.get(best);
  }
  // `al6061`, `alloy-7075-t651`: a name that holds a known designation.
  const holds = [...byName.keys()].filter((known) => known.length >= 3 && wanted.includes(known));
  const longest = least(holds, (known) => -known.length);
  return longest === undefined ? undefined : byName.get(longest);
}

function spelling(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replace(/[\s_/]+/g, '-')
    .replace(/^(?:en-aw-?|aw-)/, 'aluminium-')
    .replace(/aluminum/g, 'aluminium');
}

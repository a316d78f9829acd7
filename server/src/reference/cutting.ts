/** Cutting values for a material by name or family; the rows and their sources are in `cutting.data.ts`. */
import { CUTTING_ROWS, type CuttingRow, KIENZLE_OF, KIENZLE_ROWS, type KienzleRow } from './cutting.data';
import type { Material } from './materials';

/** Materials that are a row of the table, or behave as one does. */
const OWN: readonly (readonly [RegExp, keyof typeof KIENZLE_ROWS])[] = [
  [/4140|42crmo4/i, '42crmo4'],
  [/c60|1060/i, 'c60'],
  [/c45|1045/i, 'c45'],
  [/16mncr5/i, '16mncr5'],
  [/s235|s275|1018|1020|e295|st-?37/i, 'e295'],
];

/** The specific cutting force of a material: its own row, or its family's. */
export function kienzleOf(material: Pick<Material, 'name' | 'family'>): KienzleRow {
  const own = OWN.find(([pattern]) => pattern.test(material.name));
  return KIENZLE_ROWS[own?.[1] ?? KIENZLE_OF[material.family]];
}

/** Speed and chip-load ranges of a material's family. */
export function cuttingOf(material: Pick<Material, 'family'>): CuttingRow {
  return CUTTING_ROWS[material.family];
}

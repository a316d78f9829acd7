/** Cutting values for a material by name or family; the rows and their sources are in `cutting.data.ts`. */
import {
  COOLING,
  type Cooling,
  CUTTING_ROWS,
  type CuttingRow,
  KIENZLE_OF,
  KIENZLE_ROWS,
  type KienzleRow,
  STRONG_STEEL_MPA,
} from './cutting.data';
import type { Material } from './materials';

/** Materials that are a row of the table, or behave as one does. */
const OWN: readonly (readonly [RegExp, keyof typeof KIENZLE_ROWS])[] = [
  [/4140|42crmo4/i, '42crmo4'],
  [/c60|1060/i, 'c60'],
  [/c45|1045/i, 'c45'],
  [/16mncr5/i, '16mncr5'],
  [/beryllium|bronze/i, 'bronze'],
  [/^copper/i, 'copper'],
  [/s235|s275|1018|1020|e295|st-?37/i, 'e295'],
];

/** The specific cutting force of a material: its own row, or its family's. */
export function kienzleOf(material: Pick<Material, 'name' | 'family'>): KienzleRow {
  const own = OWN.find(([pattern]) => pattern.test(material.name));
  return KIENZLE_ROWS[own?.[1] ?? KIENZLE_OF[material.family]];
}

/** Speeds, chip loads, widths and depths for a material: its family's, strong steels' for those. */
export function cuttingOf({ family, ultimateMPa = 0 }: Pick<Material, 'family' | 'ultimateMPa'>): CuttingRow {
  return CUTTING_ROWS[family === 'steel' && ultimateMPa > STRONG_STEEL_MPA.value ? 'strong-steel' : family];
}

/** What the coolant of a machine changes for a material; one that is cut dry as a rule loses nothing without. */
export function coolingOf(material: Pick<Material, 'family' | 'ultimateMPa'>, coolant: keyof typeof COOLING): Cooling {
  return cuttingOf(material).dry && (coolant === 'none' || coolant === 'air') ? COOLING.mist : COOLING[coolant];
}

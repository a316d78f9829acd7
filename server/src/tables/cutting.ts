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
import { DRILLING_ROWS, type DrillingKey, type DrillingRow, MILD_STEEL_MPA } from './plunging.data';

/** Materials that are a row of the table, or behave as one does. */
const OWN: readonly (readonly [RegExp, keyof typeof KIENZLE_ROWS])[] = [
  [/4140|42crmo4/i, '42crmo4'],
  [/c60|1060/i, 'c60'],
  [/c45|1045/i, 'c45'],
  [/16mncr5/i, '16mncr5'],
  [/beryllium|bronze/i, 'bronze'],
  [/^copper/i, 'copper'],
  [/s235|s275|1018|1020|st-?37/i, 's235'],
  [/e295|st-?50/i, 'e295'],
];

/** The specific cutting force of a material: its own row, or its family's. */
export function kienzleOf(material: Pick<Material, 'name' | 'family' | 'cut'>): KienzleRow {
  if (material.cut?.law) return material.cut.law;
  const own = OWN.find(([pattern]) => pattern.test(material.name));
  return KIENZLE_ROWS[own?.[1] ?? KIENZLE_OF[material.family]];
}

/** What of a material says how it is cut. */
export type CutMaterial = Pick<Material, 'family'> & Partial<Pick<Material, 'name' | 'ultimateMPa' | 'cut'>>;

/** Short-chipping copper alloys: those that hold lead. Beryllium copper and bronze are as tough as steel. */
function ofCopper(name = ''): 'brass' | 'bronze' | 'copper' {
  return /beryllium|bronze/i.test(name) ? 'bronze' : /brass/i.test(name) ? 'brass' : 'copper';
}

/** Speeds, chip loads, widths and depths for a material: its family's, strong steels' and brass's for those. */
export function cuttingOf({ name, family, ultimateMPa, cut }: CutMaterial): CuttingRow {
  if (cut?.row) return cut.row;
  if (family === 'copper' && ofCopper(name) === 'brass') return CUTTING_ROWS.brass;
  return CUTTING_ROWS[family === 'steel' && (ultimateMPa ?? 0) > STRONG_STEEL_MPA.value ? 'strong-steel' : family];
}

/** The row of the tables for holes that a material goes by. */
export function holeRowOf({ name, family, ultimateMPa }: CutMaterial): DrillingKey {
  if (family === 'copper') return ofCopper(name);
  if (family !== 'steel' || ultimateMPa === undefined) return family;
  return ultimateMPa > STRONG_STEEL_MPA.value
    ? 'strong-steel'
    : ultimateMPa <= MILD_STEEL_MPA.value
      ? 'mild-steel'
      : 'steel';
}

/** Speeds and feeds of twist drills in a material. */
export function drillingOf(material: CutMaterial): DrillingRow {
  return DRILLING_ROWS[holeRowOf(material)];
}

/** What the coolant of a machine changes for a material; one that is cut dry as a rule loses nothing without. */
export function coolingOf(material: CutMaterial, coolant: keyof typeof COOLING): Cooling {
  return cuttingOf(material).dry && (coolant === 'none' || coolant === 'air') ? COOLING.mist : COOLING[coolant];
}

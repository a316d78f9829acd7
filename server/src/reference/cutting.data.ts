/**
 * How materials are cut: specific cutting force, surface speed, chip load, and how stiff cutters are. Rows only. Ranges, not
 * points: the low end is for long tools, dry cutting and light machines, the high end for short ones with coolant.
 */
import type { MaterialFamily } from './materials.data';

const KIENZLE = 'Kienzle and Victor’s table of 1957 as reprinted in German textbooks, from memory';
const PRACTICE = 'common practice, from memory: ranges on which handbooks and cutter makers broadly agree';

export interface KienzleRow {
  readonly material: string;
  /** Force on a chip of 1 × 1 mm, N/mm². */
  readonly kc11: number;
  /** How it falls with chip thickness: kc = kc11 · h^-mc. */
  readonly mc: number;
  readonly source: string;
}

export const KIENZLE_ROWS = {
  e295: { material: 'E295 (St 50-2)', kc11: 1990, mc: 0.26, source: KIENZLE },
  e335: { material: 'E335 (St 60-2)', kc11: 2110, mc: 0.17, source: KIENZLE },
  c45: { material: 'C45', kc11: 2220, mc: 0.14, source: KIENZLE },
  c60: { material: 'C60', kc11: 2130, mc: 0.18, source: KIENZLE },
  '16mncr5': { material: '16MnCr5', kc11: 2100, mc: 0.26, source: KIENZLE },
  '18crni6': { material: '18CrNi6', kc11: 2260, mc: 0.3, source: KIENZLE },
  '42crmo4': { material: '42CrMo4', kc11: 2500, mc: 0.26, source: KIENZLE },
  '34crmo4': { material: '34CrMo4', kc11: 2240, mc: 0.21, source: KIENZLE },
  '50crv4': { material: '50CrV4', kc11: 2220, mc: 0.26, source: KIENZLE },
  gjl250: { material: 'EN-GJL-250', kc11: 1160, mc: 0.26, source: KIENZLE },
  x5crni: { material: 'X5CrNi18-10', kc11: 2350, mc: 0.21, source: `${KIENZLE}, low confidence` },
  brass: { material: 'CuZn39Pb3', kc11: 780, mc: 0.18, source: `${KIENZLE}, low confidence` },
  aluminium: {
    material: 'wrought aluminium',
    kc11: 700,
    mc: 0.25,
    source: `${KIENZLE}, low confidence; published values run from 350 to 800`,
  },
  ti64: { material: 'Ti-6Al-4V', kc11: 1400, mc: 0.23, source: `${KIENZLE}, low confidence` },
  magnesium: {
    material: 'magnesium alloys',
    kc11: 280,
    mc: 0.19,
    source: 'from memory; unit power of 0.27 W·s/mm³ in Machinery’s Handbook, Table 1a, from memory',
  },
  plastic: { material: 'engineering plastics', kc11: 120, mc: 0.2, source: 'from memory, low confidence' },
  composite: { material: 'glass and carbon fibre', kc11: 350, mc: 0.3, source: 'from memory, low confidence' },
} as const satisfies Readonly<Record<string, KienzleRow>>;

/** The row for a whole family, where a material has none of its own: the one that asks for more force. */
export const KIENZLE_OF: Readonly<Record<MaterialFamily, keyof typeof KIENZLE_ROWS>> = {
  aluminium: 'aluminium',
  steel: 'c45',
  stainless: 'x5crni',
  'cast-iron': 'gjl250',
  titanium: 'ti64',
  copper: 'brass',
  magnesium: 'magnesium',
  plastic: 'plastic',
  composite: 'composite',
};

type Range = readonly [low: number, high: number];

export interface CuttingRow {
  /** Surface speed, m/min, of high-speed steel (with or without cobalt) and of carbide; absent where it is not cut with it. */
  readonly hss?: Range;
  readonly carbide: Range;
  /** Chip load of an end mill as a share of its diameter, mm a tooth for each mm. */
  readonly chip: Range;
  /** Feed of a twist drill as a share of its diameter, mm a turn for each mm. */
  readonly drill: Range;
  /** Drilling and tapping speed against milling speed in high-speed steel. */
  readonly tapMPerMin: Range;
  /** Deepest cut of a full slot, in cutter diameters. */
  readonly slotDepth: number;
  readonly source: string;
}

export const CUTTING_ROWS: Readonly<Record<MaterialFamily, CuttingRow>> = {
  aluminium: row([60, 120], [150, 400], [0.006, 0.015], [0.015, 0.025], [12, 25], 1),
  steel: row([18, 32], [80, 160], [0.004, 0.009], [0.012, 0.02], [6, 12], 0.5),
  stainless: row([10, 18], [50, 90], [0.003, 0.007], [0.008, 0.015], [3, 7], 0.4),
  'cast-iron': row([18, 30], [70, 130], [0.005, 0.01], [0.015, 0.025], [6, 12], 0.6),
  titanium: row([8, 14], [30, 60], [0.003, 0.007], [0.006, 0.012], [3, 6], 0.3),
  copper: row([35, 80], [120, 250], [0.005, 0.012], [0.015, 0.025], [10, 20], 0.8),
  magnesium: row([60, 150], [100, 150], [0.006, 0.015], [0.015, 0.03], [10, 20], 1),
  plastic: row([60, 150], [150, 300], [0.008, 0.02], [0.012, 0.025], [10, 25], 1),
  composite: row(undefined, [80, 180], [0.003, 0.008], [0.006, 0.012], [3, 8], 0.5),
};

function row(
  hss: Range | undefined,
  carbide: Range,
  chip: Range,
  drill: Range,
  tapMPerMin: Range,
  slotDepth: number,
): CuttingRow {
  return { ...(hss && { hss }), carbide, chip, drill, tapMPerMin, slotDepth, source: PRACTICE };
}

/** Young's modulus of what cutters are made of, MPa. */
export const CUTTER_YOUNG = {
  carbide: { mPa: 600_000, source: 'sintered carbide 580 to 620 GPa, from memory' },
  hss: { mPa: 210_000, source: 'tool steel, from memory' },
} as const;

/** Of a fluted part's stiffness: a round bar of this share of the cutter's diameter bends as much. */
export const FLUTE_CORE = { share: 0.8, source: 'Kops and Vo 1990, from memory' } as const;

/** Radial against tangential force on a tooth. */
export const RADIAL_SHARE = {
  share: 0.5,
  source: 'common practice, from memory: 0.3 to 0.7 of the tangential force',
} as const;

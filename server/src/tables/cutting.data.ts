/**
 * How materials are cut: specific cutting force, surface speed, chip load, widths and depths by ISO 513 group and cutter
 * material; what coolant changes; how stiff cutters are. Rows only. Ranges, not points: the low end is for long tools, dry cutting and light machines, the high end for short ones with coolant.
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
  s235: {
    material: 'S235JR (St 37-2)',
    kc11: 1780,
    mc: 0.17,
    source: 'German textbooks’ tables, from memory; never more than C45, whose steel is the harder',
  },
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
  copper: {
    material: 'copper, medium brass',
    kc11: 1100,
    mc: 0.18,
    source: 'from the unit power of medium brass, 1.36 W·s/mm³ (Machinery’s Handbook, Table 1a, from memory) at 0.3 mm',
  },
  bronze: {
    material: 'hard brass and bronze',
    kc11: 1830,
    mc: 0.18,
    source: 'from the unit power of hard brass, 2.27 W·s/mm³ (Machinery’s Handbook, Table 1a, from memory) at 0.3 mm',
  },
  aluminium: {
    material: 'wrought aluminium',
    kc11: 700,
    mc: 0.25,
    source: `${KIENZLE}, low confidence; published values run from 350 to 800. At 0.1 mm it is 1,245 N/mm² where a cutter maker’s table (read in 2026) has 580 to 880: kept, since it errs towards more force`,
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

export type Range = readonly [low: number, high: number];

export interface CuttingRow {
  /** ISO 513: what the row is a group of; absent where the standard has none. */
  readonly group?: 'P' | 'M' | 'K' | 'N' | 'S';
  /** Surface speed, m/min, by what the cutter is made of; absent where it is not cut with it. */
  readonly speed: { readonly hss?: Range; readonly cobalt?: Range; readonly carbide: Range };
  /** Chip load of an end mill as a share of its diameter, mm a tooth for each mm. */
  readonly chip: { readonly hss: Range; readonly carbide: Range };
  /** Tapping speed in high-speed steel, m/min. */
  readonly tapMPerMin: Range;
  /** Depth of a full slot, in cutter diameters: of a light and of a stiff machine. */
  readonly slotDepth: Range;
  /** Beside a wall: widths and depths in cutter diameters. A narrow cut may be deep, a wide one not. */
  readonly sideWidth: Range;
  readonly sideDepth: Range;
  /** Usual helix of twist drills, DIN 1414 types: N general, H short chips, W long and soft ones. */
  readonly helix: { readonly type: 'N' | 'H' | 'W'; readonly deg: Range };
  /** Cut dry as a rule: coolant makes paste, hurts, or does nothing. */
  readonly dry: boolean;
  readonly source: string;
}

/** Families as they cut; steels over this strength are a row of their own. */
export const STRONG_STEEL_MPA = {
  value: 700,
  source: 'common practice, from memory: tables part at about 700 N/mm²',
} as const;

const N = { type: 'N', deg: [25, 30] } as const;
const H = { type: 'H', deg: [10, 15] } as const;
const W = { type: 'W', deg: [35, 40] } as const;

export const CUTTING_ROWS: Readonly<Record<MaterialFamily | 'strong-steel' | 'brass', CuttingRow>> = {
  aluminium: row({
    group: 'N',
    hss: [60, 120],
    carbide: [150, 400],
    chip: [0.006, 0.015],
    tapMPerMin: [12, 25],
    slotDepth: [0.5, 1],
    helix: W,
  }),
  steel: row({
    group: 'P',
    hss: [18, 32],
    carbide: [80, 160],
    chip: [0.004, 0.009],
    tapMPerMin: [6, 12],
    slotDepth: [0.25, 0.5],
    helix: N,
  }),
  'strong-steel': row({
    group: 'P',
    hss: [10, 20],
    carbide: [50, 110],
    chip: [0.003, 0.007],
    tapMPerMin: [3, 8],
    slotDepth: [0.2, 0.4],
    helix: N,
  }),
  stainless: row({
    group: 'M',
    hss: [10, 18],
    carbide: [50, 90],
    chip: [0.003, 0.007],
    tapMPerMin: [3, 7],
    slotDepth: [0.2, 0.4],
    helix: N,
  }),
  'cast-iron': row({
    group: 'K',
    hss: [18, 30],
    carbide: [70, 130],
    chip: [0.005, 0.01],
    tapMPerMin: [6, 12],
    slotDepth: [0.3, 0.6],
    helix: N,
    dry: true,
  }),
  titanium: row({
    group: 'S',
    hss: [8, 14],
    carbide: [30, 60],
    chip: [0.003, 0.007],
    tapMPerMin: [3, 6],
    slotDepth: [0.15, 0.3],
    helix: N,
  }),
  copper: row({
    group: 'N',
    hss: [35, 80],
    carbide: [120, 250],
    chip: [0.005, 0.012],
    tapMPerMin: [10, 20],
    slotDepth: [0.4, 0.8],
    helix: H,
  }),
  brass: row({
    group: 'N',
    hss: [45, 90],
    carbide: [150, 300],
    chip: [0.005, 0.012],
    tapMPerMin: [10, 25],
    slotDepth: [0.4, 0.8],
    helix: H,
  }),
  magnesium: row({
    group: 'N',
    hss: [60, 120],
    carbide: [100, 150],
    chip: [0.006, 0.015],
    tapMPerMin: [10, 20],
    slotDepth: [0.5, 1],
    helix: W,
    dry: true,
  }),
  plastic: row({
    hss: [60, 150],
    carbide: [150, 300],
    chip: [0.008, 0.02],
    tapMPerMin: [10, 25],
    slotDepth: [0.5, 1],
    helix: H,
    dry: true,
  }),
  composite: row({
    hss: [15, 30],
    carbide: [80, 180],
    chip: [0.003, 0.008],
    tapMPerMin: [3, 8],
    slotDepth: [0.25, 0.5],
    helix: N,
    dry: true,
  }),
};

type Given = Pick<CuttingRow, 'group' | 'tapMPerMin' | 'slotDepth' | 'helix'> & {
  readonly hss?: Range;
  readonly carbide: Range;
  readonly chip: Range;
  readonly dry?: boolean;
};

function row({ hss, carbide, chip, dry = false, ...rest }: Given): CuttingRow {
  return {
    ...rest,
    // Cobalt steel runs a quarter faster; cutters of both bear a little less feed than carbide of their size.
    speed: { ...(hss && { hss, cobalt: [hss[0] * 1.25, hss[1] * 1.25] as const }), carbide },
    chip: { hss: [chip[0] * 0.9, chip[1] * 0.9], carbide: chip },
    sideWidth: [0.1, 0.4],
    sideDepth: [0.5, 1.5],
    dry,
    source: PRACTICE,
  };
}

export interface Cooling {
  /** How far up its range a speed is taken. */
  readonly speedShare: number;
  /** From so many diameters on a drill clears its chips, and after so many each time. */
  readonly peckFromD: number;
  readonly peckD: number;
  readonly source: string;
}

const COOLED =
  'common practice, no source: chips that are not washed out weld or rub, so dry drills clear sooner and run slower';

/** What a coolant changes. Materials that are cut dry as a rule lose nothing by it. */
export const COOLING: Readonly<Record<'flood' | 'mist' | 'air' | 'none', Cooling>> = {
  flood: { speedShare: 0.6, peckFromD: 4, peckD: 1.5, source: COOLED },
  mist: { speedShare: 0.45, peckFromD: 3.5, peckD: 1.25, source: COOLED },
  air: { speedShare: 0.35, peckFromD: 3, peckD: 1, source: COOLED },
  none: { speedShare: 0.15, peckFromD: 2.5, peckD: 0.75, source: COOLED },
};

/** Young's modulus of what cutters are made of, MPa. */
export const CUTTER_YOUNG = {
  carbide: { mPa: 600_000, source: 'sintered carbide 580 to 620 GPa, from memory' },
  hss: { mPa: 210_000, source: 'tool steel, from memory' },
  /** Of holders. */
  steel: { mPa: 210_000, source: 'steel, from memory' },
} as const;

/** Of a fluted part's stiffness: a round bar of this share of the cutter's diameter bends as much. */
export const FLUTE_CORE = { share: 0.8, source: 'Kops and Vo 1990, from memory' } as const;

/** An edge that has worked for a while asks for more than the sharp one of the tables. */
export const WORN_EDGE = {
  factor: 1.1,
  source: 'tool wear factor for slab and end milling, Machinery’s Handbook (power for machining), from memory',
} as const;

/**
 * What friction in a collet bears along or around a shank before it slips, N for each mm of the shank's diameter: of what
 * was measured on shanks of 19 mm (0.75 in), 600 to 3750 lbf by how it was drawn up and oiled, the least. It grows with the
 * shank as the gripped surface does.
 */
export const COLLET_SLIP = {
  nPerMm: 140,
  source:
    'pull-out of 0.75 in shanks from collets, 600 to 3750 lbf as drawn up badly or well: a maker’s published test ("Preventing collet slip"), the least of it, in proportion to the shank',
} as const;

/** Helix of end mills where the shop does not say: what is usual, by what they are made of. */
export const END_MILL_HELIX: Readonly<Record<'hss' | 'cobalt' | 'carbide', Range>> = {
  hss: [25, 40],
  cobalt: [25, 40],
  carbide: [30, 45],
};
export const END_MILL_HELIX_SOURCE =
  'DIN 844 types N (about 30°) and W (40° and more), DIN 6527 solid carbide (30° to 45°), from memory';

/** Radial against tangential force on a tooth. */
export const RADIAL_SHARE = {
  share: 0.5,
  source: 'common practice, from memory: 0.3 to 0.7 of the tangential force',
} as const;

/** What of tangential force times the tangent of the helix goes along the axis: chips that slide up the rake take the rest. */
export const AXIAL_SHARE = {
  share: 0.7,
  source:
    'the larger of two sets of milling coefficients at 30° of helix: Ti-6Al-4V 735 of 1825 N/mm², aluminium 7075 222 of 796 N/mm² (Budak, Altintas and Armarego 1996; Altintas, Manufacturing Automation, from memory)',
} as const;

/**
 * Chip loads grow with a cutter's size only so far: a wider tooth bears more, a small machine does not. Up to these
 * diameters, mm.
 */
export const CHIP_GROWS_TO = {
  end: 12,
  /** Of a face mill: its inserts are thicker. */
  face: 20,
  /** Of a cone: where it cuts it is thin. */
  chamfer: 8,
  source:
    'common practice, no source: 0.05 to 0.15 mm a tooth for end mills of 10 mm and more, 0.1 to 0.25 for inserts',
} as const;

/** What the teeth of cutters that are not plain end mills bear against those: of chip load, and of speed, and at most. */
export const EDGES = {
  side: { chip: 1, speed: 1, most: undefined, source: PRACTICE },
  chamfer: {
    chip: 0.7,
    speed: 1,
    most: undefined,
    source: 'common practice, no source: cones at 0.03 to 0.06 mm a tooth in aluminium',
  },
  form: {
    chip: 0.27,
    speed: 0.7,
    /** m/min, whatever the material: long teeth on a thin neck chatter. */
    most: { hss: [30, 45], cobalt: [30, 45], carbide: [60, 90] },
    source:
      'common practice, no source: dovetail, T-slot and ring cutters at 0.02 to 0.05 mm a tooth, in high-speed steel 30 to 45 m/min in aluminium',
  },
  disc: {
    chip: 0.13,
    speed: 0.7,
    /** m/min, whatever the material: a thin disc that warms goes out of true. */
    most: { hss: [60, 120], cobalt: [60, 120], carbide: [120, 250] },
    source:
      'common practice, no source: saws and keyseat cutters at 0.01 to 0.03 mm a tooth in aluminium, from memory, 0.7 of a mill’s speed; never over a cold saw’s manual (discs of high-speed steel in 10 to 20 mm, read in 2026): 50 m/min in mild steel, 30 in medium, 20 in hard and in austenitic stainless, 25 in grey iron, 200 in aluminium alloys',
  },
} as const;

/** How a cutter goes into metal from above: the slope of its ramp or helix, and what of the feed it bears there and straight down. */
export const ENTRY = {
  rampDeg: 3,
  rampFeed: 0.5,
  plungeFeed: 0.3,
  source: 'common practice, no source: 2 to 5° at half the feed, straight down at a third to a quarter',
} as const;

/** Passes of cutters that have the shape: so deep a chamfer at a time, and so much of its diameter an undercutter. */
export const PASSES = {
  chamferMm: 1.2,
  undercutShare: 0.1,
  leastUndercuts: 2,
  source: 'common practice, no source: two or three passes for a chamfer of 3 mm, and a side for a dovetail',
} as const;

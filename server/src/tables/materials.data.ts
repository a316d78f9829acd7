/** Materials as rows: typical room-temperature values from public sheets, or from memory where the source says so. Data only. */

export type MaterialFamily =
  | 'aluminium'
  | 'steel'
  | 'stainless'
  | 'cast-iron'
  | 'titanium'
  | 'copper'
  | 'magnesium'
  | 'plastic'
  | 'composite';

interface MaterialRow {
  readonly name: string;
  readonly title: string;
  readonly family: MaterialFamily;
  /** Density g/cm³, Young's modulus GPa, yield (or proof) MPa, ultimate tensile MPa; null where no value is at hand. */
  readonly values: readonly [number, number, number | null, number | null];
  /** ISO 513 group; null for what that standard does not cover. */
  readonly group: 'P' | 'M' | 'K' | 'N' | 'S' | 'H' | null;
  readonly aliases: readonly string[];
  readonly caution?: keyof typeof CAUTIONS;
  readonly source: string;
}

const ASM = 'typical values as in ASM / Aluminum Association tables, from memory';
const MEMORY = 'from memory';

/**
 * What can hurt. Each is the usual caution only; the shop's own rules and trained staff go before it.
 */
export const CAUTIONS = {
  magnesium: {
    text: 'Magnesium chips and dust burn, and water makes it worse. Machine dry, never let the cutter rub, and keep chips dry in a closed bin. Keep metal-fire powder ready, never water.',
    source: 'T.O. 1-1A-9 / TM 43-0106',
  },
  titanium: {
    text: 'Fine titanium chips can catch fire. Use sharp tools, low speed and plenty of coolant. Keep fine chips from piling up, and a metal-fire extinguisher (class D) within reach.',
    source: 'common practice, from memory',
  },
  beryllium: {
    text: 'Beryllium dust harms the lungs for life (limit 0.2 µg/m³ over 8 h). Cut it only wet, enclosed, with extraction, and where the shop has rules for it.',
    source: 'OSHA 29 CFR 1910.1024, from memory',
  },
  fibres: {
    text: 'Glass and carbon fibre dust harms lungs and skin, and carbon dust conducts. Use extraction or cut wet, and wear a fitted mask (P100 or P3). Use no compressed air for cleaning.',
    source: 'common practice, from memory',
  },
  lead: {
    text: 'Free-cutting brass contains lead. Wash your hands before you eat, and keep the chips apart.',
    source: 'common practice, from memory',
  },
  leaded: {
    text: 'This free-cutting alloy contains lead. Wash your hands before you eat, and keep the chips apart.',
    source: 'common practice, from memory',
  },
  strings: {
    text: 'It comes off in long strings that wind round the tool and grab. Stop the spindle before you take them off, and never pull at them while it turns.',
    source: 'common practice, no source',
  },
  formaldehyde: {
    text: 'Overheated acetal gives off formaldehyde. Use sharp tools, moderate speed and air, and never burn the chips.',
    source: 'common practice, from memory',
  },
  fluorine: {
    text: 'Overheated PTFE gives off poisonous fumes. Use sharp tools, keep it cool, and do not smoke near it.',
    source: 'common practice, from memory',
  },
} as const;

export const MATERIAL_ROWS: readonly MaterialRow[] = [
  row(
    'aluminium-6061-t6',
    'EN AW-6061 T6',
    'aluminium',
    [2.7, 68.9, 276, 310],
    'N',
    ['6061', '6061-t6', '6061-t651', 'aluminium-6061'],
    'Aluminum Association typical values, via two public sheets',
  ),
  row(
    'aluminium-6082-t6',
    'EN AW-6082 T6',
    'aluminium',
    [2.7, 70, 260, 310],
    'N',
    ['6082', '6082-t6', 'aluminium-6082'],
    'EN 755-2 minima, from memory',
  ),
  row(
    'aluminium-7075-t6',
    'EN AW-7075 T6',
    'aluminium',
    [2.81, 71.7, 503, 572],
    'N',
    ['7075', '7075-t6', '7075-t651', 'aluminium-7075'],
    ASM,
  ),
  row(
    'aluminium-2017a-t4',
    'EN AW-2017A T4',
    'aluminium',
    [2.79, 72.5, 260, 390],
    'N',
    ['2017a', '2017a-t4', '2017a-t451', 'aluminium-2017a'],
    'EN 755-2 / EN 485-2 minima, from memory',
  ),
  row(
    'aluminium-2024-t351',
    'EN AW-2024 T351',
    'aluminium',
    [2.78, 73.1, 324, 469],
    'N',
    ['2024', '2024-t351', '2024-t3', 'aluminium-2024'],
    ASM,
  ),
  row('aluminium-5083-h116', 'EN AW-5083 H116', 'aluminium', [2.66, 71, 228, 317], 'N', ['5083-h116'], ASM),
  row(
    'aluminium-5083-h111',
    'EN AW-5083 H111',
    'aluminium',
    [2.66, 71, 145, 290],
    'N',
    ['5083', '5083-h111', 'aluminium-5083'],
    ASM,
  ),
  row(
    'aluminium-5754',
    'EN AW-5754 H111',
    'aluminium',
    [2.67, 70, 80, 190],
    'N',
    ['5754', '5754-h111', 'aluminium-5754-h111', 'almg3'],
    'EN 485-2 minima, from memory',
  ),
  row(
    'aluminium-6063-t6',
    'EN AW-6063 T6',
    'aluminium',
    [2.7, 68.9, 214, 241],
    'N',
    ['6063', '6063-t6', 'aluminium-6063'],
    'Aluminum Association typical values, via a public sheet',
  ),
  row(
    'aluminium-2011-t3',
    'EN AW-2011 T3',
    'aluminium',
    [2.83, 70.3, 296, 379],
    'N',
    ['2011', '2011-t3', 'aluminium-2011'],
    ASM,
    'leaded',
  ),
  row(
    'aluminium-7020',
    'EN AW-7020 T6',
    'aluminium',
    [2.78, 71, 280, 350],
    'N',
    ['7020', '7020-t6', 'aluminium-7020-t6'],
    'EN 485-2 minima, from memory',
  ),
  row(
    'aluminium-tool-plate',
    'cast tool plate of EN AW-5083, milled on both faces',
    'aluminium',
    [2.66, 70, 110, 230],
    'N',
    ['tool-plate', 'tooling-plate', 'aluminium-cast-plate', 'cast-5083'],
    'typical of makers’ sheets, from memory: it moves little when it is cut, and is weak in tension',
  ),
  row(
    'steel-11smn30',
    '11SMn30 (1.0715) cold drawn',
    'steel',
    [7.85, 205, 375, 460],
    'P',
    ['11smn30', '1.0715', '9smn28', 'steel-1213', '1213'],
    'EN 10277 minima, 16 to 40 mm, from memory',
  ),
  row(
    'steel-o1',
    '100MnCrW4 (1.2510, AISI O1) annealed',
    'steel',
    [7.85, 210, null, 690],
    'P',
    ['o1', '1.2510', '100mncrw4', 'silver-steel-o1', 'gauge-plate'],
    'from memory: about 210 HB as bought, strength by hardness (ISO 18265)',
  ),
  row(
    'steel-s235jr',
    'S235JR (1.0038)',
    'steel',
    [7.85, 210, 235, 360],
    'P',
    ['s235', 's235jr', '1.0038'],
    'EN 10025-2 to 16 mm, from memory',
  ),
  row(
    'steel-s355j2',
    'S355J2 (1.0577)',
    'steel',
    [7.85, 210, 355, 470],
    'P',
    ['s355', 's355j2', '1.0577'],
    'EN 10025-2 to 16 mm, from memory',
  ),
  row('steel-1018', 'AISI 1018 cold drawn', 'steel', [7.87, 205, 370, 440], 'P', ['1018'], ASM),
  row(
    'steel-c45',
    'C45 (1.0503, AISI 1045) normalised',
    'steel',
    [7.85, 205, 340, 620],
    'P',
    ['c45', '1.0503', '1045', 'steel-1045'],
    'EN 10083-2 minima to 16 mm, from memory',
  ),
  row(
    'steel-4140',
    '42CrMo4 (AISI 4140) annealed',
    'steel',
    [7.85, 205, 417, 655],
    'P',
    ['4140', '42crmo4', 'steel-42crmo4', '1.7225'],
    ASM,
  ),
  row(
    'steel-4140-qt',
    '42CrMo4 (AISI 4140) quenched and tempered, 28–32 HRC',
    'steel',
    [7.85, 205, 655, 900],
    'P',
    ['4140-qt', '42crmo4-qt', 'steel-42crmo4-qt'],
    ASM,
  ),
  row(
    'cast-iron-gjl-250',
    'EN-GJL-250',
    'cast-iron',
    [7.2, 110, null, 250],
    'K',
    ['gjl-250', 'gg25', 'en-gjl-250'],
    'EN 1561, from memory',
  ),
  row(
    'stainless-304',
    'X5CrNi18-10 (1.4301, AISI 304) annealed',
    'stainless',
    [8, 193, 215, 505],
    'M',
    ['304', '1.4301', 'steel-304'],
    'typical values, from memory; EN 10088: Rp0.2 min 190, Rm 500–700',
  ),
  row(
    'stainless-316',
    'X5CrNiMo17-12-2 (1.4401, AISI 316) annealed',
    'stainless',
    [8, 193, 290, 580],
    'M',
    ['316', '1.4401', 'steel-316'],
    'typical values, from memory (ASTM A276 minima: 205 and 515)',
  ),
  row(
    'stainless-303',
    'X8CrNiS18-9 (1.4305, AISI 303) annealed',
    'stainless',
    [8, 193, 240, 620],
    'M',
    ['303', '1.4305', 'steel-303'],
    'typical values, from memory',
  ),
  row(
    'stainless-416',
    'X12CrS13 (1.4005, AISI 416) annealed',
    'stainless',
    [7.8, 200, 276, 517],
    'P',
    ['416', '1.4005', 'steel-416'],
    'typical values, two public data sheets; ISO 513 has martensitic stainless in P',
  ),
  row(
    'stainless-17-4ph',
    'X5CrNiCuNb16-4 (1.4542, 17-4 PH) H1150',
    'stainless',
    [7.8, 196, 725, 930],
    'M',
    ['17-4ph', '17-4-ph', '1.4542', 'steel-17-4ph'],
    'ASTM A564 minima in condition H1150, from memory',
  ),
  row(
    'titanium-grade-2',
    'Titanium grade 2 (3.7035)',
    'titanium',
    [4.51, 103, 275, 345],
    'S',
    ['ti-grade-2', '3.7035'],
    'ASTM B348 minima, from memory',
    'titanium',
  ),
  row(
    'titanium-6al-4v',
    'Ti-6Al-4V (grade 5, 3.7165) annealed',
    'titanium',
    [4.43, 113.8, 880, 950],
    'S',
    ['ti-6al-4v', 'titanium-grade-5', '3.7165'],
    'ASM typical values, from memory',
    'titanium',
  ),
  row(
    'brass-c36000',
    'CuZn36Pb3 (C36000) half hard',
    'copper',
    [8.49, 97, 310, 400],
    'N',
    ['c36000', 'cw603n', 'brass-cw603n'],
    MEMORY,
    'lead',
  ),
  row(
    'brass-cw614n',
    'CuZn39Pb3 (CW614N) R430',
    'copper',
    [8.47, 96, 250, 430],
    'N',
    ['cw614n', 'cz121', 'brass', 'ms58'],
    'EN 12164, from memory',
    'lead',
  ),
  row(
    'copper-cw004a',
    'Cu-ETP (CW004A) half hard',
    'copper',
    [8.94, 120, 180, 250],
    'N',
    ['cw004a', 'copper', 'cu-etp'],
    'EN 13601, from memory',
  ),
  row(
    'bronze-cusn8',
    'CuSn8 (CW453K) R460',
    'copper',
    [8.8, 115, 310, 460],
    'N',
    ['cusn8', 'cw453k', 'bronze', 'phosphor-bronze', 'c52100'],
    'EN 12166 and data sheets, via public pages',
  ),
  row(
    'beryllium-copper-c17200',
    'CuBe2 (C17200)',
    'copper',
    [8.25, 128, null, null],
    'N',
    ['c17200', 'cube2', 'cw101c'],
    MEMORY,
    'beryllium',
  ),
  row('magnesium-az31b', 'AZ31B', 'magnesium', [1.77, 45, 200, 260], 'N', ['az31b', 'az31'], MEMORY, 'magnesium'),
  row('pom-c', 'Acetal copolymer', 'plastic', [1.41, 2.8, 65, 65], null, ['pom', 'acetal'], MEMORY, 'formaldehyde'),
  row(
    'pe-hd',
    'High-density polyethylene',
    'plastic',
    [0.95, 1, 26, 26],
    null,
    ['hdpe', 'pe-hd-300', 'polyethylene'],
    MEMORY,
  ),
  row(
    'pe-uhmw',
    'Ultra-high molecular weight polyethylene',
    'plastic',
    [0.93, 0.7, 20, 40],
    null,
    ['uhmwpe', 'pe-1000', 'uhmw', 'uhmw-pe'],
    MEMORY,
    'strings',
  ),
  row('pa-6', 'Polyamide 6, dry', 'plastic', [1.14, 3, 78, 78], null, ['pa6', 'polyamide-6'], MEMORY),
  row('pc', 'Polycarbonate', 'plastic', [1.2, 2.3, 65, 65], null, ['polycarbonate'], MEMORY),
  row('pmma', 'Acrylic sheet, cast', 'plastic', [1.19, 3.3, 75, 75], null, ['acrylic'], MEMORY),
  row(
    'ptfe',
    'Polytetrafluoroethylene',
    'plastic',
    [2.17, 0.5, 10, 25],
    null,
    ['polytetrafluoroethylene'],
    MEMORY,
    'fluorine',
  ),
  row('peek', 'Polyetheretherketone', 'plastic', [1.31, 3.7, 100, 100], null, ['polyetheretherketone'], MEMORY),
  row(
    'g10-fr4',
    'Glass-fibre epoxy laminate G10 / FR4',
    'composite',
    [1.82, 18.6, null, 262],
    null,
    ['g10', 'fr4', 'glass-epoxy'],
    'density: two laminate makers’ data sheets of NEMA G-10/FR-4 (read in 2026) 1.82, a third 1.80 (G-10) and 1.85 (FR-4); the rest from memory',
    'fibres',
  ),
  row(
    'carbon-epoxy',
    'Carbon-fibre epoxy laminate, quasi-isotropic',
    'composite',
    [1.55, 50, null, 500],
    null,
    ['cfrp', 'carbon-fibre', 'carbon-fiber'],
    MEMORY,
    'fibres',
  ),
];

function row(
  name: string,
  title: string,
  family: MaterialFamily,
  values: MaterialRow['values'],
  group: MaterialRow['group'],
  aliases: readonly string[],
  source: string,
  caution?: keyof typeof CAUTIONS,
): MaterialRow {
  return { name, title, family, values, group, aliases, source, ...(caution && { caution }) };
}

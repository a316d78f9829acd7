/** Tables of limits and fits, general tolerances and what bars are off, row by row. */

import {
  A108_FLAT,
  A108_SQUARE,
  B221_BAR,
  type BarTable,
  EN_755_5,
  EN_10278_OTHER,
  EN_10278_THICKNESS,
  EN_10278_WIDTH,
} from '../../tables/bar-tolerances.data';
import { fitLimits, itGrade, LARGEST_MM } from '../../tables/fits';
import { COARSE_SOURCE, DELTA_ROWS, DEVIATION_UP_TO, IT_ROWS, TABLE_SOURCE } from '../../tables/fits.data';
import {
  ANGLES,
  LINEAR,
  PERPENDICULARITY,
  RADII,
  type RangeTable,
  RUNOUT,
  STRAIGHTNESS_AND_FLATNESS,
  SYMMETRY,
} from '../../tables/general-tolerances.data';
import { INCH_FAMILIES, inchLimits } from '../../tables/inch-fits';
import { FORCE_UP_TO, INCH_UP_TO } from '../../tables/inch-fits.data';
import {
  A108_ROUND,
  B221_MAGNESIUM,
  EN_485_3,
  EN_754,
  EN_755_ROUND,
  EN_755_SQUARE,
  EN_12167,
  ROD_FIELDS,
} from '../../tables/rod-tolerances.data';
import {
  EN_755_8_ROUND,
  EN_755_9_BOWED,
  EN_755_9_SIZES,
  EN_755_9_WALLS,
  EN_10056_2,
  EN_10219_2,
  SECTION_SOURCE,
  STRAIGHT_IN_300,
} from '../../tables/section-tolerances.data';
import { MM_PER_INCH } from '../../tables/units';
import type { PublishedTable, TableRow } from './source';

const GRADES = Array.from({ length: 18 }, (_, i) => i + 1);
const SHAFTS = 'a b c cd d e ef f fg g h j js k m n p r s t u v x y z za zb zc'.split(' ');

function grades(): readonly TableRow[] {
  return IT_ROWS.flatMap((row) =>
    GRADES.map((grade) => ({
      up_to_mm: row[0]!,
      grade,
      um: Math.round(itGrade(row[0]!, grade)! * 1e4) / 10,
      source: grade > 16 ? COARSE_SOURCE : TABLE_SOURCE,
    })),
  );
}

/** The deviation nearest to the nominal, of the grade that most have: 7; k of 4 to 7 only. */
function deviations(): readonly TableRow[] {
  return SHAFTS.flatMap((letter) =>
    DEVIATION_UP_TO.flatMap((upTo): readonly TableRow[] => {
      const limits = fitLimits(upTo, letter, 7);
      if (!limits) return [];
      const mm = Math.abs(limits.upperMm) < Math.abs(limits.lowerMm) ? limits.upperMm : limits.lowerMm;
      return [{ shaft: letter, up_to_mm: upTo, um: Math.round(mm * 1e4) / 10, source: limits.source }];
    }),
  );
}

function deltas(): readonly TableRow[] {
  return DELTA_ROWS.map(([upTo, ...um]) => ({ up_to_mm: upTo!, um_of_grades_3_to_8: um, source: TABLE_SOURCE }));
}

function inchFits(): readonly TableRow[] {
  return [...INCH_FAMILIES].flatMap(([letter, last]) =>
    Array.from({ length: last }, (_, i) => i + 1).flatMap((grade) =>
      (letter === 'FN' ? FORCE_UP_TO : INCH_UP_TO).flatMap((upTo): readonly TableRow[] => {
        const hole = inchLimits(upTo * MM_PER_INCH, letter, grade);
        const shaft = inchLimits(upTo * MM_PER_INCH, letter.toLowerCase(), grade);
        const thou = (mm: number) => Math.round((mm / MM_PER_INCH) * 1e5) / 100;
        return hole && shaft
          ? [
              {
                class: `${letter}${grade}`,
                up_to_in: upTo,
                hole_thou: [thou(hole.lowerMm), thou(hole.upperMm)],
                shaft_thou: [thou(shaft.lowerMm), thou(shaft.upperMm)],
                source: hole.source,
              },
            ]
          : [];
      }),
    ),
  );
}

function ranges(name: string, { upToMm, values, source }: RangeTable): readonly TableRow[] {
  return Object.entries(values).flatMap(([of, row]) =>
    row.map((value, i) => ({ table: name, class: of, up_to_mm: finite(upToMm[i]!), value, source })),
  );
}

/** By name; those of groups each by theirs. Named one by one: bundled, all published rows are one module. */
const GENERAL = {
  linear: LINEAR,
  radii: RADII,
  angles: ANGLES,
  'straightness-and-flatness': STRAIGHTNESS_AND_FLATNESS,
  perpendicularity: PERPENDICULARITY,
  symmetry: SYMMETRY,
  runout: RUNOUT,
};
const BARS: Readonly<Record<string, BarTable | Readonly<Record<string, BarTable>>>> = {
  'en-10278-width': EN_10278_WIDTH,
  'en-10278-thickness': EN_10278_THICKNESS,
  'en-10278-other': EN_10278_OTHER,
  'a108-flat': A108_FLAT,
  'a108-square': A108_SQUARE,
  'a108-round': A108_ROUND,
  'b221-bar': B221_BAR,
  'b221-magnesium': B221_MAGNESIUM,
  'en-755-5': EN_755_5,
  'en-755-round': EN_755_ROUND,
  'en-755-square': EN_755_SQUARE,
  'en-754': EN_754,
  'en-485-3': EN_485_3,
  'en-12167': EN_12167,
  'en-755-9': Object.fromEntries(EN_755_9_SIZES.map(([upTo, table]) => [`in a circle of ${upTo}`, table])),
  'en-755-8-round': EN_755_8_ROUND,
  'en-10056-2': EN_10056_2,
};

/** How far the sides of a section are from flat, and its walls from their thickness. */
function sectionRows(): readonly TableRow[] {
  const { share, leastMm, upToMm, source } = EN_10219_2;
  return [
    ...EN_755_9_BOWED.map(([upTo, open, thin, thick]) => ({
      what: 'bowed across a side',
      up_to: upTo,
      open_mm: open,
      tube_to_5_mm: thin,
      tube_over_5_mm: thick,
      source: SECTION_SOURCE,
    })),
    ...EN_755_9_WALLS.map(([upTo, open, hollow]) => ({
      what: 'wall, in a circle of 100 and 300',
      up_to: upTo,
      open_mm: open,
      tube_mm: hollow,
      source: SECTION_SOURCE,
    })),
    { what: 'bowed along, over 300 mm', mm: STRAIGHT_IN_300.mm, source: STRAIGHT_IN_300.source },
    { what: 'size of steel tube', up_to: upToMm, mm: leastMm, share, source },
  ];
}

function barTables(): readonly (readonly [string, BarTable])[] {
  return Object.entries(BARS).flatMap(([name, value]) =>
    isBar(value)
      ? [[name, value] as const]
      : Object.entries(value).map(([group, inner]) => [`${name} ${group}`, inner] as const),
  );
}

function isBar(value: BarTable | Readonly<Record<string, BarTable>>): value is BarTable {
  return 'rows' in value;
}

const finite = (mm: number) => (Number.isFinite(mm) ? mm : null);

export function limitTables(): readonly PublishedTable[] {
  const rods_ = Object.entries(ROD_FIELDS).map(([of, { grade, upToMm, source }]) => ({
    of,
    grade: `h${grade}`,
    up_to_mm: upToMm,
    source,
  }));
  return [
    { name: 'iso-286-grades', what: `Widths of the grades of ISO 286, to ${LARGEST_MM} mm.`, rows: grades() },
    { name: 'iso-286-shafts', what: 'Fundamental deviations of shafts (ISO 286), by grade 7.', rows: deviations() },
    { name: 'iso-286-delta', what: 'Δ of holes K to ZC (ISO 286).', rows: deltas() },
    { name: 'inch-fits', what: 'Inch fits (ANSI B4.1), hole and shaft, thousandths of an inch.', rows: inchFits() },
    {
      name: 'general-tolerances',
      what: 'General tolerances (ISO 2768): ± mm, of angles ± minutes.',
      rows: Object.entries(GENERAL).flatMap(([name, table]) => ranges(name, table)),
    },
    {
      name: 'bars',
      what: 'What bars and plates are off as they are bought.',
      rows: barTables().flatMap(([name, { unit, rows, source }]) =>
        rows.map(([upTo, upper, lower]) => ({
          table: name,
          unit,
          up_to: finite(upTo),
          upper,
          lower,
          source,
        })),
      ),
    },
    {
      name: 'sections',
      what: 'How flat the sides of tube, angle, channel and tee are, and how even their walls.',
      unit: 'mm',
      rows: sectionRows(),
    },
    { name: 'rods', what: 'Rods that are drawn to a field of ISO 286.', rows: rods_ },
  ];
}

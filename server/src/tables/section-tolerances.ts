/** How far the outside of tube, angle, channel and tee is off as it is bought, and how flat its faces are. The rows are in `section-tolerances.data.ts`. */
import { alloyGroup, type BarDeviation } from './bar-tolerances';
import type { BarTable } from './bar-tolerances.data';
import type { MaterialFamily } from './materials.data';
import {
  EN_755_8_ROUND,
  EN_755_9_BOWED,
  EN_755_9_SIZES,
  EN_755_9_WALLS,
  EN_10056_2,
  EN_10219_2,
  SECTION_SOURCE,
  STRAIGHT_IN_300,
} from './section-tolerances.data';

export interface SectionSort {
  readonly family: MaterialFamily;
  /** Closed all round. */
  readonly tube: boolean;
  readonly angle: boolean;
  readonly round: boolean;
  /** Of the circle that it fits into. */
  readonly circleMm: number;
  readonly alloy?: string;
}

/** Limits of an outside size, mm; undefined for what no row has. */
export function sectionDeviation(sizeMm: number, sort: SectionSort): BarDeviation | undefined {
  if (sort.family === 'steel') return steel(sizeMm, sort);
  if (sort.family !== 'aluminium' || alloyGroup(sort.alloy) !== 'I') return undefined;
  const table = sort.round ? EN_755_8_ROUND : EN_755_9_SIZES.find(([upTo]) => sort.circleMm <= upTo)?.[1];
  return table && inTable(sizeMm, table);
}

/** Limits of its wall or flange. Round tube goes by the same rows: those of EN 755-8 were not read. */
export function wallDeviation(
  wallMm: number,
  { family, alloy, tube, circleMm }: SectionSort,
): BarDeviation | undefined {
  if (family !== 'aluminium' || alloyGroup(alloy) !== 'I' || circleMm > 300) return undefined;
  const row = EN_755_9_WALLS.find(([upTo]) => wallMm <= upTo + 1e-9);
  const mm = row?.[tube ? 2 : 1][circleMm <= 100 ? 0 : 1];
  return mm === undefined ? undefined : { upperMm: mm, lowerMm: -mm, source: SECTION_SOURCE };
}

function steel(sizeMm: number, { tube, angle }: SectionSort): BarDeviation | undefined {
  if (angle) return inTable(sizeMm, EN_10056_2);
  if (!tube || sizeMm > EN_10219_2.upToMm) return undefined;
  const mm = Math.max(EN_10219_2.share * sizeMm, EN_10219_2.leastMm);
  return { upperMm: mm, lowerMm: -mm, source: EN_10219_2.source };
}

function inTable(sizeMm: number, { over, rows, source }: BarTable): BarDeviation | undefined {
  const row = sizeMm > over ? rows.find(([upTo]) => sizeMm <= upTo + 1e-9) : undefined;
  return row && { upperMm: row[1], lowerMm: row[2], source };
}

/** How far from flat a face of extruded aluminium may be: bowed across its width, and along its length as a part of an arc. */
export function sectionFlatness(
  { family, alloy, tube }: SectionSort,
  wallMm: number,
  [widthMm, lengthMm]: readonly [number, number],
): { readonly mm: number; readonly source: string } | undefined {
  if (family !== 'aluminium' || alloyGroup(alloy) !== 'I') return undefined;
  const row = EN_755_9_BOWED.find(([upTo]) => widthMm <= upTo);
  if (!row) return undefined;
  const across = tube ? (wallMm <= 5 ? row[2] : row[3]) : row[1];
  const along = STRAIGHT_IN_300.mm * (lengthMm / 300) ** 2;
  return along > across ? { mm: along, source: STRAIGHT_IN_300.source } : { mm: across, source: SECTION_SOURCE };
}

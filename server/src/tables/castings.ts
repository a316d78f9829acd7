/** How far a casting is off as it comes, by its grade of ISO 8062-3: half of the width to either side. */
import type { BarDeviation } from './bar-tolerances';
import { DCTG } from './castings.data';

/** Sand moulds made by hand, light alloys: 9 to 12 is usual. Common practice, from memory. */
const USUAL_GRADE = 11;
export const GRADES = 16;

/** Undefined for sizes and grades that the table does not have. */
export function castingDeviation(sizeMm: number, grade: number = USUAL_GRADE): BarDeviation | undefined {
  const wideMm = DCTG.find(([upTo]) => sizeMm <= upTo)?.[grade];
  if (!wideMm) return undefined;
  return { upperMm: wideMm / 2, lowerMm: -wideMm / 2, source: `ISO 8062-3 grade DCTG ${grade}, from memory` };
}

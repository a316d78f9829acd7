/** What a plane shows of a swept outline. */
import { type Sheet, sheetOf } from '../2d/indexed-region';

/** An ellipse's arcs leave it by no more than this share of its size. */
export const CURVE_SHARE = 5e-7;

export interface Section {
  readonly sheet: Sheet;
  /** False where the outline could not be followed: the section is near, no more. */
  readonly exact: boolean;
}

export const EMPTY: Section = { sheet: sheetOf([]), exact: true };

/** An order of volumes that does not depend on how they are listed, so that a part's walls do not either. */
import type { Void } from '../types';

/** Orders voids by what they are and where, so that answers do not hang on the order of features in the text. */
export function compareVoids(a: Void, b: Void): number {
  if (a === b) return 0;
  return (
    compare(a.feature, b.feature) ||
    a.member - b.member ||
    compare(a.role, b.role) ||
    a.from - b.from ||
    a.to - b.to ||
    a.bounds.min[0] - b.bounds.min[0] ||
    a.bounds.min[1] - b.bounds.min[1] ||
    a.bounds.min[2] - b.bounds.min[2]
  );
}

/** What leaves walls that stand and can bend: a web beside a drilled hole is held all round it. */
export const STANDS: ReadonlySet<Void['role']> = new Set<Void['role']>(['pocket', 'slot', 'step', 'contour']);

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

export const sameCut = (a: Void, b: Void): boolean => a.feature === b.feature && a.member === b.member;

/** Cells of one pocket at the same height, which ribs part. */
export const areCells = (a: Void, b: Void): boolean =>
  a !== b && a.role === 'pocket' && b.role === 'pocket' && a.from === b.from && a.to === b.to;

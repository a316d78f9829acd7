/**
 * How near is the same: five tolerances, each with its reason. Lengths are mm; where a number without a unit is meant (a
 * share, a sine), it is of the order of one. A search or a sum that stops by its own measure names that beside itself.
 */

/** Last digits of a sine or a unit vector: double arithmetic keeps sixteen, and some steps lose a few. */
export const DIGITS = 1e-12;

/** What arithmetic leaves of a length of metres: a limit that is met to the last digit is met, by whichever way it was worked out. */
export const ROUNDING = 1e-9;

/** Two places that are written as the same are: nobody writes a nanometre, and an inch's 25.4 mm is exact in it. */
export const SAME = 1e-6;

/** Two points that were each found by a search of their own are one; and so far beside a plane its section is taken. */
export const NEAR = 1e-4;

/** A step off a wall or a floor, to look beside it: a micrometre, which no mill holds and no drawing asks for. */
export const HAIR = 1e-3;

/**
 * How far plates give way under one force, by the edges that hold them: α in α F b² / D, by the ratio of their sides, each
 * where it gives way most. Held on all four: S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed.,
 * table 37 (from memory). With a free edge no such table is known to us: worked out by the method of Ritz (Legendre
 * polynomials, 26 to 40 a side, Poisson’s ratio 0.33), and checked in the tests by finite elements that share nothing with it.
 */

/** Ratio of the sides, and α. Between two of them, and beyond them, α goes by a power of the ratio. */
export type Row = readonly (readonly [ratio: number, alpha: number])[];

/** The longer side over the shorter, b; the force in the middle. */
export const ALL_ROUND: Row = [
  [1, 0.0056],
  [1.2, 0.00647],
  [1.4, 0.00691],
  [1.6, 0.00712],
  [1.8, 0.0072],
  [2, 0.00722],
  [4, 0.00725],
  [8, 0.00725],
];

/** The free edge over the depth b behind it; the force in the middle of the free edge. */
export const THREE: Row = [
  [0.1, 0.000265],
  [0.2, 0.00106],
  [0.3, 0.002385],
  [0.5, 0.00662],
  [0.7, 0.01298],
  [1, 0.0265],
  [1.5, 0.0587],
  [2, 0.0958],
  [3, 0.1472],
  [4, 0.1644],
  [6, 0.1689],
  [8, 0.1689],
];

/** Two edges that meet are held; the longer side over the shorter, b; the force at the free corner. */
export const BESIDE: Row = [
  [1, 0.3005],
  [1.2, 0.3471],
  [1.5, 0.3932],
  [2, 0.4179],
  [3, 0.4237],
  [8, 0.4238],
];

/** Two edges that face each other are held; the way between them over their length b; in the middle of a free edge. */
export const OPPOSITE: Row = [
  [0.1, 0.000265],
  [0.3, 0.002385],
  [0.5, 0.00662],
  [0.7, 0.01298],
  [1, 0.0265],
  [1.5, 0.0601],
  [2, 0.1091],
  [3, 0.2655],
  [4, 0.5255],
  [6, 1.4928],
  [8, 3.2892],
  [12, 10.491],
  [24, 81.17],
];

/** The one edge that is held over the depth b to the free one; the force at a free corner. */
export const ONE: Row = [
  [0.1, 3.7115],
  [0.2, 1.8609],
  [0.3, 1.2564],
  [0.5, 0.7932],
  [0.7, 0.6125],
  [1, 0.4983],
  [1.5, 0.4397],
  [2, 0.4269],
  [3, 0.4239],
  [8, 0.4238],
];

/** The same with the force in the middle of the free edge. */
export const ONE_AMIDST: Row = [
  [0.1, 3.6935],
  [0.2, 1.8264],
  [0.3, 1.2068],
  [0.5, 0.7169],
  [0.7, 0.5125],
  [1, 0.3653],
  [1.5, 0.2596],
  [2, 0.214],
  [3, 0.1803],
  [4, 0.1716],
  [6, 0.1689],
  [8, 0.1689],
];

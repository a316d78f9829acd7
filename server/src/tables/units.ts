/** Unit identities, exact where the definition is exact: SI Brochure, NIST SP 811 appendix B. */

/** International inch, exact (1959). */
export const MM_PER_INCH = 25.4;
/** Pound-force, exact: 0.45359237 kg × 9.80665 m/s². */
export const N_PER_LBF = 4.4482216152605;
/** Kilogram-force, exact. */
export const N_PER_KGF = 9.80665;
/** Metric horsepower (PS): 75 kgf·m/s, exact. */
export const W_PER_PS = 735.49875;
/** Foot pound-force and inch pound-force: the same force at 12 and 1 inches. */
export const NM_PER_FT_LBF = N_PER_LBF * 0.3048;
export const NM_PER_IN_LBF = N_PER_LBF * 0.0254;
/** Mechanical horsepower: 550 ft·lbf/s. */
export const W_PER_HP = 550 * NM_PER_FT_LBF;
/** Avoirdupois pound, exact. */
export const G_PER_LB = 453.59237;
export const G_PER_OZ = 28.349523125;

/** How far a cutter, a wall and a floor give way: beams and plates in closed form. Forces in N, moduli in MPa, lengths in mm. */

export interface Section {
  /** Of a round bar that bends as much. */
  readonly diameterMm: number;
  readonly lengthMm: number;
  /** Of what it is made, where that is another material than the rest. */
  readonly youngMPa?: number;
}

/**
 * Deflection at the tip of a round cantilever of several diameters, the first section at the tip, clamped at the end of
 * the last, with the force at the tip: Σ F (b³ − a³) / (3 E I) over sections from a to b.
 */
export function steppedCantilever(sections: readonly Section[], forceN: number, youngMPa: number): number {
  let from = 0;
  let deflection = 0;
  for (const { diameterMm, lengthMm, youngMPa: own } of sections) {
    const to = from + lengthMm;
    const inertia = (Math.PI * diameterMm ** 4) / 64;
    if (inertia > 0) deflection += (forceN * (to ** 3 - from ** 3)) / (3 * (own ?? youngMPa) * inertia);
    from = to;
  }
  return deflection;
}

/**
 * A wall that stands on its foot, pushed at its top: a cantilever F h³ / (3 E I). The force spreads into the wall beside
 * it: a width of the height to either side bears it (St Venant, the usual rule of a plate strip), no more than the wall is long.
 */
export function wallDeflection(
  wall: { readonly heightMm: number; readonly thicknessMm: number; readonly lengthMm: number },
  forceN: number,
  youngMPa: number,
): number {
  const width = Math.min(wall.lengthMm, 2 * wall.heightMm);
  const inertia = (width * wall.thicknessMm ** 3) / 12;
  return inertia > 0 ? (forceN * wall.heightMm ** 3) / (3 * youngMPa * inertia) : Number.POSITIVE_INFINITY;
}

/** Of a square plate clamped all round with the force in its middle: 0.0056 F a² / D (Timoshenko, Theory of Plates, from memory). */
const CLAMPED_SQUARE = 0.0056;
const POISSON = 0.33;

/** A floor held at its rim, pushed in its middle; `spanMm` is the side of the largest square (or the bore) it bridges. */
export function floorDeflection(
  floor: { readonly spanMm: number; readonly thicknessMm: number },
  forceN: number,
  youngMPa: number,
): number {
  const stiffness = (youngMPa * floor.thicknessMm ** 3) / (12 * (1 - POISSON ** 2));
  return stiffness > 0 ? (CLAMPED_SQUARE * forceN * floor.spanMm ** 2) / stiffness : Number.POSITIVE_INFINITY;
}

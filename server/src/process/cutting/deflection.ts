/** How far a cutter gives way: beams in closed form. Forces in N, moduli in MPa, lengths in mm. Walls and floors: `plates.ts`. */

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

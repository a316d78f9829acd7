/**
 * Position tolerances and the fastener formulae of ASME Y14.5 (appendix B), as textbooks give them: Goodheart-Willcox,
 * GD&T: Application and Interpretation, p. 308. Sizes are at maximum material: H the smallest hole, F the largest
 * fastener; zones are diameters. All mm.
 */

export const FASTENER_SOURCE = 'ASME Y14.5, fastener formulae: H = F + T floating, H = F + T₁ + T₂ fixed';

/** A floating fastener, clearance holes in every part: each may have a zone of H − F. Negative where the fastener does not go in. */
export function floatingZoneMm(holeMinMm: number, fastenerMaxMm: number): number {
  return holeMinMm - fastenerMaxMm;
}

/**
 * A fixed fastener, tapped or pressed into one part: the zones of both parts add up to H − F, half each where they are
 * alike. That of the fixed one is projected: it counts above the face, where the other part is.
 */
export function fixedZoneMm(holeMinMm: number, fastenerMaxMm: number): number {
  return (holeMinMm - fastenerMaxMm) / 2;
}

/** What a zone given at maximum material grows to when the hole has come out so large: T + (actual − H). */
export function zoneAtSizeMm(zoneMm: number, holeMinMm: number, actualMm: number): number {
  return zoneMm + Math.max(0, actualMm - holeMinMm);
}

/** ± along each of two axes that lies within a round zone: T / (2 √2). */
export function coordinatesOfZoneMm(zoneMm: number): number {
  return zoneMm / (2 * Math.SQRT2);
}

/** Where a thread is, and how far its zone counts above its face; left out: not at all. */
interface Leaning {
  readonly aboveMm: number;
  readonly depthMm: number;
  readonly projectedMm?: number | undefined;
}

/**
 * What the zones of a clearance hole and a thread take of the play H − F: T₁ + T₂. Where that of the thread is not
 * projected, its screw leans: T₁ + T₂ (1 + 2 P / D), P the thickness above its face, D the depth of thread (ASME Y14.5 B.5).
 * Projected by less than P, the axis may cross the zone from side to side and go on: T₁ + T₂ (1 + 2 (P − p) / p).
 */
export function fixedSumMm(clearanceZoneMm: number, threadZoneMm: number, leaning?: Leaning): number {
  if (!leaning) return clearanceZoneMm + threadZoneMm;
  const { aboveMm, depthMm, projectedMm } = leaning;
  const [beyondMm, withinMm] =
    projectedMm === undefined ? [aboveMm, depthMm] : [Math.max(0, aboveMm - projectedMm), projectedMm];
  return clearanceZoneMm + threadZoneMm * (1 + (2 * beyondMm) / withinMm);
}

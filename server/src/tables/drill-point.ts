/** The cone a drill leaves. */

/**
 * Length of a drill's point, mm: how far the cone reaches below the depth of full diameter.
 * Geometry: 0.5 D / tan(point / 2), with `pointDeg` the included angle, over 0 and up to 180 (a flat end: 0).
 */
export function pointLengthMm(diameterMm: number, pointDeg: number): number {
  if (pointDeg >= 180) return 0;
  return (0.5 * diameterMm) / Math.tan((pointDeg * Math.PI) / 360);
}

/** The chip that a milling tooth takes, from its circular path (the feed is small against the cutter). Exact for that path. */

/** Angle over which a tooth cuts, radians, with a radial width `aeMm` on a cutter of `diameterMm`: π for a full slot. */
export function engagedAngle(aeMm: number, diameterMm: number): number {
  return Math.acos(Math.max(-1, 1 - (2 * Math.min(aeMm, diameterMm)) / diameterMm));
}

/** Thickest chip, mm: all of the feed once the cutter's middle is in the cut. */
export function thickestChip(feedPerToothMm: number, aeMm: number, diameterMm: number): number {
  const angle = engagedAngle(aeMm, diameterMm);
  return angle >= Math.PI / 2 ? feedPerToothMm : feedPerToothMm * Math.sin(angle);
}

/** Mean chip thickness over the angle a tooth cuts, mm: feed · (2 ae / D) / angle. */
export function meanChip(feedPerToothMm: number, aeMm: number, diameterMm: number): number {
  const angle = engagedAngle(aeMm, diameterMm);
  return angle > 0 ? (feedPerToothMm * 2 * Math.min(aeMm, diameterMm)) / diameterMm / angle : 0;
}

/** How much more feed a narrow cut may have for the same thickest chip: 1 from half the cutter's width on. */
export function chipThinning(aeMm: number, diameterMm: number): number {
  const thick = thickestChip(1, aeMm, diameterMm);
  return thick > 0 ? 1 / thick : 1;
}

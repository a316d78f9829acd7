/** The roughness that a cutter's shape leaves by itself; what is measured is commonly one and a half to three times as much (from memory). */

/** Height of the ridge between two passes of a ball, mm. */
export function scallopMm(stepoverMm: number, ballRadiusMm: number): number {
  return ballRadiusMm - Math.sqrt(Math.max(0, ballRadiusMm ** 2 - (stepoverMm / 2) ** 2));
}

/** The stepover that leaves ridges of this height, mm. */
export function stepoverMm(scallop: number, ballRadiusMm: number): number {
  return 2 * Math.sqrt(Math.max(0, 2 * ballRadiusMm * scallop - scallop ** 2));
}

/** Peak to valley under a rounded corner, mm: f² / 8r. */
export function cornerRidgeMm(feedMm: number, cornerRadiusMm: number): number {
  return feedMm ** 2 / (8 * cornerRadiusMm);
}

/** Ridges that the side of a mill leaves, mm: f² / 4D. */
export function sideRidgeMm(feedPerToothMm: number, diameterMm: number): number {
  return feedPerToothMm ** 2 / (4 * diameterMm);
}

/** Peak to valley of a sharp tool, mm: f / (tan ψ + cot λ), ψ the side's lead angle and λ that of the end (Ghosh & Mallik, ex. 4.24). */
export function sharpRidgeMm(feedMm: number, sideLeadDeg: number, endDeg: number): number {
  return feedMm / (Math.tan(rad(sideLeadDeg)) + 1 / Math.tan(rad(endDeg)));
}

/**
 * Peak to valley on what the end of a cutter passes, mm: an arc of `cornerRadiusMm`, then an end that falls away by
 * `endDeg`. Feeds that keep to the arc leave f² / 8r; coarser ones the arc and the flat beside it; without a radius it is
 * the sharp tool's (geometry of turning tools, as machining textbooks have it, from memory).
 */
export function endRidgeMm(feedMm: number, cornerRadiusMm: number, endDeg: number): number {
  const [r, end] = [cornerRadiusMm, rad(endDeg)];
  const [sin, cos] = [Math.sin(end), Math.cos(end)];
  if (feedMm <= 2 * r * sin) return cornerRidgeMm(feedMm, r);
  if (r <= 0) return sharpRidgeMm(feedMm, 0, endDeg);
  const root = Math.sqrt(Math.max(0, 2 * feedMm * r * sin ** 3 - feedMm ** 2 * sin ** 4));
  return (1 - cos) * r + feedMm * sin * cos - root;
}

/** The feed that leaves ridges of this height, mm: `endRidgeMm` turned round. */
export function feedForRidgeMm(ridgeMm: number, cornerRadiusMm: number, endDeg: number): number {
  let [low, high] = [0, 1];
  while (endRidgeMm(high, cornerRadiusMm, endDeg) < ridgeMm && high < 1000) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (endRidgeMm(middle, cornerRadiusMm, endDeg) < ridgeMm) low = middle;
    else high = middle;
  }
  return low;
}

/** The feed per tooth whose marks along a side are so high, mm: `sideRidgeMm` turned round. */
export function feedForSideMm(ridgeMm: number, diameterMm: number): number {
  return Math.sqrt(4 * diameterMm * ridgeMm);
}

/** Ra of ridges of this height, µm: a quarter, the mean of a parabola's or a triangle's. */
export function raOfRidgeUm(ridgeMm: number): number {
  return (1000 * ridgeMm) / 4;
}

function rad(deg: number): number {
  return (deg * Math.PI) / 180;
}

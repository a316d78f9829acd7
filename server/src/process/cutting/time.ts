/** Times of single moves by the textbook formulae: way over feed, with what the cutter needs to come in and run out. Minutes. */

import { ENTRY } from '../../tables/cutting.data';
import { ROUNDING } from '../../tolerance';

/** A cautious hand against the tables: the high end of a range of times. Common practice, no source. */
export const CAUTION = 1.6;

/** How far a cutter's axis is from the work's edge when the side of it first touches, cutting `depthMm` deep: √(d (D − d)). */
export function slabApproachMm(diameterMm: number, depthMm: number): number {
  const d = Math.min(depthMm, diameterMm / 2);
  return Math.sqrt(d * (diameterMm - d));
}

/** The same for a face mill across a width: (D − √(D² − w²)) / 2, half its diameter from a full width on. */
export function faceApproachMm(diameterMm: number, widthMm: number): number {
  if (widthMm >= diameterMm) return diameterMm / 2;
  return (diameterMm - Math.sqrt(diameterMm ** 2 - widthMm ** 2)) / 2;
}

/** How steeply a mill goes down a ramp or helix: as is usual, or no more than it bears. */
export const rampDegOf = ({ rampDeg }: { readonly rampDeg?: number }) => Math.min(ENTRY.rampDeg, rampDeg ?? 90);

/** Minutes for a mill to get `downMm` into metal at the feed of its cut: along a ramp or a helix, or straight down. */
export function entryTime(
  way: 'helix' | 'ramp' | 'plunge',
  tool: Parameters<typeof rampDegOf>[0],
  downMm: number,
  feedMmPerMin: number,
): number {
  if (way === 'plunge') return downMm / (ENTRY.plungeFeed * feedMmPerMin);
  return downMm / Math.sin((rampDegOf(tool) * Math.PI) / 180) / (ENTRY.rampFeed * feedMmPerMin);
}

/** How far a drill goes before it cuts its full diameter: the height of its point. */
export function pointMm(diameterMm: number, pointDeg: number): number {
  return diameterMm / 2 / Math.tan((pointDeg / 2) * (Math.PI / 180));
}

interface DrillTime {
  readonly minutes: number;
  readonly pecks: number;
}

/**
 * Drilling `depthMm` with its point, in pecks of `peckMm` where that is given: after each the drill comes up to clear
 * and goes down again, both at the rapid feed.
 */
export function drillTime(
  { depthMm, diameterMm, pointDeg }: { depthMm: number; diameterMm: number; pointDeg: number },
  feedMmPerMin: number,
  rapidMmPerMin: number,
  peckMm = Number.POSITIVE_INFINITY,
): DrillTime {
  const way = depthMm + pointMm(diameterMm, pointDeg);
  const pecks = Math.max(1, Math.ceil(way / peckMm - ROUNDING));
  let rapid = 0;
  for (let i = 1; i < pecks; i++) rapid += 2 * Math.min(way, i * peckMm);
  return { minutes: way / feedMmPerMin + rapid / rapidMmPerMin, pecks };
}

/** A tap goes in by its pitch a turn and comes out as fast. */
export function tapTime(depthMm: number, pitchMm: number, rpm: number): number {
  return (2 * depthMm) / (pitchMm * rpm);
}

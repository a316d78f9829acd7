/** General and position tolerances as lines of text: what they come to, and what a screw leaves of them. */

import type { Angle, Feature, GeometricTolerance, Hole, Length, Part } from '../model/model';
import { fastenedOf, positioned, tappedFor } from '../process/tolerances/fastener';
import { surfacesOf } from '../process/tolerances/finish';
import { type General, generalsOf, generalsOfFaces } from '../process/tolerances/general';
import type { ReadPart } from '../rules/judging';
import { coordinatesOfZoneMm, FASTENER_SOURCE, zoneAtSizeMm } from '../tables/position';
import { formatLength } from '../text/format';

/** All of a part's: the body and its faces, then feature by feature. */
export function partGenerals(part: Part): readonly General[] {
  return [
    ...(part.body ? generalsOf(part.body, part) : []),
    ...generalsOfFaces(part),
    ...part.features.flatMap((f) => generalsOf(f, part)),
  ];
}

/** `±0.2 mm`, `±1°`, `0.1 mm` for a zone. */
export function generalText({ value, unit, of }: General, units: 'mm' | 'in'): string {
  const size = unit === 'mm' ? formatLength(value, units) : degrees(value);
  return of ? `±${size}` : size;
}

function degrees(deg: number): string {
  const minutes = Math.round(deg * 60);
  const [whole, rest] = [Math.floor(minutes / 60), minutes % 60];
  return [...(whole > 0 ? [`${whole}°`] : []), ...(rest > 0 || whole === 0 ? [`${rest}′`] : [])].join(' ');
}

/** What a value gets that carries no tolerance of its own, with its limits; undefined where none is given. */
export function generalLine(value: Length | Angle, part: Part): string | undefined {
  const found = partGenerals(part).find((g) => g.of === value);
  if (!found || !part.tolerance) return undefined;
  const limits =
    'mm' in value && found.unit === 'mm'
      ? `: ${formatLength(value.mm - found.value, part.units)} to ${formatLength(value.mm + found.value, part.units)}`
      : '';
  return `No tolerance of its own: ${part.tolerance.name} gives ${generalText(found, part.units)}${limits} (${found.source})`;
}

/** What a general tolerance says of faces, for the place where it is written: a line each, and what became of the standard. */
export function faceLines(part: Part): readonly string[] {
  return generalsOfFaces(part).map((g) => `${g.what}: ${generalText(g, part.units)} (${g.source})`);
}

/** What a position tolerance of one hole comes to: as ± along the axes, at the hole's largest, and beside its screw. */
function positionOf(tolerance: GeometricTolerance, hole: Hole, part: Part): readonly string[] {
  const length = (mm: number) => formatLength(Number(mm.toFixed(4)), part.units);
  const zoneMm = tolerance.value.mm;
  const lines = [`a zone of ${length(zoneMm)} is ±${length(coordinatesOfZoneMm(zoneMm))} along two axes, T / (2 √2)`];
  const through = fastenedOf(hole, part);
  if (tolerance.maximumMaterial && through && through.largestHoleMm > through.holeMm)
    lines.push(
      `at maximum material: ${length(zoneMm)} at ${length(through.holeMm)}, growing with the hole to ${length(zoneAtSizeMm(zoneMm, through.holeMm, through.largestHoleMm))} at ${length(through.largestHoleMm)}`,
    );
  if (through)
    lines.push(
      `${through.named ? '' : 'if '}for ${through.screw}: H − F = ${length(through.holeMm)} − ${length(through.fastenerMm)} = ${length(through.floatingMm)} with clearance holes in every part, ${length(through.fixedMm)} each where the other part is tapped (${FASTENER_SOURCE})`,
    );
  for (const { fit, diameterMm, bothMm } of tappedFor(hole)?.holes ?? [])
    lines.push(
      `with a ${fit} clearance hole of ${length(diameterMm)} in the other part ${length(bothMm)} for both: ${length(Math.max(0, bothMm - zoneMm))} left for it, the zone of the thread projected above its face`,
    );
  return lines;
}

/** Every position tolerance of a hole with its lines. */
export function positionLines(
  part: Part,
): readonly { readonly tolerance: GeometricTolerance; readonly title: string; readonly lines: readonly string[] }[] {
  return [...positioned(part)].map(({ tolerance, hole }) => ({
    tolerance,
    title: `position ${tolerance.value.text} of ${hole.name}`,
    lines: positionOf(tolerance, hole, part),
  }));
}

/** Of a feature that asks for a roughness: what each of its surfaces comes out at, and the feed that would do. */
export function finishLines(feature: Feature, read: ReadPart): readonly string[] {
  const { part } = read;
  const asked = feature.finish?.raUm;
  if (asked === undefined) return [];
  const length = (mm: number) => formatLength(Number(mm.toFixed(3)), part.units);
  return surfacesOf(feature, read).map((s) => {
    const per = s.per === 'pass' ? 'from pass to pass' : `a ${s.per}`;
    return `${s.what} by ${s.tool} at ${length(s.feedMm)} ${per}: ridges of ${Number((s.ridgeMm * 1000).toFixed(2))} µm (${s.formula}), Ra ${Number(s.geometricRaUm.toFixed(2))} µm by geometry, ${Number(s.raUm.toFixed(2))} µm or more as measured; ${length(s.feedFor(asked))} reaches Ra ${asked}`;
  });
}

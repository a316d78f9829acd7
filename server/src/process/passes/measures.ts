/** What is measured with the work still held: every size with limits that a set-up makes. */
import type { Feature, Length } from '../../model/model';
import { valuesOf } from '../../model/values';
import type { SetupInTime, Timeline } from '../stock/types';
import type { Gauge, MeasureRow } from './types';

/** Between limits no farther apart a caliper tells nothing, mm. Common practice: it reads 0.02, and ten times as much is asked of it. */
const FINE_MM = 0.06;

/** Of one feature: its sizes with limits, each once. */
export function measuresOf(feature: Feature): readonly MeasureRow[] {
  const seen = new Set<string>();
  return valuesOf(feature).flatMap(({ type, value, path }) => {
    if (type !== 'length') return [];
    const { mm, tolerance } = value as Length;
    const { upperMm, lowerMm, fit } = tolerance ?? {};
    const what = whatOf(path);
    const key = JSON.stringify([what, (value as Length).span]);
    if (upperMm === undefined || lowerMm === undefined || !what || seen.has(key)) return [];
    seen.add(key);
    const fine = upperMm - lowerMm <= FINE_MM;
    return [
      {
        kind: 'measure',
        of: feature.name,
        what,
        limitsMm: [mm + lowerMm, mm + upperMm],
        nominalMm: mm,
        ...(fit && { fit: `${fit.letter}${fit.grade}` }),
        with: gaugeFor(what, fine, feature),
        stops: fit !== undefined || fine,
      },
    ];
  });
}

/** By the field that it stands in; places are not measured here. */
function whatOf(path: readonly string[]): MeasureRow['what'] | undefined {
  if (path.includes('diameter') || path.includes('radius')) return 'diameter';
  if (path.some((p) => p === 'width' || p === 'widths' || p === 'u' || p === 'v')) return 'width';
  return path.includes('depth') ? 'depth' : undefined;
}

function gaugeFor(what: MeasureRow['what'], fine: boolean, feature: Feature): Gauge {
  if (what === 'depth') return fine ? 'depth micrometer' : 'depth gauge';
  if (!fine) return 'caliper';
  return what === 'diameter' && feature.kind === 'hole' ? 'bore gauge' : 'micrometer';
}

/** What this set-up is the last to cut, it measures. */
export function measuredIn(then: SetupInTime, { setups }: Timeline): readonly MeasureRow[] {
  const later = new Set(setups.slice(then.index + 1).flatMap((s) => s.cuts.map((c) => c.name)));
  const own = [...new Set(then.cuts.flatMap((c) => c.feature ?? []))];
  return own.filter((f) => !later.has(f.name)).flatMap(measuresOf);
}

/** What is measured with the work still held: every size with limits that a set-up makes, distances and threads. */
import { readMemberName } from '../../model/member-name';
import type { Feature, Length, Part } from '../../model/model';
import { valuesOf } from '../../model/values';
import { tolerancedOf } from '../stackup/toleranced';
import type { Toleranced } from '../stackup/types';
import { facesTakenOff } from '../stock/taken-off';
import type { SetupInTime, Timeline } from '../stock/types';
import { isFace } from '../workholding/references';
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

/** What this set-up is the last to cut, it measures: sizes and threads of its features, then distances that end there. */
export function measuredIn(then: SetupInTime, timeline: Timeline, part: Part): readonly MeasureRow[] {
  const later = new Set(timeline.setups.slice(then.index + 1).flatMap((s) => s.cuts.map((c) => c.name)));
  const own = [...new Set(then.cuts.flatMap((c) => c.feature ?? []))].filter((f) => !later.has(f.name));
  const made = [...tolerancedOf(part)].filter(
    (t) => !OF_A_FEATURE.has(t.given) && lastCutting(t, timeline, part) === then.index,
  );
  return [...own.flatMap((f) => [...measuresOf(f), ...threadOf(f)]), ...made.map(distanceRow)];
}

/** Those are sizes of their feature, and stand with it. */
const OF_A_FEATURE: ReadonlySet<Toleranced['given']> = new Set(['depth', 'width']);

function threadOf(feature: Feature): readonly MeasureRow[] {
  if (!('thread' in feature) || !feature.thread) return [];
  const { designation } = feature.thread;
  const nominalMm = feature.thread.spec?.diameterMm ?? 0;
  return [
    {
      kind: 'measure',
      of: feature.name,
      what: 'thread',
      thread: designation,
      nominalMm,
      with: 'thread gauge',
      stops: false,
    },
  ];
}

function distanceRow({ ends: [of, to], limitsMm, nominalMm }: Toleranced): MeasureRow {
  const fine = limitsMm[1] - limitsMm[0] <= FINE_MM;
  const gauge: Gauge = !fine ? 'caliper' : isFace(of) && isFace(to) ? 'micrometer' : 'height gauge';
  return { kind: 'measure', of, to, what: 'distance', limitsMm, nominalMm, with: gauge, stops: false };
}

/** The set-up after which both ends are there; none where no set-up cuts either. */
function lastCutting({ ends }: Toleranced, { setups }: Timeline, part: Part): number {
  const cutting = (end: string) => {
    const of = readMemberName(end).feature;
    return setups.findLastIndex(({ cuts }) =>
      cuts.some((c) => (isFace(end) ? c.face === end || facesTakenOff(c, part).includes(end) : c.name === of)),
    );
  };
  return Math.max(...ends.map(cutting));
}

/**
 * Screw threads: metric coarse and fine (ISO 261), unified (ASME B1.1), pipe and trapezoidal threads, holes of wire thread
 * inserts. The rows are in `threads.data.ts` and `special-threads.data.ts`; `thread-names.ts` finds one by what a drawing says.
 */
import { drillWithin } from './drills';
import { specialThreads } from './special-threads';
import { formOf, type Thread } from './thread-form';
import { minorLimits } from './thread-limits';
import {
  COARSE_ROWS,
  FINE_ROUNDED,
  FINE_ROWS,
  FINE_SOURCE,
  TRAINEES,
  TRAINEES_SOURCE,
  UN_ROWS,
  UN_SOURCE,
  UNIFIED_ROWS,
} from './threads.data';
import { MM_PER_INCH } from './units';

/** Sizes of the third choice come after all others: nobody has screws for them. */
const coarse = COARSE_ROWS.map(
  ([diameterMm, choice, pitchMm, tapDrillMm, source]): Thread => ({
    designation: `M${diameterMm}`,
    series: 'coarse',
    diameterMm,
    pitchMm,
    tapDrillMm,
    ...(choice === 3 && { rare: true }),
    source,
  }),
);

const fine = FINE_ROWS.flatMap(([diameterMm, choice, pitches]) =>
  pitches.map((pitchMm): Thread => {
    const designation = `M${diameterMm}x${pitchMm}`;
    return {
      designation,
      series: 'fine',
      diameterMm,
      pitchMm,
      tapDrillMm: round(diameterMm - pitchMm + (FINE_ROUNDED.get(pitchMm) ?? 0), 3),
      ...(choice === 3 && { rare: true }),
      source: TRAINEES.has(designation) ? TRAINEES_SOURCE : FINE_SOURCE,
    };
  }),
);

const unified = UNIFIED_ROWS.map(
  ([size, series, diameterIn, perInch, tapDrillName, tapDrillIn, source]): Thread => ({
    designation: `${size}-${perInch} ${series}`,
    series,
    diameterMm: round(diameterIn * MM_PER_INCH, 4),
    pitchMm: MM_PER_INCH / perInch,
    tapDrillMm: round(tapDrillIn * MM_PER_INCH, 4),
    tapDrillName,
    source,
  }),
);

/** Where no drill is within the limits of so fine a pitch, the hole is bored. */
function constantPitch(size: string, diameterIn: number, perInch: number, series: 'UN' | 'UNEF'): Thread {
  const wantedMm = (diameterIn - 1 / perInch) * MM_PER_INCH;
  const thread: Thread = {
    designation: `${size}-${perInch} ${series}`,
    series,
    diameterMm: round(diameterIn * MM_PER_INCH, 4),
    pitchMm: MM_PER_INCH / perInch,
    tapDrillMm: round(wantedMm, 2),
    source: UN_SOURCE,
  };
  const { minMm, maxMm } = minorLimits(thread);
  const drill = drillWithin(wantedMm, minMm, maxMm);
  if (!drill) return thread;
  return { ...thread, tapDrillMm: drill.diameterMm, ...(drill.series !== 'metric' && { tapDrillName: drill.name }) };
}

const constant = UN_ROWS.flatMap(([size, diameterIn, un, unef]) => [
  ...un.map((perInch) => constantPitch(size, diameterIn, perInch, 'UN')),
  ...(unef === null ? [] : [constantPitch(size, diameterIn, unef, 'UNEF')]),
]);

const metric = [...coarse, ...fine];

export const THREADS: readonly Thread[] = [
  ...metric.filter((t) => !t.rare),
  ...unified,
  ...metric.filter((t) => t.rare),
  ...specialThreads(metric),
  ...constant,
];

/**
 * Percent of full thread depth that a hole of `drillMm` leaves: (D − d) / (1.299038 P) · 100 of a 60° thread.
 * The basis is Machinery's Handbook's (it reproduces its Table 2, p. 2155); the Unified height 1.0825 P would read 20 % higher.
 */
export function threadPercent(thread: Thread, drillMm: number): number {
  return ((thread.diameterMm - drillMm) / (formOf(thread).full * thread.pitchMm)) * 100;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

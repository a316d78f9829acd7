/**
 * Screw threads: metric coarse and fine (ISO 261, ISO 965-1), unified coarse and fine (ASME B1.1), found by what a
 * drawing says. The rows are in `threads.data.ts`.
 */
import { editDistance, least } from './nearest';
import { METRIC_ROWS, TD1_5H_UM, TD1_6H_UM, UNIFIED_ROWS } from './threads.data';
import { MM_PER_INCH } from './units';

export interface Thread {
  /** As a part file writes it: `M5`, `M8x1`, `10-24 UNC`, `1/4-20 UNC`. Never with `#`: that would start a comment. */
  readonly designation: string;
  readonly series: 'coarse' | 'fine' | 'UNC' | 'UNF';
  readonly diameterMm: number;
  readonly pitchMm: number;
  readonly tapDrillMm: number;
  /** The name on the drill, where it has one: `#25`, `F`, `27/64`. */
  readonly tapDrillName?: string;
  readonly source: string;
}

/** 1.299038 P is twice the depth of a full external thread, 0.75 H = 0.649519 P. */
const FULL_THREAD = 1.299038;

export const THREADS: readonly Thread[] = [
  ...METRIC_ROWS.map(([designation, series, diameterMm, pitchMm, tapDrillMm, source]) => ({
    designation,
    series,
    diameterMm,
    pitchMm,
    tapDrillMm,
    source,
  })),
  ...UNIFIED_ROWS.map(([designation, series, diameterIn, perInch, tapDrillName, tapDrillIn, source]) => ({
    designation,
    series,
    diameterMm: round(diameterIn * MM_PER_INCH, 4),
    pitchMm: MM_PER_INCH / perInch,
    tapDrillMm: round(tapDrillIn * MM_PER_INCH, 4),
    tapDrillName,
    source,
  })),
];

type Parsed =
  | { readonly system: 'metric'; readonly diameterMm: number; readonly pitchMm: number | undefined }
  | { readonly system: 'unified'; readonly size: string; readonly perInch: number; readonly series?: string };

/** Reads a designation, with or without pitch, series and tolerance class; undefined where it is not one. */
function parse(text: string): Parsed | undefined {
  const plain = text
    .trim()
    .replace(/[×*]/g, 'x')
    .replace(/[‐-―−]/g, '-')
    .replace(/(\d),(\d)/g, '$1.$2')
    .toLowerCase();
  const metric = /^m\s*(\d+(?:\.\d+)?)\s*(?:x\s*(\d+(?:\.\d+)?))?(?:[\s-]+[3-9][a-h](?:[3-9][a-h])?)?$/.exec(plain);
  if (metric) {
    return {
      system: 'metric',
      diameterMm: Number(metric[1]),
      pitchMm: metric[2] === undefined ? undefined : Number(metric[2]),
    };
  }
  const unified =
    /^(?:#|no\.?)?\s*(\d+(?:\/\d+)?)\s*(?:in|")?\s*-\s*(\d+)\s*-?\s*(unc|unf)?\s*(?:-?\s*[1-3][ab])?$/.exec(plain);
  if (unified) {
    const series = unified[3]?.toUpperCase();
    return { system: 'unified', size: unified[1]!, perInch: Number(unified[2]), ...(series && { series }) };
  }
  return undefined;
}

const coarse = new Map<number, Thread>();
const byPitch = new Map<string, Thread>();
const unifiedByName = new Map<string, Thread>();
for (const thread of THREADS) {
  if (thread.series === 'coarse') coarse.set(thread.diameterMm, thread);
  if (thread.series === 'coarse' || thread.series === 'fine') {
    byPitch.set(`${thread.diameterMm}x${thread.pitchMm}`, thread);
  } else {
    unifiedByName.set(thread.designation.split(' ')[0]!, thread);
  }
}

/**
 * The thread a designation names: `M5`, `M5x0.8`, `M8x1`, `m8×1`, `M6-6H`, `10-24`, `#10-24 UNC`, `1/4-20`.
 * A metric thread without a pitch is the coarse one. Undefined where the tables have none such.
 */
export function findThread(text: string): Thread | undefined {
  const parsed = parse(text);
  if (!parsed) return undefined;
  if (parsed.system === 'metric') {
    return parsed.pitchMm === undefined
      ? coarse.get(parsed.diameterMm)
      : byPitch.get(`${parsed.diameterMm}x${parsed.pitchMm}`);
  }
  const found = unifiedByName.get(`${parsed.size}-${parsed.perInch}`);
  return found && (parsed.series === undefined || parsed.series === found.series) ? found : undefined;
}

/** Families of threads that the tables do not have, by how they are written. */
const OTHERS: readonly (readonly [RegExp, string])[] = [
  [/^(?:g|r[pc]?|bsp[pt]?)\s*\d/i, 'a pipe thread (ISO 228, ISO 7)'],
  [/(?:^np[ts]|\bnp[ts][mf]?$)/i, 'a pipe thread (ASME B1.20.1)'],
  [/^tr\s*\d/i, 'a trapezoidal thread (ISO 2904)'],
  [/^(?:w|bs[wf])\s*\d/i, 'a Whitworth thread (BS 84)'],
];

/** `a pipe thread (ISO 228, ISO 7)`: of what family a designation is that the tables do not have. */
export function otherFamily(text: string): string | undefined {
  return OTHERS.find(([pattern]) => pattern.test(text.trim()))?.[1];
}

/** The thread most like what was written, for a suggestion: nearest in diameter, then in pitch; by spelling if unreadable. */
export function nearestThread(text: string): Thread | undefined {
  // A near miss is answered within its family: `G1/8` is no `M18`.
  if (otherFamily(text)) return undefined;
  const parsed = parse(text);
  if (parsed?.system === 'metric') {
    const pitch = parsed.pitchMm ?? coarsePitchNear(parsed.diameterMm);
    return least(
      THREADS.filter((t) => t.series === 'coarse' || t.series === 'fine'),
      (t) => 10 * Math.abs(t.diameterMm - parsed.diameterMm) + Math.abs(t.pitchMm - pitch),
    );
  }
  if (parsed) {
    const same = THREADS.filter((t) => t.designation.startsWith(`${parsed.size}-`));
    if (same.length > 0) return least(same, (t) => Math.abs(MM_PER_INCH / t.pitchMm - parsed.perInch));
  }
  const wanted = text.trim().toLowerCase().replace(/^#/, '');
  const best = least(THREADS, (t) => editDistance(wanted, t.designation.toLowerCase()));
  const allowed = Math.min(2, Math.floor(wanted.length / 2));
  return best && editDistance(wanted, best.designation.toLowerCase()) <= allowed ? best : undefined;
}

/**
 * Percent of full thread depth that a hole of `drillMm` leaves: (D − d) / (1.299038 P) · 100.
 * The basis is Machinery's Handbook's (it reproduces its Table 2, p. 2155); the Unified height 1.0825 P would read 20 % higher.
 */
export function threadPercent(thread: Thread, drillMm: number): number {
  return ((thread.diameterMm - drillMm) / (FULL_THREAD * thread.pitchMm)) * 100;
}

interface MinorLimits {
  readonly minMm: number;
  readonly maxMm: number;
  readonly tolerance: '6H' | '5H' | '2B';
  readonly source: string;
}

/**
 * Limits of an internal thread's minor diameter, mm: what the tapped hole must measure. Basic minor diameter
 * D − 1.082532 P; upper limit from ISO 965-1 class 6H (5H where the pitch is too fine for that), or from ASME B1.1 class 2B's formula (from memory).
 */
export function minorLimits(thread: Thread): MinorLimits {
  const { diameterMm, pitchMm } = thread;
  const minMm = diameterMm - 1.082532 * pitchMm;
  if (thread.series === 'coarse' || thread.series === 'fine') {
    const fineUm = TD1_5H_UM.get(pitchMm);
    if (fineUm !== undefined)
      return {
        minMm,
        maxMm: minMm + fineUm / 1000,
        tolerance: '5H',
        source: 'ISO 965-1, class 5H, from memory: the standard has no 6H of so fine a pitch',
      };
    const formulaUm = pitchMm < 1 ? 433 * pitchMm - 190 * pitchMm ** 1.22 : 230 * pitchMm ** 0.7;
    const upMm = (TD1_6H_UM.get(pitchMm) ?? formulaUm) / 1000;
    return { minMm, maxMm: minMm + upMm, tolerance: '6H', source: 'ISO 965-1, class 6H' };
  }
  const p = pitchMm / MM_PER_INCH;
  const d = diameterMm / MM_PER_INCH;
  const large = 0.25 * p - 0.4 * p * p;
  const small = Math.min(0.394 * p, Math.max(large, 0.05 * p ** (2 / 3) + (0.03 * p) / d - 0.002));
  return {
    minMm,
    maxMm: minMm + (d >= 0.25 ? large : small) * MM_PER_INCH,
    tolerance: '2B',
    source: 'ASME B1.1 class 2B by its formula, from memory',
  };
}

function coarsePitchNear(diameterMm: number): number {
  return least(coarse.values(), (t) => Math.abs(t.diameterMm - diameterMm))!.pitchMm;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

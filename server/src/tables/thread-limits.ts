/**
 * Limits of threads as they are cut every day, mm: of the hole's minor diameter first, then metric 6H in the hole and 6g on the screw by the formulas of ISO 965-1
 * (clause 13), unified 2B and 2A by those of ASME B1.1 (section 5), for an engagement of one diameter. Both from memory and
 * not rounded to the standards' steps: `tests/oracle/thread-strength.test.ts` holds what comes of them against a published
 * table of shear areas.
 */
import { G_MINOR_UM, RP_MINOR_UM, TR_MINOR_UM } from './special-threads.data';
import { formOf, isUnified, type Thread } from './thread-form';
import { TD1_4H_UM, TD1_5H_UM, TD1_6H_UM } from './threads.data';
import { MM_PER_INCH } from './units';

interface ThreadLimits {
  /** Of the screw. */
  readonly leastMajorMm: number;
  readonly leastScrewPitchMm: number;
  /** Of the hole. */
  readonly mostHolePitchMm: number;
  readonly mostMinorMm: number;
}

/** Undefined of threads that carry no screw: pipe and trapezoidal ones. */
export function limitsOf(thread: Thread): ThreadLimits | undefined {
  if (formOf(thread).name !== '60°') return undefined;
  return isUnified(thread) ? unified(thread) : metric(thread);
}

/** Fundamental deviations of screws, µm: ISO 965-1, clause 13 (from memory); so many per mm of pitch above the first. */
const DEVIATIONS: Readonly<Record<string, number>> = { e: 50, f: 30, g: 15 };
/** Of a screw's major diameter: shares of the tolerance of grade 6 (ISO 965-1, from memory). */
const GRADES: Readonly<Record<string, number>> = { 4: 0.63, 6: 1, 8: 1.6 };

/** Limits of a screw's major diameter, off its nominal size: by `6g`, `4h`, `2A`. Undefined of a class that is none. */
export function majorLimits(thread: Thread, named: string): { lowerMm: number; upperMm: number } | undefined {
  if (formOf(thread).name !== '60°') return undefined;
  return isUnified(thread) ? majorInInches(thread, named) : majorInMm(thread, named);
}

function majorInMm({ pitchMm: p }: Thread, named: string): { lowerMm: number; upperMm: number } | undefined {
  const found = /([468])([efgh])$/.exec(named);
  if (!found) return undefined;
  const upper = found[2] === 'h' ? 0 : -(DEVIATIONS[found[2]!]! + 11 * p);
  const wide = preferred((180 * p ** (2 / 3) - 3.15 / Math.sqrt(p)) * GRADES[found[1]!]!);
  return { lowerMm: (upper - wide) / 1000, upperMm: upper / 1000 };
}

/** ISO 965-1 rounds tolerances to the nearest of the series R 40 (ISO 3). */
const R40 = [
  100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300, 315, 335, 355,
  375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950, 1000,
] as const;
function preferred(um: number): number {
  const ten = 10 ** Math.floor(Math.log10(um / 100));
  return R40.reduce<number>((best, r) => (Math.abs(r * ten - um) < Math.abs(best - um) ? r * ten : best), Infinity);
}

/** ASME B1.1, section 5 (from memory): 1A and 2A have an allowance, 1A half as much tolerance again. */
function majorInInches(thread: Thread, named: string): { lowerMm: number; upperMm: number } | undefined {
  if (!/^[123]A$/.test(named)) return undefined;
  const [d, p] = [thread.diameterMm / MM_PER_INCH, thread.pitchMm / MM_PER_INCH];
  const screwPitch = 0.0015 * (Math.cbrt(d) + Math.sqrt(d)) + 0.015 * p ** (2 / 3);
  const upper = named === '3A' ? 0 : -0.3 * screwPitch;
  const wide = 0.06 * p ** (2 / 3) * (named === '1A' ? 1.5 : 1);
  return { lowerMm: MM_PER_INCH * (upper - wide), upperMm: MM_PER_INCH * upper };
}

/** ISO 965-1's ranges of diameters; a tolerance is that of the geometric mean of its range. */
const RANGES = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180, 355] as const;

function metric(thread: Thread): ThreadLimits {
  const { diameterMm: d, pitchMm: p } = thread;
  const above = RANGES.findIndex((most) => d <= most);
  const [low, high] = [RANGES[Math.max(0, above - 1)]!, RANGES[Math.max(1, above)]!];
  // Micrometres: fundamental deviation g, and the tolerances of grade 6.
  const es = 15 + 11 * p;
  const major = 180 * p ** (2 / 3) - 3.15 / Math.sqrt(p);
  const screwPitch = 90 * p ** 0.4 * Math.sqrt(low * high) ** 0.1;
  const holePitch = 1.32 * screwPitch;
  const pitchMm = d - 0.649519 * p;
  return {
    leastMajorMm: d - (es + major) / 1000,
    leastScrewPitchMm: pitchMm - (es + screwPitch) / 1000,
    mostHolePitchMm: pitchMm + holePitch / 1000,
    mostMinorMm: minorLimits(thread).maxMm,
  };
}

function unified(thread: Thread): ThreadLimits {
  const [d, p] = [thread.diameterMm / MM_PER_INCH, thread.pitchMm / MM_PER_INCH];
  // Inches. Class 2A; of that the allowance is 0.3, and the hole's tolerance 1.3.
  const screwPitch = 0.0015 * (Math.cbrt(d) + Math.sqrt(d)) + 0.015 * p ** (2 / 3);
  const major = 0.06 * p ** (2 / 3);
  const pitch = d - 0.649519 * p;
  return {
    leastMajorMm: MM_PER_INCH * (d - 0.3 * screwPitch - major),
    leastScrewPitchMm: MM_PER_INCH * (pitch - 1.3 * screwPitch),
    mostHolePitchMm: MM_PER_INCH * (pitch + 1.3 * screwPitch),
    mostMinorMm: minorLimits(thread).maxMm,
  };
}

/** Tolerance of a trapezoidal nut's pitch diameter, class 7H, mm: ISO 2903 by ISO 965-1's formulas, from memory. */
export function pitchToleranceMm({ diameterMm: d, pitchMm: p }: Thread): number {
  const above = RANGES.findIndex((most) => d <= most);
  const mean = Math.sqrt(RANGES[Math.max(0, above - 1)]! * RANGES[Math.max(1, above)]!);
  return (1.32 * preferred(1.25 * 90 * p ** 0.4 * mean ** 0.1)) / 1000;
}

interface MinorLimits {
  readonly minMm: number;
  readonly maxMm: number;
  readonly tolerance: string;
  readonly source: string;
}

/**
 * Limits of an internal thread's minor diameter, mm: what the tapped hole must measure. Upper limit from ISO 965-1 class 6H
 * (a finer one where the thread is too fine for that), or from ASME B1.1 class 2B's formula (from memory); of pipe and
 * trapezoidal threads from their own standards.
 */
export function minorLimits(thread: Thread): MinorLimits {
  const { diameterMm, pitchMm, series, bore } = thread;
  if (bore)
    return {
      minMm: bore[0],
      maxMm: bore[1],
      tolerance: 'the cone',
      source: `${thread.source.split(';')[0]}, by its formulas`,
    };
  const basicMm = diameterMm - formOf(thread).minor * pitchMm;
  const perInch = Math.round(MM_PER_INCH / pitchMm);
  if (series === 'G') return upTo(basicMm, G_MINOR_UM.get(perInch)!, 'ISO 228-1', 'ISO 228-1, from memory');
  if (series === 'Rp') {
    const um = RP_MINOR_UM.get(perInch)!;
    return upTo(basicMm - um / 1000, 2 * um, 'ISO 7-1', 'ISO 7-1, from memory');
  }
  if (series === 'Tr') return upTo(basicMm, TR_MINOR_UM.get(pitchMm)!, '4H', 'ISO 2903, class 4H, from memory');
  return isUnified(thread) ? unifiedMinor(thread, basicMm) : metricMinor(thread, basicMm);
}

function upTo(minMm: number, um: number, tolerance: string, source: string): MinorLimits {
  return { minMm, maxMm: minMm + um / 1000, tolerance, source };
}

/** ISO 965-1: 5H to M1.4, 6H from M1.6; of pitches too fine for either what there is. Holes of inserts: 5H, DIN 8140-2. */
function metricMinor({ diameterMm, pitchMm, series }: Thread, basicMm: number): MinorLimits {
  const four = TD1_4H_UM.get(pitchMm);
  if (four !== undefined)
    return upTo(basicMm, four, '4H', 'ISO 965-1, class 4H, from memory: the standard has no other of so fine a pitch');
  const five = TD1_5H_UM.get(pitchMm);
  const six = TD1_6H_UM.get(pitchMm);
  if (five !== undefined && series === 'EG') return upTo(basicMm, five, '5H', 'DIN 8140-2, class 5H, from memory');
  if (five !== undefined && six === undefined)
    return upTo(basicMm, five, '5H', 'ISO 965-1, class 5H, from memory: the standard has no 6H of so fine a pitch');
  if (five !== undefined && diameterMm < 1.5) return upTo(basicMm, five, '5H', 'ISO 965-1, class 5H, from memory');
  return upTo(basicMm, six ?? 230 * pitchMm ** 0.7, '6H', 'ISO 965-1, class 6H');
}

function unifiedMinor({ diameterMm, pitchMm }: Thread, basicMm: number): MinorLimits {
  const p = pitchMm / MM_PER_INCH;
  const d = diameterMm / MM_PER_INCH;
  const large = 0.25 * p - 0.4 * p * p;
  const small = Math.min(0.394 * p, Math.max(large, 0.05 * p ** (2 / 3) + (0.03 * p) / d - 0.002));
  const upMm = (d >= 0.25 ? large : small) * MM_PER_INCH;
  return upTo(basicMm, 1000 * upMm, '2B', 'ASME B1.1 class 2B by its formula, from memory');
}

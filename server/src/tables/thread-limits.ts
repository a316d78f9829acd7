/**
 * Limits of threads as they are cut every day, mm: metric 6H in the hole and 6g on the screw by the formulas of ISO 965-1
 * (clause 13), unified 2B and 2A by those of ASME B1.1 (section 5), for an engagement of one diameter. Both from memory and
 * not rounded to the standards' steps: `tests/oracle/thread-strength.test.ts` holds what comes of them against a published
 * table of shear areas.
 */
import type { Thread } from './threads';
import { MM_PER_INCH } from './units';

interface ThreadLimits {
  /** Of the screw. */
  readonly leastMajorMm: number;
  readonly leastScrewPitchMm: number;
  /** Of the hole. */
  readonly mostHolePitchMm: number;
  readonly mostMinorMm: number;
}

export function limitsOf(thread: Thread): ThreadLimits {
  return thread.series === 'UNC' || thread.series === 'UNF' ? unified(thread) : metric(thread);
}

/** ISO 965-1's ranges of diameters; a tolerance is that of the geometric mean of its range. */
const RANGES = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180, 355] as const;

function metric({ diameterMm: d, pitchMm: p }: Thread): ThreadLimits {
  const above = RANGES.findIndex((most) => d <= most);
  const [low, high] = [RANGES[Math.max(0, above - 1)]!, RANGES[Math.max(1, above)]!];
  // Micrometres: fundamental deviation g, and the tolerances of grade 6.
  const es = 15 + 11 * p;
  const major = 180 * p ** (2 / 3) - 3.15 / Math.sqrt(p);
  const screwPitch = 90 * p ** 0.4 * Math.sqrt(low * high) ** 0.1;
  const holePitch = 1.32 * screwPitch;
  const minor = p <= 0.8 ? 433 * p - 190 * p ** 1.22 : 230 * p ** 0.7;
  const pitchMm = d - 0.649519 * p;
  return {
    leastMajorMm: d - (es + major) / 1000,
    leastScrewPitchMm: pitchMm - (es + screwPitch) / 1000,
    mostHolePitchMm: pitchMm + holePitch / 1000,
    mostMinorMm: d - 1.082532 * p + minor / 1000,
  };
}

function unified({ diameterMm, pitchMm }: Thread): ThreadLimits {
  const [d, p] = [diameterMm / MM_PER_INCH, pitchMm / MM_PER_INCH];
  // Inches. Class 2A; of that the allowance is 0.3, and the hole's tolerance 1.3.
  const screwPitch = 0.0015 * (Math.cbrt(d) + Math.sqrt(d)) + 0.015 * p ** (2 / 3);
  const major = 0.06 * p ** (2 / 3);
  const minor = d < 0.25 ? Math.min(0.394 * p, 0.05 * p ** (2 / 3) + (0.03 * p) / d - 0.002) : 0.25 * p - 0.4 * p ** 2;
  const pitch = d - 0.649519 * p;
  return {
    leastMajorMm: MM_PER_INCH * (d - 0.3 * screwPitch - major),
    leastScrewPitchMm: MM_PER_INCH * (pitch - 1.3 * screwPitch),
    mostHolePitchMm: MM_PER_INCH * (pitch + 1.3 * screwPitch),
    mostMinorMm: MM_PER_INCH * (d - 1.082532 * p + minor),
  };
}

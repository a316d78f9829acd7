/**
 * The standard series of twist drills: metric (ISO 235, DIN 338, DIN 345), and inch by fraction, number and letter
 * (ASME B94.11M, two public tables). From memory: metric in 0.05 mm steps to 3, 0.1 steps and quarters to 14, quarters to 32
 * (over 20 mm with a taper shank).
 */
import { LETTER_DRILLS_IN, NUMBER_DRILLS_IN } from './drills.data';
import { least } from './nearest';
import { MM_PER_INCH } from './units';

interface DrillSize {
  /** `4.2`, `#25`, `F`, `27/64`. */
  readonly name: string;
  readonly series: 'metric' | 'fraction' | 'number' | 'letter';
  readonly diameterMm: number;
  readonly source: string;
}

const METRIC_SOURCE = 'ISO 235 / DIN 338, over 20 mm DIN 345, from memory';
const INCH_SOURCE = 'ASME B94.11M, from two public tables; fractions are 64ths';

export const METRIC_DRILLS: readonly DrillSize[] = metricSizes().map((hundredths) => ({
  name: String(hundredths / 100),
  series: 'metric',
  diameterMm: hundredths / 100,
  source: METRIC_SOURCE,
}));

const INCH_DRILLS: readonly DrillSize[] = [
  ...NUMBER_DRILLS_IN.map((inches, i) => inch(`#${i + 1}`, 'number', inches)),
  ...LETTER_DRILLS_IN.map((inches, i) => inch(String.fromCharCode(65 + i), 'letter', inches)),
  ...Array.from({ length: 64 }, (_, i) => inch(fraction(i + 1), 'fraction', (i + 1) / 64)),
].sort((a, b) => a.diameterMm - b.diameterMm);

/** From 1 to 1 3/4 in. Nobody is told to buy one: they are tap drills only. */
const TAPER_SHANKS: readonly DrillSize[] = Array.from({ length: 48 }, (_, i) =>
  inch(fraction(i + 65), 'fraction', (i + 65) / 64),
);

type DrillSystem = 'metric' | 'inch';

/** The standard drill nearest in diameter; the smaller of two equally near. */
export function nearestDrill(diameterMm: number, system: DrillSystem = 'metric'): DrillSize {
  return least(series(system), (drill) => Math.round(Math.abs(drill.diameterMm - diameterMm) * 1e6))!;
}

/** `#7`, `F`: the drill of that number or letter. */
export function drillByName(name: string): DrillSize | undefined {
  return INCH_DRILLS.find((d) => d.name === name && d.series !== 'fraction');
}

/** The drill nearest to a size and within limits: of inch drills first (over an inch by 64ths), then of metric ones. */
export function drillWithin(diameterMm: number, minMm: number, maxMm: number): DrillSize | undefined {
  for (const drills of [diameterMm <= MM_PER_INCH ? INCH_DRILLS : TAPER_SHANKS, METRIC_DRILLS]) {
    const good = drills.filter((d) => d.diameterMm >= minMm && d.diameterMm <= maxMm);
    const best = least(good, (d) => Math.abs(d.diameterMm - diameterMm));
    if (best) return best;
  }
  return undefined;
}

/** Standard drills from `fromMm` to `toMm`, both included, smallest first. */
export function drillsBetween(fromMm: number, toMm: number, system: DrillSystem = 'metric'): readonly DrillSize[] {
  return series(system).filter((d) => d.diameterMm >= fromMm - 1e-9 && d.diameterMm <= toMm + 1e-9);
}

/** Whether a drill of the series has just this diameter. */
export function isStandardDrill(diameterMm: number, system: DrillSystem = 'metric'): boolean {
  return Math.abs(nearestDrill(diameterMm, system).diameterMm - diameterMm) < 1e-4;
}

function series(system: DrillSystem): readonly DrillSize[] {
  return system === 'metric' ? METRIC_DRILLS : INCH_DRILLS;
}

/** In hundredths of a millimetre, so that no size carries a binary tail. */
function metricSizes(): number[] {
  const sizes = new Set<number>();
  for (let s = 50; s <= 300; s += 5) sizes.add(s);
  for (let s = 310; s <= 1400; s += 10) sizes.add(s);
  for (let s = 325; s <= 3200; s += 25) sizes.add(s);
  return [...sizes].sort((a, b) => a - b);
}

function inch(name: string, kind: DrillSize['series'], inches: number): DrillSize {
  return { name, series: kind, diameterMm: Number((inches * MM_PER_INCH).toFixed(4)), source: INCH_SOURCE };
}

function fraction(sixtyFourths: number): string {
  const whole = Math.floor(sixtyFourths / 64);
  let top = sixtyFourths % 64;
  if (top === 0) return String(whole);
  let bottom = 64;
  while (top % 2 === 0 && bottom > 1) {
    top /= 2;
    bottom /= 2;
  }
  return `${whole === 0 ? '' : `${whole} `}${top}/${bottom}`;
}

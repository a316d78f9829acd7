/** Threads by what a drawing says, and what was meant where it says what no table has: always of the same family. */
import { editDistance, least } from './nearest';
import type { Thread } from './thread-form';
import { THREADS } from './threads';
import { MM_PER_INCH } from './units';

type Family = 'metric' | 'unified' | 'G' | 'Rp' | 'Rc' | 'NPT' | 'Tr' | 'EG';

interface Written {
  readonly family: Family;
  /** As the table has it: `10`, `1 1/8`, `#10` without its sign. */
  readonly size: string;
  /** Of the pitch, mm, where it is written. */
  readonly pitchMm?: number;
  readonly series?: string;
  readonly leftHand: boolean;
}

/** A size in inches: `10`, `1/4`, `1 1/8`, `1-1/8`. */
const INCHES = String.raw`(\d+[\s-]+\d+\/\d+|\d+\/\d+|\d+)`;
const METRIC = String.raw`(\d+(?:\.\d+)?)\s*(?:x\s*(\d+(?:\.\d+)?))?`;
const CLASS = String.raw`(?:[\s-]+[3-9][a-h](?:[3-9][a-h])?)?`;

/** Each way of writing one, and what its groups are. */
const WAYS: readonly (readonly [RegExp, (found: readonly (string | undefined)[]) => Omit<Written, 'leftHand'>])[] = [
  [new RegExp(`^m\\s*${METRIC}${CLASS}$`), ([, size, pitch]) => metric('metric', size!, pitch)],
  [new RegExp(`^eg\\s*m\\s*${METRIC}${CLASS}$`), ([, size, pitch]) => metric('EG', size!, pitch)],
  [new RegExp(`^tr\\s*${METRIC}(?:[\\s-]+[4-9]h)?$`), ([, size, pitch]) => metric('Tr', size!, pitch)],
  [
    new RegExp(
      `^(?:#|no\\.?)?\\s*${INCHES}\\s*(?:in|")?\\s*-\\s*(\\d+)\\s*-?\\s*(unc|unf|unef|un)?\\s*(?:-?\\s*[1-3][ab])?$`,
    ),
    ([, size, perInch, series]) => ({
      family: 'unified',
      size: inches(size!),
      pitchMm: MM_PER_INCH / Number(perInch),
      ...(series && { series: series.toUpperCase() }),
    }),
  ],
  [new RegExp(`^(?:g|bspp)\\s*${INCHES}"?$`), ([, size]) => ({ family: 'G', size: inches(size!) })],
  [new RegExp(`^rp\\s*${INCHES}"?$`), ([, size]) => ({ family: 'Rp', size: inches(size!) })],
  [new RegExp(`^(?:rc|bspt)\\s*${INCHES}"?$`), ([, size]) => ({ family: 'Rc', size: inches(size!) })],
  [new RegExp(`^npt\\s*${INCHES}"?$`), ([, size]) => ({ family: 'NPT', size: inches(size!) })],
  [
    new RegExp(`^${INCHES}\\s*(?:in|")?\\s*(?:-\\s*(\\d+(?:\\.\\d+)?|11 1\\/2))?\\s*-?\\s*npt$`),
    ([, size, perInch]) => ({
      family: 'NPT',
      size: inches(size!),
      ...(perInch && { pitchMm: MM_PER_INCH / (perInch === '11 1/2' ? 11.5 : Number(perInch)) }),
    }),
  ],
];

function metric(family: Family, size: string, pitch: string | undefined): Omit<Written, 'leftHand'> {
  return { family, size: String(Number(size)), ...(pitch !== undefined && { pitchMm: Number(pitch) }) };
}

/** `1-1/8` and `1  1/8` are both `1 1/8`. */
function inches(size: string): string {
  return size.replace(/^(\d+)[\s-]+(?=\d+\/)/, '$1 ');
}

/** Reads a designation, with or without pitch, series, tolerance class and hand; undefined where it is not one. */
function parse(text: string): Written | undefined {
  const plain = text
    .trim()
    .replace(/[×*]/g, 'x')
    .replace(/[‐-―−]/g, '-')
    .replace(/(\d),(\d)/g, '$1.$2')
    .toLowerCase();
  const right = plain.replace(/[\s-]*lh$/, '');
  for (const [pattern, read] of WAYS) {
    const found = pattern.exec(right);
    if (found) return { ...read(found), leftHand: right !== plain };
  }
  return undefined;
}

const FAMILY: Partial<Record<Thread['series'], Family>> = {
  coarse: 'metric',
  fine: 'metric',
  UNC: 'unified',
  UNF: 'unified',
  UN: 'unified',
  UNEF: 'unified',
};
const familyOf = ({ series }: Thread): Family => FAMILY[series] ?? (series as Family);

/** `10` of `M10x1`, `1 1/8` of `1 1/8-7 UNC`, `1/4` of `G1/4`. */
function sizeOf({ designation }: Thread): string {
  const bare = designation.replace(/^(?:EG M|M|Tr|G|Rp|Rc)(?=\d)/, '');
  return bare.replace(/x[\d.]+$|-[\d.]+ [A-Z]+$/, '');
}

const keyOf = (family: Family, size: string, pitchMm?: number) => `${family} ${size} ${pitchMm?.toFixed(4) ?? ''}`;

const byKey = new Map<string, Thread>();
for (const thread of THREADS) {
  const [family, size] = [familyOf(thread), sizeOf(thread)];
  byKey.set(keyOf(family, size, thread.pitchMm), thread);
  // Without its pitch a metric size is the coarse one, and a pipe thread has but one.
  const only =
    family !== 'unified' && family !== 'Tr' && thread.series !== 'fine' && !thread.screw?.designation.includes('x');
  if (only) byKey.set(keyOf(family, size), thread);
}
/** Any of them may be cut left-handed. */
const leftHanded: ReadonlyMap<Thread, Thread> = new Map(
  THREADS.map((t) => [t, { ...t, designation: `${t.designation}-LH`, leftHand: true }]),
);

/**
 * The thread a designation names: `M5`, `M5x0.8`, `M8x1`, `m8×1`, `M6-6H`, `M10-LH`, `10-24`, `#10-24 UNC`, `1/4-20`, `G1/4`,
 * `Rp1/8`, `1/8-27 NPT`, `Tr20x4`, `EG M5`. A metric thread without a pitch is the coarse one. Undefined where the tables have none such.
 */
export function findThread(text: string): Thread | undefined {
  const written = parse(text);
  const found = written && byKey.get(keyOf(written.family, written.size, written.pitchMm));
  if (!found || (written.series !== undefined && written.series !== found.series)) return undefined;
  return written.leftHand ? leftHanded.get(found) : found;
}

/** Threads that the tables do not have, by how they are written: what they are, and what is written instead where there is something. */
const OTHERS: readonly (readonly [RegExp, string])[] = [
  [/^r\s*\d/i, 'the outside thread of ISO 7: the hole for it is `Rp` or `Rc`'],
  [/^bsp\s*\d/i, 'a pipe thread of one kind or another: `G` seals beside the thread, `Rp` or `Rc` in it'],
  [/(?:^nps|\bnps[mcf]?$|^nptf|\bnptf$)/i, 'a pipe thread (ASME B1.20.1 NPS, B1.20.3), which is not read'],
  [/^tr\s*[\d.]+\s*x\s*[\d.]+\s*\(?p/i, 'a thread of more than one start, which is not read'],
  [/^(?:w|bs[wf])\s*\d/i, 'a Whitworth thread (BS 84), which is not read'],
];

/** `a Whitworth thread (BS 84), which is not read`: what a designation is that the tables do not have. */
export function otherFamily(text: string): string | undefined {
  return OTHERS.find(([pattern]) => pattern.test(text.trim()))?.[1];
}

/**
 * The threads most like what was written, nearest first, of its own family: `G1/8` is no `M18`. Of a size that there is the
 * nearest pitch; else the sizes next below and above; by spelling where it is unreadable.
 */
export function nearbyThreads(text: string): readonly Thread[] {
  if (otherFamily(text)) return [];
  const written = parse(text);
  if (!written) return bySpelling(text);
  const hand = (t: Thread) => (written.leftHand ? leftHanded.get(t)! : t);
  const family = THREADS.filter((t) => familyOf(t) === written.family);
  const same = family.filter((t) => sizeOf(t) === written.size && !(t.rare && written.pitchMm === undefined));
  if (same.length > 0) return [hand(nearestPitch(same, written)!)];
  return beside(family, written).map(hand);
}

/** The usual sizes below and above one that is third choice. */
export function usualBeside(thread: Thread): readonly Thread[] {
  const family = THREADS.filter((t) => familyOf(t) === familyOf(thread) && t.series === thread.series);
  return beside(family, { family: familyOf(thread), size: sizeOf(thread), leftHand: false });
}

function nearestPitch(threads: readonly Thread[], { family, pitchMm, series }: Written): Thread | undefined {
  // Threads to the inch where those are what is written.
  const measure = (p: number) => (family === 'unified' || family === 'NPT' ? MM_PER_INCH / p : 10 * p);
  const wanted = pitchMm;
  if (wanted === undefined) return threads[0];
  return least(
    threads,
    (t) => Math.abs(measure(t.pitchMm) - measure(wanted)) + (series && t.series !== series ? 0.1 : 0),
  );
}

/** The sizes on either side: nearest first, and what is rare is never offered. */
function beside(family: readonly Thread[], written: Written): readonly Thread[] {
  const wanted = diameterMm(written);
  const sizes = family.filter((t) => !t.rare);
  const at = (t: Thread) => diameterMm({ family: written.family, size: sizeOf(t) });
  const below = least(
    sizes.filter((t) => at(t) < wanted),
    (t) => wanted - at(t),
  );
  const above = least(
    sizes.filter((t) => at(t) > wanted),
    (t) => at(t) - wanted,
  );
  return [below, above]
    .filter((t) => t !== undefined)
    .sort((a, b) => Math.round(1e6 * (Math.abs(at(a) - wanted) - Math.abs(at(b) - wanted))))
    .map(
      (t) =>
        nearestPitch(
          sizes.filter((s) => sizeOf(s) === sizeOf(t)),
          written,
        ) ?? t,
    );
}

/** What a size measures; of pipe threads that of the pipe's name, which is no diameter of the thread but is in order. */
function diameterMm({ family, size }: Pick<Written, 'family' | 'size'>): number {
  if (family === 'metric' || family === 'Tr' || family === 'EG') return Number(size);
  const [, whole, top, bottom] = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(size) ?? [];
  if (top !== undefined) return (Number(whole ?? 0) + Number(top) / Number(bottom)) * MM_PER_INCH;
  // A bare number of a screw grows by 0.013 in from 0.060 in (ASME B1.1); 1 of 1-8 UNC is an inch, which its pitch tells.
  return family === 'unified' ? (0.06 + 0.013 * Number(size)) * MM_PER_INCH : Number(size) * MM_PER_INCH;
}

function bySpelling(text: string): readonly Thread[] {
  const wanted = text.trim().toLowerCase().replace(/^#/, '');
  const cost = (t: Thread) => editDistance(wanted, t.designation.toLowerCase());
  const best = least(
    THREADS.filter((t) => !t.rare),
    cost,
  );
  return best && cost(best) <= Math.min(2, Math.floor(wanted.length / 2)) ? [best] : [];
}

/** What a thread is: its sizes, and by its series the form of its turns, the standard that it is of, and how that is called. */

export interface Thread {
  /** As a part file writes it: `M5`, `M8x1`, `10-24 UNC`, `G1/4`, `M10-LH`. Never with `#`: that would start a comment. */
  readonly designation: string;
  readonly series: Series;
  /** Of a pipe thread as its standard's table has it: of the thread (ISO 228, ISO 7), of the pipe (ASME B1.20.1). */
  readonly diameterMm: number;
  readonly pitchMm: number;
  readonly tapDrillMm: number;
  /** The name on the drill, where it has one: `#25`, `F`, `27/64`. */
  readonly tapDrillName?: string;
  /** Third choice of ISO 261: screws and taps of it are hardly to be had. */
  readonly rare?: true;
  readonly leftHand?: true;
  /** What is turned in: of a hole for a wire thread insert the thread inside the insert. */
  readonly screw?: Thread;
  /** Length of thread that the standard asks for, mm: of pipe threads. */
  readonly usefulMm?: number;
  /** The bore before tapping, least and most, of threads that are cut on a cone. */
  readonly bore?: readonly [leastMm: number, mostMm: number];
  readonly source: string;
}

type Series = 'coarse' | 'fine' | 'UNC' | 'UNF' | 'UN' | 'UNEF' | 'G' | 'Rp' | 'Rc' | 'NPT' | 'Tr' | 'EG';

interface Form {
  readonly name: '60°' | 'Whitworth' | 'cone' | 'trapezoidal';
  /** Of the pitch, what a full thread takes off a diameter: of 60° 0.75 H on both sides. */
  readonly full: number;
  /** Of the pitch, from the diameter of the thread to its basic minor diameter. */
  readonly minor: number;
  /** `(D − d) / (1.299 P)` */
  readonly by: string;
  /** Between its flanks: what a cutter that goes round in it must have. */
  readonly flanksDeg: FlanksDeg;
  /** On a cone of 1 in 16. */
  readonly tapered?: true;
}

export type FlanksDeg = 60 | 55 | 30;

/** ISO 68-1, ASME B1.1: 1.299038 P is twice 0.75 H, the minor diameter D − 2 · 5/8 H. */
const SIXTY: Form = { name: '60°', full: 1.299038, minor: 1.082532, by: '(D − d) / (1.299 P)', flanksDeg: 60 };
/** ISO 228-1, ISO 7-1: 55°, h = 0.640327 P. */
const WHITWORTH: Form = {
  name: 'Whitworth',
  full: 1.280654,
  minor: 1.280654,
  by: '(D − d) / (1.281 P)',
  flanksDeg: 55,
};
/** The same on a cone of 1 in 16: the share falls along the hole, told at its mouth. */
const CONE: Form = { ...WHITWORTH, name: 'cone', tapered: true };
/** ASME B1.20.1: h = 0.8 P. */
const NPT: Form = { name: 'cone', full: 1.6, minor: 1.6, by: '(D − d) / (1.6 P)', flanksDeg: 60, tapered: true };
/** ISO 2904: H1 = 0.5 P. */
const TRAPEZOID: Form = { name: 'trapezoidal', full: 1, minor: 1, by: '(D − d) / P', flanksDeg: 30 };

export const SERIES: Readonly<Record<Series, { readonly form: Form; readonly text: string }>> = {
  coarse: { form: SIXTY, text: 'coarse' },
  fine: { form: SIXTY, text: 'fine' },
  UNC: { form: SIXTY, text: 'UNC' },
  UNF: { form: SIXTY, text: 'UNF' },
  UN: { form: SIXTY, text: 'UN, constant pitch' },
  UNEF: { form: SIXTY, text: 'UNEF' },
  G: { form: WHITWORTH, text: 'parallel pipe thread, sealed beside the thread (ISO 228-1)' },
  Rp: { form: WHITWORTH, text: 'parallel inside pipe thread, sealed in the thread (ISO 7-1)' },
  Rc: { form: CONE, text: 'tapered inside pipe thread, sealed in the thread (ISO 7-1)' },
  NPT: { form: NPT, text: 'tapered pipe thread, sealed in the thread (ASME B1.20.1)' },
  Tr: { form: TRAPEZOID, text: 'trapezoidal thread (ISO 2904)' },
  EG: { form: SIXTY, text: 'for a wire thread insert (DIN 8140-2)' },
};

export function formOf({ series }: Thread): Form {
  return SERIES[series].form;
}

/** Inch threads have another stress area and other limits than metric ones. */
export function isUnified({ series }: Thread): boolean {
  return series === 'UNC' || series === 'UNF' || series === 'UN' || series === 'UNEF';
}

/** How far a tooth goes into the wall, mm: from the hole's minor diameter out, or from a boss's major one in. */
export function toothMm(thread: Thread, where: 'inside' | 'outside'): number {
  const { pitchMm: p } = thread;
  const form = formOf(thread);
  if (form.flanksDeg === 30) return 0.5 * p + (TR_CLEARANCE_MM.find(([upTo]) => p <= upTo)?.[1] ?? 1);
  // ISO 68-1: 5/8 H in a hole, 17/24 H on a screw.
  if (form.name === '60°') return (where === 'inside' ? 0.541266 : 0.613434) * p;
  return (form.full / 2) * p;
}
/** ISO 2904, clearance at the crest by pitch, mm: from memory. */
const TR_CLEARANCE_MM: readonly (readonly [upTo: number, mm: number])[] = [
  [1.5, 0.15],
  [5, 0.25],
  [12, 0.5],
];

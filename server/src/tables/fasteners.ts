/**
 * Screws as they are bought: by standard, size and length; the head of each, its nut, its washers, and the lengths it can
 * be had in. The rows are in `fasteners.data.ts`; cap and flat heads in `heads.ts`.
 */
import {
  BUTTON_ROWS,
  HEX_ROWS,
  INCH_LENGTHS,
  ISO_888_MM,
  ISO_7089_ROWS,
  ISO_7092_ROWS,
  ISO_7093_ROWS,
  LENGTH_ROWS,
} from './fasteners.data';
import { itGrade } from './fits';
import { headFor } from './heads';
import { screwDiameterMm, screwSize } from './screw-size';
import type { Thread } from './thread-form';
import { findThread } from './thread-names';
import { MM_PER_INCH } from './units';

type HeadType = 'cap' | 'flat' | 'button' | 'hex';

/** The words that a joint may use, each with what it is. */
export const SCREW_STANDARDS: Readonly<Record<string, HeadType>> = {
  'ISO 4762': 'cap',
  'ISO 10642': 'flat',
  'ISO 7380-1': 'button',
  'ISO 4017': 'hex',
  'ISO 4014': 'hex',
  'DIN 912': 'cap',
  'DIN 7991': 'flat',
  'DIN 933': 'hex',
};
export const WASHERS = {
  'ISO 7089': 'plain, the usual one',
  'ISO 7092': 'small, for under a cap head',
  'ISO 7093-1': 'large, for soft parts and slots',
} as const;
export const NUTS = {
  'ISO 4032': 'hexagon nut',
  'ISO 7040': 'hexagon nut that locks by a plastic ring',
} as const;
const WASHER_ROWS = { 'ISO 7089': ISO_7089_ROWS, 'ISO 7092': ISO_7092_ROWS, 'ISO 7093-1': ISO_7093_ROWS } as const;

/** Tensile strength by the mark on the head, N/mm²: ISO 898-1; A2 and A4 by ISO 3506-1. */
const CLASSES: Readonly<Record<string, number>> = {
  '4.8': 420,
  '5.8': 520,
  '8.8': 800,
  '10.9': 1040,
  '12.9': 1220,
  'A2-70': 700,
  'A4-70': 700,
  'A4-80': 800,
};
export const EVERYDAY_CLASS = '8.8';

export interface Screw {
  /** `ISO 4762`; left out: a cap head, or a flat one where the hole is countersunk. */
  readonly standard?: string;
  /** `M5`, `#10`, `1/4`. */
  readonly size: string;
  readonly thread: Thread;
  readonly diameterMm: number;
  readonly lengthMm?: number;
  /** The length as written: `16`, `3/4`. */
  readonly lengthText?: string;
  readonly propertyClass: string;
  readonly tensileMPa: number;
}

type ReadScrew =
  | { readonly ok: true; readonly screw: Screw }
  | { readonly ok: false; readonly wrong: 'standard' | 'size'; readonly text: string };

const CLASS = /\s*[-–]?\s*(?<=[\s-–])(\d{1,2}\.\d|A[24]-\d0)$/;

/** `M5`, `M5x16`, `ISO 4762 M5x16`, `ISO 10642 M5x16 10.9`, `M8x1x20`, `10-24 x 1/2`. */
export function readScrew(text: string): ReadScrew {
  const plain = text.trim().replaceAll('×', 'x');
  const head = /^((?:ISO|DIN|ASME|EN|ANSI)\s*(?:EN\s*)?(?:ISO\s*)?[A-Z]?\d[\d.]*(?:-\d+)?)\s*[-–]?\s+(.*)$/i.exec(
    plain,
  );
  const standard = head
    ? head[1]!
        .toUpperCase()
        .replace(/\s+/g, ' ')
        .replace(/^(ISO|DIN)(\d)/, '$1 $2')
    : undefined;
  const named = standard === 'ISO 7380' ? 'ISO 7380-1' : standard;
  if (named !== undefined && !(named in SCREW_STANDARDS) && !named.startsWith('ASME B18.3'))
    return { ok: false, wrong: 'standard', text: head![1]! };
  const rest = head ? head[2]! : plain;
  const marked = CLASS.exec(rest);
  const propertyClass = marked && marked[1]! in CLASSES ? marked[1]! : EVERYDAY_CLASS;
  const sized = (marked && marked[1]! in CLASSES ? rest.slice(0, marked.index) : rest).trim();
  const found = sizeAndLength(sized);
  if (!found) return { ok: false, wrong: 'size', text: sized };
  const size = screwSize(found.designation);
  const diameterMm = size && screwDiameterMm(size);
  if (!size || !diameterMm) return { ok: false, wrong: 'size', text: sized };
  return {
    ok: true,
    screw: {
      ...(named !== undefined && named in SCREW_STANDARDS && { standard: named }),
      size,
      thread: found.thread,
      diameterMm,
      ...(found.lengthMm !== undefined && { lengthMm: found.lengthMm, lengthText: found.lengthText! }),
      propertyClass,
      tensileMPa: CLASSES[propertyClass]!,
    },
  };
}

/** What stands before the last `x` that is no pitch is the thread; what stands after it, the length. */
function sizeAndLength(text: string) {
  const whole = threadOf(text);
  if (whole) return { designation: text, thread: whole };
  const cut = /^(.*?)\s*x\s*([\d./\s]+?)\s*(mm|in)?$/i.exec(text);
  const thread = cut && threadOf(cut[1]!);
  if (!cut || !thread) return undefined;
  const inch = cut[3] === 'in' || (cut[3] === undefined && !isMetric(thread));
  const value = numberOf(cut[2]!);
  if (!(value > 0)) return undefined;
  const lengthText = `${cut[2]!.trim()}${cut[3] ? ` ${cut[3]}` : ''}`;
  return { designation: cut[1]!, thread, lengthMm: inch ? value * MM_PER_INCH : value, lengthText };
}

function isMetric({ series }: Thread): boolean {
  return series === 'coarse' || series === 'fine';
}

/** A size without its pitch is the coarse thread: `#10`, `1/4`. */
function threadOf(text: string): Thread | undefined {
  const found = findThread(text);
  if (found) return found;
  const size = /^(?:#?\d+|\d+\/\d+)(?:\s*in)?$/.test(text.trim())
    ? screwSize(/^\d+$/.test(text) ? `#${text}` : text)
    : undefined;
  if (size === undefined) return undefined;
  const plain = size.replace('#', '');
  return COARSE.map((perInch) => findThread(`${plain}-${perInch} UNC`)).find((t) => t !== undefined);
}
/** Threads to the inch of the UNC series, each size having one. */
const COARSE: readonly number[] = [64, 56, 48, 40, 32, 24, 20, 18, 16, 14, 13, 12, 11, 10, 9, 8];

/** `16`, `1/2`, `1 1/4`. */
function numberOf(text: string): number {
  const [, whole, part, of] = /^(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)$/.exec(text.trim()) ?? [];
  return part === undefined ? Number(text) : Number(whole ?? 0) + Number(part) / Number(of);
}

interface ScrewHead {
  readonly type: HeadType;
  /** Over everything: across corners of a hexagon. */
  readonly diameterMm: number;
  readonly heightMm: number;
  /** Of a flat head, included. */
  readonly angleDeg?: number;
  readonly source: string;
}

/** The head of a screw by its standard, or of the type that its hole asks for. */
export function headOf({ standard, size }: Screw, asked: 'cap' | 'flat'): ScrewHead | undefined {
  const type = standard === undefined ? asked : SCREW_STANDARDS[standard]!;
  if (type === 'cap' || type === 'flat') return headFor(size, type);
  if (type === 'button') {
    const row = BUTTON_ROWS.find(([screw]) => screw === size);
    return row && { type, diameterMm: row[1], heightMm: row[2], source: 'ISO 7380-1, from memory' };
  }
  const hex = HEX_ROWS.find(([screw]) => screw === size);
  return hex && { type, diameterMm: acrossCorners(hex[1]), heightMm: hex[2], source: 'ISO 4017, from memory' };
}

/** Of a hexagon, from the width across its flats. */
function acrossCorners(flatsMm: number): number {
  return Number(((flatsMm * 2) / Math.sqrt(3)).toFixed(3));
}

export interface WasherSize {
  readonly outsideMm: number;
  readonly thicknessMm: number;
}

export function washerOf(standard: keyof typeof WASHERS, size: string): WasherSize | undefined {
  const row = WASHER_ROWS[standard].find(([screw]) => screw === size);
  return row && { outsideMm: row[2], thicknessMm: row[3] };
}

/** Height of a nut, mm; undefined where the standard has none of the size. */
export function nutHeightMm(standard: keyof typeof NUTS, size: string): number | undefined {
  const row = HEX_ROWS.find(([screw]) => screw === size);
  return standard === 'ISO 4032' ? row?.[3] : row?.[4];
}

/**
 * Across the flats of a hexagon nut at its largest, and across its corners at its largest and least, mm. ISO 4032 and 7040,
 * product grade A: widths h13 of ISO 4759-1, corners 1.13 of the least width; from memory.
 */
export function nutWidths(
  size: string,
): { readonly flatsMm: number; readonly cornersMm: number; readonly leastCornersMm: number } | undefined {
  const flatsMm = HEX_ROWS.find(([screw]) => screw === size)?.[1];
  if (flatsMm === undefined) return undefined;
  const least = 1.13 * (flatsMm - (itGrade(flatsMm, 13) ?? 0));
  return { flatsMm, cornersMm: acrossCorners(flatsMm), leastCornersMm: least };
}

/** The lengths that a screw can be had in, mm, short to long. */
export function lengthsOf({ standard, size, thread }: Screw, asked: 'cap' | 'flat'): readonly number[] {
  if (!isMetric(thread)) return INCH_LENGTHS.map((inches) => inches * MM_PER_INCH);
  const type = standard === undefined ? asked : SCREW_STANDARDS[standard]!;
  const row = LENGTH_ROWS.find(([screw]) => screw === size);
  const range = row?.[COLUMN[type]];
  return range ? ISO_888_MM.filter((mm) => mm >= range[0] && mm <= range[1]) : ISO_888_MM;
}
const COLUMN = { cap: 1, flat: 2, button: 3, hex: 4 } as const;

/** `ISO 4762 M5 × 16`: as one asks for it over the counter. */
export function screwText(
  { standard, size, thread }: Screw,
  asked: 'cap' | 'flat',
  lengthMm: number | undefined,
): string {
  if (!isMetric(thread)) {
    const length = lengthMm === undefined ? '' : ` × ${Number((lengthMm / MM_PER_INCH).toFixed(4))} in`;
    return `${standard ?? `ASME B18.3 ${asked === 'cap' ? 'cap' : 'flat head'}`} ${thread.designation}${length}`;
  }
  const length = lengthMm === undefined ? '' : ` × ${Number(lengthMm.toFixed(2))}`;
  const designation = thread.series === 'coarse' ? size : thread.designation.replace('x', ' × ');
  return `${standard ?? (asked === 'cap' ? 'ISO 4762' : 'ISO 10642')} ${designation}${length}`;
}

/** As it was written, with another length; undefined where none is written. */
export function lengthWritten(source: string, { lengthText, thread }: Screw, mm: number): string | undefined {
  if (lengthText === undefined) return undefined;
  const at = source.search(/[x×]\s*[\d./\s]+?\s*(?:mm|in)?\s*(?:[-–]?\s*(?<=[\s-–])(?:\d{1,2}\.\d|A[24]-\d0))?\s*$/i);
  const from = source.indexOf(lengthText, at + 1);
  if (at < 0 || from < 0) return undefined;
  const unit = /\s*(?:mm|in)$/.exec(lengthText)?.[0] ?? '';
  const isInch = unit.trim() === 'in' || (unit === '' && !isMetric(thread));
  const text = isInch ? inchText(mm / MM_PER_INCH) : String(Number(mm.toFixed(2)));
  return source.slice(0, from) + text + unit + source.slice(from + lengthText.length);
}

/** `1 1/4`: as lengths in inches are written, by sixteenths. */
function inchText(inches: number): string {
  const whole = Math.floor(inches + 1e-9);
  let [over, of] = [Math.round((inches - whole) * 16), 16];
  while (over > 0 && over % 2 === 0) [over, of] = [over / 2, of / 2];
  return over === 0 ? String(whole) : `${whole > 0 ? `${whole} ` : ''}${over}/${of}`;
}

/** As it was written, by another standard. */
export function standardWritten(source: string, { standard }: Screw, other: string): string {
  const rest =
    standard === undefined
      ? source
      : source.trim().replace(/^\S+\s*(?:EN\s*)?(?:ISO\s*)?[\d.]+(?:-\d+)?\s*[-–]?\s+/i, '');
  return `${other} ${rest}`;
}

/** As it would be written for another thread, its length and strength as they are. */
export function threadWritten({ standard, lengthText, propertyClass }: Screw, designation: string): string {
  const marked = propertyClass === EVERYDAY_CLASS ? '' : ` ${propertyClass}`;
  const inch = /^[#\d]/.test(designation);
  const length = lengthText === undefined ? '' : inch ? ` x ${lengthText}` : `x${lengthText}`;
  return `${standard === undefined ? '' : `${standard} `}${designation}${length}${marked}`;
}

/** Nominal lengths are within ± half of IT15, to 50 mm and beyond: ISO 4759-1, js15, from memory. */
export const LENGTH_GRADE = 15;

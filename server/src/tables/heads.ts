/**
 * Screw heads and the recesses that take them: counterbores for socket cap screws, countersinks for flat heads.
 * The rows are in `heads.data.ts`.
 */
import { CAP_ROWS, DIN_74_ROWS, FLAT_ROWS, INCH_ROWS, ISO_15065_ROWS } from './heads.data';
import { screwSize } from './screw-size';
import { MM_PER_INCH } from './units';

interface Counterbore {
  readonly screw: string;
  readonly diameterMm: number;
  readonly depthMm: number;
  readonly source: string;
}

interface Countersink {
  readonly screw: string;
  /** Across the sharp edge at the face. */
  readonly diameterMm: number;
  /** Included. */
  readonly angleDeg: number;
  readonly source: string;
}

interface Head {
  readonly screw: string;
  readonly type: 'cap' | 'flat';
  /** Greatest diameter: over a cap; to the sharp edge of a flat head. */
  readonly diameterMm: number;
  readonly heightMm: number;
  /** Of a flat head, included. */
  readonly angleDeg?: number;
  readonly source: string;
}

const ISO_4762 = 'ISO 4762 head sizes, from public tables';
const DIN_974 = 'DIN 974-1 series 1, from memory (depth: head height + 0.4 to M6, 0.6 to M20, 0.8 above)';
const ISO_10642 = 'ISO 10642, theoretical head to the sharp edge, from public tables (M14, M16 and M20 from memory)';
const ISO_15065 = 'ISO 15065 for ISO 7721 heads, from memory';
const ASME_B18_3 = 'ASME B18.3, from memory';
/** An inch counterbore lets the head sit flush with a little to spare; the metric rows carry theirs. */
const INCH_SINK_MM = 0.4;

const CAP = new Map(CAP_ROWS.map((row) => [row[0], row]));
const FLAT = new Map(FLAT_ROWS.map((row) => [row[0], row]));
const SMALL_FLAT = new Map(ISO_15065_ROWS);
const DIN_74 = new Map(DIN_74_ROWS.map((row) => [row[0], row]));
const INCH = new Map(INCH_ROWS.map((row) => [row[0], row]));

/** The counterbore for a socket cap screw: `counterboreFor('M5')` is 10 mm wide, 5.4 mm deep. Undefined where none is listed. */
export function counterboreFor(size: string): Counterbore | undefined {
  const screw = screwSize(size);
  if (screw === undefined) return undefined;
  const cap = CAP.get(screw);
  if (cap) return { screw, diameterMm: cap[3], depthMm: cap[4], source: DIN_974 };
  const inch = INCH.get(screw);
  if (!inch) return undefined;
  return { screw, diameterMm: mm(inch[3]), depthMm: mm(inch[2]) + INCH_SINK_MM, source: ASME_B18_3 };
}

/**
 * The countersink in which a flat head sits flush: ISO 10642 heads to the sharp edge, 90°; below M3 the smaller
 * ISO 7721 heads; inch sizes ASME B18.3, 82°. (DIN 74-1 form B lists slightly smaller ones, see `din74CountersinkMm`.)
 */
export function countersinkFor(size: string): Countersink | undefined {
  const screw = screwSize(size);
  if (screw === undefined) return undefined;
  const flat = FLAT.get(screw);
  if (flat) return { screw, diameterMm: flat[1], angleDeg: 90, source: ISO_10642 };
  const small = SMALL_FLAT.get(screw);
  if (small !== undefined) return { screw, diameterMm: small, angleDeg: 90, source: ISO_15065 };
  const inch = INCH.get(screw);
  return inch ? { screw, diameterMm: mm(inch[4]), angleDeg: 82, source: ASME_B18_3 } : undefined;
}

/** DIN 74-1 form B countersink for DIN 7991 heads, mm: for M6 smaller than the sharp head of ISO 10642 (13.0, not 13.44). */
export function din74CountersinkMm(size: string): number | undefined {
  return DIN_74.get(screwSize(size) ?? '')?.[1];
}

/** The standard head of a screw size: does it fit the recess? */
export function headFor(size: string, type: Head['type']): Head | undefined {
  const screw = screwSize(size);
  if (screw === undefined) return undefined;
  const inch = INCH.get(screw);
  if (type === 'cap') {
    const cap = CAP.get(screw);
    if (cap) return { screw, type, diameterMm: cap[1], heightMm: cap[2], source: ISO_4762 };
    return inch && { screw, type, diameterMm: mm(inch[1]), heightMm: mm(inch[2]), source: ASME_B18_3 };
  }
  const flat = FLAT.get(screw);
  if (flat) return { screw, type, diameterMm: flat[1], heightMm: flat[2], angleDeg: 90, source: ISO_10642 };
  const sink = countersinkFor(screw);
  if (!sink) return undefined;
  // A cone from the sharp edge down to the shank: its height follows from the angle.
  const shankMm = screw.startsWith('M') ? Number(screw.slice(1)) : inch ? mm(inch[2]) : 0;
  const heightMm = (sink.diameterMm - shankMm) / 2 / Math.tan((sink.angleDeg * Math.PI) / 360);
  return { screw, type, diameterMm: sink.diameterMm, heightMm, angleDeg: sink.angleDeg, source: sink.source };
}

/** Room that a screw needs at least in its hole, mm: a fine clearance hole to ISO 273 for M3. */
const LEAST_ROOM_MM = 0.2;

/** The largest metric cap screw that goes through a hole. */
export function capScrewThrough(diameterMm: number): Head | undefined {
  const rows = CAP_ROWS.filter(([screw]) => Number(screw.slice(1)) <= diameterMm - LEAST_ROOM_MM + 1e-9);
  return rows.length > 0 ? headFor(rows.at(-1)![0], 'cap') : undefined;
}

/** Every screw size that has a counterbore or countersink here, for completion. */
export function screwSizes(): readonly string[] {
  return [...new Set([...CAP.keys(), ...FLAT.keys(), ...SMALL_FLAT.keys(), ...INCH.keys()])];
}

function mm(inches: number): number {
  return Number((inches * MM_PER_INCH).toFixed(4));
}

/** A counterbore or countersink as it stands on a drawing. */
import { counterboreFor, screwSizes } from '../../tables/heads';
import { piecesOf } from '../../text/pieces';
import { bareScrew } from './screw-words';

/** A recess by one or two sizes, or by its screw and what is said about it; several where it may mean each. */
export function recessTexts(source: string, second: 'depth' | 'angle', holeMm: number | undefined): readonly string[] {
  const sizes = bySizes(source, second) ?? bareScrew(source);
  if (sizes !== undefined) return [sizes];
  return second === 'angle' ? byAngle(source, holeMm) : byWidth(source);
}

/** Two sizes side by side: `10 x 5`, `ø10 × 90°`. */
function bySizes(source: string, second: 'depth' | 'angle'): string | undefined {
  const marked = /^\s*[⌴⌵]?\s*[øØ⌀∅]?\s*(\d+(?:[.,]\d+)?)\s*(?:[↧]\s*(\d+(?:[.,]\d+)?))?\s*$/.exec(source);
  const [wide, deep] = [marked?.[1]?.replace(',', '.'), marked?.[2]?.replace(',', '.')];
  // A cone without its angle is that of metric flat heads (ISO 7721).
  if (wide && second === 'angle' && !deep && Number(wide) < LEAST_ANGLE) return `{ diameter: ${wide}, angle: 90 }`;
  if (wide && deep && second === 'depth') return `{ diameter: ${wide}, depth: ${deep} }`;
  const found = /^\s*(?:[øØ⌀∅]|dia\.?|d)?\s*(\S.*?)\s*[x×*/]\s*(\S.*?)\s*$/i.exec(source);
  if (!found) return undefined;
  const [a, b] = [found[1]!.replace(',', '.'), found[2]!.replace(',', '.')];
  const isAngle = /(?:°|deg)$/.test(b);
  if (isAngle !== (second === 'angle') || !piecesOf(a) || !piecesOf(b)) return undefined;
  return `{ diameter: ${a}, ${second}: ${b} }`;
}
/** A larger bare number of a countersink is its angle (common practice, no source). */
const LEAST_ANGLE = 60;

/** `90°`: how wide it is at the face is to be filled in; a flat head is about twice as wide as its hole (ISO 10642). */
function byAngle(source: string, holeMm = 5): readonly string[] {
  const deg = /^\s*(\d+(?:[.,]\d+)?)\s*(?:°|deg(?:rees?)?)?\s*$/i.exec(source)?.[1]?.replace(',', '.');
  if (deg === undefined || Number(deg) < LEAST_ANGLE || Number(deg) >= 180) return [];
  return [`{ diameter: ${rounded(2 * holeMm)}, angle: ${deg} }`];
}

/** One bare size of a counterbore: the screw whose head that takes, or the same width with its depth filled in. */
function byWidth(source: string): readonly string[] {
  const wide = /^\s*[⌴øØ⌀∅]*\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*$/.exec(source)?.[1]?.replace(',', '.');
  if (wide === undefined || Number(wide) === 0) return [];
  const screw = screwSizes().find((size) => counterboreFor(size)?.diameterMm === Number(wide));
  const depth = screw ? counterboreFor(screw)!.depthMm : Number(wide) / 2;
  return [`{ diameter: ${wide}, depth: ${rounded(depth)} }`, ...(screw ? [screw] : [])];
}

function rounded(mm: number): string {
  return String(Number(mm.toFixed(1)));
}

/** A counterbore or countersink as it stands on a drawing. */
import { piecesOf } from '../../text/pieces';

/** A recess by two sizes side by side: `10 x 5`, `ø10 × 90°`. */
export function recessText(source: string, second: 'depth' | 'angle'): string | undefined {
  const marked = /^\s*[⌴⌵]?\s*[øØ⌀∅]?\s*(\d+(?:[.,]\d+)?)\s*(?:[↧]\s*(\d+(?:[.,]\d+)?))?\s*$/.exec(source);
  const [wide, deep] = [marked?.[1]?.replace(',', '.'), marked?.[2]?.replace(',', '.')];
  // A cone without its angle is that of metric flat heads (ISO 7721); the bare number of a counterbore says no depth.
  if (wide && second === 'angle' && !deep && Number(wide) < 60) return `{ diameter: ${wide}, angle: 90 }`;
  if (wide && deep && second === 'depth') return `{ diameter: ${wide}, depth: ${deep} }`;
  const found = /^\s*(?:[øØ⌀∅]|dia\.?|d)?\s*(\S.*?)\s*[x×*/]\s*(\S.*?)\s*$/i.exec(source);
  if (!found) return undefined;
  const [a, b] = [found[1]!.replace(',', '.'), found[2]!.replace(',', '.')];
  const isAngle = /(?:°|deg)$/.test(b);
  if (isAngle !== (second === 'angle') || !piecesOf(a) || !piecesOf(b)) return undefined;
  return `{ diameter: ${a}, ${second}: ${b} }`;
}

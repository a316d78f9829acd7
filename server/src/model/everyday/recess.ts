/** A counterbore or countersink as it stands on a drawing. */
import { piecesOf } from '../../text/pieces';

/** A recess by two sizes side by side: `10 x 5`, `ø10 × 90°`. */
export function recessText(source: string, second: 'depth' | 'angle'): string | undefined {
  const found = /^\s*(?:[øØ⌀∅]|dia\.?|d)?\s*(\S.*?)\s*[x×*/]\s*(\S.*?)\s*$/i.exec(source);
  if (!found) return undefined;
  const [a, b] = [found[1]!.replace(',', '.'), found[2]!.replace(',', '.')];
  const isAngle = /(?:°|deg)$/.test(b);
  if (isAngle !== (second === 'angle') || !piecesOf(a) || !piecesOf(b)) return undefined;
  return `{ diameter: ${a}, ${second}: ${b} }`;
}

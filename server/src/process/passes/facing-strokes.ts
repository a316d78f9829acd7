/** A face from above: strokes side by side along its longer way, each from beside the work to beside it. */

import type { Void } from '../../geometry/types';
import { ROUNDING } from '../../tolerance';
import { FACE_SHARE } from '../operations/priced';
import type { Facing } from '../operations/types';
import type { Making } from './making';
import { rangeOf } from './read-out';
import type { Station, Way, Where } from './types';

/** Clear of the work at both ends, mm. */
const CLEAR_MM = 1;

export function strokesOver(v: Void | undefined, { tool }: Facing, { readOut }: Pick<Making, 'readOut'>): Where {
  if (!v) return { type: 'as drawn' };
  const [x, y] = [rangeOf(readOut.X, v.bounds), rangeOf(readOut.Y, v.bounds)];
  const alongX = x[1] - x[0] >= y[1] - y[0];
  const [along, across] = alongX ? [x, y] : [y, x];
  const wide = across[1] - across[0];
  const n = Math.max(1, Math.ceil(wide / (FACE_SHARE * tool.diameterMm) - ROUNDING));
  const off = tool.diameterMm / 2 + CLEAR_MM;
  const ways = Array.from({ length: n }, (_, k): Way => {
    const at = across[0] + ((k + 0.5) * wide) / n;
    const place = (l: number): Station => (alongX ? [l, at] : [at, l]);
    return { start: place(along[0] - off), moves: [{ type: 'line', to: place(along[1] + off) }] };
  });
  return { type: 'along', ways };
}

/** Faces of a casting with less to clean up than it may be short there: told by stock/extra. */
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, FACES, type Face, type Length, OPPOSITE, type Part } from '../../model/model';
import { stockSizeMm } from '../../model/stock';
import { castingDeviation } from '../../tables/castings';
import { ROUNDING } from '../../tolerance';

interface CastFace {
  readonly face: Face;
  readonly given: Length;
  /** How much it may be short: half the width of its tolerance, or a quarter where both faces are milled (ISO 8062-3). */
  readonly leastMm: number;
  readonly source: string;
}

export function* shortCastFaces(part: Part): Generator<CastFace> {
  const { stock } = part;
  if (stock.form !== 'casting' || !part.body) return;
  for (const face of FACES) {
    const given = stock.extra[face];
    const off = castingDeviation(stockSizeMm(part)[AXIS_INDEX[FACE_AXIS[face].axis]], stock.grade);
    // What has nothing stays as cast.
    if (!given || given.mm <= ROUNDING || !off) continue;
    const both = (stock.extra[OPPOSITE[face]]?.mm ?? 0) > ROUNDING;
    const leastMm = off.upperMm / (both ? 2 : 1);
    if (given.mm < leastMm - ROUNDING) yield { face, given, leastMm, source: off.source };
  }
}

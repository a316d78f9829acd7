/** How much there is of a part's stock. */
import type { Part } from '../model/model';
import { acrossSection, hollowAreaMm2, sectionKind } from '../model/section';
import { stockSizeMm } from '../model/stock';
import { blankSolid } from './blank';

/** Of the piece before anything is cut, mm³: round for a round bar, without what its section lacks; a blank’s own. */
export function stockVolumeMm3(part: Part): number {
  const { stock } = part;
  if (stock.blank) return blankSolid(stock.blank).measures.volumeMm3;
  const size = stockSizeMm(part);
  const [x, y, z] = size;
  const along = ['x', 'y', 'z'].indexOf(stock.axis ?? (part.body?.form === 'round' ? part.body.axis : 'z')) as
    | 0
    | 1
    | 2;
  const full = stock.diameter ? (Math.PI / 4) * stock.diameter.mm ** 2 * size[along] : x * y * z;
  if (!stock.section) return full;
  const across = acrossSection(stock.section, along, stock.diameter?.mm);
  const outside = [size[((along + 1) % 3) as 0 | 1 | 2], size[((along + 2) % 3) as 0 | 1 | 2]] as const;
  return full - hollowAreaMm2(sectionKind(stock.form)!.hollows(across, outside)) * size[along];
}

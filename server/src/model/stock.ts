/** The piece a part is cut from: the body and what stands outside it, face by face. */
import type { Part } from './model';
import { acrossSection, hollowAreaMm2, sectionKind } from './section';

/** Envelope of the stock along x, y, z in mm. A round bar's own diameter stands in for the two axes across it. */
export function stockSizeMm(part: Pick<Part, 'stock' | 'size' | 'body'>): readonly [number, number, number] {
  const { stock, size } = part;
  const extra = (face: keyof typeof stock.extra) => stock.extra[face]?.mm ?? 0;
  const boxed: [number, number, number] = [
    size[0] + extra('left') + extra('right'),
    size[1] + extra('front') + extra('back'),
    size[2] + extra('bottom') + extra('top'),
  ];
  if (!stock.diameter) return boxed;
  const along = { x: 0, y: 1, z: 2 }[stock.axis ?? (part.body?.form === 'round' ? part.body.axis : 'z')];
  return [0, 1, 2].map((i) => (i === along ? boxed[i]! : stock.diameter!.mm)) as [number, number, number];
}

/** Of the piece before anything is cut, mm³: round for a round bar, without what its section lacks. */
export function stockVolumeMm3(part: Part): number {
  const { stock } = part;
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

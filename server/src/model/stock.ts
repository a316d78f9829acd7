/** The piece a part is cut from: the body and what stands outside it, face by face. */
import type { Part } from './model';

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

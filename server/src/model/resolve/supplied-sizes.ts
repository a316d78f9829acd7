/** What the text says of stock as it is supplied: thickness, width, flatness. Its sizes are those that body and `extra` make. */
import { at, type MapEntry, type MapNode, scalarAt } from '../../text/tree';
import { SAME } from '../../tolerance';
import type { Body, Length, Stock, StockForm } from '../model';
import { stockSizeMm } from '../stock';
import type { Evaluation } from './evaluation';

const KEYS = ['thickness', 'width', 'flatness'] as const;
type Key = (typeof KEYS)[number];
const OF: Readonly<Partial<Record<StockForm, readonly Key[]>>> = {
  'flat-bar': KEYS,
  'square-bar': ['width', 'flatness'],
  plate: ['thickness', 'flatness'],
};

export function suppliedKeys(form: StockForm): readonly Key[] {
  return OF[form] ?? [];
}

/** A remark on what is not the size of the piece. */
export function suppliedSizes(
  work: Evaluation,
  entry: MapEntry,
  stock: Stock,
  body: Body | undefined,
): Pick<Stock, Key> {
  const map = entry.value as MapNode;
  const found: Partial<Record<Key, Length>> = {};
  for (const key of suppliedKeys(stock.form)) {
    const length = scalarAt(map, key) && work.length(map, key);
    if (!length) continue;
    const piece = key !== 'flatness' && body ? { stock, body, size: sizeOf(body) } : undefined;
    if (!piece || fits(work, [key, length], map, piece)) found[key] = length;
  }
  return found;
}

/** A plate is as thick as the piece is thin; of a bar either side across it may be the thick one. */
function fits(
  work: Evaluation,
  [key, length]: readonly [Key, Length],
  map: MapNode,
  piece: Parameters<typeof stockSizeMm>[0],
): boolean {
  const { stock } = piece;
  const sizes = stockSizeMm(piece);
  const thin = Math.min(...sizes);
  const across = stock.form === 'plate' ? [thin] : sizes;
  if (across.some((mm) => Math.abs(mm - length.mm) < SAME)) return true;
  const made = Number((thin / work.doc.unitMm).toFixed(6));
  const more = Number(((length.mm - thin) / work.doc.unitMm).toFixed(6));
  const side = (['right', 'back', 'top'] as const)[sizes.indexOf(thin)]!;
  const leaves = stock.form === 'plate' && more > 0 && !at(map, 'extra');
  work.remark(
    leaves
      ? `The plate is ${length.text}, and the body ${made}. Write what is outside it: \`extra: { ${side}: ${more} }\`.`
      : `No side of the piece is ${length.text}: body and \`extra\` make it ${sizes.map((mm) => Number((mm / work.doc.unitMm).toFixed(6))).join(' × ')}. Correct \`${key}\`, or \`extra\`.`,
    length.span,
    leaves
      ? {
          fixes: [
            { title: `Leave ${more} on the ${side} face`, edits: [], added: [[map, 'extra', `{ ${side}: ${more} }`]] },
          ],
        }
      : {},
  );
  return false;
}

function sizeOf(body: Body): readonly [number, number, number] {
  if (body.form === 'box') return [body.x.mm, body.y.mm, body.z.mm];
  const along = (axis: 'x' | 'y' | 'z') => (body.axis === axis ? body.length.mm : body.diameter.mm);
  return [along('x'), along('y'), along('z')];
}

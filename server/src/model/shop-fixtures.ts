/** Reading what a shop has to hold work with besides vises: V-blocks and angle plates. */
import type { MapEntry } from '../text/tree';
import { quote } from './resolve/problem';
import { anglePlate, vBlock } from './schema/shop';
import type { Fields } from './shop-fields';
import type { AnglePlate, VBlock } from './shop-model';
import { sound } from './shop-sound';

/** As sold: matched pairs, 90°. Common practice, no source. */
const PAIR = 2;
const SQUARE_DEG = 90;

/** One V-block; undefined where its sizes are not all there. */
export function readVBlock(fields: Fields, entry: MapEntry): VBlock | undefined {
  const name = String(entry.key.value);
  const node = sound(fields, vBlock, entry, `V-block ${quote(name)}`);
  if (!node) return undefined;
  const [widthMm, heightMm, lengthMm] = ['width', 'height', 'length'].map((key) => fields.size(node, key));
  const angleDeg = fields.angle(node, 'angle', 0, 179) ?? SQUARE_DEG;
  const count = fields.number(node, 'count', 1, true) ?? PAIR;
  if (!widthMm || !heightMm || !lengthMm) return undefined;
  return { name, span: entry.span, widthMm, heightMm, lengthMm, angleDeg, count };
}

/** Of the height, how thick the upright side of an angle plate is. Common practice, no source: 10 to 15 mm for 100 mm. */
const THICK_SHARE = 0.125;

export function readAnglePlate(fields: Fields, entry: MapEntry): AnglePlate | undefined {
  const name = String(entry.key.value);
  const node = sound(fields, anglePlate, entry, `Angle plate ${quote(name)}`);
  if (!node) return undefined;
  const [widthMm, heightMm] = ['width', 'height'].map((key) => fields.size(node, key));
  const given = fields.size(node, 'thickness');
  if (!widthMm || !heightMm) return undefined;
  return { name, span: entry.span, widthMm, heightMm, thicknessMm: given ?? THICK_SHARE * heightMm };
}

/** Places and sizes that are written as bare numbers, `[35, 27.5]` or `70 x 55 x 24`, by the axes they belong to. */
import { parseDimension } from '../../text/dimension';
import type { TextNode } from '../../text/tree';
import { type Axis, FACE_AXIS, FACE_PLANE, type Face } from '../faces';
import { plainDimension } from './dimension';

export const MIDDLE = /^(?:cent(?:er|re)d?|middle|mid|center of face|mitte|mittig|zentrum|centro|milieu|medio|mezzo)$/i;

/** `{ x: 35, y: 27.5 }` of two numbers on a face, or of three of which one is normal to it. */
export function placeText(node: TextNode, face: Face): string | undefined {
  const axes = FACE_PLANE[face];
  if (node.type === 'scalar' && MIDDLE.test(node.source)) return mapText(axes, ['center', 'center']);
  const numbers = numbersOf(node);
  if (numbers?.length === 2) return mapText(axes, numbers);
  if (numbers?.length !== 3) return undefined;
  const normal = ['x', 'y', 'z'].indexOf(FACE_AXIS[face].axis);
  return mapText(
    axes,
    numbers.filter((_, i) => i !== normal),
  );
}

/** `{ x: 20, y: 10 }` of two numbers on a face. */
export function sizeText(node: TextNode, face: Face): string | undefined {
  const numbers = numbersOf(node);
  return numbers?.length === 2 ? mapText(FACE_PLANE[face], numbers) : undefined;
}

/** `{ x: 70, y: 55, z: 24 }` of three numbers, `{ diameter: 40, length: 25 }` of two with a diameter sign before the first. */
export function bodyText(node: TextNode): string | undefined {
  if (node.type === 'scalar') {
    const round = /^(?:[øØ⌀∅]|dia\.?|d)\s*(.+)$/i.exec(node.source);
    const two = round && split(round[1]!);
    if (two?.length === 2) return `{ diameter: ${two[0]}, length: ${two[1]} }`;
  }
  const numbers = numbersOf(node);
  return numbers?.length === 3 ? mapText(['x', 'y', 'z'], numbers) : undefined;
}

export function mapText(keys: readonly string[], values: readonly string[]): string {
  return `{ ${keys.map((key, i) => `${key}: ${values[i]}`).join(', ')} }`;
}

export function planeOf(face: Face): readonly [Axis, Axis] {
  return FACE_PLANE[face];
}

/** The dimensions in a list, or in a text with `x`, a comma or a semicolon between them. */
export function numbersOf(node: TextNode): readonly string[] | undefined {
  if (node.type === 'map') return undefined;
  if (node.type === 'scalar') return split(node.source);
  const texts = node.items.map((item) =>
    item.type === 'scalar' ? (MIDDLE.test(item.source) ? 'center' : said(item.source)) : undefined,
  );
  return texts.every((t) => t !== undefined) ? (texts as string[]) : undefined;
}

function split(source: string): readonly string[] | undefined {
  // As on a control: X35 Y27.5.
  const bare = source
    .trim()
    .replace(/^X\s*(-?[\d.,]+)\s*[;,]?\s*Y\s*(-?[\d.,]+)$/i, '$1; $2')
    .replace(/^[([{]\s*|\s*[)\]}]$/g, '');
  const unit = /(?<=\d)\s*(mm|cm|in|")$/.exec(bare)?.[1];
  for (const between of [/\s*[xX×*]\s*/, /\s*[;/|]\s*|\s*,\s+/, /\s*,\s*/, /\s+/]) {
    const pieces = bare.split(between);
    if (pieces.length < 2 || pieces.length > 3) continue;
    const texts = pieces.map(said);
    if (!texts.every((t) => t !== undefined)) continue;
    // `70 x 55 x 24 mm`: the unit at the end is that of all.
    return unit ? texts.map((t) => (/[a-z"]$/.test(t!) ? t! : `${t} ${unit}`)) : (texts as string[]);
  }
  return undefined;
}

/** A number as this format writes it; undefined for anything else. */
function said(source: string): string | undefined {
  const text = source.trim();
  if (!/^[-+]?[\d.,]/.test(text)) return undefined;
  const plain = plainDimension(text, { through: false, angle: false });
  if (plain?.texts.length === 1) return plain.texts[0];
  return parseDimension(text).ok ? text : undefined;
}

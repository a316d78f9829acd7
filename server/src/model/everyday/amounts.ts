/** Several amounts in one value, as they are said in a workshop: `20 x 10 x 5`, a slot by its length, four numbers for two ends. */
import { at, entry, type MapNode, type TextNode } from '../../text/tree';
import type { Face } from '../faces';
import type { FeatureKind } from '../feature-kinds';
import { patterns } from './patterns';
import { mapText, numbersOf, planeOf } from './places';
import { isDimension, type Reading, sourceOf } from './reading';

export function* amounts(map: MapNode, kind: FeatureKind, face: Face): Generator<Reading> {
  if (kind === 'pocket' && !at(map, 'depth')) yield* threeSizes(map, face);
  if (kind === 'slot' && !at(map, 'ends') && !at(map, 'path')) yield* byLength(map, face);
  yield* patterns(map, face);
}

/** The third of three sizes of a pocket is its depth. */
function* threeSizes(map: MapNode, face: Face): Generator<Reading> {
  const size = entry(map, 'size');
  const numbers = size?.value && numbersOf(size.value);
  if (!size?.value || numbers?.length !== 3) return;
  const text = mapText(planeOf(face), numbers);
  yield {
    message: `A pocket's third size is its depth. Write \`size: ${text}\` and \`depth: ${numbers[2]}\`.`,
    entries: [size],
    gives: ['size', 'depth'],
    fixes: [
      {
        title: `Write \`size: ${text}\` and \`depth: ${numbers[2]}\``,
        edits: [{ span: size.value.span, newText: text }],
        added: [[map, 'depth', numbers[2]!]],
      },
    ],
  };
}

/** A slot by its middle and its length over everything: along which axis is not said. */
function* byLength(map: MapNode, face: Face): Generator<Reading> {
  const [length, width, place] = [entry(map, 'length'), entry(map, 'width'), entry(map, 'at')];
  if (!length || !width || !isDimension(length) || !isDimension(width)) return;
  const middle = middleOf(place?.value, face);
  const between = half(sourceOf(length), sourceOf(width));
  if (!middle || !between) return;
  const axes = planeOf(face);
  const texts = [0, 1].map((along) => {
    const end = (sign: string) =>
      mapText(
        axes,
        middle.map((m, i) => (i === along ? moved(m, sign, between) : m)),
      );
    return `ends: [${end('-')}, ${end('+')}]`;
  });
  yield {
    message: `A slot is said by the middles of its two round ends, along ${axes.join(' or ')}. Write \`ends\` like \`[${mapText(axes, ['10', '20'])}, ${mapText(axes, ['40', '20'])}]\`.`,
    entries: place ? [length, place] : [length],
    gives: ['ends'],
    fixes: texts.map((text, i) => ({
      title: `Along ${axes[i]}: \`${text}\``,
      edits: [{ span: length.span, newText: text }],
      ...(place && { without: [[map, place]] as const }),
      equal: true as const,
    })),
  };
}

/** Of a place in braces or as numbers; the body's own where nothing is said. */
function middleOf(node: TextNode | undefined, face: Face): readonly string[] | undefined {
  const axes = planeOf(face);
  const middle = (axis: string, text: string) => (text === 'center' ? `body.${axis} / 2` : text);
  if (!node) return axes.map((axis) => middle(axis, 'center'));
  if (node.type !== 'map') return numbersOf(node)?.slice(0, 2);
  const values = axes.map((axis) => at(node, axis));
  if (!values.every((v) => v?.type === 'scalar')) return undefined;
  return values.map((v, i) => middle(axes[i]!, v?.type === 'scalar' ? v.source : ''));
}

/** Half of what is between the middles of the ends, in the length's unit. */
function half(length: string, width: string): string | undefined {
  const [a, b] = [length, width].map((text) => /^(\d+(?:\.\d+)?)\s*(mm|in|")?$/.exec(text));
  if (!a || !b || a[2] !== b[2] || Number(a[1]) <= Number(b[1])) return undefined;
  return `${Number(((Number(a[1]) - Number(b[1])) / 2).toFixed(6))}${a[2] ? ` ${a[2]}` : ''}`;
}

function moved(middle: string, sign: string, by: string): string {
  const number = /^-?\d+(?:\.\d+)?$/;
  if (!number.test(middle) || !number.test(by)) return `${middle} ${sign} ${by}`;
  return String(Number((Number(middle) + (sign === '-' ? -1 : 1) * Number(by)).toFixed(6)));
}

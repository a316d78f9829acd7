/** Several amounts in one value, as they are said in a workshop: `20 x 10 x 5`, `4 x 10` of a pattern, a slot by its length, `Ra 1.6`. */
import { at, entry, type MapEntry, type MapNode, type TextNode } from '../../text/tree';
import type { Face } from '../faces';
import type { FeatureKind } from '../feature-kinds';
import { mapText, numbersOf, planeOf } from './places';
import { isDimension, type Reading, sourceOf } from './reading';

export function* amounts(map: MapNode, kind: FeatureKind, face: Face): Generator<Reading> {
  if (kind === 'pocket' && !at(map, 'depth')) yield* threeSizes(map, face);
  if (kind === 'slot' && !at(map, 'ends') && !at(map, 'path')) yield* byLength(map, face);
  yield* rowOf(map, face);
  yield* finishOf(map);
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

/** `4 x 10`: so many, so far apart; along which axis is not said. */
function* rowOf(map: MapNode, face: Face): Generator<Reading> {
  const pattern = entry(map, 'pattern');
  if (!pattern) return;
  const { value } = pattern;
  if (value?.type === 'map') {
    yield* circleOf(pattern, value);
    return;
  }
  const [count, pitch, third] = (value && numbersOf(value)) ?? [];
  if (!value || !isCount(count) || pitch === undefined || third !== undefined) return;
  const texts = planeOf(face).map((axis) => `{ line: { ${axis}: ${pitch}, count: ${count} } }`);
  yield {
    message: `A row says along which axis it goes. Write \`pattern: ${texts[0]}\` or \`pattern: ${texts[1]}\`.`,
    entries: [pattern],
    gives: ['pattern'],
    fixes: texts.map((text) => ({
      title: `Write \`pattern: ${text}\``,
      edits: [{ span: value.span, newText: text }],
      equal: true as const,
    })),
  };
}

/** `{ pcd: 30, count: 4 }`, `bolt-circle: 4 x 30`. */
function* circleOf(whole: MapEntry, pattern: MapNode): Generator<Reading> {
  const circle = entry(pattern, 'bolt-circle');
  const [count, wide, third] = (circle?.value && circle.value.type !== 'map' && numbersOf(circle.value)) || [];
  if (circle?.value && isCount(count) && wide !== undefined && third === undefined) {
    yield inBraces(circle, circle.value, `{ diameter: ${wide}, count: ${count} }`);
    return;
  }
  const round = ['pcd', 'bcd', 'lk', 'lochkreis', 'diameter'].map((key) => entry(pattern, key)).find((e) => e);
  const many = ['count', 'n', 'number', 'anzahl'].map((key) => entry(pattern, key)).find((e) => e);
  if (!round || !many || pattern.entries.length !== 2 || !isDimension(round) || many.value?.type !== 'scalar') return;
  const text = `{ bolt-circle: { diameter: ${sourceOf(round)}, count: ${many.value.source} } }`;
  yield {
    message: `Holes on a circle are a \`bolt-circle\`. Write \`pattern: ${text}\`.`,
    entries: [whole],
    gives: ['pattern', 'bolt-circle'],
    fixes: [{ title: `Write \`pattern: ${text}\``, edits: [{ span: pattern.span, newText: text }] }],
  };
}

function inBraces(e: MapEntry, value: TextNode, text: string): Reading {
  const key = String(e.key.value);
  return {
    message: `It has to say which number is which. Write \`${key}: ${text}\`.`,
    entries: [e],
    gives: ['pattern'],
    fixes: [{ title: `Write \`${key}: ${text}\``, edits: [{ span: value.span, newText: text }] }],
  };
}

function isCount(text: string | undefined): boolean {
  return text !== undefined && /^\d{1,3}$/.test(text) && Number(text) > 1;
}

/** Roughness grades in µm Ra by ISO 1302:1992, annex (from memory). */
const GRADES: Readonly<Record<string, string>> = {
  N4: '0.2',
  N5: '0.4',
  N6: '0.8',
  N7: '1.6',
  N8: '3.2',
  N9: '6.3',
  N10: '12.5',
};

/** `Ra 1.6`, `1,6 µm`, `N7`. */
function* finishOf(map: MapNode): Generator<Reading> {
  const finish = entry(map, 'finish');
  if (finish?.value?.type !== 'scalar') return;
  const { source, span } = finish.value;
  const said = /^(?:Ra\s*=?\s*)?(\d+(?:[.,]\d+)?)\s*(?:µm|μm|um)?$/i.exec(source)?.[1]?.replace(',', '.');
  const text = GRADES[source.toUpperCase()] ?? said;
  if (text === undefined || text === source) return;
  yield {
    message: `A finish is its Ra in µm, as a number. Write \`finish: ${text}\`.`,
    entries: [finish],
    gives: ['finish'],
    fixes: [{ title: `Write \`finish: ${text}\``, edits: [{ span, newText: text }] }],
    rule: 'form/unit',
  };
}

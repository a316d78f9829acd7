/** Fields that mean one thing together, where this format has one field. */

import { parseDimension } from '../../text/dimension';
import { at, entry, type MapEntry, type MapNode, type TextNode } from '../../text/tree';
import type { Face } from '../faces';
import type { FeatureKind } from '../feature-kinds';
import { plainWord } from './everyday-words';
import { mapText, placeText, planeOf } from './places';
import { isDimension, joined, keyOf, type Reading, sourceOf } from './reading';

/** Fields that only mean something together: `x` and `y`, `width` and `length`, a diameter and its `fit`. */
export function* together(map: MapNode, kind: FeatureKind, face: Face): Generator<Reading> {
  const [u, v] = planeOf(face);
  const named = (axis: string) => map.entries.find((e) => keyOf(e).toLowerCase() === axis);
  const [first, second] = [named(u), named(v)];
  const isPocket = kind === 'pocket' || kind === 'contour';
  const to = !at(map, 'at') ? 'at' : isPocket && !at(map, 'size') ? 'size' : undefined;
  if (first && second && to && isDimension(first) && isDimension(second)) {
    const text = `${to}: ${mapText([u, v], [sourceOf(first), sourceOf(second)])}`;
    yield {
      message: `The ${to === 'at' ? 'place' : 'size'} of a feature is one field. Write \`${text}\`.`,
      entries: [first, second],
      gives: [to],
      fixes: [joined([first, second], map, text)],
    };
  }
  if (isPocket && !(first && second && to === 'size') && !at(map, 'size')) yield* rectangle(map, [u, v]);
  if (kind === 'chamfer' || kind === 'edge-round') yield* edgesOfFace(map);
  if (kind === 'hole') yield* fitted(map);
  if (kind === 'slot' && !at(map, 'ends') && !at(map, 'path')) yield* fromTo(map, face);
}

/** Two of length, width and height: which of them goes along which axis is not said. */
function* rectangle(map: MapNode, [u, v]: readonly [string, string]): Generator<Reading> {
  const sides = ['length', 'width', 'height', 'w', 'l', 'h']
    .map((key) => map.entries.find((e) => plainWord(keyOf(e)) === key))
    .filter((e): e is MapEntry => e !== undefined && isDimension(e));
  if (sides.length !== 2) return;
  const [a, b] = [sourceOf(sides[0]!), sourceOf(sides[1]!)];
  const ways =
    a === b
      ? [[a, b]]
      : [
          [a, b],
          [b, a],
        ];
  const texts = ways.map((way) => `size: ${mapText([u, v], way)}`);
  yield {
    message: `The \`size\` of a rectangle is given along the part’s axes: ${texts.map((t) => `\`${t}\``).join(' or ')}.`,
    entries: sides,
    gives: ['size'],
    fixes: texts.map((text) => ({ ...joined(sides, map, text), ...(texts.length > 1 && { equal: true as const }) })),
  };
}

/** A face without edges: those are meant that are its outer ones. */
function* edgesOfFace(map: MapNode): Generator<Reading> {
  const named = entry(map, 'face');
  if (at(map, 'edges') || named?.value?.type !== 'scalar') return;
  const text = `edges: ${named.value.source}`;
  yield {
    message: `A face stands for its outer edges. Write \`${text}\`.`,
    entries: [named],
    gives: ['edges'],
    fixes: [{ title: `Write \`${text}\``, edits: [{ span: named.span, newText: text }] }],
  };
}

/** A slot from one place to another. */
function* fromTo(map: MapNode, face: Face): Generator<Reading> {
  for (const [a, b] of [
    ['from', 'to'],
    ['start', 'end'],
    ['start', 'stop'],
  ] as const) {
    const [first, second] = [entry(map, a), entry(map, b)];
    const places = [first, second].map((e) => (e?.value ? placeOf(e.value, face) : undefined));
    if (!first || !second || places.includes(undefined)) continue;
    const text = `ends: [${places.join(', ')}]`;
    yield {
      message: `A slot is said by its two ends: write \`${text}\`.`,
      entries: [first, second],
      gives: ['ends'],
      fixes: [joined([first, second], map, text)],
    };
    return;
  }
}

/** In braces, of numbers, or as it is written in braces already. */
function placeOf(node: TextNode, face: Face): string | undefined {
  if (node.type !== 'map') return placeText(node, face);
  const all = node.entries.map(({ key, value }) => (value?.type === 'scalar' ? [String(key.value), value.source] : []));
  return all.length === 2 && all.every((e) => e.length === 2)
    ? mapText(
        all.map((e) => e[0]!),
        all.map((e) => e[1]!),
      )
    : undefined;
}

/** `fit: H7` beside a diameter. */
function* fitted(map: MapNode): Generator<Reading> {
  const diameter = entry(map, 'diameter');
  const fit = ['fit', 'tolerance', 'tol', 'class'].map((key) => entry(map, key)).find((e) => e && !at(map, 'thread'));
  if (diameter?.value?.type !== 'scalar' || fit?.value?.type !== 'scalar') return;
  const text = fit.value.source.trim();
  const written = `${diameter.value.source} ${/^\d/.test(text) ? `±${text}` : text}`;
  const read = parseDimension(written);
  if (!read.ok || !read.dimension.tolerance) return;
  yield {
    message: `A tolerance comes after its value: \`diameter: ${written}\`.`,
    entries: [fit],
    gives: [],
    fixes: [
      {
        title: `Write \`diameter: ${written}\``,
        edits: [{ span: diameter.value.span, newText: written }],
        without: [[map, fit]],
      },
    ],
  };
}

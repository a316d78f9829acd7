/** Several of one feature as they are called out: `4x`, `4 on 40 PCD`, `2x3`, a count and a pitch beside the feature. */
import { at, entry, type MapEntry, type MapNode, type TextNode } from '../../text/tree';
import type { Face } from '../faces';
import { plainWord } from './everyday-words';
import { numbersOf, placeText, planeOf } from './places';
import { doubled, isDimension, keyOf, onOneLine, type Reading, sourceOf } from './reading';
import { plainCount } from './scalar';

/** What was said of how many there are, and where. */
interface Said {
  readonly count?: string;
  readonly pitch?: string;
  readonly axis?: string;
  /** Diameter of the circle they are on. */
  readonly circle?: string;
}

const COUNTS = /^(?:count|qty|quantity|number|n|times|no|anzahl|how-many|repeat)$/;
const PITCHES = /^(?:pitch|spacing|step|distance|apart|abstand|teilung)$/;
const CIRCLES = /^(?:bolt-circle|pcd|bcd|bolt-circle-diameter|pitch-circle|circle|lk)$/;
const KINDS = /^(?:type|kind)$/;
/** Where it is to be filled in how far apart they are, or how many (the examples of the format). */
const FILLED = { pitch: '15', circle: '30', count: '4' };

export function* patterns(map: MapNode, face: Face): Generator<Reading> {
  const pattern = entry(map, 'pattern');
  const value = pattern?.value;
  if (!pattern) yield* besides(map, face);
  else if (value?.type === 'map') yield* inMap(pattern, value, map, face);
  else if (value) yield* inText(pattern, value, map, face);
  yield* manyPlaces(map, face);
}

/** `count: 4` and `spacing: 10`, `pcd: 40`, beside the feature's own fields. */
function* besides(map: MapNode, face: Face): Generator<Reading> {
  const entries = map.entries.filter((e) => saidBy(e) !== undefined && e.value?.type === 'scalar');
  const said = Object.assign({}, ...entries.map(saidBy)) as Said;
  const [first, ...rest] = entries;
  if (!first) return;
  const texts = textsOf(said, face);
  yield {
    message: `Several of one feature are its \`pattern\`. Write ${listed(texts)}.`,
    entries,
    gives: ['pattern'],
    fixes: texts.map((text) => ({
      title: `Write \`pattern: ${text}\``,
      edits: [{ span: first.span, newText: `pattern: ${text}` }],
      without: rest.map((e) => [map, e] as const),
      ...(texts.length > 1 && { equal: true as const }),
    })),
  };
}

function saidBy(e: MapEntry): Said | undefined {
  const word = plainWord(keyOf(e));
  if (e.value?.type !== 'scalar') return undefined;
  if (COUNTS.test(word)) {
    const count = plainCount(e.value.source) ?? e.value.source;
    return isCount(count) ? { count } : undefined;
  }
  if (!isDimension(e)) return undefined;
  if (PITCHES.test(word)) return { pitch: sourceOf(e) };
  return CIRCLES.test(word) ? { circle: sourceOf(e) } : undefined;
}

/** Every way to write it: along either axis where none was said, on a circle where nothing but the count was. */
function textsOf(said: Said, face: Face): readonly string[] {
  const count = said.count ?? (said.circle ? FILLED.count : '2');
  if (said.circle) return [`{ bolt-circle: { diameter: ${said.circle}, count: ${count} } }`];
  const axes = said.axis ? [said.axis] : planeOf(face);
  const rows = axes.map((axis) => `{ line: { ${axis}: ${said.pitch ?? FILLED.pitch}, count: ${count} } }`);
  return said.pitch ? rows : [...rows, `{ bolt-circle: { diameter: ${FILLED.circle}, count: ${count} } }`];
}

/** `4`, `4x`, `4 x 10`, `2x3`, `4x Ø40`, `4 on 40 PCD`, a list of places. */
function* inText(pattern: MapEntry, value: TextNode, map: MapNode, face: Face): Generator<Reading> {
  if (value.type === 'list') {
    const places = placesOf(value, face);
    const place = entry(map, 'at');
    if (places) yield inPlace(pattern, value, [`{ places: ${places} }`], place && [map, place]);
    return;
  }
  if (value.type !== 'scalar') return;
  const round =
    /^(\d{1,3})\s*(?:[x×]|holes?|off|on|auf|at|@|equi-?spaced)*\s*(?:a\s+)?(?:on\s*)?(?:[øØ⌀∅]|pcd|bcd|lk|bolt[ -]circle|dia\.?)?\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*(?:pcd|bcd|lk|bolt[ -]circle|circle|dia\.?)?$/i.exec(
      value.source,
    );
  if (round && /[øØ⌀∅]|pcd|bcd|lk|circle|dia/i.test(value.source)) {
    yield inPlace(pattern, value, textsOf({ count: round[1]!, circle: round[2]!.replace(',', '.') }, face));
    return;
  }
  const only = plainCount(value.source) ?? value.source;
  if (isCount(only)) yield inPlace(pattern, value, textsOf({ count: only }, face));
  const [count, pitch, third] = numbersOf(value) ?? [];
  if (!isCount(count) || pitch === undefined || third !== undefined) return;
  yield inPlace(
    pattern,
    value,
    isCount(pitch) && overlaps(map, pitch) ? gridsOf(count!, pitch, face) : textsOf({ count: count!, pitch }, face),
  );
}

/** Whether features that far apart would run into each other: then the number is no distance. */
function overlaps(map: MapNode, pitch: string): boolean {
  const diameter = entry(map, 'diameter');
  return diameter !== undefined && isDimension(diameter) && Number.parseFloat(sourceOf(diameter)) > Number(pitch);
}

function gridsOf(a: string, b: string, face: Face, pitch = FILLED.pitch): readonly string[] {
  const [u, v] = planeOf(face);
  const text = (m: string, n: string) =>
    `{ grid: { ${u}: { pitch: ${pitch}, count: ${m} }, ${v}: { pitch: ${pitch}, count: ${n} } } }`;
  return a === b ? [text(a, b)] : [text(a, b), text(b, a)];
}

/** `{ count: 4, spacing: 10 }`, `{ x: 10, count: 3 }`, `{ pcd: 30, count: 4 }`, `{ bolt-circle: 4 x 30 }`, `{ grid: 2x3 }`. */
function* inMap(whole: MapEntry, pattern: MapNode, map: MapNode, face: Face): Generator<Reading> {
  const grid = entry(pattern, 'grid');
  const sides = grid?.value?.type === 'scalar' ? numbersOf(grid.value) : undefined;
  if (sides?.length === 2 && sides.every(isCount)) yield inPlace(whole, pattern, gridsOf(sides[0]!, sides[1]!, face));
  if (grid?.value?.type === 'map') yield* evenGrid(whole, pattern, grid.value, face);
  const circle = entry(pattern, 'bolt-circle');
  const [count, wide, third] = (circle?.value?.type === 'scalar' && numbersOf(circle.value)) || [];
  if (circle?.value && isCount(count) && wide !== undefined && third === undefined) {
    yield inPlace(whole, pattern, textsOf({ count: count!, circle: wide }, face));
    return;
  }
  const said = flat(pattern, face);
  if (said && !at(map, 'line')) yield inPlace(whole, pattern, textsOf(said, face));
}

/** One pitch for both axes, and the counts alone under them. */
function* evenGrid(whole: MapEntry, pattern: MapNode, grid: MapNode, face: Face): Generator<Reading> {
  const [u, v] = planeOf(face);
  const [a, b, pitch] = [u, v, 'pitch'].map((key) => onOneLine(at(grid, key)));
  if (!isCount(a) || !isCount(b) || pitch === undefined || grid.entries.length !== 3) return;
  yield inPlace(whole, pattern, gridsOf(a!, b!, face, pitch).slice(0, 1));
}

/** Undefined where it has an entry that is none of these. */
function flat(pattern: MapNode, face: Face): Said | undefined {
  const all = pattern.entries.map((e): Said | undefined => {
    const word = plainWord(keyOf(e));
    if (KINDS.test(word)) return {};
    if (planeOf(face).some((axis) => axis === word) && isDimension(e)) return { axis: word, pitch: sourceOf(e) };
    if (/^(?:diameter|dia|d)$/.test(word) && isDimension(e)) return { circle: sourceOf(e) };
    if (/^(?:radius|r)$/.test(word) && isDimension(e)) return { circle: doubled(sourceOf(e)) };
    return saidBy(e);
  });
  if (all.length < 2 || !all.every((one) => one !== undefined)) return undefined;
  const said = Object.assign({}, ...all) as Said;
  return said.count === undefined ? undefined : said;
}

/** `at` with more than one place: each is one of the feature. */
function* manyPlaces(map: MapNode, face: Face): Generator<Reading> {
  const place = entry(map, 'at');
  if (place?.value?.type !== 'list' || at(map, 'pattern')) return;
  const places = placesOf(place.value, face);
  if (!places) return;
  const text = `pattern: { places: ${places} }`;
  yield {
    message: `More than one place is a \`pattern\`. Write \`${text.length > 80 ? 'pattern: { places: … }' : text}\`.`,
    entries: [place],
    gives: ['pattern', 'at'],
    fixes: [{ title: 'Write the places as a `pattern`', edits: [{ span: place.span, newText: text }] }],
  };
}

function placesOf(list: TextNode, face: Face): string | undefined {
  if (list.type !== 'list' || list.items.length < 2) return undefined;
  const places = list.items.map((item) =>
    item.type === 'list' ? placeText(item, face) : item.type === 'map' ? onOneLine(item) : undefined,
  );
  return places.every((p) => p !== undefined) ? `[${places.join(', ')}]` : undefined;
}

function inPlace(
  whole: MapEntry,
  value: TextNode,
  texts: readonly string[],
  gone?: readonly [map: MapNode, entry: MapEntry],
): Reading {
  return {
    message: `It has to say which number is which. Write ${listed(texts)}.`,
    entries: [whole],
    gives: ['pattern', 'bolt-circle'],
    fixes: texts.map((text) => ({
      title: `Write \`pattern: ${text}\``,
      edits: [{ span: value.span, newText: text }],
      ...(gone && { without: [gone] }),
      ...(texts.length > 1 && { equal: true as const }),
    })),
  };
}

function listed(texts: readonly string[]): string {
  const [first, second, third] = texts.map((text) => `\`pattern: ${text}\``);
  if (second && texts[0]!.includes('grid')) return `${first}, or the other way round`;
  return third ? `it like ${first}, along the other axis or on a circle` : second ? `${first} or ${second}` : first!;
}

function isCount(text: string | undefined): boolean {
  return text !== undefined && /^\d{1,3}$/.test(text) && Number(text) > 1;
}

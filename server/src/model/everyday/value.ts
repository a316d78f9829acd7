/** A value in everyday words: how its field wants it. */
import { findThread } from '../../tables/thread-names';
import { at, type MapNode, type TextNode } from '../../text/tree';
import { FACE_AXIS, FACES, type Face } from '../faces';
import type { FeatureKind } from '../feature-kinds';
import type { Shape } from '../schema/shape';
import { drillSize, plainDimension } from './dimension';
import { EVERYDAY_FACES, plainWord } from './everyday-words';
import { finishText } from './finish';
import { faceOf } from './held';
import { mapText, placeText, planeOf, sizeText } from './places';
import { doubled, keyOf, onOneLine, type ValueText, wordsIn } from './reading';
import { recessTexts } from './recess';
import { bareScrew } from './screw-words';

/** Where a value stands. */
interface Field {
  readonly key: string;
  readonly shape: Shape;
  readonly kind: FeatureKind;
  readonly face: Face;
}

const WHICH = 'It has to say which number is which.';
const ALL = /^(?:all|alle|every|everywhere|outer|outside|around)(?: (?:edges|kanten))?$/i;

const BY_KEY: Readonly<Record<string, (node: TextNode, field: Field) => ValueText | undefined>> = {
  at: (node, { face }) => text(node.type === 'map' ? undefined : placeText(node, face), WHICH),
  ends: cornersText,
  path: cornersText,
  face: faceText,
  along: faceText,
  counterbore: (node) => recessText(node, 'depth'),
  countersink: (node) => recessText(node, 'angle'),
  finish: (node) => (node.type === 'scalar' ? finishText(node.source) : undefined),
  edges(node, { face }) {
    const faces = wordsIn(node)?.map(faceOf);
    if (faces && faces.length > 1 && faces.every((f) => f !== undefined))
      return { text: `[${faces.join(', ')}]`, why: 'A face stands for its outer edges.' };
    if (node.type !== 'scalar') return undefined;
    const one =
      FACES.find((f) => new RegExp(`^${f}[ -](?:face )?edges?$`, 'i').test(node.source)) ?? everydayFace(node.source);
    if (one) return { text: one, why: 'A face stands for its outer edges.' };
    if (!ALL.test(node.source)) return undefined;
    const why = '`edges` names faces: the outer edges of one, or of all six.';
    return { text: face, alternatives: [`[${FACES.join(', ')}]`], why };
  },
  thread: (node) => (node.type === 'map' ? threadOfParts(node) : threadText(node)),
};

/** How a value is written here; undefined where it is right, or means nothing known. */
export function valueText(node: TextNode, field: Field): ValueText | undefined {
  const { key, shape, face } = field;
  if (key === 'size' && shape.type === 'map')
    return node.type === 'map' ? bySides(node, face) : text(sizeText(node, face), WHICH);
  const own = BY_KEY[key];
  return own ? own(node, field) : measureText(node, field);
}

function measureText(node: TextNode, { key, shape, kind, face }: Field): ValueText | undefined {
  if (node.type !== 'scalar' || shape.type !== 'scalar' || shape.meta.unit === undefined) return undefined;
  const takes = { through: 'through' in (shape.meta.values ?? {}), angle: kind === 'chamfer' && key === 'size' };
  const part = takes.through ? partOfDepth(node.source, face) : undefined;
  if (part !== undefined) return { text: part, why: 'A part of the body is said by its size.' };
  const plain =
    plainDimension(node.source, takes) ??
    twoLegs(node.source, takes.angle) ??
    (key === 'diameter' ? drillSize(node.source) : undefined);
  if (!plain) return undefined;
  const [first, ...others] = plain.radius && key === 'diameter' ? plain.texts.map(doubled) : plain.texts;
  return {
    text: first!,
    ...(others.length > 0 && { alternatives: others }),
    why: [plain.why, wantsPattern(plain.count)].join(' ').trim(),
    rule: 'form/unit',
  };
}

/** `half`, `50%`: of the body, along the depth. */
function partOfDepth(source: string, face: Face): string | undefined {
  const per = /^(\d+(?:\.\d+)?)\s*%$/.exec(source.trim())?.[1];
  const part = /^(?:half|half[- ]way|halb|zur hälfte)$/i.test(source.trim()) ? 50 : Number(per ?? 0);
  if (!(part > 0 && part < 100)) return undefined;
  const size = `body.${FACE_AXIS[face].axis}`;
  return part === 50 ? `${size} / 2` : `${Number((part / 100).toFixed(4))} * ${size}`;
}

/** `0.5 x 0.5` of a chamfer: both legs alike are 45°. */
function twoLegs(source: string, isChamfer: boolean) {
  const [, a, b] = /^(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)$/.exec(source.trim()) ?? [];
  if (!isChamfer || a === undefined || Number(a) !== Number(b)) return undefined;
  return { texts: [a], why: 'A chamfer is 45° where no `angle` is written.', count: 1, radius: undefined };
}

/** Items that are lists of numbers, as places; four numbers as two of them. */
function cornersText(node: TextNode, { face }: Field): ValueText | undefined {
  const four = fourNumbers(node);
  if (four) {
    const [a, b] = [four.slice(0, 2), four.slice(2)].map((two) => mapText(planeOf(face), two));
    return text(`[${a}, ${b}]`, WHICH);
  }
  if (node.type !== 'list' || node.items.length < 2) return undefined;
  const items = node.items.map((item) => (item.type === 'list' ? placeText(item, face) : undefined));
  return text(items.every((t) => t !== undefined) ? `[${items.join(', ')}]` : undefined, WHICH);
}

/** `[10, 20, 40, 20]`, `10,20 to 40,20`, `10,20 - 40,20`. */
function fourNumbers(node: TextNode): readonly string[] | undefined {
  const words =
    node.type === 'scalar'
      ? node.source.split(/\s*(?:\bto\b|->|→|[-–](?=\s)|[,;\s/()])\s*/).filter(Boolean)
      : wordsIn(node);
  return words?.length === 4 && words.every((w) => /^-?\d+(?:\.\d+)?$/.test(w)) ? words : undefined;
}

/** The face that a word means, be it one of ours in another language. */
function everydayFace(word: string): Face | undefined {
  const plain = plainWord(word);
  return EVERYDAY_FACES[plain] ?? (plain === word ? undefined : FACES.find((f) => f === plain));
}

function faceText(node: TextNode, { key, face }: Field): ValueText | undefined {
  const only = node.type === 'list' && node.items.length === 1 ? node.items[0]! : node;
  const word = only.type === 'scalar' ? String(only.value) : '';
  const named = everydayFace(word) ?? (only === node ? undefined : FACES.find((f) => f === word));
  // A side that is cut along meets the face.
  const isSide = named && FACE_AXIS[named].axis !== FACE_AXIS[face].axis;
  return text(
    key === 'face' || isSide ? named : undefined,
    'Faces are called left, right, front, back, bottom and top.',
  );
}

/** `4x M5`, `M5 tapped`, `5`: the designation alone. */
function threadText(node: TextNode): ValueText | undefined {
  if (node.type !== 'scalar') return undefined;
  const bare = bareThread(/^\d+(?:\.\d+)?(?:x\d*\.\d+)?$/.test(node.source) ? `M${node.source}` : node.source);
  if (!bare || bare.name === node.source) return undefined;
  return { text: bare.name, why: wantsPattern(bare.count) || 'A thread is its designation alone.' };
}

function recessText(node: TextNode, second: 'depth' | 'angle'): ValueText | undefined {
  const [first, ...alternatives] = node.type === 'scalar' ? recessTexts(node.source, second, undefined) : [];
  return first === undefined ? undefined : { text: first, alternatives, why: WHICH };
}

/** `{ size: M5, pitch: 0.8 }`. */
function threadOfParts(map: MapNode): ValueText | undefined {
  const part = (...keys: string[]) => keys.map((key) => onOneLine(at(map, key))).find((t) => t !== undefined);
  const [size, pitch] = [part('size', 'diameter', 'name', 'type'), part('pitch', 'p')];
  const bare = size === undefined ? undefined : bareThread(pitch === undefined ? size : `${size}x${pitch}`);
  return text(bare?.name, 'A thread is its designation alone.');
}

/** `{ length: 20, width: 10 }`: which of them goes along which axis is not said. */
function bySides(map: MapNode, face: Face): ValueText | undefined {
  const side = (words: RegExp) => onOneLine(map.entries.find((e) => words.test(plainWord(keyOf(e))))?.value);
  const [a, b] = [side(/^(?:length|l)$/), side(/^(?:width|w|height|h)$/)];
  if (a === undefined || b === undefined || map.entries.length !== 2) return undefined;
  const why = 'The sizes of a rectangle are given along the part’s axes.';
  const ways = [mapText(planeOf(face), [a, b]), ...(a === b ? [] : [mapText(planeOf(face), [b, a])])];
  return { text: ways[0]!, alternatives: ways.slice(1), why };
}

/** A thread's designation with what may stand about it. */
export function bareThread(source: string): { readonly name: string; readonly count: number } | undefined {
  const trimmed = source.trim();
  if (findThread(trimmed)) return { name: trimmed, count: 1 };
  const found = /^(?:(\d{1,3})\s*[xX×]\s*)?(.*?)\s*(?:tap(?:ped)?|thread(?:ed)?|thru|through|deep)?$/i.exec(trimmed);
  const said = (found?.[2] ?? '').replace(/^m\s*(?=\d)/i, 'M').replace(/\s+left(?:[- ]hand(?:ed)?)?$/i, '-LH');
  const insert = /^(.*?)\s+(?:wire\s+)?insert$/i.exec(said)?.[1];
  const name = insert === undefined ? (/\s/.test(said) ? (bareScrew(said) ?? said) : said) : `EG ${insert}`;
  return findThread(name) ? { name, count: Number(found?.[1] ?? 1) } : undefined;
}

function wantsPattern(count = 1): string {
  return count > 1 ? `For ${count} of them write a \`pattern\`.` : '';
}

function text(written: string | undefined, why: string): ValueText | undefined {
  return written === undefined ? undefined : { text: written, why };
}

/** What is written in everyday words outside of features: set-ups, stock, patterns, and any place that takes one of a few words. */
import type { MapEntry, TextNode } from '../../text/tree';
import { FACE_AXIS, FACES, type Face } from '../faces';
import { EVERYDAY_FACES, plainWord } from './everyday-words';
import { doubled, isDimension, sourceOf } from './reading';

/** Keys of maps in maps, by what else they are called. */
const KEYS: Readonly<Record<string, string>> = {
  circle: 'bolt-circle',
  'bolt-pattern': 'bolt-circle',
  circular: 'bolt-circle',
  linear: 'line',
  row: 'line',
  rows: 'grid',
  rectangular: 'grid',
  list: 'places',
  points: 'places',
  pcd: 'diameter',
  bcd: 'diameter',
  n: 'count',
  number: 'count',
  times: 'count',
  qty: 'count',
  quantity: 'count',
  spacing: 'pitch',
  step: 'pitch',
  distance: 'pitch',
  'start-angle': 'start',
  angle: 'start',
  clamp: 'hold',
  clamping: 'hold',
  fixture: 'hold',
  workholding: 'hold',
  held: 'hold',
  operations: 'cuts',
  ops: 'cuts',
  features: 'cuts',
  cut: 'cuts',
  face: 'up',
  side: 'up',
  origin: 'zero',
  datum: 'zero',
  wcs: 'zero',
  depth: 'grip',
  'grip-depth': 'grip',
  sides: 'jaws',
  type: 'form',
  shape: 'form',
  kind: 'form',
  allowance: 'extra',
  oversize: 'extra',
};

/** The key that is meant, of those that are free, and its value where that has to be said otherwise. */
export function everydayKey(
  e: MapEntry,
  free: readonly string[],
): { readonly key: string; readonly value?: string } | undefined {
  const word = plainWord(String(e.key.value));
  if (/^(?:r|radius)$/.test(word) && free.includes('diameter') && isDimension(e))
    return { key: 'diameter', value: doubled(sourceOf(e)) };
  const to = free.includes(word) ? word : KEYS[word];
  return to !== undefined && free.includes(to) ? { key: to } : undefined;
}

/** One of a few words, by what else it is called: `oben`, `flat` for `flat-bar`. */
export function everydayWord(word: string, words: readonly string[]): string | undefined {
  const plain = plainWord(word);
  if (words.includes(plain)) return plain;
  const face = EVERYDAY_FACES[plain];
  if (face && words.includes(face)) return face;
  const begun = words.filter((w) => w.startsWith(`${plain}-`) || plain.startsWith(`${w}-`) || plain === `${w}s`);
  return begun.length === 1 ? begun[0] : undefined;
}

/** One number along an axis of a grid: how far apart, or how many; the other is to be filled in. */
export function stepsOf(node: TextNode): readonly string[] {
  const number = node.type === 'scalar' ? /^\d+(?:\.\d+)?(?:\s*(?:mm|in|"))?$/.exec(node.source)?.[0] : undefined;
  if (number === undefined || Number(number) === 0) return [];
  const isCount = /^\d+$/.test(number) && Number(number) >= 2 && Number(number) <= MOST_IN_A_ROW;
  return [`{ pitch: ${number}, count: 2 }`, ...(isCount ? [`{ pitch: 15, count: ${number} }`] : [])];
}
/** A larger number is a distance (common practice, no source). */
const MOST_IN_A_ROW = 12;

/** A list or braces that are written as words side by side; none where that is not plain. */
export function everydayValue(node: TextNode, key: string): readonly string[] {
  const text = key === 'hold' ? holdText(node) : valueText(node, key);
  return text === undefined ? [] : [text];
}

/** `vise`, or the name of one; the grip is to be filled in, or planned. */
function holdText(node: TextNode): string | undefined {
  if (node.type !== 'scalar' || !/^[\p{L}\d-]+$/u.test(node.source)) return undefined;
  const isWord = /^(?:vise|vice|in-vise|machine-vise|schraubstock|maschinenschraubstock)$/.test(plainWord(node.source));
  if (!isWord && !/vise|vice|schraubstock/i.test(node.source)) return undefined;
  return `{ vise: ${isWord ? 'mill-vise-100' : node.source}, jaws: [front, back], grip: 6 }`;
}

function valueText(node: TextNode, key: string): string | undefined {
  const said = wordsIn(node);
  if (!said) return undefined;
  const faces = said.map((w) => FACES.find((f) => f === plainWord(w)) ?? EVERYDAY_FACES[plainWord(w)]);
  const isFaces = faces.every((f): f is Face => f !== undefined);
  switch (key) {
    case 'zero':
      return isFaces ? byAxis(faces) : undefined;
    case 'jaws':
      return isFaces && faces.length === 2 && node.type === 'scalar' ? `[${faces.join(', ')}]` : undefined;
    case 'sawn':
      if (node.type !== 'scalar') return undefined;
      if (/^(?:both|ends|both-ends)$/.test(plainWord(node.source))) return '[left, right]';
      return isFaces ? `[${faces.join(', ')}]` : undefined;
    case 'stock':
      return stockText(node);
    case 'cuts':
      return node.type === 'scalar' &&
        /^[a-z][a-z0-9-]*(?:\s*[, ]\s*[a-z][a-z0-9-]*)*$/.test(node.source) &&
        said[0] !== 'all'
        ? `[${said.join(', ')}]`
        : undefined;
    default:
      return undefined;
  }
}

function wordsIn(node: TextNode): readonly string[] | undefined {
  if (node.type === 'map') return undefined;
  if (node.type === 'scalar') return node.value === null ? undefined : node.source.split(/[\s,;/]+/).filter(Boolean);
  return node.items.every((i) => i.type === 'scalar')
    ? node.items.flatMap((i) => (i.type === 'scalar' ? [i.source] : []))
    : undefined;
}

/** Each axis from its face, where each is said once. */
function byAxis(faces: readonly Face[]): string | undefined {
  const axes = faces.map((f) => FACE_AXIS[f].axis);
  if (new Set(axes).size !== 3) return undefined;
  return `{ ${['x', 'y', 'z'].map((a) => `${a}: ${faces[axes.indexOf(a as 'x')]}`).join(', ')} }`;
}

const FORMS = ['flat-bar', 'square-bar', 'round-bar', 'plate', 'block'];

function stockText(node: TextNode): string | undefined {
  const form = node.type === 'scalar' ? everydayWord(node.source, FORMS) : undefined;
  return form && `{ form: ${form} }`;
}

const CLASSES: Readonly<Record<string, string>> = {
  fine: 'f',
  fein: 'f',
  medium: 'm',
  mittel: 'm',
  coarse: 'c',
  grob: 'c',
  'very-coarse': 'v',
  'sehr-grob': 'v',
};

/** A class of general tolerances by its word, or written without its signs. */
export function generalText(text: string): string | undefined {
  const word = plainWord(text);
  const letter = CLASSES[word] ?? /^(?:(?:din-)?(?:en-)?iso-?)?(?:2768)?-?([fmcv])$/.exec(word)?.[1];
  return letter && `ISO 2768-${letter}`;
}

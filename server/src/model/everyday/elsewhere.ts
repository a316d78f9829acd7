/** What is written in everyday words outside of features: set-ups, stock, patterns, and any place that takes one of a few words. */
import type { MapNode, TextNode } from '../../text/tree';
import { EVERYDAY_FACES, plainWord } from './everyday-words';
import { everydayForms } from './forms';
import { faceOf, holdText, jawsText, zeroTexts } from './held';
import { wordsIn } from './reading';
import { extraTexts } from './stock';

/** Those of a few words that another may mean: `oben`, `flat` for `flat-bar`, `bar` for each of the bars. */
export function everydayWord(word: string, words: readonly string[]): readonly string[] {
  const plain = plainWord(word);
  if (words.includes(plain)) return [plain];
  const face = EVERYDAY_FACES[plain];
  if (face && words.includes(face)) return [face];
  const forms = words.includes('flat-bar') ? everydayForms(word) : [];
  if (forms.length > 0) return forms;
  const begun = words.filter((w) => w.startsWith(`${plain}-`) || plain.startsWith(`${w}-`) || plain === `${w}s`);
  return begun.length === 1 ? begun : [];
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

/** A list or braces that are written as words side by side; none where that is not plain. `beside`: what it stands in. */
export function everydayValue(node: TextNode, key: string, beside?: MapNode): readonly string[] {
  const text = (one: string | undefined) => (one === undefined ? [] : [one]);
  switch (key) {
    case 'hold':
      return text(holdText(node));
    case 'zero':
      return zeroTexts(node, beside);
    case 'jaws':
      return text(jawsText(node));
    case 'sawn':
      return text(sawnText(node));
    case 'open':
      return text(facesText(node));
    case 'stock':
      return node.type === 'scalar' ? everydayForms(node.source).map((form) => `{ form: ${form} }`) : [];
    case 'extra':
      return extraTexts(node);
    case 'deburr':
      return node.type === 'scalar' && /^\d*\.?\d+(?:\s*(?:mm|in))?$/.test(node.source)
        ? [`{ outside: ${node.source}, inside: ${node.source} }`, `{ outside: ${node.source} }`]
        : [];
    case 'cuts':
      return text(cutsText(node));
    case 'counterbore':
    case 'countersink':
      return text(sizesText(node, key === 'counterbore' ? 'depth' : 'angle'));
    default:
      return [];
  }
}

function sawnText(node: TextNode): string | undefined {
  if (node.type !== 'scalar') return undefined;
  if (/^(?:both|ends|both-ends)$/.test(plainWord(node.source))) return '[left, right]';
  return facesText(node);
}

function facesText(node: TextNode): string | undefined {
  if (node.type !== 'scalar') return undefined;
  const faces = (wordsIn(node) ?? []).map(faceOf);
  return faces.length > 0 && faces.every((f) => f !== undefined) ? `[${faces.join(', ')}]` : undefined;
}

function cutsText(node: TextNode): string | undefined {
  const isNames = node.type === 'scalar' && /^[a-z][a-z0-9-]*(?:\s*[, ]\s*[a-z][a-z0-9-]*)*$/.test(node.source);
  const said = wordsIn(node) ?? [];
  return isNames && said[0] !== 'all' ? `[${said.join(', ')}]` : undefined;
}

/** `[10, 5]` of a recess. */
function sizesText(node: TextNode, second: string): string | undefined {
  const said = node.type === 'list' && node.items.length === 2 ? wordsIn(node) : undefined;
  return said?.length === 2 && said.every((w) => /^[\d.]+$/.test(w))
    ? `{ diameter: ${said[0]}, ${second}: ${said[1]} }`
    : undefined;
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

/** A class of general tolerances by its word or written without its signs, or one tolerance for every size. */
export function generalText(text: string, units: 'mm' | 'in'): string | undefined {
  const one = /^(?:±|\+\s*\/?\s*-)?\s*(\d*[.,]?\d+)\s*(mm|in|")?$/.exec(text.trim());
  if (one && Number(one[1]!.replace(',', '.')) < MOST_FOR_ALL) {
    const unit = (one[2] === '"' ? 'in' : one[2]) ?? units;
    return `ISO 22081 ±${one[1]!.replace(',', '.')}${unit === 'in' || unit !== units ? ` ${unit}` : ''}`;
  }
  const word = plainWord(text);
  const letter = CLASSES[word] ?? /^(?:(?:din-)?(?:en-)?iso-?)?(?:2768)?-?([fmcv])$/.exec(word)?.[1];
  return letter && `ISO 2768-${letter}`;
}
/** A larger number is none of a general tolerance: `2768`. */
const MOST_FOR_ALL = 10;

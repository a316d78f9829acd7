/** What the format has no field or word for, and what to write in its place: a sentence where a near word would only mislead. */
import { plainWord } from './everyday-words';

/** Of features that have no such field. */
const OF_RIM = 'Break its edge by a feature of its own, like `{ kind: chamfer, edges: [{ rim: NAME }], size: 0.5 }`.';
const OF_FACE = 'Write `finish` at a feature, and what is of the whole part in `notes`.';
const UPRIGHT = 'Walls are upright here, but for a pocket’s. Write the size at the floor, and the slope in a `note`.';

/** By a field that all maps of that kind have, as features have a `finish`, the words that stand there for something else. */
const FIELDS: readonly (readonly [beside: string, words: RegExp, says: string])[] = [
  ['finish', /^(?:edge|edges|edge-break|edge-round|chamfer|deburr|rim)$/, OF_RIM],
  ['finish', /^(?:draft|draught|draft-angle|taper|wall-angle)$/, UPRIGHT],
  ['finish', /^(?:font|letters|typeface)$/, 'Letters are strokes of one width. Write how wide they are as `stroke`.'],
  ['features', /^(?:surface|surfaces|surface-finish|finish|roughness)$/, OF_FACE],
];

const ANGLED = 'Write `form: flat-bar` with its outer sizes, and the hollow of the profile as features.';
const NEAR_NET =
  'Write `form: casting` with `allowance`, where it follows the body’s outline, or `form: blank` with a text of its shape in `from`.';
const STOCK: readonly (readonly [words: RegExp, says: string])[] = [
  [/^(?:i-beam|h-beam|z-bar|profile|extrusion)$/, ANGLED],
  [/^(?:cast|forging|forged|near-net|printed)$/, NEAR_NET],
];

/** `keys`: all that the map may have. */
export function insteadOfField(key: string, keys: ReadonlyMap<string, unknown>): string | undefined {
  const word = plainWord(key);
  return FIELDS.find(([beside, words]) => keys.has(beside) && words.test(word))?.[2];
}

/** `words`: those that may stand there. */
export function insteadOfWord(word: string, words: readonly string[]): string | undefined {
  if (!words.includes('flat-bar')) return undefined;
  const plain = plainWord(word);
  return STOCK.find(([said]) => said.test(plain))?.[1];
}

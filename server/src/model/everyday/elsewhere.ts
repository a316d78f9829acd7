/** What is written in everyday words outside of features: set-ups, stock, patterns, and any place that takes one of a few words. */
import { type MapEntry, type MapNode, scalarAt, type TextNode } from '../../text/tree';
import { EVERYDAY_FACES, FIELDS, plainWord } from './everyday-words';
import { everydayForms } from './forms';
import { faceOf, holdText, jawsText, zeroTexts } from './held';
import { doubled, isDimension, sourceOf, wordsIn } from './reading';
import { extraTexts } from './stock';

/** Keys of maps in maps, by what else they are called. */
const KEYS: Readonly<Record<string, string | readonly string[]>> = {
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
  angle: ['start', 'taper'],
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
  depth: ['grip', 'height'],
  'grip-depth': 'grip',
  sides: 'jaws',
  type: 'form',
  shape: 'form',
  kind: 'form',
  allowance: 'extra',
  oversize: 'extra',
  file: 'from',
  part: 'from',
  as: 'prefix',
  roundness: 'circularity',
  coaxiality: 'concentricity',
  squareness: 'perpendicularity',
  'true-position': 'position',
  'run-out': 'runout',
  'total-run-out': 'total-runout',
  'surface-profile': 'profile',
  'profile-of-a-surface': 'profile',
  // Sections of bars.
  'wall-thickness': 'thickness',
  thk: 'thickness',
  thick: 'thickness',
  leg: 'wall',
  legs: 'wall',
  'leg-thickness': 'wall',
  web: 'wall',
  'web-thickness': 'wall',
  'flange-thickness': 'flange',
  flanges: 'flange',
  od: 'diameter',
  'outer-diameter': 'diameter',
  'outside-diameter': 'diameter',
  'inside-radius': ['root', 'corner-radius'],
  'inner-radius': ['root', 'corner-radius'],
  'root-radius': 'root',
  fillet: ['root', 'corner-radius'],
  'fillet-radius': ['root', 'corner-radius'],
  opening: 'open',
  opens: 'open',
  'open-side': 'open',
  'open-sides': 'open',
  'open-to': 'open',
  'open-face': 'open',
  'lies-along': 'axis',
  along: 'axis',
  direction: 'axis',
  // Ribs.
  width: 'thickness',
  wall: 'thickness',
  'rib-thickness': 'thickness',
  'rib-width': 'thickness',
  centerline: ['ends', 'path'],
  centreline: ['ends', 'path'],
  'center-line': ['ends', 'path'],
  line: 'ends',
  'from-to': 'ends',
  'start-end': 'ends',
  'end-points': 'ends',
  endpoints: 'ends',
  tall: 'height',
  height: 'thickness',
  // Cutters.
  'taper-angle': 'taper',
  'half-angle': 'taper',
  'side-angle': 'taper',
  draft: 'taper',
  'draft-angle': 'taper',
  teeth: 'flutes',
  'flank-angle': 'angle',
  'thread-angle': 'angle',
  'included-angle': 'angle',
  'profile-angle': 'angle',
  conical: 'tapered',
  cone: ['taper', 'tapered'],
  radius: 'corner-radius',
  r: 'corner-radius',
  z: 'flutes',
  taper: 'tapered',
  where: 'cuts',
  'min-pitch': 'smallest-pitch',
  'pitch-min': 'smallest-pitch',
  'minimum-pitch': 'smallest-pitch',
  'max-pitch': 'pitch',
  'pitch-max': 'pitch',
  'largest-pitch': 'pitch',
  'cutting-length': 'flute-length',
  'length-of-cut': 'flute-length',
  loc: 'flute-length',
  'thread-length': 'flute-length',
  'neck-diameter': 'neck',
  'neck-dia': 'neck',
  'ball-diameter': 'diameter',
  'head-diameter': 'diameter',
  'cutter-diameter': 'diameter',
  ball: 'diameter',
  'head-height': 'thickness',
  'head-thickness': 'thickness',
  'head-length': 'thickness',
  'neck-length': 'reach',
  'under-reach': 'reach',
  'usable-length': 'reach',
  'shank-diameter': 'shank',
  'max-rpm': 'largest-speed',
  'max-speed': 'largest-speed',
  rpm: 'largest-speed',
  fz: 'feed-per-tooth',
  chipload: 'feed-per-tooth',
  'chip-load': 'feed-per-tooth',
  'feed-tooth': 'feed-per-tooth',
  'stick-out': 'stickout',
  overhang: 'stickout',
  'helix-angle': 'helix',
  'ramp-angle': 'ramp',
  'min-hole': 'smallest-hole',
  'minimum-hole': 'smallest-hole',
};

/** One letter for a size, where nothing else that is free begins like it. */
const LETTERS: Readonly<Record<string, readonly string[]>> = {
  d: ['diameter'],
  h: ['depth', 'height'],
  t: ['depth', 'thickness'],
  w: ['width', 'thickness'],
  l: ['length'],
};

/** How thick a tube, angle, channel or tee is. */
const WALL = /^(?:t|s|thk|thick|thickness|wall-thickness|wandstaerke|wanddicke|wand|dicke|staerke|gauge)$/;
const SECTION = /^(?:tube|angle|channel|tee)$/;

/** The key that is meant, of those that are free, and its value where that has to be said otherwise. */
export function everydayKey(
  e: MapEntry,
  free: readonly string[],
  beside: MapNode,
): { readonly key: string; readonly value?: string } | undefined {
  const word = plainWord(String(e.key.value));
  if (free.includes('wall') && WALL.test(word) && SECTION.test(scalarAt(beside, 'form')?.source ?? ''))
    return { key: 'wall' };
  // Of a section whose wall is given, and of a rib, which has ends.
  const isRoot = free.includes('root') && !free.includes('wall') && !free.includes('ends');
  if (/^(?:r|radius)$/.test(word) && isRoot) return { key: 'root' };
  if (/^(?:r|radius)$/.test(word) && free.includes('diameter') && isDimension(e))
    return { key: 'diameter', value: doubled(sourceOf(e)) };
  const all = [word, ...[KEYS[word] ?? []].flat(), FIELDS[word], ...(LETTERS[word] ?? [])];
  const to = all.find((k) => k !== undefined && free.includes(k));
  return to === undefined ? undefined : { key: to };
}

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

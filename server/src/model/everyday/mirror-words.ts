/** Mirroring in everyday words: the format has none, and writes out what lies at the other place. */
import type { MapEntry, SpanEdit, TextNode, TextTree } from '../../text/tree';
import type { Mirroring } from '../base';
import { type Axis, FACE_PLANE, type Face } from '../faces';
import type { ProblemFix } from '../resolve/problem';
import { plainWord } from './everyday-words';
import { MIRROR_WAYS, mirrorEdits } from './mirrored';
import { keyOf, type Reading } from './reading';

const WORDS =
  /^(?:mirror|mirrored|mirroring|mirror-(?:copy|image|plane|axis|about|across)|symmetric|symmetrical|symmetry|reflect|reflected|reflection|spiegeln|spiegelung|gespiegelt|spiegel|symmetrie|symmetrisch|miroir|espejo|simetria|specchio|simmetria)$/;
/** Kinds of feature that are a copy of another. */
const OF = /^(?:of|feature|features|from|source|copy|base|what)$/;
const NONE = 'The format has no word for mirroring.';

export const isMirrorWord = (word: string) => WORDS.test(plainWord(word));

/** The axes that a value may mean: of a plane the one upright on it, of an axis first the way along it, then about it. */
function axesIn(value: TextNode | undefined, plane: readonly Axis[]): readonly Axis[] {
  const word = textIn(value).toLowerCase();
  const named = /^(?:(?:the|plane|axis|ebene|achse)[\s-]*)*([xyz]{1,2})(?:[\s-]*(?:plane|axis|ebene|achse))?$/.exec(
    word,
  )?.[1];
  if (named?.length === 2) return AXES.filter((a) => !named.includes(a));
  if (named) return [named as Axis, ...plane.filter((a) => a !== named && plane.includes(named as Axis))];
  if (/left|right|links|rechts|horizontal/.test(word)) return ['x'];
  if (/front|back|vorn|hinten/.test(word)) return ['y'];
  if (/top|bottom|oben|unten/.test(word)) return ['z'];
  return plane;
}
const AXES: readonly Axis[] = ['x', 'y', 'z'];

/** `x`, `[x]`, `{ axis: x }`. */
function textIn(value: TextNode | undefined): string {
  if (value?.type === 'scalar') return value.source.trim();
  if (value?.type === 'list') return value.items.length === 1 ? textIn(value.items[0]) : '';
  return value && value.entries.length === 1 ? textIn(value.entries[0]!.value) : '';
}

interface Said {
  readonly message: string;
  readonly fixes: readonly ProblemFix[];
}

/** Beside the doors with all that is here. */
export function mirroringEdits(tree: TextTree, mirroring: Mirroring): readonly SpanEdit[] {
  return mirrorEdits(tree, mirroring, isMirrorWord);
}

/** `mirror: x` at a feature. `face`: the one that it is cut from. */
export function mirroredFeature(e: MapEntry, name: string, face: Face): Reading {
  const key = keyOf(e);
  const fixes = fixesOf(axesIn(e.value, FACE_PLANE[face]), `Add the mirrored ${name}`, { of: name, key });
  return {
    message: `${NONE} Write the mirrored copy as a feature of its own.`,
    entries: [e],
    gives: [],
    fixes,
    remark: true,
  };
}

/** `kind: mirror` with the name of the feature that it copies. */
export function mirrorKind({ key, value: map }: MapEntry): Said | undefined {
  if (map?.type !== 'map') return undefined;
  const kind = map.entries.find((e) => keyOf(e) === 'kind')?.value;
  if (kind?.type !== 'scalar' || !isMirrorWord(kind.source)) return undefined;
  const of = textIn(map.entries.find((e) => OF.test(keyOf(e)))?.value);
  const across = map.entries.find((e) => keyOf(e) !== 'kind' && !OF.test(keyOf(e)));
  const message = `${NONE} Write the mirrored copy with its own \`kind\` and place.`;
  const name = String(key.value);
  return {
    message,
    fixes: of === '' ? [] : fixesOf(axesIn(across?.value, ['x', 'y']), `Write ${name} out`, { of, as: name }),
  };
}

/** `mirror: x` at a part. */
export function mirroredPart(e: MapEntry): Said | undefined {
  const key = keyOf(e);
  if (!isMirrorWord(key)) return undefined;
  return {
    message: `${NONE} Write every feature at its mirrored place.`,
    fixes: fixesOf(axesIn(e.value, ['x', 'y']), 'Write the mirror image of the part', { key }),
  };
}

function fixesOf(axes: readonly Axis[], title: string, mirrored: Omit<Mirroring, 'axis'>): readonly ProblemFix[] {
  return axes.map((axis) => ({
    title: `${title}, ${MIRROR_WAYS[axis]}`,
    edits: [],
    mirrored: { ...mirrored, axis },
    ...(axes.length > 1 && { equal: true as const }),
  }));
}

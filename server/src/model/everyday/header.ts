/** The head of a part in everyday words: other names of its keys, and sizes as bare numbers. */
import { parseDimension } from '../../text/dimension';
import type { MapEntry, MapNode } from '../../text/tree';
import type { ProblemFix } from '../resolve/problem';
import { plainDimension } from './dimension';
import { HEADER, plainWord } from './everyday-words';
import { bodyText, mapText } from './places';

/** The key of a part that is meant by another word, of those that are still free. */
export function everydayHeader(key: string, free: Iterable<string>): string | undefined {
  const word = plainWord(key);
  const all = [...free];
  const to = all.includes(word) ? word : HEADER[word];
  return to !== undefined && all.includes(to) ? to : undefined;
}

interface Said {
  readonly message: string;
  readonly fixes: readonly ProblemFix[];
}

/** A body that is written as numbers, or by length, width and height. */
export function everydayBody({ value }: MapEntry): Said | undefined {
  if (!value) return undefined;
  if (value.type === 'map') return byDiameter(value) ?? bySides(value);
  const text = bodyText(value);
  if (text === undefined) return undefined;
  return {
    message: `The sizes of the body say which is which: \`body: ${text}\`.`,
    fixes: [{ title: `Write \`body: ${text}\``, edits: [{ span: value.span, newText: text }] }],
  };
}

const LONG = ['length', 'long', 'l'];
const WIDE = ['width', 'wide', 'w'];
const UP = ['height', 'thickness', 'thick', 'h', 't'];
/** From front to back beside a height; up where there is none. */
const DEEP = ['depth', 'deep', 'd'];

const ROUND = ['diameter', 'dia', 'diam', 'd', 'ø', '⌀', 'od'];
/** An axis of the part says which way a round body lies as well; without it, it stands. */
const AXES = ['x', 'y', 'z'];

/** A round body, whose length has the name of an axis or another word. */
function byDiameter(map: MapNode): Said | undefined {
  if (map.entries.length !== 2) return undefined;
  const word = (e: MapEntry) => plainWord(String(e.key.value));
  const across = map.entries.find((e) => ROUND.includes(word(e)));
  const along = map.entries.find((e) => e !== across && [...AXES, ...LONG, ...UP].includes(word(e)));
  if (!across?.value || !along?.value) return undefined;
  const [diameter, length] = [sourceOf(across), sourceOf(along)];
  if (diameter === undefined || length === undefined) return undefined;
  const axis = AXES.includes(word(along)) && word(along) !== 'z' ? word(along) : undefined;
  if (word(across) === 'diameter' && word(along) === 'length') return undefined;
  const keys = axis ? ['diameter', 'length', 'axis'] : ['diameter', 'length'];
  const text = mapText(keys, axis ? [diameter, length, axis] : [diameter, length]);
  const key = ({ key: { span } }: MapEntry, newText: string) => ({ span, newText });
  const named = { title: `Write \`body: ${text}\``, edits: [key(across, 'diameter'), key(along, 'length')] };
  return {
    message: `A round body has a diameter and a length: \`body: ${text}\`.`,
    // On lines of their own, with comments perhaps, a third one is left to the author.
    fixes: axis ? (map.flow ? [whole(map, text)] : []) : [named],
  };
}

/** Which of length and width goes to the right is not said. */
function bySides(map: MapNode): Said | undefined {
  const [only] = map.entries;
  const sizes = map.entries.length === 1 && only?.value ? bodyText(only.value) : undefined;
  if (sizes)
    return { message: `The sizes of the body say which is which: \`body: ${sizes}\`.`, fixes: [whole(map, sizes)] };
  const named = (words: readonly string[]) => map.entries.find((e) => words.includes(plainWord(String(e.key.value))));
  const [high, deep] = [named(UP), named(DEEP)];
  const [long, wide] = [named(LONG), named(WIDE), ...(high ? [deep] : [])].filter((e) => e !== undefined);
  const up = high ?? deep;
  if (!long || !wide || !up || map.entries.length !== 3) return undefined;
  const [a, b, z] = [long, wide, up].map(sourceOf);
  if (a === undefined || b === undefined || z === undefined) return undefined;
  const texts = [mapText(['x', 'y', 'z'], [a, b, z]), ...(a === b ? [] : [mapText(['x', 'y', 'z'], [b, a, z])])];
  return {
    message: `A body is measured to the right, to the back and up: ${texts.map((t) => `\`${t}\``).join(' or ')}.`,
    fixes: texts.map((text, i) => ({
      title: `Write \`body: ${text}\``,
      edits: renamed([i === 0 ? long : wide, i === 0 ? wide : long, up]),
      ...(texts.length > 1 && { equal: true as const }),
    })),
  };
}

function whole(map: MapNode, text: string): ProblemFix {
  return { title: `Write \`body: ${text}\``, edits: [{ span: map.span, newText: text }] };
}

/** Only the keys change, so that comments and layout stay. */
function renamed(entries: readonly MapEntry[]): ProblemFix['edits'] {
  return entries.map((e, i) => ({ span: e.key.span, newText: 'xyz'[i]! }));
}

function sourceOf({ value }: MapEntry): string | undefined {
  if (value?.type !== 'scalar' || value.value === null) return undefined;
  const plain = plainDimension(value.source, { through: false, angle: false });
  return plain ? plain.texts[0] : parseDimension(value.source).ok ? value.source : undefined;
}

/** A value in everyday words: how its field wants it. */
import { findThread } from '../../tables/thread-names';
import type { TextNode } from '../../text/tree';
import { FACE_AXIS, FACES, type Face } from '../faces';
import type { FeatureKind } from '../feature-kinds';
import type { ProblemRule } from '../resolve/problem';
import type { Shape } from '../schema/shape';
import { plainDimension } from './dimension';
import { EVERYDAY_FACES, plainWord } from './everyday-words';
import { placeText, sizeText } from './places';
import { doubled } from './reading';

interface ValueText {
  readonly text: string;
  /** What it may mean as well. */
  readonly alternatives?: readonly string[];
  readonly why: string;
  readonly rule?: ProblemRule;
}

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
  edges(node, { face }) {
    if (node.type !== 'scalar') return undefined;
    const one =
      FACES.find((f) => new RegExp(`^${f}[ -](?:face )?edges?$`, 'i').test(node.source)) ?? everydayFace(node.source);
    if (one) return { text: one, why: 'A face stands for its outer edges.' };
    if (!ALL.test(node.source)) return undefined;
    const why = '`edges` names faces: the outer edges of one, or of all six.';
    return { text: face, alternatives: [`[${FACES.join(', ')}]`], why };
  },
  thread: (node) => (node.type === 'scalar' ? threadText(node.source) : undefined),
};

/** How a value is written here; undefined where it is right, or means nothing known. */
export function valueText(node: TextNode, field: Field): ValueText | undefined {
  const { key, shape, face } = field;
  if (key === 'size' && shape.type === 'map') return text(sizeText(node, face), WHICH);
  const own = BY_KEY[key];
  return own ? own(node, field) : measureText(node, field);
}

function measureText(node: TextNode, { key, shape, kind }: Field): ValueText | undefined {
  if (node.type !== 'scalar' || shape.type !== 'scalar' || shape.meta.unit === undefined) return undefined;
  const takes = { through: 'through' in (shape.meta.values ?? {}), angle: kind === 'chamfer' && key === 'size' };
  const plain = plainDimension(node.source, takes);
  if (!plain) return undefined;
  const [first, ...others] = plain.radius && key === 'diameter' ? plain.texts.map(doubled) : plain.texts;
  return {
    text: first!,
    ...(others.length > 0 && { alternatives: others }),
    why: [plain.why, wantsPattern(plain.count)].join(' ').trim(),
    rule: 'form/unit',
  };
}

/** Items that are lists of numbers, as places. */
function cornersText(node: TextNode, { face }: Field): ValueText | undefined {
  if (node.type !== 'list' || node.items.length < 2) return undefined;
  const items = node.items.map((item) => (item.type === 'list' ? placeText(item, face) : undefined));
  return text(items.every((t) => t !== undefined) ? `[${items.join(', ')}]` : undefined, WHICH);
}

/** The face that a word means, be it one of ours in another language. */
function everydayFace(word: string): Face | undefined {
  const plain = plainWord(word);
  return EVERYDAY_FACES[plain] ?? (plain === word ? undefined : FACES.find((f) => f === plain));
}

function faceText(node: TextNode, { key, face }: Field): ValueText | undefined {
  const named = node.type === 'scalar' ? everydayFace(String(node.value)) : undefined;
  // A side that is cut along meets the face.
  const isSide = named && FACE_AXIS[named].axis !== FACE_AXIS[face].axis;
  return text(
    key === 'face' || isSide ? named : undefined,
    'Faces are called left, right, front, back, bottom and top.',
  );
}

/** `4x M5`, `M5 tapped`: the designation alone. */
function threadText(source: string): ValueText | undefined {
  const bare = bareThread(source);
  if (!bare || bare.name === source) return undefined;
  return { text: bare.name, why: wantsPattern(bare.count) || 'A thread is its designation alone.' };
}

/** A thread's designation with what may stand about it. */
export function bareThread(source: string): { readonly name: string; readonly count: number } | undefined {
  const trimmed = source.trim();
  if (findThread(trimmed)) return { name: trimmed, count: 1 };
  const found = /^(?:(\d{1,3})\s*[xX×]\s*)?(.*?)\s*(?:tap(?:ped)?|thread(?:ed)?|thru|through|deep)?$/i.exec(trimmed);
  const name = found?.[2]?.replace(/^m\s*(?=\d)/i, 'M') ?? '';
  return findThread(name) ? { name, count: Number(found?.[1] ?? 1) } : undefined;
}

function wantsPattern(count = 1): string {
  return count > 1 ? `For ${count} of them write a \`pattern\`.` : '';
}

function text(written: string | undefined, why: string): ValueText | undefined {
  return written === undefined ? undefined : { text: written, why };
}

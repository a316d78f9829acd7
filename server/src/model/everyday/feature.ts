/**
 * A feature that is written in everyday words: what is meant by each, and how it is written here. Asked only of what the
 * schema refuses, so that nothing that is read already is ever read another way.
 */
import { at, type MapEntry, type MapNode } from '../../text/tree';
import { FACE_AXIS, FACES, type Face } from '../faces';
import { FEATURE_KINDS, type FeatureKind } from '../feature-kinds';
import { quote } from '../resolve/problem';
import { type Shape, shapeOf } from '../schema/shape';
import { amounts } from './amounts';
import { calledOut } from './call-out';
import { plainDimension } from './dimension';
import { EVERYDAY_FACES, FIELDS, FIELDS_OF, PATTERNS, plainWord, RADIUS_OF } from './everyday-words';
import { isMirrorWord, mirroredFeature } from './mirror-words';
import { mapText, planeOf, sizeText } from './places';
import { doubled, isDimension, keyOf, type Reading, sourceOf } from './reading';
import { plainSize } from './scalar';
import { together } from './together';
import { bareThread, valueText } from './value';

type Keys = ReadonlyMap<string, { readonly shape: Shape }>;

/** What a feature's fields are looked at with. */
interface Looked {
  readonly map: MapNode;
  readonly kind: FeatureKind;
  readonly keys: Keys;
  readonly given: ReadonlySet<string>;
  readonly face: Face;
  /** Which field a screw's size belongs in, where the kind's everyday word says it. */
  readonly screw: readonly ('thread' | 'clearance')[];
}

/** What a feature's fields mean in everyday words, as far as they are no fields or values of its kind. */
export function readingsOf(map: MapNode, kind: FeatureKind, name: string): readonly Reading[] {
  const shape = shapeOf(FEATURE_KINDS[kind].schema);
  if (shape.type !== 'map') return [];
  const { keys } = shape;
  const looked = { map, kind, keys, given: new Set(map.entries.map(keyOf)), face: faceIn(map), screw: screwIn(map) };
  const found = [
    ...(kind === 'hole' ? calledOut(map) : []),
    ...together(map, kind, looked.face),
    ...amounts(map, kind, looked.face),
  ];
  const taken = new Set(found.flatMap((r) => r.entries));
  for (const e of map.entries) {
    if (taken.has(e)) continue;
    const known = keys.get(keyOf(e));
    const reading =
      !known && isMirrorWord(keyOf(e))
        ? mirroredFeature(e, name, looked.face)
        : known
          ? valueReading(e, known.shape, looked)
          : keyReading(e, looked);
    if (reading) found.push(reading);
  }
  return found;
}

function faceIn(map: MapNode): Face {
  const node = at(map, 'face') ?? at(map, 'side');
  const word = node?.type === 'scalar' ? String(node.value).toLowerCase() : '';
  const plain = plainWord(word);
  return FACES.find((f) => f === plain) ?? EVERYDAY_FACES[plain] ?? 'top';
}

function screwIn(map: MapNode): Looked['screw'] {
  const node = at(map, 'kind') ?? at(map, 'type');
  const word = node?.type === 'scalar' ? String(node.value) : '';
  if (/tap|thread/i.test(word)) return ['thread'];
  return /clear|bolt|fix|mount/i.test(word) ? ['clearance'] : ['thread', 'clearance'];
}

/** A field that its kind does not have, under the name that it has here. */
function keyReading(e: MapEntry, looked: Looked): Reading | undefined {
  const { keys, kind, given } = looked;
  const word = plainWord(keyOf(e));
  if (word === 'senkung' && kind === 'hole' && e.value?.type === 'scalar') return sunk(e, looked);
  if (PATTERNS.has(word) && keys.has('pattern') && !given.has('pattern') && e.value?.type === 'map' && e.value.flow)
    return wrapped(e, e.value);
  if (kind === 'hole' && /^(?:chamfer|fase)$/.test(word)) return chamfered(e, looked);
  const deep = !given.has('depth') && word === FACE_AXIS[looked.face].axis && e.value?.type === 'scalar';
  const below = deep ? plainSize(e.value.source, 'depth')?.texts[0] : undefined;
  if (below !== undefined) return written(e, [`depth: ${below}`], ['depth'], 'A depth counts into the material');
  const special = /^(?:r|rad|radius)$/.test(word) ? radiusReading(e, looked) : screwReading(e, looked, word);
  if (special) return special;
  if (
    /^(?:through|thru|blind)$/.test(word) &&
    given.has('depth') &&
    e.value?.type === 'scalar' &&
    /^(?:false|no|true|yes)$/i.test(e.value.source)
  )
    return needless(e, looked);
  if ((word === 'through' || word === 'thru') && keys.has('depth') && !given.has('depth'))
    return written(e, ['depth: through'], ['depth'], 'To the far side is a depth');
  const to = FIELDS_OF[kind]?.[word] ?? FIELDS[word] ?? (word === keyOf(e) ? undefined : word);
  return to && !given.has(to) && keys.has(to) ? renamed(e, to, looked) : undefined;
}

/** The same value under the field's own name; an everyday value is written as it should be, too. */
function renamed(e: MapEntry, to: string, { keys, kind, face }: Looked): Reading {
  const value = e.value && valueText(e.value, { key: to, shape: keys.get(to)!.shape, kind, face });
  const own = e.value?.type === 'scalar' && e.value.source.length <= 30 ? e.value.source : undefined;
  const texts = value ? [value.text, ...(value.alternatives ?? [])] : [own];
  const says = texts.map((text) => (text === undefined ? `\`${to}\`` : `\`${to}: ${text}\``));
  return {
    message: `${article(kind)} has no field ${quote(keyOf(e))}: here it is ${says.join(' or ')}.`,
    entries: [e],
    gives: [to],
    fixes: texts.map((text, i) => ({
      title: `Write ${says[i]}`,
      edits: [
        { span: e.key.span, newText: to },
        ...(value && e.value && text !== undefined ? [{ span: e.value.span, newText: text }] : []),
      ],
      ...(texts.length > 1 && { equal: true as const }),
    })),
  };
}

/** A radius where the format has a diameter, a corner or a width. */
function radiusReading(e: MapEntry, { kind, given, keys }: Looked): Reading | undefined {
  if (!isDimension(e)) return undefined;
  const drawn = ['size', 'path', 'width', 'length'].some((key) => given.has(key));
  const source = sourceOf(e);
  const ways: readonly (readonly [string, string])[] = (
    [
      ['diameter', doubled(source)],
      ['width', doubled(source)],
      ['corner-radius', source],
      ['floor-radius', source],
      ['size', source],
    ] as const
  ).filter(([to]) => RADIUS_OF[kind].includes(to) && keys.has(to) && !given.has(to) && !(to === 'diameter' && drawn));
  if (ways.length === 0) return undefined;
  const texts = ways.map(([to, text]) => `${to}: ${text}`);
  const gives = ways.map(([to]) => to);
  return written(e, texts, gives, `${article(kind)} has no field ${quote(keyOf(e))}`);
}

/** `M5` where a diameter is wanted: the thread, or the hole that its screw goes through. */
function screwReading(e: MapEntry, { kind, screw, given }: Looked, word: string): Reading | undefined {
  const names = /^(?:screw|bolt|for|size|dia|diam|diameter|hole)$/.test(word);
  if (kind !== 'hole' || !names || e.value?.type !== 'scalar') return undefined;
  const bare = bareThread(e.value.source);
  const ways = screw.filter((to) => !given.has(to));
  if (!bare || ways.length === 0) return undefined;
  const texts = ways.map((to) => `${to}: ${bare.name}`);
  const many = bare.count > 1 ? ` For ${bare.count} of them write a \`pattern\`.` : '';
  const which =
    ways.length === 2 ? 'is the size of a screw that is screwed in, or goes through' : 'is the size of a screw';
  return written(e, texts, ways, `${quote(bare.name)} ${which}`, many);
}

/** A value that is written in another way than its field wants it. */
function valueReading(e: MapEntry, shape: Shape, looked: Looked): Reading | undefined {
  if (!e.value) return undefined;
  const key = keyOf(e);
  const special = screwReading(e, looked, key) ?? squareOrRound(e, looked);
  if (special) return special;
  const value = valueText(e.value, { key, shape, kind: looked.kind, face: looked.face });
  if (!value) return undefined;
  const texts = [value.text, ...(value.alternatives ?? [])];
  return {
    message: `${value.why} Write ${texts.map((t) => `\`${key}: ${t}\``).join(' or ')}.`.trim(),
    entries: [e],
    gives: [key],
    ...(value.rule && { rule: value.rule }),
    fixes: texts.map((text) => ({
      title: `Write \`${key}: ${text}\``,
      edits: [{ span: e.value!.span, newText: text }],
      ...(texts.length > 1 && { equal: true as const }),
    })),
  };
}

/** A yes or no beside what says it. */
function needless(e: MapEntry, { map, kind }: Looked): Reading {
  const key = quote(keyOf(e));
  return {
    message: `${article(kind)} has no field ${key}: its \`depth\` says it. Delete ${key}.`,
    entries: [e],
    gives: [],
    fixes: [{ title: `Delete ${key}`, edits: [], without: [[map, e]] }],
  };
}

/** A recess without its form: for a cap screw, or for a flat one. */
function sunk(e: MapEntry, { given }: Looked): Reading | undefined {
  const ways = ['counterbore', 'countersink'].filter((to) => !given.has(to));
  const texts = ways.map((to) => `${to}: ${e.value?.type === 'scalar' ? e.value.source : ''}`);
  return texts.length > 0 ? written(e, texts, ways, 'A recess is flat or a cone') : undefined;
}

/** A chamfer at the rim of a hole is its countersink: twice the chamfer wider than the hole. */
function chamfered(e: MapEntry, { map, given }: Looked): Reading | undefined {
  const source = e.value?.type === 'scalar' ? e.value.source : '';
  const by = plainDimension(source, { through: false, angle: true })?.texts[0] ?? (isDimension(e) ? sourceOf(e) : '');
  const hole = at(map, 'diameter');
  const wide = hole?.type === 'scalar' ? /^\d+(?:\.\d+)?/.exec(hole.source)?.[0] : undefined;
  if (!/^\d+(?:\.\d+)?$/.test(by) || wide === undefined || given.has('countersink')) return undefined;
  const text = `countersink: { diameter: ${Number((Number(wide) + 2 * Number(by)).toFixed(6))}, angle: 90 }`;
  return written(e, [text], ['countersink'], 'A chamfer at the rim of a hole is its `countersink`');
}

/** `size: 20` of a pocket. */
function squareOrRound(e: MapEntry, { kind, face }: Looked): Reading | undefined {
  // `20x10` is two sizes, though a class of shafts is called x.
  if (kind !== 'pocket' || keyOf(e) !== 'size' || !isDimension(e) || sizeText(e.value!, face)) return undefined;
  const one = sourceOf(e);
  const texts = [`size: ${mapText(planeOf(face), [one, one])}`, `diameter: ${one}`];
  return written(e, texts, ['size', 'diameter'], 'One size may be a square or a circle');
}

/** The whole entry written anew, in one of several ways. */
function written(e: MapEntry, texts: readonly string[], gives: readonly string[], why: string, more = ''): Reading {
  return {
    message: `${why}. Write ${texts.map((t) => `\`${t}\``).join(' or ')}.${more}`,
    entries: [e],
    gives,
    fixes: texts.map((text) => ({
      title: `Write \`${text}\``,
      edits: [{ span: e.span, newText: text }],
      ...(texts.length > 1 && { equal: true as const }),
    })),
  };
}

/** A pattern that stands beside the field it belongs in. */
function wrapped(e: MapEntry, value: MapNode): Reading {
  const says = `\`pattern: { ${keyOf(e)}: … }\``;
  return {
    message: `\`${keyOf(e)}\` belongs inside \`pattern\`. Write ${says}.`,
    entries: [e],
    gives: ['pattern'],
    fixes: [
      {
        title: `Write ${says}`,
        edits: [
          { span: e.key.span, newText: `pattern: { ${keyOf(e)}` },
          { span: { ...value.span, from: value.span.to }, newText: ' }' },
        ],
      },
    ],
  };
}

function article(kind: FeatureKind): string {
  return `${/^[aeiou]/.test(kind) ? 'An' : 'A'} ${kind}`;
}

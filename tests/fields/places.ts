/** Where the fields of the format stand in a document, each by the form it is a field of; and what else could stand there. */
import type { Document } from 'yaml';
import { type Form, formsOf, printOf } from '../../server/generate/forms';
import { DOCUMENTS, type DocumentKind } from '../../server/src/model/lookup';
import type { NameKind } from '../../server/src/model/schema/common';
import { pick } from '../../server/src/model/schema/pick';
import { type KeyShape, type MapShape, type Shape, shapeOf } from '../../server/src/model/schema/shape';
import { readText } from '../../server/src/text/read';
import type { Span, TextNode } from '../../server/src/text/tree';

export interface Place {
  /** `hole.diameter` */
  readonly field: string;
  readonly key: KeyShape;
  readonly path: readonly (string | number)[];
  readonly span: Span;
}

/** The forms that a field's value is made of; of the word that says which form a map is, that map. */
export function formsIn(kind: DocumentKind, { shape }: KeyShape): readonly string[] {
  if (shape.type === 'map') return [namesIn(kind).get(printOf(shape)) ?? ''];
  if (shape.type === 'list') return formsIn(kind, { shape: shape.item, required: true });
  if (shape.type === 'record') return formsIn(kind, { shape: shape.value, required: true });
  if (shape.type === 'choice') return shape.options.flatMap((o) => formsIn(kind, { shape: o, required: true }));
  return [];
}

type Steps = readonly (string | number)[];

export function fieldsOf(kind: DocumentKind): readonly string[] {
  return formsOf(kind).flatMap(({ name, shape }) => [...shape.keys.keys()].map((key) => `${name}.${key}`));
}

const names = new Map<DocumentKind, ReadonlyMap<string, string>>();

function namesIn(kind: DocumentKind): ReadonlyMap<string, string> {
  const made = names.get(kind) ?? new Map(formsOf(kind).map(({ name, shape }: Form) => [printOf(shape), name]));
  names.set(kind, made);
  return made;
}

const known = new Map<Shape, string | undefined>();

function nameOf(kind: DocumentKind, shape: MapShape): string | undefined {
  if (!known.has(shape)) known.set(shape, namesIn(kind).get(printOf(shape)));
  return known.get(shape);
}

export function placesIn(kind: DocumentKind, text: string): readonly Place[] {
  const { root } = readText(text);
  return root ? [...walk(kind, shapeOf(DOCUMENTS[kind]), root, [])] : [];
}

function* walk(kind: DocumentKind, shape: Shape, node: TextNode, path: Steps): Generator<Place> {
  if (shape.type === 'choice') {
    const picked = pick(shape, node);
    if (picked) yield* walk(kind, picked, node, path);
  } else if (shape.type === 'list' && node.type === 'list') {
    for (const [i, item] of node.items.entries()) yield* walk(kind, shape.item, item, [...path, i]);
  } else if (shape.type === 'record' && node.type === 'map') {
    for (const { key, value } of node.entries)
      if (value) yield* walk(kind, shape.value, value, [...path, String(key.value)]);
  } else if (shape.type === 'map' && node.type === 'map') {
    const form = nameOf(kind, shape);
    for (const { key, value } of node.entries) {
      const name = String(key.value);
      const under = shape.keys.get(name);
      if (!under || !value) continue;
      yield { field: `${form}.${name}`, key: under, path: [...path, name], span: key.span };
      yield* walk(kind, under.shape, value, [...path, name]);
    }
  }
}

/** Other texts in which this field says something else, or nothing. */
export function* changed({ key, path, field }: Place, document: Document): Generator<string> {
  const written = document.getIn(path);
  const value = plain(written);
  const as = (other: unknown) => {
    const copy = document.clone() as Document;
    copy.setIn(path, other);
    return String(copy);
  };
  for (const other of OTHERS[field] ?? []) yield as(other);
  for (const beside of TOGETHER[field] ?? []) {
    const copy = document.clone() as Document;
    for (const [name, other] of Object.entries(beside)) {
      const there = [...path.slice(0, -1), name];
      if (other === null) copy.deleteIn(there);
      else copy.setIn(there, other);
    }
    yield String(copy);
  }
  if (!key.required) {
    const copy = document.clone() as Document;
    copy.deleteIn(path);
    yield String(copy);
  }
  for (const other of otherNames(key.shape.meta.names, value, document))
    yield as(Array.isArray(value) ? [other] : other);
  for (const other of instead(value, key.shape)) yield as(other);
}

/** What no rule below finds by itself. */
const OTHERS: Readonly<Record<string, readonly unknown[]>> = {
  'part.shop': ['none.shop.yaml'],
  'job.shop': ['none.shop.yaml'],
  'part.tolerance': ['ISO 2768-c'],
  'coating.kind': ['paint'],
  'part.datums': [
    { A: 'top', B: 'front', C: 'seat' },
    { A: 'bottom', B: 'top' },
  ],
  'step.along': ['bottom', 'left', 'back'],
  'setups.NAME.zero.method': ['edge-finder', 'dial'],
  'accept.rule': ['wall/slender', 'corner/tight'],
  'parts.NAME.spec': ['tub.part.yaml', 'lid.part.yaml'],
  'shaft.shaft': ['8.4 h6', '9 h6'],
  'bearing.shaft': ['8.4 h6', '7 h6'],
  'pin.in': [
    ['lid.dowels', 'tub.none'],
    ['lid.dowels', 'tub.small'],
  ],
  'stack.leaves': [
    [0.2, 0.3],
    [0, 0.01],
  ],
  'stock.open': [['front', 'top'], ['bottom'], ['back', 'bottom']],
  'include.NAME.from': ['other.part.yaml'],
  'stock.from': ['other.part.yaml'],
  'include.NAME.prefix': ['my-'],
  'include.NAME.place.face': ['bottom'],
};
/** What says something only with another field: both are changed; null takes one out. */
const TOGETHER: Readonly<Record<string, readonly Readonly<Record<string, unknown>>[]>> = {
  'keyway.ends': [
    { ends: 'run-out', cutter: 45 },
    { ends: 'round', cutter: null },
  ],
  'pocket.relief': [{ relief: null, 'relief-diameter': null }],
};
/** Of what is named, something else that there is. */
const NAMED: Readonly<Partial<Record<NameKind, readonly unknown[]>>> = {
  clearance: ['M4', 'M8'],
  pin: ['3', '6', 'ISO 8734 4x20'],
  bearing: ['6000', '626'],
  thread: ['M4', 'M8'],
  'cap-screw': ['M4', 'M6'],
  'flat-screw': ['M4', 'M6'],
  screw: ['M4x30', 'M5x12'],
  material: ['stainless-303', 'pom-c'],
  rule: ['wall/thin'],
  meeting: ['lid.small', 'tub.small', 'lid.bore', 'tub.seat', 'lid.none'],
  piece: ['tub.sensor', 'tub.none'],
  vise: ['other-vise'],
  'v-block': ['other-block'],
  'angle-plate': ['other-plate'],
  machine: ['other-mill'],
  holder: ['other-holder'],
};

function otherNames(kind: NameKind | undefined, written: unknown, document: Document): readonly unknown[] {
  const known = (kind && NAMED[kind]) ?? [];
  if (kind === 'cut' || kind === 'feature' || kind === 'zero') {
    const features = document.get('features') as { toJSON?: () => object } | undefined;
    const faces = kind === 'feature' ? [] : ['left', 'right', 'front', 'back', 'bottom', 'top'];
    return [...faces, ...Object.keys(features?.toJSON?.() ?? {})].filter((n) => n !== written);
  }
  return known;
}

function plain(written: unknown): unknown {
  return written && typeof written === 'object' && 'toJSON' in written ? (written.toJSON as () => unknown)() : written;
}

function* instead(value: unknown, shape: Shape): Generator<unknown> {
  if (Array.isArray(value)) {
    if (value.length > 1) yield value.slice(0, -1);
    const numbers = value.map((v) => [...scaled(v)][0]);
    if (numbers.every((n) => n !== undefined)) yield numbers;
    if (value.length === 2) yield [...value].reverse();
    return;
  }
  if (value === null || typeof value === 'object') return;
  const words = shape.type === 'scalar' ? shape.words : undefined;
  if (words) {
    for (const word of words) if (word !== value) yield word;
    return;
  }
  if (value === 'center') yield* ['8', '14'];
  if (value === 'through') yield* ['3', '5'];
  if (typeof value === 'boolean') yield !value;
  const numbers = shape.meta.names ? [] : [...scaled(value)];
  yield* numbers;
  if (typeof value === 'string' && numbers.length === 0 && !shape.meta.names) yield `${value} too`;
}

/** Larger and smaller by a little, then by much; the unit and the tolerance stay. */
function* scaled(value: unknown): Generator<unknown> {
  const found = /^(-?\d+(?:\.\d+)?)(.*)$/s.exec(String(value));
  if (!found || (typeof value !== 'number' && typeof value !== 'string')) return;
  const [, number = '', rest = ''] = found;
  const whole = Number.isInteger(Number(number));
  for (const factor of [1.1, 0.5, 4, 0.2]) {
    const made = Number((Number(number) * factor).toFixed(4));
    const rounded = whole && Math.round(made) !== Number(number) && Number(number) < 20 ? Math.round(made) : made;
    yield rest === '' ? rounded : `${rounded}${rest}`;
  }
}

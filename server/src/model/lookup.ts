/** What may stand at a place of a document, for completion and hover: read from the schemas, following each `kind`. */
import type { MapNode, TextNode } from '../text/tree';
import { at } from '../text/tree';
import type { NameKind, UnitKind } from './schema/common';
import { jobSchema } from './schema/job';
import { partSchema } from './schema/part';
import { pick } from './schema/pick';
import { recordSchema } from './schema/record';
import { type Shape, shapeOf } from './schema/shape';
import { shopSchema } from './schema/shop';

export interface SchemaInfo {
  readonly description: string;
  readonly type: 'map' | 'list' | 'scalar';
  /** Of a map with known keys, in the order of the schema. */
  readonly keys?: readonly KeyInfo[];
  /** Words that may stand here, each with its meaning. */
  readonly values?: readonly { readonly value: string; readonly description: string }[];
  readonly names?: NameKind;
  readonly unit?: UnitKind;
  readonly example?: string;
  /** What holds when it is left out. */
  readonly fallback?: string;
}
interface KeyInfo {
  readonly key: string;
  readonly required: boolean;
  readonly description: string;
  readonly example?: string;
}

export const DOCUMENTS = { part: partSchema, shop: shopSchema, job: jobSchema, record: recordSchema } as const;
export type DocumentKind = keyof typeof DOCUMENTS;

type Plain = Exclude<Shape, { type: 'choice' }>;

/**
 * What may stand at `path` (keys, and indices of lists). `root` tells which kind a feature or tool is; without it, or
 * where the kind is not written yet, every form that is possible is meant.
 */
export function schemaAt(doc: DocumentKind, path: readonly PropertyKey[], root?: MapNode): SchemaInfo | undefined {
  let here: readonly Shape[] = [shapeOf(DOCUMENTS[doc])];
  let node: TextNode | undefined = root;
  for (const [i, step] of path.entries()) {
    const key = String(step);
    const deciding = i === path.length - 1;
    here = here.flatMap((shape) => possible(shape, node, deciding ? key : undefined)).flatMap((s) => under(s, key));
    node = node?.type === 'list' ? node.items[Number(step)] : at(node, key);
  }
  return here.length > 0 ? infoOf(here, node) : undefined;
}

/** The forms a shape may take here. The word that decides (`kind`) may itself still be any. */
function possible(shape: Shape, node: TextNode | undefined, asked?: string): readonly Plain[] {
  if (shape.type !== 'choice') return [shape];
  const decided = asked !== undefined && asked === shape.by ? undefined : pick(shape, node);
  const begun =
    node?.type !== 'map' || node.entries.some((e) => decided?.type === 'map' && decided.keys.has(String(e.key.value)));
  if (decided && begun) return [decided];
  return shape.options.flatMap((option) => possible(option, undefined));
}

function under(shape: Plain, key: string): readonly Shape[] {
  if (shape.type === 'map') {
    const found = shape.keys.get(key);
    return found ? [found.shape] : [];
  }
  if (shape.type === 'record') return [shape.value];
  return shape.type === 'list' && /^\d+$/.test(key) ? [shape.item] : [];
}

function infoOf(shapes: readonly Shape[], node: TextNode | undefined): SchemaInfo {
  const first = shapes[0]!;
  const plain = shapes.flatMap((s) => possible(s, node));
  const meta = first.meta;
  const one = plain.length === 1 ? plain[0]! : undefined;
  const names = meta.names ?? plain.find((p) => p.meta.names)?.meta.names;
  const unit = meta.unit ?? plain.find((p) => p.meta.unit)?.meta.unit;
  const written = plain.find((p) => typeOf(p) === node?.type) ?? plain[0]!;
  const keys = keysOf(shapes, plain, node);
  const values = valuesOf([...shapes, ...plain]);
  return {
    description:
      one?.meta.description && first.type === 'choice' && first.by ? one.meta.description : (meta.description ?? ''),
    type: typeOf(written),
    ...(keys.length > 0 && { keys }),
    ...(values.length > 0 && { values }),
    ...(names && { names }),
    ...(unit && { unit }),
    ...(meta.example && { example: meta.example }),
    ...(meta.fallback && { fallback: meta.fallback }),
  };
}

function typeOf(shape: Plain): SchemaInfo['type'] {
  return shape.type === 'record' ? 'map' : shape.type;
}

/** Keys of every form that is possible; of a choice that a word decides, first only that word. */
function keysOf(shapes: readonly Shape[], plain: readonly Plain[], node: TextNode | undefined): readonly KeyInfo[] {
  const by = shapes.find((s) => s.type === 'choice' && s.by !== undefined && !pick(s, node));
  const found = new Map<string, KeyInfo>();
  for (const shape of plain) {
    if (shape.type !== 'map') continue;
    for (const [key, { shape: value, required }] of shape.keys) {
      if (found.has(key) || (by?.type === 'choice' && key !== by.by)) continue;
      const { description = '', example } = value.meta;
      found.set(key, {
        key,
        required: required && (plain.length === 1 || by !== undefined),
        description: by ? 'What it is; decides which fields it has.' : description,
        ...(example && { example }),
      });
    }
  }
  return [...found.values()];
}

function valuesOf(shapes: readonly Shape[]): { value: string; description: string }[] {
  const found = new Map<string, string>();
  for (const shape of shapes) {
    if (shape.type === 'scalar') for (const word of shape.words ?? []) found.set(word, shape.meta.values?.[word] ?? '');
    for (const [value, description] of Object.entries(shape.meta.values ?? {})) found.set(value, description);
  }
  return [...found].map(([value, description]) => ({ value, description }));
}

/** Every name in a document, where it is defined and where it is mentioned: for go to definition, references, rename. */

import { memo } from '../memo';
import { parseDimension } from '../text/dimension';
import { at, type ScalarNode, type Span, type TextNode, type TextTree, within } from '../text/tree';
import { featureNameOf } from './member-name';
import { FACES } from './model';
import type { NameKind } from './schema/common';
import { jobSchema } from './schema/job';
import { partSchema } from './schema/part';
import { pick } from './schema/pick';
import { type Shape, shapeOf } from './schema/shape';
import { shopSchema } from './schema/shop';
import type { Shop } from './shop-model';

export interface Mention {
  readonly kind:
    | 'feature'
    | 'parameter'
    | 'datum'
    | 'tool'
    | 'holder'
    | 'vise'
    | 'v-block'
    | 'angle-plate'
    | 'machine'
    | 'drill-press'
    | 'material'
    | 'piece'
    | 'joint';
  readonly name: string;
  /** Of a feature in a job: the part that it belongs to, by its name there. */
  readonly of?: string;
  /** The name alone: of `mount[2]` only `mount`, of `pitch / 2` only `pitch`. */
  readonly span: Span;
  readonly definition: boolean;
}

const PART = shapeOf(partSchema);
const SHOP = shapeOf(shopSchema);
const JOB = shapeOf(jobSchema);
/** Where a feature's name may stand beside other words. */
const FEATURE_KINDS: ReadonlySet<NameKind> = new Set(['feature', 'cut', 'zero']);
const OTHER_KINDS: ReadonlySet<string> = new Set([
  'parameter',
  'datum',
  'tool',
  'holder',
  'vise',
  'v-block',
  'angle-plate',
  'machine',
  'drill-press',
  'material',
  'piece',
  'joint',
]);
/** What such a place may say that is no feature. */
const NO_FEATURE: ReadonlySet<string> = new Set([...FACES, 'parallels']);

/** Definitions and mentions of a part document, in text order of the blocks. */
export const partMentions = memo((tree: TextTree): readonly Mention[] => (tree.root ? [...walk(PART, tree.root)] : []));

/** Parts and joints of a job, and the features of its parts that joints name. */
export const jobMentions = memo((tree: TextTree): readonly Mention[] => (tree.root ? [...walk(JOB, tree.root)] : []));

/** Definitions of a shop document and its own mentions of them (a tool's holder). */
export function shopMentions(tree: TextTree, shop: Shop): readonly Mention[] {
  const defined: Mention[] = shop.names.map((n) => ({ kind: n.of, name: n.name, span: n.span, definition: true }));
  const own = at(tree.root, 'materials');
  for (const { key } of own?.type === 'map' ? own.entries : [])
    defined.push({ kind: 'material', name: String(key.value), span: key.span, definition: true });
  const mentioned = tree.root ? [...walk(SHOP, tree.root)].filter((m) => !m.definition) : [];
  return [...defined, ...mentioned];
}

function* walk(shape: Shape, node: TextNode | undefined): Generator<Mention> {
  if (!node) return;
  const meant = pick(shape, node);
  if (!meant) return;
  if (node.type === 'scalar') {
    if (meant.type === 'scalar') yield* ofScalar(meant, shape, node);
  } else if (node.type === 'list') {
    if (meant.type === 'list') for (const item of node.items) yield* walk(meant.item, item);
  } else if (meant.type === 'record') {
    for (const e of node.entries) {
      const { keyNames, defines } = meant.meta;
      if (keyNames) yield* named(keyNames, e.key, defines === true);
      yield* walk(meant.value, e.value);
    }
  } else if (meant.type === 'map') {
    for (const e of node.entries) {
      const field = meant.keys.get(String(e.key.value));
      if (field) yield* walk(field.shape, e.value);
    }
  }
}

function* ofScalar(meant: Shape, shape: Shape, node: ScalarNode): Generator<Mention> {
  const { unit } = meant.meta;
  const names = meant.meta.names ?? shape.meta.names;
  if (unit) {
    const parsed = parseDimension(node.source);
    if (!parsed.ok) return;
    for (const { name, from, to } of parsed.dimension.names) {
      if (name === 'center' || name === 'through' || name.startsWith('body.')) continue;
      yield { kind: 'parameter', name, span: within(node, from, to), definition: false };
    }
  } else if (names && typeof node.value === 'string') {
    yield* named(names, node, false);
  }
}

function* named(kind: NameKind, node: ScalarNode, definition: boolean): Generator<Mention> {
  const name = String(node.value);
  if (kind === 'meeting' || kind === 'height') yield* met(node);
  else if (FEATURE_KINDS.has(kind)) {
    const base = featureNameOf(name);
    if (!definition && NO_FEATURE.has(base)) return;
    yield { kind: 'feature', name: base, span: within(node, 0, base.length), definition };
  } else if (OTHER_KINDS.has(kind)) {
    yield { kind: kind as Mention['kind'], name, span: within(node, 0, name.length), definition };
  }
}

/** `yoke.mount[2]`: a part of the job, and a feature of that part; a size names neither. */
function* met(node: ScalarNode): Generator<Mention> {
  const found = /^(\s*(?:[-−]\s*)?)([a-z][a-z0-9-]*)\.([a-z][a-z0-9-]*)/.exec(node.source);
  if (!found) return;
  const [, lead, piece, feature] = found;
  const from = lead!.length;
  yield { kind: 'piece', name: piece!, span: within(node, from, from + piece!.length), definition: false };
  if (NO_FEATURE_OF_PART.has(feature!)) return;
  const at = from + piece!.length + 1;
  yield {
    kind: 'feature',
    name: feature!,
    of: piece!,
    span: within(node, at, at + feature!.length),
    definition: false,
  };
}
/** The body, and its sizes. */
const NO_FEATURE_OF_PART: ReadonlySet<string> = new Set(['body', 'x', 'y', 'z']);

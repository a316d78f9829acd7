/**
 * Is a node what the schema wants at its place? zod says; here its issues are put in words, each at its own narrowest span,
 * with the fields or words that would do. What a value means (units, names, geometry) is no question here.
 */
import * as z from 'zod/mini';
import { memo } from '../../memo';
import type { MapEntry, MapNode, Span, TextNode } from '../../text/tree';
import { everydayValue, everydayWord, stepsOf } from '../everyday/elsewhere';
import { everydayKey } from '../everyday/everyday-keys';
import { standingInside } from '../everyday/inside';
import { insteadOfField, insteadOfWord } from '../everyday/instead';
import { pick } from '../schema/pick';
import type { MapShape, Shape } from '../schema/shape';
import { code, fewOf, listed, nearest, type ProblemFix, quote, replace } from './problem';

interface Fault {
  readonly message: string;
  readonly span: Span;
  /** False for a key that means nothing: the rest can still be understood without it. */
  readonly breaks: boolean;
  /** Fields any of which would cure it. */
  readonly missing?: readonly string[];
  readonly fixes?: readonly ProblemFix[];
}

type Issue = z.core.$ZodIssue;
/** What the faults are found in, how it is called, and where a field that is missing in it is told. */
interface Place {
  readonly what: string;
  readonly whole: Span;
  /** The map that it is a value of. */
  readonly beside?: MapNode;
}

/**
 * Faults of a node. `what` names the thing in messages (`A hole`); `whole` is where a missing
 * field is reported (the name of the feature, say).
 */
export function faultsOf(shape: Shape, node: TextNode, what: string, whole: Span = node.span): readonly Fault[] {
  return faultsIn(node, shape, what, whole);
}

const none: readonly Fault[] = [];
const faultsIn = memo((node: TextNode, shape: Shape, what: string, whole: Span): readonly Fault[] => {
  const issues = issuesOf(shape, node);
  return issues.length === 0 ? none : [...faultsOfIssues(shape, node, { what, whole }, issues)];
});

/** What zod has against a node. */
function issuesOf({ schema }: Shape, node: TextNode): readonly Issue[] {
  return z.safeParse(schema, plainOf(node)).error?.issues ?? [];
}

/** As a plain value: of keys that stand twice the first, and nothing where a value is still to be written. */
function plainOf(node: TextNode | undefined): unknown {
  if (!node) return null;
  if (node.type === 'scalar') return node.value;
  if (node.type === 'list') return node.items.map(plainOf);
  const map: Record<string, unknown> = Object.create(null);
  for (const { key, value } of node.entries) {
    const name = String(key.value);
    if (!(name in map)) map[name] = plainOf(value);
  }
  return map;
}

/** What is wrong at and below `key`, as seen from there. */
function below(issues: readonly Issue[], key: string | number): readonly Issue[] {
  return issues.flatMap((i) => (i.path[0] === key ? [{ ...i, path: i.path.slice(1) }] : []));
}

/** zod's issues in words: each at its own place, with what would do there. */
function* faultsOfIssues(shape: Shape, node: TextNode, place: Place, issues: readonly Issue[]): Generator<Fault> {
  if (issues.length === 0) return;
  const { what } = place;
  const meant = pick(shape, node);
  if (!meant || (meant.type === 'record' ? 'map' : meant.type) !== node.type) {
    yield otherType(shape, node, place);
    return;
  }
  // Of a choice zod tells what is wrong with each; the one that is meant is asked alone.
  const own = meant === shape ? issues : issuesOf(meant, node);
  if (meant.type === 'scalar' && node.type === 'scalar') {
    yield scalarFault(meant, node.value, node.span, what);
  } else if (meant.type === 'list' && node.type === 'list') {
    for (const [i, item] of node.items.entries()) {
      const its = { what: `Item ${i + 1} of ${lower(what)}`, whole: item.span };
      yield* faultsOfIssues(meant.item, item, its, below(own, i));
    }
  } else if (meant.type === 'record' && node.type === 'map') {
    for (const e of node.entries) yield* valueFaults(meant.value, e, below(own, String(e.key.value)));
  } else if (meant.type === 'map' && node.type === 'map') yield* mapFaults(meant, node, place, own);
}

/** Braces or a list are wanted where a word stands, or the other way round. */
function otherType(shape: Shape, node: TextNode, { what, beside }: Place): Fault {
  const key = /^`([a-z-]+)`$/.exec(what)?.[1];
  const texts = key
    ? shape.type === 'map' && shape.keys.has('pitch')
      ? stepsOf(node)
      : everydayValue(node, key, beside)
    : [];
  if (texts.length > 0)
    return {
      message: `${texts[0]!.startsWith('[') ? `${what} is a list` : 'It has to say which is which'}. Write ${texts.map((t) => `\`${key}: ${t}\``).join(' or ')}.`,
      span: node.span,
      breaks: true,
      fixes: texts.map((text) => ({
        title: `Write \`${key}: ${text}\``,
        edits: [{ span: node.span, newText: text }],
        ...(texts.length > 1 && { equal: true as const }),
      })),
    };
  const only = onlyOf(shape, node);
  const more = only && { fixes: [replace(node.span, only)] };
  return {
    message: `${what} is ${found(node)}. Write ${only ? `\`${only}\`` : wanted(shape)}.`,
    span: node.span,
    breaks: true,
    ...more,
  };
}

/** The one item of a list where a single value is wanted. */
export function onlyOf(shape: Shape, node: TextNode): string | undefined {
  const [item, more] = node.type === 'list' ? node.items : [];
  return shape.type === 'scalar' && item?.type === 'scalar' && item.value !== null && !more ? item.source : undefined;
}

function* mapFaults(shape: MapShape, node: MapNode, place: Place, issues: readonly Issue[]): Generator<Fault> {
  const { what, whole } = place;
  const given = new Set(node.entries.map((e) => String(e.key.value)).filter((key) => shape.keys.has(key)));
  const missing = [...shape.keys.keys()].filter((key) => !given.has(key) && below(issues, key).length > 0);
  for (const e of node.entries) {
    const key = String(e.key.value);
    const known = shape.keys.get(key);
    if (known) yield* valueFaults(known.shape, e, below(issues, key), node);
  }
  const inside = standingInside(node, shape.keys, lower(what));
  for (const { into, message, span, fix } of inside) {
    yield { message, span, breaks: true, fixes: [fix] };
    given.add(into);
    if (missing.includes(into)) missing.splice(missing.indexOf(into), 1);
  }
  for (const e of node.entries) {
    const key = String(e.key.value);
    if (shape.keys.has(key) || inside.some((i) => i.entries.includes(e))) continue;
    const free = [...shape.keys.keys()].filter((k) => !given.has(k));
    const meant = everydayKey(e, free, node);
    const instead = insteadOfField(key, shape.keys);
    if (instead) {
      yield { message: `${what} has no field ${quote(key)}. ${instead}`, span: e.key.span, breaks: false };
      continue;
    }
    const like = meant?.key ?? nearest(key, free);
    yield meant?.value === undefined ? unknownKey(e, free, like, what) : otherKey(e, meant.key, meant.value, what);
    // The misspelled field is not missing as well.
    const at = like === undefined ? -1 : missing.indexOf(like);
    if (at >= 0) missing.splice(at, 1);
    if (like) given.add(like);
  }
  for (const key of missing) {
    const says = shape.keys.get(key)!.shape.meta;
    const eg = ` Write it like \`${key}: ${says.example ?? '…'}\`.`;
    yield {
      message: `${what} needs \`${key}\`: ${firstSentence(says.description)}${eg}`,
      span: whole,
      breaks: true,
      missing: [key],
    };
  }
  if (issues.some((i) => i.code === 'custom' && i.path.length === 0)) yield* groupFaults(shape, node, given, place);
}

function unknownKey(e: MapEntry, free: readonly string[], like: string | undefined, what: string): Fault {
  const key = quote(String(e.key.value));
  const { span } = e.key;
  if (like) {
    const message = `${what} has no field ${key}. Did you mean \`${like}\`?`;
    return { message, span, breaks: true, fixes: [replace(span, like)] };
  }
  const message = `${what} has no field ${key}.${alsoHas(free)}`;
  return { message, span, breaks: false };
}

/** The same thing by another key and another number. */
function otherKey(e: MapEntry, key: string, value: string, what: string): Fault {
  const text = `${key}: ${value}`;
  return {
    message: `${what} has no field ${quote(String(e.key.value))}. Write \`${text}\` here.`,
    span: e.key.span,
    breaks: true,
    fixes: [{ title: `Write \`${text}\``, edits: [{ span: e.span, newText: text }] }],
  };
}

const MOST_NAMED = 3;
/** What everything may have is named after what only this has. */
const COMMON: ReadonlySet<string> = new Set(['kind', 'face', 'from', 'at', 'tilt', 'pattern', 'note', 'finish']);

/** A few of the fields that are still free, its own before those that all have. */
export function alsoHas(free: readonly string[]): string {
  if (free.length === 0) return ' Delete it.';
  const own = free.filter((key) => !COMMON.has(key));
  const named = [...own, ...free.filter((key) => COMMON.has(key))].slice(0, MOST_NAMED);
  const more = free.length > named.length;
  return ` Delete it, or use ${more ? `another field, like ${listed(code(named))}` : listed(code(named))}.`;
}

function* groupFaults(
  shape: MapShape,
  node: MapNode,
  given: ReadonlySet<string>,
  { what, whole }: Place,
): Generator<Fault> {
  const { one = [], some = [] } = shape.meta;
  for (const group of [...one, ...some]) {
    const has = group.filter((k) => given.has(k));
    if (has.length === 0) {
      yield {
        message: `${what} needs ${fewOf(code(group))}. Write it like \`${group[0]}: ${shape.keys.get(group[0]!)?.shape.meta.example ?? '…'}\`.`,
        span: whole,
        breaks: true,
        missing: group,
      };
    } else if (has.length > 1 && one.includes(group)) {
      const second = node.entries.find((e) => String(e.key.value) === has[1]);
      const message = `${what} can have only one of ${fewOf(code(group), 'and')}. Delete \`${has[0]}\` or \`${has[1]}\`.`;
      yield { message, span: second?.key.span ?? whole, breaks: true };
    }
  }
}

function* valueFaults(shape: Shape, e: MapEntry, issues: readonly Issue[], beside?: MapNode): Generator<Fault> {
  if (issues.length === 0) return;
  const what = `\`${String(e.key.value)}\``;
  const { span } = e.key;
  if (!e.value || (e.value.type === 'scalar' && e.value.value === null)) {
    yield { message: `${what} has no value. Write ${wanted(shape)}.`, span, breaks: true };
  } else yield* faultsOfIssues(shape, e.value, { what, whole: span, ...(beside && { beside }) }, issues);
}

function scalarFault(shape: Shape & { type: 'scalar' }, value: unknown, span: Span, what: string): Fault {
  if (!shape.words)
    return {
      message: `${what} cannot be ${quote(typeof value === 'number' && !Number.isFinite(value) ? 'an endless number' : value)}. Write ${wanted(shape)}.`,
      span,
      breaks: true,
    };
  const word = String(value);
  const instead = insteadOfWord(word, shape.words);
  if (instead) return { message: `${what} cannot be ${quote(word)}. ${instead}`, span, breaks: true };
  const meant = everydayWord(word, shape.words);
  const near = meant.length > 0 ? undefined : nearest(word, shape.words);
  const ways = near ? [near] : meant;
  const asks = ways.length > 0 ? `Did you mean ${listed(code(ways))}?` : `Write ${fewOf(code(shape.words))}.`;
  const fixes = ways.map((to) => ({ ...replace(span, to), ...(ways.length > 1 && { equal: true as const }) }));
  return {
    message: `${what} cannot be ${quote(word)}. ${asks}`,
    span,
    breaks: true,
    ...(ways.length > 0 && { fixes }),
  };
}

/** More ways than these are not read at once. */
const MOST_WANTED = 3;

/** What a place needs, in words: `a length`, `entries`. */
export function formOf(shape: Shape): string {
  switch (shape.type) {
    case 'scalar':
      if (shape.words) return listed(code(shape.words));
      if (shape.meta.unit) {
        const what = { length: 'a length', angle: 'an angle', number: 'a number' }[shape.meta.unit];
        return listed([what, ...code(Object.keys(shape.meta.values ?? {}))]);
      }
      if (shape.meta.names) return 'a name';
      return shape.boolean ? 'a text' : 'a text or a number';
    case 'list':
      return 'a list';
    case 'record':
      return 'names with their values';
    case 'map':
      return 'entries';
    case 'choice':
      if (shape.meta.example?.startsWith('{')) return 'entries';
      return listed([...new Set(shape.options.map(formOf))].slice(0, MOST_WANTED));
    default:
      return shape satisfies never;
  }
}

/** The same with what shows it: ``a length like `12` ``, ``a map like `{ x: 60 }` ``. */
export function wanted(shape: Shape): string {
  if (shape.type === 'scalar' && shape.words) return fewOf(code(shape.words));
  const form = formOf(shape);
  const example = shape.meta.example ?? stopgap(shape);
  // A word that is an example stands there already.
  return example === undefined || form.includes(`\`${example}\``) ? form : `${form} like \`${example}\``;
}

/** What shows a form that has no example of its own. */
function stopgap(shape: Shape): string | undefined {
  if (shape.type === 'list') return '[ … ]';
  if (shape.type === 'record') return 'name: …';
  if (shape.type === 'map') return `{ ${[...shape.keys.keys()][0]}: … }`;
  if (shape.type === 'choice') return undefined;
  return shape.meta.unit === undefined && shape.meta.names === undefined ? '"…"' : undefined;
}

function found(node: TextNode): string {
  if (node.type === 'list') return 'a list';
  return node.type === 'map' ? 'a map' : quote(node.source);
}

/** The first sentence of a description, to stand behind a colon. */
function firstSentence(description = ''): string {
  const [whole = ''] = /^.*?[.!?](?= |$)/.exec(description) ?? [description];
  const first = lower(whole);
  return /[.!?]$/.test(first) ? first : `${first}.`;
}

function lower(what: string): string {
  return what.slice(0, 1).toLowerCase() + what.slice(1);
}

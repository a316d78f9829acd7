/**
 * Is a node what the schema wants at its place? Every fault is found at its own narrowest span, with the fields or words
 * that would do; what a value means (units, names, geometry) is no question here.
 */
import { memo } from '../../memo';
import { at, type MapEntry, type MapNode, type Span, type TextNode } from '../../text/tree';
import { pick } from '../schema/pick';
import type { Shape } from '../schema/shape';
import { code, listed, nearest, type ProblemFix, quote, replace } from './problem';

interface Fault {
  readonly message: string;
  readonly span: Span;
  /** False for a key that means nothing: the rest can still be understood without it. */
  readonly breaks: boolean;
  readonly fixes?: readonly ProblemFix[];
}

const none: readonly Fault[] = [];

/**
 * Faults of a node. `what` names the thing in messages (`A hole`); `whole` is where a missing
 * field is reported (the name of the feature, say).
 */
export function faultsOf(shape: Shape, node: TextNode, what: string, whole: Span = node.span): readonly Fault[] {
  return faultsIn(node, shape, what, whole);
}

const faultsIn = memo((node: TextNode, shape: Shape, what: string, whole: Span): readonly Fault[] => {
  if (sound(shape, node)) return none;
  const faults: Fault[] = [];
  judge(shape, node, what, whole, faults);
  return faults;
});

/** Whether there is nothing to say at all: the usual case, answered without a word. */
function sound(shape: Shape, node: TextNode): boolean {
  const meant = pick(shape, node);
  if (!meant) return false;
  if (node.type === 'scalar') return meant.type === 'scalar' && isOne(meant, node.value);
  if (node.type === 'list') return meant.type === 'list' && node.items.every((item) => sound(meant.item, item));
  if (meant.type === 'record') {
    return node.entries.every((e) => e.value !== undefined && sound(meant.value, e.value));
  }
  if (meant.type !== 'map') return false;
  for (const e of node.entries) {
    const field = meant.keys.get(String(e.key.value));
    if (!field || !e.value || !sound(field.shape, e.value)) return false;
  }
  for (const [key, { required }] of meant.keys) if (required && !at(node, key)) return false;
  const given = (group: readonly string[]) => group.reduce((n, key) => (at(node, key) ? n + 1 : n), 0);
  return (
    (meant.meta.one ?? []).every((group) => given(group) === 1) &&
    (meant.meta.some ?? []).every((group) => given(group) > 0)
  );
}

function isOne(shape: Shape & { type: 'scalar' }, value: unknown): boolean {
  if (shape.words) return shape.words.includes(String(value));
  const type = typeof value;
  return (
    (type === 'string' && shape.string) || (type === 'number' && shape.number) || (type === 'boolean' && shape.boolean)
  );
}

function judge(shape: Shape, node: TextNode, what: string, whole: Span, out: Fault[]): void {
  const meant = pick(shape, node);
  if (!meant || (meant.type === 'record' ? 'map' : meant.type) !== node.type) {
    out.push({ message: `${what} takes ${wanted(shape)}, not ${found(node)}.`, span: node.span, breaks: true });
    return;
  }
  if (meant.type === 'scalar' && node.type === 'scalar') {
    judgeScalar(meant, node.value, node.span, what, out);
  } else if (meant.type === 'list' && node.type === 'list') {
    for (const [i, item] of node.items.entries())
      judge(meant.item, item, `Item ${i + 1} of ${lower(what)}`, item.span, out);
  } else if (meant.type === 'record' && node.type === 'map') {
    for (const e of node.entries) judgeValue(meant.value, e, out);
  } else if (meant.type === 'map' && node.type === 'map') {
    judgeMap(meant, node, what, whole, out);
  }
}

function judgeMap(shape: Shape & { type: 'map' }, node: MapNode, what: string, whole: Span, out: Fault[]): void {
  const missing: string[] = [];
  const given = new Set<string>();
  for (const e of node.entries) {
    const key = String(e.key.value);
    const known = shape.keys.get(key);
    if (known) {
      given.add(key);
      judgeValue(known.shape, e, out);
    }
  }
  for (const [key, { required }] of shape.keys) if (required && !given.has(key)) missing.push(key);
  for (const e of node.entries) {
    const key = String(e.key.value);
    if (shape.keys.has(key)) continue;
    const like = nearest(
      key,
      [...shape.keys.keys()].filter((k) => !given.has(k)),
    );
    const fields = listed(code([...shape.keys.keys()].filter((k) => !given.has(k))), 'and');
    out.push({
      message: like
        ? `${what} has no field ${quote(key)}; \`${like}\` is meant, perhaps.`
        : `${what} has no field ${quote(key)}.${fields ? ` It may also have ${fields}.` : ''}`,
      span: e.key.span,
      breaks: like !== undefined,
      ...(like && { fixes: [replace(e.key.span, like)] }),
    });
    // The misspelled field is not missing as well.
    const at = like === undefined ? -1 : missing.indexOf(like);
    if (at >= 0) missing.splice(at, 1);
    if (like) given.add(like);
  }
  for (const key of missing) {
    const says = shape.keys.get(key)!.shape.meta;
    const eg = says.example ? ` For example \`${key}: ${says.example}\`.` : '';
    out.push({ message: `${what} needs \`${key}\`: ${sentence(says.description)}${eg}`, span: whole, breaks: true });
  }
  judgeGroups(shape, node, given, what, whole, out);
}

function judgeGroups(
  shape: Shape & { type: 'map' },
  node: MapNode,
  given: ReadonlySet<string>,
  what: string,
  whole: Span,
  out: Fault[],
): void {
  for (const group of [...(shape.meta.one ?? []), ...(shape.meta.some ?? [])]) {
    const has = group.filter((k) => given.has(k));
    if (has.length === 0) {
      out.push({ message: `${what} needs ${listed(code(group))}.`, span: whole, breaks: true });
    } else if (has.length > 1 && shape.meta.one?.includes(group)) {
      const second = node.entries.find((e) => String(e.key.value) === has[1]);
      const message = `${what} takes only one of ${listed(code(group), 'and')}; \`${has[0]}\` is given already.`;
      out.push({ message, span: second?.key.span ?? whole, breaks: true });
    }
  }
}

function judgeValue(shape: Shape, e: MapEntry, out: Fault[]): void {
  const what = `\`${String(e.key.value)}\``;
  if (!e.value || (e.value.type === 'scalar' && e.value.value === null)) {
    const eg = shape.meta.example ? `, for example \`${shape.meta.example}\`` : '';
    out.push({ message: `${what} has no value: it takes ${wanted(shape)}${eg}.`, span: e.key.span, breaks: true });
    return;
  }
  judge(shape, e.value, what, e.key.span, out);
}

function judgeScalar(shape: Shape & { type: 'scalar' }, value: unknown, span: Span, what: string, out: Fault[]): void {
  if (isOne(shape, value)) return;
  if (shape.words) {
    const word = String(value);
    const like = nearest(word, shape.words);
    const message = `${what} cannot be ${quote(word)}; it is ${listed(code(shape.words))}.`;
    out.push({ message, span, breaks: true, ...(like && { fixes: [replace(span, like)] }) });
    return;
  }
  out.push({ message: `${what} takes ${wanted(shape)}, not ${quote(value)}.`, span, breaks: true });
}

/** What a place takes, in words: `a length`, `a map with x, y, z`. */
export function wanted(shape: Shape): string {
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
      return `a list${shape.meta.example ? ` such as \`${shape.meta.example}\`` : ''}`;
    case 'record':
      return 'a map of names';
    case 'map':
      return shape.meta.example
        ? `a map such as \`${shape.meta.example}\``
        : `a map with ${listed(code(shape.keys.keys()), 'and')}`;
    case 'choice':
      return listed([...new Set(shape.options.map(wanted))]);
    default:
      return shape satisfies never;
  }
}

function found(node: TextNode): string {
  if (node.type === 'list') return 'a list';
  return node.type === 'map' ? 'a map' : quote(node.source);
}

function sentence(description = ''): string {
  const first = description.slice(0, 1).toLowerCase() + description.slice(1);
  return /[.!?]$/.test(first) ? first : `${first}.`;
}

function lower(what: string): string {
  return what.slice(0, 1).toLowerCase() + what.slice(1);
}

/** From a feature's entry to the feature: its schema by its kind, then the kind's own resolver. */
import { type MapEntry, type MapNode, type Span, scalarAt } from '../../text/tree';
import { calledOutAlone } from '../everyday/call-out';
import { plainWord } from '../everyday/everyday-words';
import { readingsOf } from '../everyday/feature';
import { everydayKind } from '../everyday/kind';
import { FACING } from '../everyday/kind-words';
import { mirrorKind } from '../everyday/mirror-words';
import type { Reading } from '../everyday/reading';
import { FEATURE_KINDS, type Feature, type FeatureKind, KINDS } from '../feature-kinds';
import { shapeOf } from '../schema/shape';
import { headOf } from './base';
import type { Evaluation } from './evaluation';
import { code, fewOf, listed, nearest, quote, replace } from './problem';
import { faultsOf } from './validate';

/** Undefined where it could not be understood; then `work` says why. */
export function featureOf(work: Evaluation, entry: MapEntry): Feature | undefined {
  const map = entry.value;
  if (map?.type !== 'map') {
    const such = map ? 'has no entries' : 'has no value';
    const text = map?.type === 'scalar' ? calledOutAlone(map.source) : undefined;
    if (text !== undefined)
      return work.fail(`A feature says where it is. Write it like \`${text}\`.`, map!.span, {
        fixes: [{ title: `Write \`${text}\``, edits: [{ span: map!.span, newText: text }] }],
      });
    return work.fail(
      `This feature ${such}. Write it like \`{ kind: hole, face: top, … }\`.`,
      map?.span ?? entry.key.span,
    );
  }
  const kindNode = scalarAt(map, 'kind');
  const written = KINDS.find((k) => k === kindNode?.value);
  const copied = kindNode && !written ? mirrorKind(entry) : undefined;
  if (copied) return work.fail(copied.message, kindNode!.span, { fixes: copied.fixes });
  const everyday = written ? undefined : everydayKind(map);
  const kind = written ?? everyday?.kind;
  if (!kind) return noKind(work, entry, map);
  tellFaults(work, entry, map, kind, everyday?.reading);
  if (work.broken) return undefined;
  const before = work.problems.length;
  const feature = FEATURE_KINDS[kind].resolve(work, headOf(entry, map), map);
  if (!work.broken) return feature;
  tellMeant(work, map, kind, before);
  return undefined;
}

/** What the schema finds wrong; what is an everyday way of writing is told as that. */
function tellFaults(work: Evaluation, entry: MapEntry, map: MapNode, kind: FeatureKind, everyday?: Reading): void {
  const what = `${/^[aeiou]/.test(kind) ? 'An' : 'A'} ${kind}`;
  const faults = faultsOf(shapeOf(FEATURE_KINDS[kind].schema), map, what, entry.key.span);
  if (faults.length === 0 && !everyday) return;
  const readings = [...(everyday ? [everyday] : []), ...readingsOf(map, kind, String(entry.key.value))];
  for (const { message, entries, gives, fixes, rule, remark } of readings) {
    const told = [message, spanOf(entries[0]!, gives), { fixes }, rule] as const;
    // A remark under another name says nothing of the shape.
    if (remark || (gives.every((key) => key === 'note') && gives.length > 0)) work.remark(...told);
    else work.fail(...told);
  }
  for (const f of faults) {
    if (readings.some((r) => covers(r, f))) continue;
    const more = f.fixes ? { fixes: f.fixes } : {};
    if (f.breaks) work.fail(f.message, f.span, more);
    else work.remark(f.message, f.span, more);
  }
}

/** Dimensions that could not be read, where an everyday way of writing explains them. */
function tellMeant(work: Evaluation, map: MapNode, kind: FeatureKind, before: number): void {
  for (const { message, entries, fixes, rule } of readingsOf(map, kind, '')) {
    const { span } = entries[0]!.value ?? entries[0]!.key;
    const at = work.problems.findIndex((p, i) => i >= before && touches(p.span, span));
    if (at >= 0) work.problems[at] = { ...work.problems[at]!, message, fixes, span, ...(rule && { rule }) };
  }
}

/** At the value where the key is right, else at the key. */
function spanOf({ key, value }: MapEntry, gives: readonly string[]): Span {
  return value && gives.includes(String(key.value)) ? value.span : key.span;
}

function touches(a: Span, b: Span): boolean {
  return a.block === b.block && a.from < b.to && b.from < a.to;
}

/** Whether a fault of the schema is what a reading explains. */
function covers({ entries, gives }: Reading, { span, missing }: ReturnType<typeof faultsOf>[number]): boolean {
  if (missing) return missing.some((key) => gives.includes(key));
  return entries.some((e) => e.span.from <= span.from && span.to <= e.span.to);
}

const MOST_KINDS = 4;

/** The kinds that have all the fields that are written and need no other; none where that says too little. */
function kindsOf(map: MapNode): readonly FeatureKind[] {
  const given = map.entries.map((e) => String(e.key.value));
  const fit = KINDS.filter((kind) => {
    const shape = shapeOf(FEATURE_KINDS[kind].schema);
    if (shape.type !== 'map') return false;
    const needed = [...shape.keys].filter(([key, { required }]) => required && key !== 'kind');
    const groups = [...(shape.meta.one ?? []), ...(shape.meta.some ?? [])];
    return (
      given.every((key) => shape.keys.has(key)) &&
      needed.every(([key]) => given.includes(key)) &&
      groups.every((group) => group.some((key) => given.includes(key)))
    );
  });
  return fit.length <= MOST_KINDS ? fit : [];
}

function noKind(work: Evaluation, entry: MapEntry, map: MapNode): undefined {
  const node = scalarAt(map, 'kind');
  const kinds = fewOf(code(KINDS));
  if (!node || node.value === null) {
    const ways = node ? [] : kindsOf(map);
    const asks =
      ways.length > 0
        ? `Write ${listed(code(ways.map((k) => `kind: ${k}`)))}.`
        : `Write it like \`kind: hole\`: ${kinds}.`;
    const fixes = ways.map((kind) => ({
      title: `Write \`kind: ${kind}\``,
      edits: [],
      added: [[map, 'kind', kind] as const],
      ...(ways.length > 1 && { equal: true as const }),
    }));
    return work.fail(`A feature needs its \`kind\`. ${asks}`, entry.key.span, ways.length > 0 ? { fixes } : {});
  }
  const word = String(node.value);
  if (FACING.has(plainWord(word)))
    return work.fail(
      'A whole face is milled where `stock` has `extra` on it, and is no feature. Delete this one.',
      node.span,
    );
  const like = nearest(word, KINDS);
  const more = like ? { fixes: [replace(node.span, like)] } : {};
  return work.fail(
    `${quote(word)} is not a kind of feature. ${like ? `Did you mean \`${like}\`?` : `Write ${kinds}.`}`,
    node.span,
    more,
  );
}

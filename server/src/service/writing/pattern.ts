/** Equal features as one with a pattern, and a pattern as features of their own. */
import type { Part } from '../../model/model';
import { partMentions } from '../../model/names';
import { addText, removeEntry, removeItem, setText } from '../../text/edit';
import { columnOf, eolOf, lineEndOf, spanAt } from '../../text/layout';
import { sameTree } from '../../text/same';
import {
  at,
  entry,
  type ListNode,
  type MapEntry,
  type MapNode,
  mapAt,
  type SpanEdit,
  type TextTree,
} from '../../text/tree';
import { scalarText } from '../../text/write';
import { patternText, placeText } from './arranged';
import { Draft, featureAt, type Rewriting, type Subject, spotAt } from './subject';

interface Found {
  readonly name: string;
  readonly map: MapNode;
}

export function patternRewritings(subject: Subject): readonly Rewriting[] {
  const spot = spotAt(subject);
  const found = featureAt(subject, spot);
  if (!found || spot.path.length > 3 || !subject.part.featureByName.has(found.name)) return [];
  return [...together(subject, found), ...apart(subject, found)];
}

const featuresOf = (tree: TextTree) => mapAt(tree.root, 'features')!;

/** But for their place they say the same. */
function isLike(a: MapNode, b: MapNode): boolean {
  const rest = (m: MapNode) => m.entries.filter((e) => e.key.value !== 'at' && e.key.value !== 'note');
  const [mine, theirs] = [rest(a), rest(b)];
  return (
    mapAt(b, 'at') !== undefined &&
    mine.length === theirs.length &&
    mine.every((e) => sameTree(e.value, entry(b, String(e.key.value))?.value) && entry(b, String(e.key.value)))
  );
}

function together({ tree, part }: Subject, { name, map }: Found): readonly Rewriting[] {
  if (!mapAt(map, 'at') || at(map, 'pattern') || at(map, 'edges')) return [];
  const names = featuresOf(tree)
    .entries.filter(
      (e) => e.value?.type === 'map' && part.featureByName.has(String(e.key.value)) && isLike(map, e.value),
    )
    .map((e) => String(e.key.value));
  if (names.length < 2 || !names.includes(name)) return [];
  const stem = stemOf(names, part);
  return [
    {
      id: 'one-pattern',
      title: `Make ${names.length} equal features one pattern: ${stem}`,
      kind: 'refactor.rewrite',
      keeps: 'members',
      of: [...names, stem],
      make: () => asOne({ tree, part }, names, stem),
    },
  ];
}

/** What their names begin with alike, where no other has it. */
function stemOf(names: readonly string[], part: Part): string {
  const [first = ''] = names;
  const stem = first.replace(/-?\d+$/, '');
  const isCommon = stem !== '' && names.every((n) => n.replace(/-?\d+$/, '') === stem);
  return isCommon && (names.includes(stem) || !part.featureByName.has(stem)) ? stem : first;
}

function asOne(
  { tree, part }: Pick<Subject, 'tree' | 'part'>,
  names: readonly string[],
  stem: string,
): string | { refused: string } {
  const all = names.map((n) => part.featureByName.get(n)!);
  const mentions = partMentions(tree).filter((m) => m.kind === 'feature' && names.includes(m.name) && !m.definition);
  const cuts = cutLists(tree).map((list) =>
    names.filter((n) => list.items.some((i) => i.type === 'scalar' && i.value === n)),
  );
  const touched = cuts.filter((c) => c.length > 0);
  if (touched.some((c) => c.length !== names.length))
    return { refused: `${names.join(', ')} are cut in different set-ups: one pattern is cut in one.` };
  const inCuts = new Set(cutLists(tree).flatMap((l) => l.items.map((i) => JSON.stringify(i.span))));
  const elsewhere = mentions.filter((m) => !inCuts.has(JSON.stringify(m.span)));
  const order =
    elsewhere.length > 0
      ? undefined
      : patternText(
          all.map((f) => f.places[0]!),
          all[0]!.face,
          part,
        );
  const written = order ?? { pattern: `{ places: [${names.map((n) => placeIn(tree, n)).join(', ')}] }`, at: undefined };
  const draft = new Draft(tree).make(() =>
    elsewhere.map(({ span, name }) => ({ span, newText: scalarText(`${stem}[${names.indexOf(name) + 1}]`) })),
  );
  for (const gone of names.slice(1)) {
    draft.make((t) => cutLists(t).flatMap((list) => cutOut(t, list, gone)));
    draft.make((t) => removeEntry(t, featuresOf(t), entry(featuresOf(t), gone)!));
  }
  const own = (t: TextTree) => mapAt(featuresOf(t), names[0]!)!;
  draft.make((t) =>
    written.at === undefined ? removeEntry(t, own(t), entry(own(t), 'at')!) : setText(t, own(t), 'at', written.at),
  );
  draft.make((t) => addText(t, own(t), 'pattern', written.pattern));
  return draft.make((t) => renamed(t, names[0]!, stem)).text;
}

function placeIn(tree: TextTree, name: string): string {
  const { start, end } = tree.locate(mapAt(mapAt(featuresOf(tree), name), 'at')!.span);
  return tree.text.slice(start, end);
}

function cutLists(tree: TextTree): readonly ListNode[] {
  const setups = mapAt(tree.root, 'setups');
  return (setups?.entries ?? []).flatMap(({ value }) => {
    const cuts = at(value, 'cuts');
    return cuts?.type === 'list' ? [cuts] : [];
  });
}

function cutOut(tree: TextTree, list: ListNode, name: string): readonly SpanEdit[] {
  const index = list.items.findIndex((i) => i.type === 'scalar' && i.value === name);
  return index < 0 ? [] : removeItem(tree, list, index);
}

function renamed(tree: TextTree, from: string, to: string): readonly SpanEdit[] {
  if (from === to) return [];
  return partMentions(tree)
    .filter((m) => m.kind === 'feature' && m.name === from)
    .map(({ span }) => ({ span, newText: to }));
}

function apart({ tree, part }: Subject, { name, map }: Found): readonly Rewriting[] {
  const pattern = mapAt(map, 'pattern');
  const feature = part.featureByName.get(name)!;
  if (!pattern || feature.places.length < 2) return [];
  const names = feature.places.map((_, i) => `${name}-${i + 1}`);
  if (names.some((n) => part.featureByName.has(n))) return [];
  return [
    {
      id: 'each-apart',
      title: `Make ${names.length} features of this pattern: ${names[0]} to ${names.at(-1)}`,
      kind: 'refactor.rewrite',
      keeps: 'members',
      of: [name, ...names],
      make: () => asMany({ tree, part }, { name, map }, names),
    },
  ];
}

function asMany(
  { tree, part }: Pick<Subject, 'tree' | 'part'>,
  { name, map }: Found,
  names: readonly string[],
): string | { refused: string } {
  const feature = part.featureByName.get(name)!;
  const listed = at(mapAt(map, 'pattern'), 'places');
  const places = feature.places.map((p, i) =>
    listed?.type === 'list' && listed.items[i] ? sliceOf(tree, listed.items[i]) : placeText(p, feature.face, part),
  );
  const lists = cutLists(tree);
  const inCuts = new Set(lists.flatMap((l) => l.items.map((i) => JSON.stringify(i.span))));
  const edits: SpanEdit[] = [];
  for (const m of partMentions(tree)) {
    if (m.kind !== 'feature' || m.name !== name || m.definition) continue;
    const { end } = tree.locate(m.span);
    const member = /^\[(\d+)\]/.exec(tree.text.slice(end));
    if (member) {
      const { block, from, to } = m.span;
      edits.push({ span: { block, from, to: to + member[0].length }, newText: names[Number(member[1]) - 1] ?? name });
    } else if (inCuts.has(JSON.stringify(m.span))) edits.push({ span: m.span, newText: inList(tree, m.span, names) });
    else return { refused: `Something else speaks of ${name} as one: it has to stay a pattern.` };
  }
  const copies = names.slice(1).map((n, i) => copyOf(tree, featuresOf(tree), name, [n, places[i + 1]!]));
  const draft = new Draft(tree).make(() => edits).make((t) => inserted(t, name, copies));
  const own = (t: TextTree) => mapAt(featuresOf(t), name)!;
  draft.make((t) => setText(t, own(t), 'at', places[0]!));
  draft.make((t) => removeEntry(t, own(t), entry(own(t), 'pattern')!));
  return draft.make((t) => renamed(t, name, names[0]!)).text;
}

/** Several names in the place of one in a list, between commas or on lines. */
function inList(tree: TextTree, span: MapEntry['span'], names: readonly string[]): string {
  const { start } = tree.locate(span);
  const line = tree.text.slice(0, start).slice(tree.text.lastIndexOf('\n', start - 1) + 1);
  return names.join(/^\s*-\s+$/.test(line) ? eolOf(tree.text) + line : ', ');
}

function sliceOf(tree: TextTree, node: { readonly span: MapEntry['span'] }): string {
  const { start, end } = tree.locate(node.span);
  return tree.text.slice(start, end).trimEnd();
}

/** The same feature by another name at another place, without its remarks. */
function copyOf(tree: TextTree, features: MapNode, of: string, [name, place]: readonly [string, string]): string {
  const whole = entry(features, of)!;
  const map = whole.value as MapNode;
  const indent = ' '.repeat(columnOf(tree.text, tree.locate(whole.key.span).start));
  const rest = map.entries.filter((e) => e.key.value !== 'at' && e.key.value !== 'pattern');
  const texts = rest.map((e) => sliceOf(tree, e));
  const after = rest.findIndex((e) => e.key.value === 'face' || e.key.value === 'from');
  texts.splice(after < 0 ? 1 : after + 1, 0, `at: ${place}`);
  if (map.flow) return `${indent}${name}: { ${texts.join(', ')} }`;
  const inner = ' '.repeat(columnOf(tree.text, tree.locate(map.entries[0]!.span).start));
  const eol = eolOf(tree.text);
  return [`${indent}${name}:`, ...texts.map((t) => inner + t)].join(eol);
}

function inserted(tree: TextTree, name: string, copies: readonly string[]): readonly SpanEdit[] {
  const { end } = tree.locate(entry(featuresOf(tree), name)!.span);
  const stop = tree.text[end - 1] === '\n' ? end - 1 : lineEndOf(tree.text, end);
  const eol = eolOf(tree.text);
  return [{ span: spanAt(tree, '', stop, stop), newText: copies.map((c) => eol + c).join('') }];
}

/** Where each line that begins an entry or an item goes, and what stands between its words. */
import type { MapEntry, MapNode, TextNode } from '../tree';
import { flowPlan, opened } from './flow';
import { lineAt, type Plan } from './plan';

/** A map in lines whose keys go to `column`; `path` leads to it. */
export function blockPlan(plan: Plan, map: MapNode, column: number, path: readonly string[]): void {
  for (const entry of map.entries) entryPlan(plan, entry, column, path);
}

function entryPlan(plan: Plan, entry: MapEntry, column: number, path: readonly string[]): void {
  const { tree, layout, edits } = plan;
  const { text } = tree;
  const key = tree.locate(entry.key.span);
  lead(plan, key.start, column);
  const colon = /^[ \t]*:/.exec(text.slice(key.end, key.end + 40));
  if (!colon) return;
  const after = key.end + colon[0].length;
  edits.push({ start: key.end, end: after, newText: ':' });
  const { value } = entry;
  if (!value) return;
  const own = [...path, String(entry.key.value)];
  const place = tree.locate(value.span);
  const isHere = !text.slice(after, place.start).includes('\n');
  if (value.type !== 'scalar' && !value.flow) {
    if (value.type === 'map') blockPlan(plan, value, column + layout.step, own);
    else listPlan(plan, value.items, column + layout.step, own);
    return;
  }
  if (
    value.type === 'map' &&
    isHere &&
    path.length === 1 &&
    layout.open.includes(path[0]!) &&
    opened(plan, value, after, column)
  )
    return;
  if (isHere) edits.push({ start: after, end: place.start, newText: ' ' });
  else if (/^\s*$/.test(text.slice(after, place.start))) edits.push({ start: after, end: place.start, newText: ' ' });
  valuePlan(plan, value, column, key.start);
}

/** A scalar or what stands in braces, behind a key or a dash that goes to `column`. */
function valuePlan(plan: Plan, value: TextNode, column: number, ownerStart: number): void {
  const { tree } = plan;
  const { start, end } = tree.locate(value.span);
  if (value.type === 'scalar') shifted(plan, start, end, column, ownerStart - lineAt(tree.text, ownerStart));
  else flowPlan(plan, value, column);
}

function listPlan(plan: Plan, items: readonly TextNode[], column: number, path: readonly string[]): void {
  const { tree, edits } = plan;
  const { text } = tree;
  for (const item of items) {
    const { start } = tree.locate(item.span);
    const dash = text.lastIndexOf('-', start - 1);
    if (dash < 0 || !/^-\s*$/.test(text.slice(dash, start))) continue;
    lead(plan, dash, column);
    edits.push({ start: dash + 1, end: start, newText: ' ' });
    if (item.type === 'map' && !item.flow) blockPlan(plan, item, column + 2, path);
    else if (item.type === 'list' && !item.flow) listPlan(plan, item.items, column + 2, path);
    else valuePlan(plan, item, column, dash);
  }
}

/** The blanks before the first word of a line; a word behind a dash keeps its own. */
function lead(plan: Plan, at: number, column: number): void {
  const { text } = plan.tree;
  const start = lineAt(text, at);
  const before = text.slice(start, at);
  if (/^[- ]*$/.test(before) && before.includes('-')) {
    // Behind a dash: as far in as that, and the dash's line is settled.
    plan.columns.set(at, [at - start, column]);
    return;
  }
  if (!/^[ \t]*$/.test(before)) return;
  plan.columns.set(start, [at - start, column]);
  plan.edits.push({ start, end: at, newText: ' '.repeat(column) });
}

/**
 * A text of several lines stands a step in from its key, its lines to each other as they were; one that says itself how far in
 * it stands moves with its key.
 */
function shifted(plan: Plan, start: number, end: number, column: number, was: number): void {
  const { text } = plan.tree;
  const own = text.slice(start, end);
  if (!own.includes('\n')) return;
  plan.kept.push([start, end]);
  const lines = own.match(/(?<=\n) *(?=[^\s])/g) ?? [];
  const least = Math.min(...lines.map((l) => l.length));
  const by = /^[|>][+-]?[1-9]/.test(own) ? column - was : column + plan.layout.step - least;
  for (let line = text.indexOf('\n', start) + 1; line > 0 && line < end; line = text.indexOf('\n', line) + 1) {
    plan.taken.add(line);
    const blanks = /^ */.exec(text.slice(line, end))![0].length;
    const isEmpty = /^ *\r?(?:\n|$)/.test(text.slice(line, end));
    if (!isEmpty) plan.edits.push({ start: line, end: line + blanks, newText: ' '.repeat(Math.max(0, blanks + by)) });
  }
}

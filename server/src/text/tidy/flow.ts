/** What stands in braces and brackets: one space between its words, and over several lines each a step in. */
import { commentsOf } from '../comments';
import type { ListNode, MapNode, TextNode } from '../tree';
import { lineAt, type Plan } from './plan';

/** `column`: where the line that it begins on goes. */
export function flowPlan(plan: Plan, node: MapNode | ListNode, column: number): void {
  const { tree, layout } = plan;
  const { text } = tree;
  const { start, end } = tree.locate(node.span);
  const [open, close] = node.type === 'map' ? '{}' : '[]';
  // YAML also knows a map of one entry without braces, inside brackets.
  if (text[start] !== open || text[end - 1] !== close) {
    inner(plan, node, column);
    return;
  }
  const members = node.type === 'map' ? node.entries : node.items;
  const pad = node.type === 'map' && members.length > 0 ? ' ' : '';
  let from = start + 1;
  members.forEach((member, i) => {
    const place = tree.locate(member.span);
    gap(plan, from, place.start, i === 0 ? pad : ', ', column + layout.step);
    from = place.end;
  });
  gap(plan, from, end - 1, pad, column);
  inner(plan, node, column);
}

function inner(plan: Plan, node: MapNode | ListNode, column: number): void {
  const { tree, edits } = plan;
  const into = (value: TextNode | undefined) => {
    if (!value) return;
    const { start, end } = tree.locate(value.span);
    if (value.type !== 'scalar') flowPlan(plan, value, lineColumn(plan, start, column));
    else if (tree.text.slice(start, end).includes('\n')) keep(plan, start, end);
  };
  if (node.type === 'list') {
    for (const item of node.items) into(item);
    return;
  }
  for (const { key, value } of node.entries) {
    into(value);
    if (!value) continue;
    const [from, to] = [tree.locate(key.span).end, tree.locate(value.span).start];
    if (/^[ \t]*:[ \t]*$/.test(tree.text.slice(from, to))) edits.push({ start: from, end: to, newText: ': ' });
  }
}

/** Where the line of an offset goes: that of an inner line was settled on the way. */
function lineColumn(plan: Plan, at: number, column: number): number {
  const line = lineAt(plan.tree.text, at);
  return plan.columns.get(line)?.[1] ?? column;
}

/** Lines that are nobody's to move. */
function keep(plan: Plan, start: number, end: number): void {
  const { text } = plan.tree;
  plan.kept.push([start, end]);
  for (let line = text.indexOf('\n', start) + 1; line > 0 && line < end; line = text.indexOf('\n', line) + 1)
    plan.taken.add(line);
}

/** Between two words: on one line as is meant there, over several only how far in each line begins. */
function gap(plan: Plan, from: number, to: number, meant: string, column: number): void {
  const { text } = plan.tree;
  const between = text.slice(from, to);
  if (!between.includes('\n')) {
    if (/^[ \t]*,?[ \t]*$/.test(between)) plan.edits.push({ start: from, end: to, newText: meant });
    return;
  }
  for (let line = text.indexOf('\n', from) + 1; line > 0 && line <= to; line = text.indexOf('\n', line) + 1) {
    const blanks = /^[ \t]*/.exec(text.slice(line, to))![0].length;
    plan.taken.add(line);
    if (/^[ \t]*\r?\n/.test(text.slice(line, to + 1))) continue;
    plan.columns.set(line, [blanks, column]);
    plan.edits.push({ start: line, end: line + blanks, newText: ' '.repeat(column) });
  }
}

/** Braces opened into lines, where nothing but entries stands in them; answers whether. */
export function opened(plan: Plan, map: MapNode, after: number, column: number): boolean {
  const { tree, edits, layout } = plan;
  const { text } = tree;
  const { start, end } = tree.locate(map.span);
  const inside = text.slice(start, end);
  if (map.entries.length === 0 || map.entries.some((e) => !e.value) || commentsOf(inside).length > 0) return false;
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const line = eol + ' '.repeat(column + layout.step);
  const rest = /^[ \t]*(#[^\r\n]*)?/.exec(text.slice(end))!;
  edits.push({ start: after, end: start + 1, newText: rest[1] ? ` ${rest[1].trimEnd()}` : '' });
  let from = start + 1;
  for (const entry of map.entries) {
    const place = tree.locate(entry.span);
    edits.push({ start: from, end: place.start, newText: line });
    from = place.end;
    flowed(plan, entry.value!, column + layout.step);
    const [a, b] = [tree.locate(entry.key.span).end, tree.locate(entry.value!.span).start];
    edits.push({ start: a, end: b, newText: ': ' });
  }
  edits.push({ start: from, end: end + (rest[1] ? rest[0].trimEnd().length : 0), newText: '' });
  for (let at = text.indexOf('\n', start) + 1; at > 0 && at < end; at = text.indexOf('\n', at) + 1) plan.taken.add(at);
  return true;
}

function flowed(plan: Plan, value: TextNode, column: number): void {
  if (value.type !== 'scalar') flowPlan(plan, value, column);
}

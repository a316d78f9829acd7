/**
 * A text laid out anew: one step a level, one fact a line, one space where one is meant. Only blanks and line ends between
 * words are touched; every word, every comment and every line of a remark stays. What comes out is read again and must
 * say the same, or nothing is touched and why is told.
 */
import { commentsOf } from '../comments';
import { applyEdits } from '../edit';
import { readText } from '../read';
import { sameTree } from '../same';
import type { TextEdit, TextTree } from '../tree';
import { blockPlan } from './blocks';
import { emptyLines, trailing } from './lines';
import type { Layout, Plan } from './plan';

export type { Layout };

/** Either the edits, none where nothing is to change, or a sentence why the text is left as it is. */
type Tidied = { readonly edits: readonly TextEdit[] } | { readonly refused: string };

export function tidied(tree: TextTree, layout: Layout): Tidied {
  const edits = editsFor(tree, layout);
  if (typeof edits === 'string') return { refused: edits };
  return saysTheSame(tree, edits) ? { edits } : { refused: NOT_KEPT };
}

/** As little of it as touches the lines from `start` to `end` (offsets) and says the same. */
export function tidiedWithin(tree: TextTree, layout: Layout, start: number, end: number): Tidied {
  const all = editsFor(tree, layout);
  if (typeof all === 'string') return { refused: all };
  for (const [from, to] of widening(tree, start, end)) {
    const edits = all.filter((e) => e.start >= from && e.end <= to);
    if (edits.length > 0 && saysTheSame(tree, edits)) return { edits };
    if (edits.length === 0) return { edits };
  }
  return { refused: NOT_KEPT };
}

const NOT_KEPT =
  'The text was left as it is: laid out anew it would not say the same. Put lists and braces that go over several lines in order by hand.';

function editsFor(tree: TextTree, layout: Layout): readonly TextEdit[] | string {
  const [problem] = tree.problems;
  if (problem) return `The text was left as it is until it can be read. ${problem.message}`;
  if (!tree.root) return [];
  const plan: Plan = { tree, layout, edits: [], columns: new Map(), taken: new Set(), kept: [] };
  blockPlan(plan, tree.root, 0, []);
  trailing(plan);
  emptyLines(plan);
  return plan.edits
    .filter((e) => tree.text.slice(e.start, e.end) !== e.newText)
    .sort((a, b) => a.start - b.start || a.end - b.end);
}

function saysTheSame(tree: TextTree, edits: readonly TextEdit[]): boolean {
  if (edits.length === 0) return true;
  if (edits.some((e, i) => i > 0 && e.start < edits[i - 1]!.end)) return false;
  const text = applyEdits(tree.text, edits);
  const after = readText(text);
  const [was, is] = [commentsOf(tree.text), commentsOf(text)];
  return (
    after.problems.length === 0 &&
    was.length === is.length &&
    was.every((c, i) => c === is[i]) &&
    sameTree(tree.root, after.root)
  );
}

/** The lines themselves, the entry of a section that they are in, the section, the whole. */
function* widening({ text, root, locate }: TextTree, start: number, end: number): Generator<readonly [number, number]> {
  const from = text.lastIndexOf('\n', start - 1) + 1;
  const stop = text.indexOf('\n', Math.max(from, end - 1));
  const to = stop < 0 ? text.length : stop + 1;
  yield [from, to];
  const sections = (root?.entries ?? []).map((e) => ({ e, ...locate(e.span) }));
  const touched = sections.filter((s) => s.start < to && s.end >= from);
  const inner = touched.flatMap(({ e }) =>
    e.value?.type === 'map' && !e.value.flow
      ? e.value.entries.map((i) => locate(i.span)).filter((i) => i.start < to && i.end >= from)
      : [],
  );
  for (const level of [inner, touched]) {
    if (level.length === 0) continue;
    const first = Math.min(from, ...level.map((l) => text.lastIndexOf('\n', l.start - 1) + 1));
    yield [first, Math.max(to, ...level.map((l) => l.end + 1))];
  }
  yield [0, text.length];
}

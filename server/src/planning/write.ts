/** A plan as text: `setups:` as a careful author would have written it, in the document's units and layout. */
import type { Part, Setup } from '../model/model';
import { setupLines } from '../rules/kit/write-setup';
import { commentsBeside } from '../text/comments';
import { eolOf, lineEndOf, stepOf } from '../text/layout';
import { entry, type SpanEdit, scalarAt, type TextNode, type TextTree } from '../text/tree';
import { flowText } from '../text/write';
import { withWritten } from './keep-written';

/**
 * The edits that write these setups into a part's text, in the place of those that are there; the comments that stood
 * among them stay, above, and each note with the set-up of its name, or as a comment where that is another now; so does all
 * else that a plan says nothing of. None for a text that is no map of lines.
 */
export function writeSetups(planned: readonly Setup[], part: Part, tree: TextTree): readonly SpanEdit[] {
  const { root, text } = tree;
  if (root?.type !== 'map' || root.flow) return [];
  const eol = eolOf(text);
  const step = ' '.repeat(stepOf(tree));
  const old = entry(root, 'setups');
  const notes = notesOf(old?.value);
  const { setups, remarks } = withWritten(planned, part);
  const stays = ({ name, up }: Setup) => notes.find((n) => n.name === name && n.up === up?.name);
  const lines = setups.flatMap((setup) => [
    ...setupLines(setup, part, step),
    ...(stays(setup) ? [`${step}${step}note: ${flowText(stays(setup)!.note)}`] : []),
  ]);
  if (!old) {
    // Blank lines between sections are kept up where there are any.
    const gap = new RegExp(`${eol}${eol}features:`).test(text) ? eol : '';
    const end = text.trimEnd().length;
    const rest = text.slice(end).trim() === '' ? text.length : end;
    const newText = `${eol}${gap}${['setups:', ...lines].join(eol)}${eol}`;
    return [{ span: { block: '', from: end, to: rest }, newText }];
  }
  const from = tree.locate(old.key.span).start;
  const to = lineEndOf(
    text,
    Math.max(tree.locate(old.key.span).end, old.value ? endOf(tree.locate(old.value.span).end, text) : 0),
  );
  const comments = [...commentsBeside(tree, old.value, tree.locate(old.key.span).end, to)];
  for (const { name, note } of notes.filter((n) => !setups.some((s) => stays(s) === n)))
    comments.push(...note.split(/\r?\n/).map((line) => `# ${name}: ${line}`.trimEnd()));
  comments.push(...remarks.map((remark) => `# ${remark}`));
  const newText = ['setups:', ...comments.map((c) => step + c), ...lines].join(eol);
  return [{ span: { block: '', from, to }, newText }];
}

interface Note {
  readonly name: string;
  readonly up: string | undefined;
  readonly note: string;
}

/** What people wrote for whoever sets it up. */
function notesOf(setups: TextNode | undefined): readonly Note[] {
  if (setups?.type !== 'map') return [];
  return setups.entries.flatMap(({ key, value }) => {
    const note = scalarAt(value, 'note');
    if (!note || note.value === null) return [];
    const up = scalarAt(value, 'up')?.value;
    const text = note.quoted ? String(note.value) : note.source;
    return [{ name: String(key.value), up: up === undefined ? undefined : String(up), note: text.trimEnd() }];
  });
}

/** A value in block style may count its last line's end as its own. */
function endOf(end: number, text: string): number {
  let at = end;
  while (at > 0 && /\s/.test(text[at - 1]!)) at--;
  return at;
}

/** Edits that move a name from one set-up's list of cuts to another's end. */
import type { CutEntry, Setup } from '../../model/model';
import { eolOf, lineEndOf, lineStartOf } from '../../text/layout';
import { at, entry, scalarAt, type TextTree } from '../../text/tree';
import { documentSpan, removeItem } from './edits';
import type { RuleContext, SpanEdit } from './rule';

/** An entry of `cuts` as it is written: a name, or the map that says how far down. */
export function textOfCut({ whole, span, name }: CutEntry, tree: TextTree): string {
  if (!whole) return name;
  const { start, end } = tree.locate(whole ?? span);
  const text = tree.text.slice(start, end).trimEnd();
  // A map on lines of its own goes into braces, to stand anywhere.
  return text.startsWith('{')
    ? text
    : `{ ${text
        .split(/\r?\n/)
        .map((line) => line.replace(/\s#.*$/, '').trim())
        .filter(Boolean)
        .join(', ')} }`;
}

/** Adds a name to the end of a list in braces or lines; where the part is sawn off last, before that. */
export function append({ tree }: RuleContext, setup: string, name: string): SpanEdit | undefined {
  const cuts = at(at(at(tree.root, 'setups'), setup), 'cuts');
  const last = cuts?.type === 'list' ? cuts.items[cuts.items.length - 1] : undefined;
  if (cuts?.type !== 'list' || !last) return undefined;
  const { start, end } = tree.locate(last.span);
  if (scalarAt(last, 'by')) return before(tree, start, name);
  if (cuts.flow) return { span: documentSpan(end, end), newText: `, ${name}` };
  const lead = tree.text.slice(lineStartOf(tree.text, start), start);
  const place = lineEndOf(tree.text, end);
  return { span: documentSpan(place, place), newText: `${eolOf(tree.text)}${lead}${name}` };
}

/** A name put in before an entry that begins there. */
export function before({ text }: TextTree, start: number, name: string): SpanEdit {
  const lead = text.slice(lineStartOf(text, start), start);
  const newText = /^\s*-\s*$/.test(lead) ? `${name}${eolOf(text)}${lead}` : `${name}, `;
  return { span: documentSpan(start, start), newText };
}

/** Takes a name off the list of what a set-up cuts. */
export function takeOff({ tree }: RuleContext, setup: Setup, name: string): readonly SpanEdit[] | undefined {
  const owner = entry(at(at(tree.root, 'setups'), setup.name), 'cuts');
  const index = setup.cuts.findIndex((c) => c.name === name);
  if (!owner || index < 0 || setup.cuts.length < 2) return undefined;
  return removeItem(tree, owner, index);
}

/** Both; undefined where one cannot be done. */
export function moveCut(context: RuleContext, from: Setup, to: Setup, name: string): readonly SpanEdit[] | undefined {
  const entry = from.cuts.find((c) => c.name === name);
  const added = append(context, to.name, entry ? textOfCut(entry, context.tree) : name);
  const taken = takeOff(context, from, name);
  return added && taken && [added, ...taken];
}

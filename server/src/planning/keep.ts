/**
 * When a plan is not written into a text: while something in the text could not be read, for what a person wrote there
 * would be taken for nothing; and wherever the new set-ups would drop a set-up, an entry of `cuts` or a comment.
 */

import { featureNameOf } from '../model/member-name';
import { type CutEntry, FACES, type Part, type Setup } from '../model/model';
import { resolvePart } from '../model/part';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { commentsOf } from '../text/comments';
import { applyEdits, locateEdits } from '../text/edit';
import { readText } from '../text/read';
import { at, mapAt, type Span, type SpanEdit, scalarAt, type TextTree } from '../text/tree';
import type { Plan } from './plan';
import { writeSetups } from './write';

const UNREAD: ReadonlySet<string> = new Set(['form/schema', 'form/unit', 'form/unknown-name', 'form/hash-comment']);

/**
 * What of the text a plan knows nothing of, a line each: errors that hide something, and features without a shape. While
 * there is any, no number of set-ups is proven, and none is written. `findings`: all that is said of the text.
 */
export function hiddenIn(checked: CheckedPart, findings: readonly Finding[] = checked.findings): readonly string[] {
  const { part, solid, tree } = checked;
  const line = ({ span }: { readonly span: Span }) =>
    `line ${tree.text.slice(0, tree.locate(span).start).split('\n').length}: `;
  const told = (f: Finding) => `${line(f)}${f.message} [${f.rule}]`;
  const errors = findings.filter((f) => f.severity === 'error');
  const shapeless = (mapAt(tree.root, 'features')?.entries ?? [])
    .map(({ key }) => ({ name: String(key.value), span: key.span }))
    .filter(({ name }) => !part.featureByName.has(name) || solid.voidsOf(name).length === 0)
    .map(({ name, span }) => {
      const why = errors.find((f) => f.of.includes(name) || f.span.block === span.block);
      return why ? told(why) : `${line({ span })}the shape of \`${name}\` could not be worked out.`;
    });
  return [...new Set([...errors.filter((f) => UNREAD.has(f.rule)).map(told), ...shapeless])];
}

/** The first, and how many more. */
export function hiddenText([first = '', ...others]: readonly string[]): string {
  return others.length > 0 ? `${first} And ${others.length} more.` : first;
}

/** Why no plan is written then. */
export function notRead(hidden: readonly string[]): string {
  return `The set-ups are left as they are until the text can be read: ${hiddenText(hidden)}`;
}

interface Written {
  readonly edits: readonly SpanEdit[];
  /** The whole text with the plan in it. */
  readonly text: string;
  readonly kept?: undefined;
}
/** Why nothing is written: a word for the program, and a sentence. */
interface Kept {
  readonly kept: 'unread' | 'uncut' | 'nothing' | 'same' | 'lost';
  readonly why: string;
}

/** The edits that write a plan into its part's text. `findings`: all that is said of it. */
export function writePlan(
  plan: Plan,
  checked: CheckedPart,
  findings: readonly Finding[] = checked.findings,
): Written | Kept {
  const keep = (kept: Kept['kept'], why: string) => ({ kept, why: `The set-ups are left as they are: ${why}` });
  const { part, tree } = checked;
  const hidden = hiddenIn(checked, findings);
  if (hidden.length > 0) return { kept: 'unread', why: notRead(hidden) };
  if (plan.uncut.length > 0) return keep('uncut', 'the plan does not cut all of the part.');
  if (plan.setups.length === 0) return keep('nothing', 'there is nothing to cut.');
  const setups = plan.setups.map((s) => s.setup);
  const lost = lostFrom(setups, part, tree);
  if (lost) return keep('lost', `${lost} would be lost.`);
  const edits = writeSetups(setups, part, tree);
  if (edits.length === 0)
    return keep('lost', 'they are put only into a text with a line for each key, not into braces.');
  const text = applyEdits(tree.text, locateEdits(tree, edits));
  if (text === tree.text) return keep('same', 'they are this plan.');
  if (!readsAs(setups, text, tree)) return keep('lost', 'the text could not be read with them in it.');
  const gone = lostComment(tree.text, text);
  return gone ? keep('lost', `the comment \`${gone}\` would be lost.`) : { edits, text };
}

/** A set-up that was written and not read, or an entry of `cuts` that is no face and is not cut by the plan. */
function lostFrom(setups: readonly Setup[], part: Part, tree: TextTree): string | undefined {
  const written = at(tree.root, 'setups');
  if (!written || (written.type === 'scalar' && written.value === null)) return undefined;
  if (written.type !== 'map') return 'what is written under `setups`';
  const read = new Set(part.setups?.map((s) => s.name));
  const cut = new Set(setups.flatMap((s) => s.cuts.map((c) => featureNameOf(c.name))));
  for (const { key, value } of written.entries) {
    if (!read.has(String(key.value))) return `set-up \`${key.source}\``;
    const cuts = at(value, 'cuts');
    const names = cuts?.type === 'list' ? cuts.items : cuts ? [cuts] : [];
    for (const node of names) {
      const named = node.type === 'scalar' ? node : scalarAt(node, 'cut');
      if (!named) return `an entry of \`cuts\` in \`${key.source}\``;
      const name = featureNameOf(named.source);
      const face = !part.featureByName.has(name) && FACES.some((f) => f === name);
      if (!face && !cut.has(name)) return `\`${named.source}\` in \`cuts\` of \`${key.source}\``;
    }
  }
  return undefined;
}

/** Whether the text is whole with these set-ups in it, and says just these. */
function readsAs(setups: readonly Setup[], text: string, { others }: TextTree): boolean {
  const tree = readText(text, undefined, others);
  const part = resolvePart(tree);
  const deep = ({ depth }: CutEntry) => (depth === undefined || depth === 'half' ? depth : depth.mm.toFixed(3));
  const saw = ({ sawnOff }: Setup) => sawnOff && `saw ${sawnOff.name} ${(sawnOff.leave?.mm ?? 0).toFixed(3)}`;
  const said = (all: readonly Setup[] | undefined) =>
    all?.map((s) => [s.name, ...s.cuts.flatMap((c) => [c.name, deep(c)]), saw(s)].join(' '));
  const wrong = [...tree.problems, ...part.problems.filter((p) => UNREAD.has(p.rule))];
  return wrong.length === 0 && said(part.setups)?.join('\n') === said(setups)?.join('\n');
}

function lostComment(before: string, after: string): string | undefined {
  const kept = new Map<string, number>();
  for (const comment of commentsOf(after)) kept.set(comment, (kept.get(comment) ?? 0) + 1);
  return commentsOf(before).find((comment) => {
    const n = kept.get(comment) ?? 0;
    kept.set(comment, n - 1);
    return n === 0;
  });
}

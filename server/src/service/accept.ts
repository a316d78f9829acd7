/** The offer to take a finding back: an entry under `accept:`, tried like any fix, whose reason is left open for typing. */

import { canBeAccepted } from '../rules/accept';
import { wouldCure } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding, Fix } from '../rules/kit/rule';
import { at } from '../text/tree';
import type { CodeAction, SnippetEdit, WorkspaceEdit } from './shapes';

/** Something runs into something: told with what would do, and no matter of taste. */
const COLLISIONS: ReadonlySet<string> = new Set([
  'access/holder',
  'access/jaw',
  'access/no-tool',
  'access/reach',
  'hold/clamps',
  'hold/drills-the-parallels',
  'hold/in-the-cut',
  'hold/cut-free',
  'hold/screws',
  'hole/out-of-reach',
]);

/** Whether a finding is of something that runs into something, or that nothing gets to; a hint is no such thing. */
export function isCollision({ rule, severity }: Pick<Finding, 'rule' | 'severity'>): boolean {
  return severity !== 'hint' && COLLISIONS.has(rule);
}

/** The entry where it takes the finding away and brings no error; on a collision never as all that is offered. */
export function acceptOffered(checked: CheckedPart, finding: Finding, others: number): Fix | undefined {
  if (others === 0 && isCollision(finding)) return undefined;
  const accept = addAccept(checked, finding);
  return accept && wouldCure(checked, finding, accept) ? accept : undefined;
}

/** Actions as an editor takes them: where it can place the cursor, with the cursor where a reason goes. */
export function asOffered(actions: readonly CodeAction[], { snippets }: { readonly snippets: boolean }): CodeAction[] {
  return snippets ? actions.map(asSnippet) : [...actions];
}

/** With the cursor between the quotes where the reason goes, for an editor that can place it. */
export function asSnippet(action: CodeAction): CodeAction {
  const [uri, edits] = Object.entries(action.edit?.changes ?? {})[0] ?? [];
  const [edit, ...more] = edits ?? [];
  if (!uri || !edit || more.length > 0 || !edit.newText.includes(OPEN_REASON)) return action;
  const literal = edit.newText.replace(/[\\$}]/g, '\\$&');
  const value = literal.replace('because: ""', 'because: "$0"');
  const snippet: SnippetEdit = { range: edit.range, snippet: { kind: 'snippet', value } };
  const changed: WorkspaceEdit = { documentChanges: [{ textDocument: { uri, version: null }, edits: [snippet] }] };
  return { ...action, edit: changed };
}
const OPEN_REASON = 'because: ""';

/** The edit that adds the entry; undefined where the rule cannot be accepted or the list is not written line by line. */
export function addAccept(checked: CheckedPart, finding: Finding): Fix | undefined {
  if (!canBeAccepted(finding.rule)) return undefined;
  const { tree } = checked;
  const eol = tree.text.includes('\r\n') ? '\r\n' : '\n';
  const of = finding.of[0];
  const item = `- { rule: ${finding.rule}${of === undefined ? '' : `, of: ${quoted(of)}`}, because: "" }`;
  const list = at(tree.root, 'accept');
  if (list && (list.type !== 'list' || list.flow || list.items.length === 0)) return undefined;
  const title = `Accept ${finding.rule}${of === undefined ? '' : ` of ${of}`}, and say why`;
  if (!list) {
    const lead = tree.text === '' || tree.text.endsWith('\n') ? '' : eol;
    const end = tree.text.length;
    return {
      title,
      safe: false,
      edits: [{ span: { block: '', from: end, to: end }, newText: `${lead}${eol}accept:${eol}  ${item}${eol}` }],
    };
  }
  const last = tree.locate(list.items.at(-1)!.span);
  const lineStart = tree.text.lastIndexOf('\n', last.start - 1) + 1;
  const indent = /^[ ]*/.exec(tree.text.slice(lineStart))![0];
  const lineEnd = tree.text.indexOf('\n', last.end);
  const insert = lineEnd < 0 ? tree.text.length : lineEnd + 1;
  const lead = lineEnd < 0 ? eol : '';
  return {
    title,
    safe: false,
    edits: [{ span: { block: '', from: insert, to: insert }, newText: `${lead}${indent}${item}${eol}` }],
  };
}

/** In braces a member's brackets must be quoted: `"mount[2]"`. */
function quoted(name: string): string {
  return /^[a-z0-9-]+$/.test(name) ? name : JSON.stringify(name);
}

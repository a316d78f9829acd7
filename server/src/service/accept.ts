/** The offer to take a finding back: an entry under `accept:` with a place for the reason. */
import { canBeAccepted } from '../rules/accept';
import type { CheckedPart } from '../rules/check';
import type { Finding, Fix } from '../rules/rule';
import { at } from '../text/tree';

/** The edit that adds the entry; undefined where the rule cannot be accepted or the list is not written line by line. */
export function addAccept(checked: CheckedPart, finding: Finding): Fix | undefined {
  if (!canBeAccepted(finding.rule)) return undefined;
  const { tree } = checked;
  const eol = tree.text.includes('\r\n') ? '\r\n' : '\n';
  const of = finding.of[0];
  const item = `- { rule: ${finding.rule}${of === undefined ? '' : `, of: ${quoted(of)}`}, because: known and wanted }`;
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

/** Quick fixes, each tried before it is offered, and the fix-all for those that change nothing about the part. */

import { fixAllSafe, fixesFor } from '../rules/check';
import type { Finding, Fix } from '../rules/kit/rule';
import { acceptOffered } from './accept';
import { diagnosticOf } from './diagnostics';
import { editsOf, overlaps, rangeBetween, rangeOf } from './lsp';
import { planMayCure, planOffered } from './plan/offered';
import type { CodeAction, Diagnostic, Range } from './shapes';
import type { PartSnapshot, Snapshot } from './snapshot';

export { asOffered } from './accept';
export const FIX_ALL = 'source.fixAll.scribeline';

/** How many findings under a selection are tried for fixes: each trial judges the part again. */
const MOST_FINDINGS = 25;

/** Fixes for the findings that touch a range; `only` names the kinds of action that were asked for. */
export function actionsOf(snapshot: Snapshot, range: Range, only?: readonly string[]): CodeAction[] {
  const wanted = (kind: string) => !only || only.some((o) => kind === o || kind.startsWith(`${o}.`));
  const actions: CodeAction[] = [];
  if (wanted('quickfix')) {
    const under = snapshot.findings
      .filter((finding) => overlaps(rangeOf(snapshot, finding.span), range))
      .slice(0, MOST_FINDINGS);
    for (const finding of under) actions.push(...quickFixes(snapshot, finding, diagnosticOf(snapshot, finding)));
  }
  if (only && snapshot.kind === 'part' && wanted(FIX_ALL)) actions.push(...fixAll(snapshot));
  return actions;
}

/** The tried fixes, then a plan, then *Accept*. */
function quickFixes(snapshot: Snapshot, finding: Finding, diagnostic: Diagnostic): CodeAction[] {
  const action = (fix: Fix): CodeAction => ({
    title: fix.title,
    kind: 'quickfix',
    diagnostics: [diagnostic],
    edit: { changes: { [snapshot.path]: editsOf(snapshot, fix) } },
  });
  if (snapshot.kind !== 'part') return preferFirst((finding.fixes ?? []).map(action));
  const { checked } = snapshot;
  const fixes = preferFirst(fixesFor(checked, finding).map(action));
  const planned = planOffered(checked, finding, snapshot.findings);
  if (planned) fixes.push(action(planned));
  const accept = acceptOffered(checked, finding, fixes.length);
  return accept ? [...fixes, action(accept)] : fixes;
}

function preferFirst(actions: readonly CodeAction[]): CodeAction[] {
  return actions.map((a, i) => (i === 0 ? { ...a, isPreferred: true } : a));
}

/** Whether a fix under a range is a plan, so that the part is to be planned before its fixes are asked for. */
export function wantsPlan(snapshot: Snapshot, range: Range, only?: readonly string[]): snapshot is PartSnapshot {
  if (snapshot.kind !== 'part' || (only && !only.some((o) => 'quickfix'.startsWith(o)))) return false;
  return snapshot.findings.some((f) => planMayCure(f) && overlaps(rangeOf(snapshot, f.span), range));
}

function fixAll(snapshot: PartSnapshot): CodeAction[] {
  const edits = fixAllSafe(snapshot.checked);
  if (edits.length === 0) return [];
  const changes = edits.map((e) => ({ range: rangeBetween(snapshot, e.start, e.end), newText: e.newText }));
  return [
    {
      title: 'Apply every fix that leaves the part as it is',
      kind: FIX_ALL,
      edit: { changes: { [snapshot.path]: changes } },
    },
  ];
}

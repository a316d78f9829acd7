/** Quick fixes, each tried before it is offered, and the fix-all for those that change nothing about the part. */

import { within } from '../effort';
import { fixAllSafe, offering } from '../rules/check';
import type { Finding, Fix } from '../rules/kit/rule';
import { acceptOffered } from './accept';
import { diagnosticOf } from './diagnostics';
import { editsOf, overlaps, rangeBetween, rangeOf } from './lsp';
import { planIsLikely, planMayCure, planOffered } from './plan/offered';
import type { CodeAction, Range } from './shapes';
import type { PartSnapshot, Snapshot } from './snapshot';

export { asOffered } from './accept';
export const FIX_ALL = 'source.fixAll.scribeline';
/** Kinds of rewriting that are offered beside fixes. */
export const REFACTORINGS = ['refactor.extract', 'refactor.inline', 'refactor.move', 'refactor.rewrite'];

/** How many findings under a selection are tried for fixes: each trial judges the part again. */
const MOST_FINDINGS = 25;

/** What cannot be made comes before what may go wrong: its cure mostly cures that too. */
const GRAVITY = { error: 0, warning: 1, hint: 2 } as const;

/** Fixes for the findings that touch a range; `only` names the kinds of action that were asked for. */
export function actionsOf(snapshot: Snapshot, range: Range, only?: readonly string[]): CodeAction[] {
  const wanted = (kind: string) => !only || only.some((o) => kind === o || kind.startsWith(`${o}.`));
  const actions: CodeAction[] = [];
  if (wanted('quickfix')) {
    const under = snapshot.findings
      .filter((finding) => overlaps(rangeOf(snapshot, finding.span), range))
      .sort((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity])
      .slice(0, MOST_FINDINGS);
    if (snapshot.kind === 'part') actions.push(...quickFixes(snapshot, under));
    else if (snapshot.kind !== 'job')
      for (const finding of under) actions.push(...preferFirst((finding.fixes ?? []).map(action(snapshot, finding))));
  }
  if (only && snapshot.kind === 'part' && wanted(FIX_ALL)) actions.push(...fixAll(snapshot));
  return actions;
}

const action = (snapshot: Snapshot, finding: Finding) => {
  const diagnostics = [diagnosticOf(snapshot, finding)];
  return (fix: Fix): CodeAction => ({
    title: fix.title,
    kind: 'quickfix',
    diagnostics,
    edit: { changes: { [snapshot.path]: editsOf(snapshot, fix) } },
  });
};

/** Of each finding the tried fixes, then a plan, then *Accept*; at the end of how many not all were tried. */
function quickFixes(snapshot: PartSnapshot, under: readonly Finding[]): CodeAction[] {
  const { checked } = snapshot;
  const { budget, fixesOf } = offering(checked);
  let cut = 0;
  const all = under.flatMap((finding) => {
    const { fixes, isCut } = fixesOf(finding);
    if (isCut) cut++;
    const offered = action(snapshot, finding);
    const actions = fixes[0]?.equal ? fixes.map(offered) : preferFirst(fixes.map(offered));
    const planned = planOffered(checked, finding, snapshot.findings);
    if (planned) actions.push(offered(planned));
    const asked = () => acceptOffered(checked, finding, actions.length);
    const accept = within<Fix | undefined>(budget, asked, () => undefined);
    return accept ? [...actions, offered(accept)] : actions;
  });
  return cut === 0 ? all : [...all, notAllTried(cut)];
}

/** Nothing to choose: a line that says what is missing among those before it. */
function notAllTried(count: number): CodeAction {
  const of = count === 1 ? 'of one finding' : `of ${count} findings`;
  const title = `Not every fix ${of} was tried: that would take too long`;
  return { title, kind: 'quickfix', disabled: { reason: 'Put the cursor on one finding, or make the part simpler.' } };
}

function preferFirst(actions: readonly CodeAction[]): CodeAction[] {
  return actions.map((a, i) => (i === 0 ? { ...a, isPreferred: true } : a));
}

/** Whether a fix under a range is a plan, so that the part is to be planned before its fixes are asked for. `isAsked`: by a person. */
export function wantsPlan(
  snapshot: Snapshot,
  range: Range,
  only?: readonly string[],
  isAsked = false,
): snapshot is PartSnapshot {
  if (snapshot.kind !== 'part' || (only && !only.some((o) => 'quickfix'.startsWith(o)))) return false;
  return snapshot.findings.some(
    (f) => (isAsked ? planMayCure(f) : planIsLikely(f)) && overlaps(rangeOf(snapshot, f.span), range),
  );
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

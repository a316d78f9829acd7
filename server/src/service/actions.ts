/** Quick fixes, each tried before it is offered, and the fix-all for those that change nothing about the part. */
import { type CodeAction, CodeActionKind, type Diagnostic, type Range } from 'vscode-languageserver-types';
import { knownPlan } from '../planning/fewer';
import { fixAllSafe, fixesFor } from '../rules/check';
import type { Finding } from '../rules/rule';
import { acceptOffered } from './accept';
import { diagnosticOf } from './diagnostics';
import { editsOf, overlaps, rangeBetween, rangeOf } from './lsp';
import { editsFor } from './planning';
import type { PartSnapshot, Snapshot } from './snapshot';

export { asOffered } from './accept';
export const FIX_ALL = `${CodeActionKind.SourceFixAll}.scribeline`;

/** How many findings under a selection are tried for fixes: each trial judges the part again. */
const MOST_FINDINGS = 25;

/** Fixes for the findings that touch a range; `only` names the kinds of action that were asked for. */
export function actionsOf(snapshot: Snapshot, range: Range, only?: readonly string[]): CodeAction[] {
  const wanted = (kind: string) => !only || only.some((o) => kind === o || kind.startsWith(`${o}.`));
  const actions: CodeAction[] = [];
  if (wanted(CodeActionKind.QuickFix)) {
    const under = snapshot.findings
      .filter((finding) => overlaps(rangeOf(snapshot, finding.span), range))
      .slice(0, MOST_FINDINGS);
    for (const finding of under) actions.push(...quickFixes(snapshot, finding, diagnosticOf(snapshot, finding)));
  }
  if (only && snapshot.kind === 'part' && wanted(FIX_ALL)) actions.push(...fixAll(snapshot));
  return actions;
}

function quickFixes(snapshot: Snapshot, finding: Finding, diagnostic: Diagnostic): CodeAction[] {
  const candidates = snapshot.kind === 'part' ? fixesFor(snapshot.checked, finding) : (finding.fixes ?? []);
  const fixes = candidates.map((fix, i) => ({
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    edit: { changes: { [snapshot.path]: editsOf(snapshot, fix) } },
    ...(i === 0 ? { isPreferred: true } : {}),
  }));
  const planned = snapshot.kind === 'part' ? planFix(snapshot, finding, diagnostic) : [];
  const others = fixes.length + planned.length;
  const accept = snapshot.kind === 'part' ? acceptOffered(snapshot.checked, finding, others) : undefined;
  if (!accept) return [...fixes, ...planned];
  return [
    ...fixes,
    ...planned,
    {
      title: accept.title,
      kind: CodeActionKind.QuickFix,
      diagnostics: [diagnostic],
      edit: { changes: { [snapshot.path]: editsOf(snapshot, accept) } },
    },
  ];
}

/** Findings that a whole plan cures. */
const PLANNED: ReadonlySet<string> = new Set(['setup/unassigned', 'setup/more-than-needed', 'access/no-setup']);

/** Whether a fix under a range is a plan, so that the part is to be planned before its fixes are asked for. */
export function wantsPlan(snapshot: Snapshot, range: Range, only?: readonly string[]): snapshot is PartSnapshot {
  if (snapshot.kind !== 'part' || (only && !only.some((o) => CodeActionKind.QuickFix.startsWith(o)))) return false;
  return snapshot.findings.some((f) => PLANNED.has(f.rule) && overlaps(rangeOf(snapshot, f.span), range));
}

/** Where the part has been planned: the plan written. */
function planFix(snapshot: PartSnapshot, finding: Finding, diagnostic: Diagnostic): CodeAction[] {
  if (!PLANNED.has(finding.rule)) return [];
  const plan = knownPlan(snapshot.checked);
  const edits = plan && editsFor(snapshot, plan);
  if (!plan || !edits) return [];
  const n = plan.setups.length;
  return [
    {
      title: `Plan anew: ${n} set-up${n === 1 ? '' : 's'} (${plan.setups.map((s) => s.setup.up?.name).join(', ')} up)`,
      kind: CodeActionKind.QuickFix,
      diagnostics: [diagnostic],
      edit: { changes: { [snapshot.path]: edits } },
    },
  ];
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

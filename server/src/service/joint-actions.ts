/** Fixes of what does not meet: in a job, and in each of its parts at the place where it is told. */
import { jointFixes } from '../rules/joint-fixes';
import type { Finding, Fix } from '../rules/kit/rule';
import { linesOf } from '../text/lines';
import { diagnosticOf } from './diagnostics';
import { resolvePath } from './documents';
import { type JointTold, jointsTold } from './joints-soon';
import { overlaps, rangeOf } from './lsp';
import type { CodeAction, Range, TextEdit } from './shapes';
import type { JobRead, JobSnapshot, PartSnapshot } from './snapshot';

/** Of the findings under the selection, each with its fixes; `name`: what the editor calls a document. */
export function jobActions(job: JobSnapshot, range: Range, name: (path: string) => string): CodeAction[] {
  return job.findings
    .filter((finding) => overlaps(rangeOf(job, finding.span), range))
    .flatMap((finding) => offered(job, finding, diagnosticOf(job, finding), name));
}

/** Whether something of a job is told there. */
export function hasJointFinding(part: PartSnapshot, range: Range): boolean {
  return part.findings.some((f) => f.rule.startsWith('joint/') && overlaps(rangeOf(part, f.span), range));
}

export function partJointActions(
  part: PartSnapshot,
  jobs: readonly JobRead[],
  range: Range,
  name: (path: string) => string,
): CodeAction[] {
  return jobs.flatMap((job) =>
    jointsTold(part.path, job)
      .filter(({ here }) => overlaps(rangeOf(part, here.span), range))
      .flatMap(({ here, finding }: JointTold) => offered(job, finding, diagnosticOf(part, here), name)),
  );
}

function offered(
  job: JobRead,
  finding: Finding,
  diagnostic: ReturnType<typeof diagnosticOf>,
  name: (path: string) => string,
): CodeAction[] {
  return jointFixes(job.checked, job.pieces, finding).map((fix, i) => ({
    title: fix.title,
    kind: 'quickfix',
    diagnostics: [diagnostic],
    edit: { changes: changesOf(job, fix, name) },
    ...(i === 0 && { isPreferred: true }),
  }));
}

function changesOf(job: JobRead, fix: Fix, name: (path: string) => string): Record<string, TextEdit[]> {
  const { tree } = job.checked;
  const lines = linesOf(tree.text);
  const own = fix.edits.map(({ span, newText }) => {
    const { start, end } = tree.locate(span);
    return { range: { start: lines.position(start), end: lines.position(end) }, newText };
  });
  const changes: Record<string, TextEdit[]> = own.length > 0 ? { [job.path]: own } : {};
  for (const { file, edits } of fix.elsewhere ?? [])
    changes[name(resolvePath(job.path, file))] = edits.map(({ range, newText }) => ({ range, newText }));
  return changes;
}

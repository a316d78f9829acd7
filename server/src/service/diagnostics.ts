/** Findings as the editor's diagnostics: place, severity, related places, a link to the rule's page. */
import type { Finding } from '../rules/kit/rule';
import { andMore, firstOfEach } from '../rules/shown-few';
import { resolvePath } from './documents';
import { rangeOf } from './lsp';
import { type Diagnostic, type DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag } from './shapes';
import type { Snapshot } from './snapshot';

const SOURCE = 'scribeline';

const SEVERITY = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  hint: DiagnosticSeverity.Information,
} as const;

/** Rules about text that does nothing: shown faded. */
const UNNECESSARY = new Set(['form/unused-parameter', 'form/unneeded-accept', 'form/removes-nothing']);

/** `pagesUri`: the folder that holds the rules' pages, for the link behind a rule's name. */
export function diagnosticsOf(snapshot: Snapshot, pagesUri?: string): Diagnostic[] {
  const { shown, leftOut } = firstOfEach(snapshot.findings);
  return [
    ...shown.map((finding) => diagnosticOf(snapshot, finding, pagesUri)),
    ...leftOut.map((more) => ({ ...diagnosticOf(snapshot, more.after, pagesUri), message: `… ${andMore(more)}.` })),
  ];
}

export function diagnosticOf(snapshot: Snapshot, finding: Finding, pagesUri?: string): Diagnostic {
  const related = relatedOf(snapshot, finding);
  return {
    range: rangeOf(snapshot, finding.span),
    severity: SEVERITY[finding.severity],
    code: finding.rule,
    source: SOURCE,
    message: finding.message,
    ...(pagesUri ? { codeDescription: { href: `${pagesUri}/${finding.rule}.md` } } : {}),
    ...(related.length > 0 ? { relatedInformation: related } : {}),
    ...(UNNECESSARY.has(finding.rule) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    data: { of: finding.of, facts: finding.facts },
  };
}

function relatedOf(snapshot: Snapshot, finding: Finding): DiagnosticRelatedInformation[] {
  return finding.related.map((r) => ({
    location: r.elsewhere
      ? { uri: documentAt(snapshot.path, r.elsewhere.file), range: r.elsewhere.range }
      : { uri: snapshot.path, range: rangeOf(snapshot, r.span) },
    message: r.message,
  }));
}

/** A path as a document writes it, or one that is whole. */
function documentAt(from: string, file: string): string {
  return /^[a-z][a-z0-9+.-]*:\/\//i.test(file) ? file : resolvePath(from, file);
}

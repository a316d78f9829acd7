/** Findings as JSON, format 1: the shape other programs build on. */
import type { Reported } from './reported';
import { rangeOf } from './reported';

export function reportJson(files: readonly Reported[]): string {
  return `${JSON.stringify({ format: 1, files: files.map(fileJson) }, null, 2)}\n`;
}

function fileJson(file: Reported): unknown {
  return {
    path: file.path,
    ...(file.part ? { part: file.part } : {}),
    findings: file.findings.map((finding) => ({
      rule: finding.rule,
      severity: finding.severity,
      message: finding.message,
      of: finding.of,
      range: rangeOf(file, finding.span),
      facts: finding.facts,
      related: finding.related.map((r) => ({ range: rangeOf(file, r.span), message: r.message })),
      fixes: file.fixes(finding).map((fix) => ({
        title: fix.title,
        safe: fix.safe,
        edits: fix.edits.map((edit) => ({ range: rangeOf(file, edit.span), newText: edit.newText })),
      })),
    })),
  };
}

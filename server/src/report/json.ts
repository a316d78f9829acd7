/** Findings as JSON, format 1: the shape other programs build on. */
import { partsOf } from '../rules/kit/parts';
import type { Finding } from '../rules/kit/rule';
import { firstRule } from '../text/renamed';
import { json } from '../text/shown';
import type { Reported } from './reported';

/** The parts of the message, as far as it has them. */
function shortParts(finding: Finding) {
  const { thing, has, needs, change } = partsOf(finding);
  return {
    ...(thing !== undefined && { thing }),
    ...(has !== undefined && { has }),
    ...(needs !== undefined && { needs }),
    ...(change !== undefined && { change }),
  };
}

/** The findings of all files as JSON text, in the published form (`format: 1`). `unread`: what could not be judged, and why. */
export function reportJson(files: readonly Reported[], unread: readonly string[] = []): string {
  const lacking = unread.length > 0 ? { unread } : {};
  return `${json({ format: 1, files: files.map(fileJson), ...lacking })}\n`;
}

/** A program knows a rule by the name that it had first; what it is called now stands beside that. */
export function ruleJson(name: string): { readonly rule: string; readonly rule_now?: string } {
  const rule = firstRule(name);
  return rule === name ? { rule } : { rule, rule_now: name };
}

const namedRule = (name: string | number | undefined) => (name === undefined ? [] : [firstRule(String(name))]);

/** One rule's errors and warnings are counted apart, and told together. */
function byRule(leftOut: NonNullable<Reported['leftOut']>): Readonly<Record<string, number>> {
  const counts: Record<string, number> = {};
  for (const { rule, count } of leftOut) counts[firstRule(rule)] = (counts[firstRule(rule)] ?? 0) + count;
  return counts;
}

function fileJson(file: Reported): unknown {
  // Rules that were stopped: what they would have found is missing here.
  const notJudged = file.findings.flatMap(({ finding }) => namedRule(finding.facts.not_judged));
  return {
    path: file.path,
    ...(file.part ? { part: file.part } : {}),
    ...(file.job ? { job: file.job } : {}),
    ...(file.leftOut && {
      left_out: file.leftOut.reduce((sum, { count }) => sum + count, 0),
      left_out_of: byRule(file.leftOut),
    }),
    ...(notJudged.length > 0 && { not_judged: notJudged }),
    ...(file.untried && { fixes_not_tried: file.untried }),
    findings: file.findings.map(({ finding, range, related, fixes }) => ({
      ...ruleJson(finding.rule),
      severity: finding.severity,
      message: finding.message,
      ...shortParts(finding),
      of: finding.of,
      ...(finding.variants && { variants: finding.variants }),
      range,
      facts: finding.facts,
      related,
      fixes,
    })),
  };
}

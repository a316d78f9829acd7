/** Findings as SARIF 2.1.0 (OASIS), for code-review tools. Columns are UTF-16 units, counted from 1, as the standard has them. */

import { ruleByName } from '../rules/registry';
import { firstRule } from '../text/renamed';
import { json, sarifMessage } from '../text/shown';
import type { Range, Reported, ReportedFinding } from './reported';

const LEVEL = { error: 'error', warning: 'warning', hint: 'note' } as const;

/** The findings of all files as a SARIF 2.1.0 log. `version` is this program's; `unread`: what could not be judged, and why. */
export function reportSarif(files: readonly Reported[], version: string, unread: readonly string[] = []): string {
  const names = [...new Set(files.flatMap((f) => f.findings.map((x) => x.finding.rule)))].sort();
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Scribeline', version, rules: names.map(ruleSarif) } },
        invocations: [
          {
            executionSuccessful: unread.length === 0,
            ...(unread.length > 0 && {
              toolExecutionNotifications: unread.map((why) => ({ level: 'error', message: said(why) })),
            }),
          },
        ],
        columnKind: 'utf16CodeUnits',
        artifacts: files.map((f) => ({ location: { uri: uriOf(f.path) } })),
        ...leftOutSarif(files),
        results: files.flatMap((file, index) => file.findings.map((f) => resultSarif(file, index, f, names))),
      },
    ],
  };
  return `${json(log)}\n`;
}

/** What is not among the results, said in the run's own property bag. */
function leftOutSarif(files: readonly Reported[]): object {
  const count = files.flatMap((f) => f.leftOut ?? []).reduce((sum, l) => sum + l.count, 0);
  return count > 0 ? { properties: { left_out: count } } : {};
}

function ruleSarif(name: string): unknown {
  const rule = ruleByName(name);
  if (!rule) return { id: name };
  const first = firstRule(name);
  return {
    id: name,
    // The standard's own word for a rule that was renamed: what was found under the old name is known again.
    ...(first !== name && { deprecatedIds: [first] }),
    shortDescription: said(rule.summary),
    fullDescription: said(rule.why),
    defaultConfiguration: { level: LEVEL[rule.severity] },
  };
}

function said(text: string): { readonly text: string } {
  return { text: sarifMessage(text) };
}

function resultSarif(file: Reported, index: number, reported: ReportedFinding, names: readonly string[]): unknown {
  const { finding, related } = reported;
  return {
    ruleId: finding.rule,
    ruleIndex: names.indexOf(finding.rule),
    level: LEVEL[finding.severity],
    message: said(finding.message),
    locations: [{ physicalLocation: placeSarif(file, index, reported.range) }],
    ...(related.length > 0
      ? {
          relatedLocations: related.map((r) => ({
            physicalLocation:
              r.file === undefined ? placeSarif(file, index, r.range) : elsewhere(file, r.file, r.range),
            message: said(r.message),
          })),
        }
      : {}),
    properties: { of: finding.of, facts: finding.facts },
    ...fixesSarif(file, index, reported),
  };
}

function fixesSarif(file: Reported, index: number, { fixes }: ReportedFinding): object {
  if (fixes.length === 0) return {};
  return {
    fixes: fixes.map((fix) => ({
      description: said(fix.title),
      artifactChanges: [
        ...(fix.edits.length > 0
          ? [{ artifactLocation: { uri: uriOf(file.path), index }, replacements: replacements(fix.edits) }]
          : []),
        ...(fix.elsewhere ?? []).map((other) => ({
          artifactLocation: { uri: uriBeside(file, other.file) },
          replacements: replacements(other.edits),
        })),
      ],
    })),
  };
}

function replacements(edits: ReportedFinding['fixes'][number]['edits']): unknown {
  return edits.map(({ range, newText }) => ({ deletedRegion: regionOf(range), insertedContent: { text: newText } }));
}

/** In a document that the finding's own names, from its own folder. */
function elsewhere(file: Reported, named: string, range: Range): unknown {
  return { artifactLocation: { uri: uriBeside(file, named) }, region: regionOf(range) };
}

function uriBeside({ path }: Reported, named: string): string {
  const folder = path.replaceAll('\\', '/').replace(/[^/]*$/, '');
  return uriOf(named.startsWith('/') ? named : folder + named);
}

function placeSarif(file: Reported, index: number, range: Range): unknown {
  return { artifactLocation: { uri: uriOf(file.path), index }, region: regionOf(range) };
}

function regionOf({ start, end }: Range): unknown {
  return {
    startLine: start.line + 1,
    startColumn: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}

/** A path as a relative or file URI. */
function uriOf(path: string): string {
  const slashed = path.replaceAll('\\', '/');
  const encoded = slashed
    .split('/')
    .map((name) => encodeURIComponent(name.replace(/\p{Cs}/gu, '\ufffd')))
    .join('/');
  if (slashed.startsWith('/')) return `file://${encoded}`;
  return /^[a-z]:\//i.test(slashed) ? `file:///${slashed.slice(0, 2)}${encoded.slice(4)}` : encoded;
}

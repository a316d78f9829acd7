/** What was known before: findings of an earlier report are left out, so that only what is new is told and counts. */
import { currentRule } from '../text/renamed';
import type { Reported } from './reported';

/** How many of each are known. */
export type Known = ReadonlyMap<string, number>;

interface KnownFile {
  readonly path: string;
  /** Of a rule that found too much: how many of it are not listed. */
  readonly left_out_of?: Readonly<Record<string, number>> | null;
  readonly findings: readonly { readonly rule: string; readonly of?: readonly string[] }[];
}

/** From the JSON of an earlier `check`; a sentence where it is none. */
export function knownFrom(text: string): Known | { readonly why: string } {
  let report: unknown;
  try {
    report = JSON.parse(text);
  } catch {
    return { why: 'is no JSON' };
  }
  if (!isReport(report)) return { why: 'is no report of `check --format json`' };
  const known = new Map<string, number>();
  for (const { path, findings, left_out_of: unlisted } of report.files) {
    for (const { rule, of = [] } of findings) {
      const key = keyOf(path, rule, of);
      known.set(key, (known.get(key) ?? 0) + 1);
    }
    for (const [rule, count] of Object.entries(unlisted ?? {})) known.set(unlistedKey(path, rule), Number(count) || 0);
  }
  return known;
}

function isReport(value: unknown): value is { readonly files: readonly KnownFile[] } {
  if (typeof value !== 'object' || value === null || !('files' in value) || !Array.isArray(value.files)) return false;
  return value.files.every(
    (f: unknown) => typeof f === 'object' && f !== null && 'path' in f && 'findings' in f && Array.isArray(f.findings),
  );
}

/** A finding is known by its file, its rule and what it is about: lines and figures may have moved. */
function keyOf(path: string, rule: string, of: readonly string[]): string {
  return JSON.stringify([path, currentRule(rule), ...of.toSorted()]);
}

/** Of those that are not listed only the number is known. */
const unlistedKey = (path: string, rule: string) => JSON.stringify([path, currentRule(rule), 'not listed', 0]);

/** Without what is known; of several alike, so many as were known. */
export function onlyNew(files: readonly Reported[], known: Known): readonly Reported[] {
  const left = new Map(known);
  return files.map((file) => {
    const findings = file.findings.filter(({ finding }) => {
      const key = keyOf(file.path, finding.rule, finding.of);
      const times = left.get(key) ?? 0;
      if (times > 0) left.set(key, times - 1);
      return times === 0;
    });
    const leftOut = file.leftOut?.flatMap((of) => {
      const key = unlistedKey(file.path, of.rule);
      const more = of.count - (left.get(key) ?? 0);
      left.set(key, Math.max(0, -more));
      return more > 0 ? [{ ...of, count: more }] : [];
    });
    const { leftOut: _, untried, ...rest } = file;
    return {
      ...rest,
      findings,
      ...(leftOut && leftOut.length > 0 && { leftOut }),
      ...(untried && findings.length > 0 && { untried }),
    };
  });
}

/** Findings as the commands that a code host's workflow turns into notes on the changed lines: one line each. */
import { line } from '../text/shown';
import type { Reported, ReportedFinding } from './reported';

const COMMAND = { error: 'error', warning: 'warning', hint: 'notice' } as const;

/** `unread`: what could not be judged, and why. */
export function reportGithub(files: readonly Reported[], unread: readonly string[] = []): string {
  const lines = [
    ...files.flatMap((file) => file.findings.map((f) => noteOf(file.path, f))),
    ...unread.map((why) => `::error title=not judged::${data(why)}`),
  ];
  return lines.map((l) => `${l}\n`).join('');
}

function noteOf(path: string, { finding, range }: ReportedFinding): string {
  const { start, end } = range;
  const place = [
    `file=${property(path)}`,
    `line=${start.line + 1}`,
    `col=${start.character + 1}`,
    `endLine=${end.line + 1}`,
    `endColumn=${end.character + 1}`,
    `title=${property(finding.rule)}`,
  ];
  return `::${COMMAND[finding.severity]} ${place.join(',')}::${data(finding.message)}`;
}

function data(of: string): string {
  return line(of).replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}

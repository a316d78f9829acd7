/** Findings as a test report in XML: a suite for each file, a case for each finding; hints are told and do not fail. */
import { markup } from '../text/shown';
import type { Reported, ReportedFinding } from './reported';

/** `unread`: what could not be judged, and why. */
export function reportJunit(files: readonly Reported[], unread: readonly string[] = []): string {
  const failing = (file: Reported) => file.findings.filter((f) => f.finding.severity !== 'hint').length;
  const tests = (file: Reported) => Math.max(1, file.findings.length);
  const sum = (of: (file: Reported) => number) => files.reduce((n, file) => n + of(file), 0);
  const lost = unread.length > 0 ? suiteOfUnread(unread) : [];
  return `${[
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="scribeline" tests="${sum(tests) + unread.length}" failures="${sum(failing)}" errors="${unread.length}">`,
    ...files.flatMap((file) => [
      `  <testsuite name=${quoted(file.path)} tests="${tests(file)}" failures="${failing(file)}" errors="0">`,
      ...(file.findings.length > 0
        ? file.findings.flatMap((f) => caseOf(file.path, f))
        : [`    <testcase classname=${quoted(file.path)} name="check"/>`]),
      '  </testsuite>',
    ]),
    ...lost,
    '</testsuites>',
  ].join('\n')}\n`;
}

function caseOf(path: string, { finding, range }: ReportedFinding): readonly string[] {
  const { rule, severity, message } = finding;
  const place = `${path}:${range.start.line + 1}:${range.start.character + 1}`;
  const element = severity === 'hint' ? 'system-out' : 'failure';
  const about = severity === 'hint' ? '' : ` type=${quoted(severity)} message=${quoted(message)}`;
  return [
    `    <testcase classname=${quoted(path)} name=${quoted(`${rule} at line ${range.start.line + 1}`)}>`,
    `      <${element}${about}>${markup(`${place}: ${severity} ${rule}: ${message}`)}</${element}>`,
    '    </testcase>',
  ];
}

function suiteOfUnread(unread: readonly string[]): readonly string[] {
  return [
    `  <testsuite name="not judged" tests="${unread.length}" failures="0" errors="${unread.length}">`,
    ...unread.flatMap((why) => [
      `    <testcase classname="scribeline" name=${quoted(why)}>`,
      `      <error message=${quoted(why)}/>`,
      '    </testcase>',
    ]),
    '  </testsuite>',
  ];
}

function quoted(of: string): string {
  return `"${markup(of)}"`;
}

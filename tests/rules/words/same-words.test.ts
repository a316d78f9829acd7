/**
 * One finding is said one way: the terminal, the JSON, SARIF, annotations, comments, the editor's list, its hover and the
 * part view print the same sentences and the same figures, for the bad example of every rule.
 */
import assert from 'node:assert/strict';
import { reportGithub } from '../../../server/src/report/github';
import { reportJson } from '../../../server/src/report/json';
import { reportJunit } from '../../../server/src/report/junit';
import { reportedOf } from '../../../server/src/report/reported';
import { reportSarif } from '../../../server/src/report/sarif';
import { reportLines } from '../../../server/src/report/text';
import { checkPart } from '../../../server/src/rules/check';
import { partsOf } from '../../../server/src/rules/kit/parts';
import type { Finding } from '../../../server/src/rules/kit/rule';
import { RULES } from '../../../server/src/rules/registry';
import { diagnosticOf } from '../../../server/src/service/diagnostics';
import { hoverAt } from '../../../server/src/service/hover';
import { type PartSnapshot, wholePart } from '../../../server/src/service/snapshot';
import { pictured } from '../../../server/src/service/view/picture';
import { linesOf } from '../../../server/src/text/lines';
import { escapeMarkdown } from '../../../server/src/text/markdown';
import { line as shown } from '../../../server/src/text/shown';
import { shopOf } from '../tester';

const PATH = 'mem:///w/example.part.yaml';

/** What the view is told of findings: no mesh is needed for that. */
function viewedIn(snapshot: PartSnapshot) {
  const empty = { version: 1, made: { pieces: [], missing: [] }, voids: [] };
  return pictured(snapshot, empty, { setups: [], summary: '' }).picture.findings;
}

/** Each reading of a finding as plain words. */
function assertSame(finding: Finding, at: number, snapshot: PartSnapshot): void {
  const { says, has, needs, change } = partsOf(finding);
  const { message } = finding;
  const reported = reportedOf(PATH, { ...snapshot.checked, lines: snapshot.lines, findings: [finding] }, () => []);
  const terminal = reportLines([reported])
    .map((line) => (typeof line === 'string' ? line : line.map((p) => (typeof p === 'string' ? p : p.words)).join('')))
    .map((line) => line.trim());
  if (says !== '') assert.ok(terminal.includes(says), `${says}\n${terminal.join('\n')}`);
  if (change !== undefined) assert.ok(terminal.includes(`change: ${change}`), terminal.join('\n'));
  const columns = terminal.filter((l) => /^(?:has|needs) /.test(l)).join('\n');
  for (const side of [has && `has ${has}`, needs && `needs ${needs}`]) assert.ok(columns.includes(side ?? ''), columns);

  const { findings } = JSON.parse(reportJson([reported])).files[0];
  assert.deepEqual(
    [findings[0].message, findings[0].has, findings[0].needs, findings[0].change],
    [message, has, needs, change],
  );
  assert.equal(diagnosticOf(snapshot, finding).message, message);
  const viewed = viewedIn(snapshot)[at]!;
  assert.equal(`${viewed.says} ${viewed.more}`.trim().replace(/\s+/g, ' '), message.replace(/\s+/g, ' '));
  const plain = shown(message);
  assert.ok(JSON.stringify(JSON.parse(reportSarif([reported], '1'))).includes(JSON.stringify(plain).slice(1, 20)));
  for (const text of [reportGithub([reported]), reportJunit([reported])])
    assert.ok(text.includes(plain.slice(0, 12)), text);
}

/** On its place: what it has and needs stands in the first three lines of what is said of it. */
function assertHover(finding: Finding, snapshot: PartSnapshot): void {
  const { has, needs } = partsOf(finding);
  const hover = hoverAt(snapshot, snapshot.checked.tree.locate(finding.span).start);
  assert.ok(hover, finding.rule);
  const piece = hover.contents.value.split('\n\n---\n\n').find((p) => p.startsWith(`**\`${finding.rule}\`**`));
  assert.ok(piece, hover.contents.value);
  const [, severity, answer] = piece.split('\n\n');
  assert.match(severity!, /^\*\*(?:error|warning|hint)\*\*/);
  const sides = [has && `has ${has}`, needs && `needs ${needs}`].filter((side) => side !== undefined);
  if (sides.length > 0 && snapshot.findings.filter((f) => f.rule === finding.rule).length === 1)
    assert.equal(answer, `**${escapeMarkdown(sides.join(', '))}**`);
  assert.doesNotMatch(piece, /`[a-z0-9]+_[a-z0-9_]+`/, 'a key of a fact');
}

describe('a finding is said one way', function () {
  this.timeout(60_000);
  for (const rule of RULES) {
    if (rule.when === 'job' || rule.when === 'plan' || rule.bad === '') continue;
    it(rule.name, () => {
      const checked = checkPart(rule.bad, shopOf(rule));
      const lines = linesOf(rule.bad);
      const snapshot = wholePart({ path: PATH, text: rule.bad, lines, checked, shopPath: undefined, besides: [] });
      for (const [at, finding] of snapshot.findings.entries())
        if (finding.rule === rule.name) {
          assertSame(finding, at, snapshot);
          assertHover(finding, snapshot);
        }
    });
  }
});

/** The first minute with the extension: a part that cannot be made, why, the fix, and the way back. */
import { strict as assert } from 'node:assert';
import { commands, DiagnosticSeverity, extensions } from 'vscode';
import { changed, findings, hoverText, ofRule, putAway, quickFixes, show, within } from './editor';
import { screenshot } from './person';

const RULE = 'corner/inside-radius';
const WRITTEN = 'corner-radius: 1.5';

describe('the first finding', () => {
  afterEach(putAway);

  it('is the installed package that runs, not the source folder', () => {
    const ours = extensions.getExtension('scribeline.scribeline');
    assert.ok(ours, 'the extension is not installed');
    assert.ok(ours.extensionPath.includes('scribeline.scribeline-'), ours.extensionPath);
  });

  it('tells what cannot be cut, where, by which rule, and links to its page', async () => {
    const { document } = await show('camera-tray.part.yaml');
    assert.equal(document.languageId, 'scribeline-part');
    const found = await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE}`);
    const finding = ofRule(found, RULE)[0]!;
    assert.equal(finding.source, 'scribeline');
    assert.equal(finding.severity, DiagnosticSeverity.Error);
    assert.equal(document.getText(finding.range).trim(), '1.5');
    assert.match(finding.message, /\b12(\.0)? mm/, 'the depth is told');
    assert.ok(typeof finding.code === 'object', 'the rule is a link');
    assert.match(finding.code.target.path, /scribeline\.scribeline-[^/]+\/schemas\/rules\/corner\/inside-radius\.md$/);
    const related = finding.relatedInformation ?? [];
    assert.ok(related.length > 0, 'it points at what else is involved');
    assert.equal(related[0]!.location.uri.toString(), document.uri.toString());
    assert.equal(document.getText(related[0]!.location.range), '12', 'the depth');
  });

  it('shows the numbers of the rule on hover', async () => {
    const { document } = await show('camera-tray.part.yaml', (d) => within(d, WRITTEN));
    await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE}`);
    const text = await hoverText(document, within(document, WRITTEN));
    // The corner, its depth, the cutter that fits and how far it reaches, and where the limits come from.
    for (const number of ['1.5', '12', '3', '9']) assert.ok(text.includes(number), `${number} is not in: ${text}`);
    assert.match(text, /Source:/);
    await commands.executeCommand('editor.action.showHover');
    await new Promise((resolve) => setTimeout(resolve, 700));
    await screenshot('finding-and-hover');
  });

  it('is mended by its quick fix, comes back with undo, and the text is as it was', async () => {
    const { document } = await show('camera-tray.part.yaml', (d) => within(d, WRITTEN));
    const before = document.getText();
    const found = await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE}`);
    const { range } = ofRule(found, RULE)[0]!;
    const offered = await quickFixes(document, range);
    const fix = offered.find((action) => action.isPreferred);
    assert.ok(fix, `no preferred fix; offered: ${offered.map((a) => a.title).join(', ') || 'nothing'}`);
    // As a person does it: the cursor on the finding, the editor's own way of applying a fix.
    // The editor drops the request when anything moves meanwhile (a finding redrawn); a person asks again.
    for (let tries = 0; tries < 5 && document.getText() === before; tries++) {
      await commands.executeCommand('editor.action.codeAction', { kind: 'quickfix', apply: 'first', preferred: true });
      await changed(document, before, 1500);
    }
    await findings(document, (d) => ofRule(d, RULE).length === 0, `${RULE} is still there after “${fix.title}”`);
    const mended = document.getText();
    assert.notEqual(mended, before);
    assert.ok(mended.includes('# too small for its depth'), 'the comment is kept');
    await screenshot('after-the-fix');

    await commands.executeCommand('undo');
    await findings(document, (d) => ofRule(d, RULE).length > 0, `${RULE} did not come back with undo`);
    assert.equal(document.getText(), before);
    await screenshot('after-undo');
  });
});

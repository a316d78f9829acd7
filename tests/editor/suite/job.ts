/** The job's panel in the real editor: worked out beside its text, followed as a part is typed, every sheet printed. */
import { strict as assert } from 'node:assert';
import { commands, window, workspace } from 'vscode';
import { file, ofPages, putAway, show } from './editor';
import { clickIn, present, screenshot, sees } from './person';

describe('the job panel', function () {
  this.timeout(90_000);
  afterEach(async () => {
    await commands.executeCommand('workbench.action.closeAllEditors').then(undefined, () => {});
    await putAway();
    await workspace.fs.delete(file('printed.pdf')).then(undefined, () => {});
  });

  it('shows mass, parts, cut list and the order of the day, and follows what is typed in a part', async function () {
    // Only a browser can be looked into.
    if (!present) this.skip();
    await show('set.job.yaml');
    await commands.executeCommand('scribeline.showJob');
    const words = await sees('main', /g of 300 g[\s\S]*Bring for all of it[\s\S]*In this order/, true, 40_000);
    assert.match(words, /bearing-block/);
    await screenshot('job');
    const editor = await show('bearing-block.part.yaml');
    const { document } = editor;
    const at = document.positionAt(document.getText().indexOf('z: 16') + 'z: '.length);
    const before = /(\d+\.\d) g of 300 g/.exec(words)![1]!;
    await editor.edit((e) => e.replace(document.getWordRangeAtPosition(at)!, '15'));
    await sees('main', new RegExp(`^(?![\\s\\S]*\\b${before} g of)[\\s\\S]* g of 300 g`), true, 40_000);
  });

  ofPages('a part’s sheet is opened from it', async function () {
    if (!present) this.skip();
    await show('set.job.yaml');
    await commands.executeCommand('scribeline.showJob');
    await sees('main', /In this order/, true, 40_000);
    await clickIn('button[data-act=sheet]');
    const isSheet = () => window.tabGroups.all.flatMap((g) => g.tabs).some((t) => t.label === 'bearing-block (sheet)');
    for (let tries = 0; tries < 100 && !isSheet(); tries++) await new Promise((resolve) => setTimeout(resolve, 100));
    assert.ok(isSheet());
  });

  it('prints its cover and all sheets as one PDF', async () => {
    const editor = await show('set.job.yaml');
    const target = file('printed.pdf');
    await commands.executeCommand('scribeline.printJob', editor.document.uri, target);
    const text = new TextDecoder('latin1').decode(await workspace.fs.readFile(target));
    assert.match(text, /^%PDF-/);
  });
});

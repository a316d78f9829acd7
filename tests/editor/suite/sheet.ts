/** The sheet in the real editor: shown beside the text, following it, and printed with one command. */
import { strict as assert } from 'node:assert';
import { commands, workspace } from 'vscode';
import { file, putAway, show } from './editor';
import { present, screenshot, sees } from './person';

describe('the sheet', function () {
  this.timeout(60_000);
  afterEach(async () => {
    await commands.executeCommand('workbench.action.closeAllEditors').then(undefined, () => {});
    await putAway();
    await workspace.fs.delete(file('printed.pdf')).then(undefined, () => {});
  });

  it('opens beside the text, and follows it as it is typed', async function () {
    // Only a browser can be looked into.
    if (!present) this.skip();
    const editor = await show('bearing-block.part.yaml');
    await commands.executeCommand('scribeline.showSheet');
    await sees('main', /SET-UP 1[\s\S]*If the spec changed, this paper is void/, true, 20_000);
    const { document } = editor;
    const after = document.positionAt(document.getText().indexOf('diameter: 22') + 'diameter: 22'.length);
    await editor.edit((e) => e.insert(after, ' H7'));
    // ISO 286-2: 22 H7 is +0.021 / 0
    await sees('main', /22\.000 … 22\.021/, true, 20_000);
    await screenshot('sheet');
  });

  it('is printed as PDF of what stands in the editor, saved or not', async () => {
    const editor = await show('bearing-block.part.yaml');
    const target = file('printed.pdf');
    await commands.executeCommand('scribeline.printSheet', editor.document.uri, target);
    const text = new TextDecoder('latin1').decode(await workspace.fs.readFile(target));
    assert.match(text, /^%PDF-/);
    assert.match(text.slice(-8), /%%EOF/);
  });
});

/** The plan's page in the real editor: planned beside the text, written into it and taken back, stepped through. */
import { strict as assert } from 'node:assert';
import { commands, Range, type TextDocument, workspace } from 'vscode';
import { ofPages, putAway, settled, show } from './editor';
import { attribute, clickIn, present, read, screenshot, sees } from './person';

describe('the plan', function () {
  this.timeout(90_000);
  before(function () {
    // Only a browser can be looked into.
    if (!present) this.skip();
  });
  afterEach(async () => {
    await commands.executeCommand('workbench.action.closeAllEditors').then(undefined, () => {});
    await putAway();
  });

  /** The part without its set-ups. */
  const bare = async (): Promise<TextDocument> => {
    const editor = await show('bearing-block.part.yaml');
    const { document } = editor;
    const from = document.positionAt(document.getText().indexOf('setups:'));
    await editor.edit((e) => e.delete(new Range(from, document.positionAt(document.getText().length))));
    return document;
  };

  it('is shown beside the text, with what each set-up is there for, and written into the text as one edit', async () => {
    const document = await bare();
    const without = document.getText();
    await commands.executeCommand('scribeline.planSetups');
    const words = await sees('main', /set-up[\s\S]*held[\s\S]*cuts/, true, 60_000);
    assert.match(words, /first/);
    await screenshot('plan');
    // It is read without another file, saved or not.
    assert.deepEqual(
      workspace.textDocuments.filter((d) => (d.isUntitled || d.isDirty) && d !== document).map((d) => d.uri.path),
      [],
    );
    await clickIn('#write');
    await sees('#status', /Written into the text/, true);
    assert.match(document.getText(), /^setups:\n {2}first:/m);
    await commands.executeCommand('workbench.action.focusFirstEditorGroup');
    await commands.executeCommand('undo');
    const back = await settled(
      async () => document.getText(),
      (text) => text === without,
    );
    assert.equal(back, without);
  });

  ofPages('is stepped through before it is written', async () => {
    const document = await bare();
    await commands.executeCommand('scribeline.stepThroughPlan', document.uri);
    await sees('#step', /as it is put in/, true, 60_000);
    assert.equal(await attribute('body', 'data-part'), 'bearing-block');
    await clickIn('#next');
    await sees('#step', /^1 of \d+: /, true, 20_000);
    assert.doesNotMatch(document.getText(), /setups:/);
    assert.ok((await read('#labels .mark.length', true)).length > 0);
  });
});

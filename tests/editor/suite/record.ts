/** A record in the real editor: begun beside its part, and told what stands wrong in it. */
import { strict as assert } from 'node:assert';
import { commands, Range, window, workspace } from 'vscode';
import { file, findings, putAway, show } from './editor';

describe('a record', () => {
  afterEach(async () => {
    await putAway();
    await workspace.fs.delete(file('bearing-block.record.yaml')).then(undefined, () => {});
  });

  it('is begun beside its part, and names what the part does not have', async () => {
    const { document } = await show('bearing-block.part.yaml');
    await commands.executeCommand('scribeline.newRecord', document.uri);
    const record = window.activeTextEditor!;
    assert.equal(record.document.uri.path.split('/').at(-1), 'bearing-block.record.yaml');
    assert.equal(record.document.languageId, 'scribeline-record');
    assert.match(record.document.getText(), /^record: bearing-block\.part\.yaml$/m);
    const text = 'record: bearing-block.part.yaml\nmeasured:\n  - { of: gone, size: depth, value: 7 }\n';
    const all = record.document.validateRange(new Range(0, 0, 999, 0));
    await record.edit((e) => e.replace(all, text));
    await findings(
      record.document,
      (f) => f.some((d) => /no feature gone/.test(String(d.message))),
      'a name that is not there',
    );
  });
});

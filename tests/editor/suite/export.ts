/** A part exported from the window: the file is there, exact, and made of the text as the editor holds it. */
import { strict as assert } from 'node:assert';
import { commands, Range, workspace } from 'vscode';
import { file, putAway, show } from './editor';

describe('exporting a part', () => {
  afterEach(async () => {
    await putAway();
    await workspace.fs.delete(file('exported.step')).then(undefined, () => {});
  });

  it('writes an exact solid of what stands in the editor, saved or not', async () => {
    const editor = await show('bearing-block.part.yaml');
    const { document } = editor;
    const at = document.getText().search(/^title: .*$/m);
    const line = document.positionAt(at).line;
    await editor.edit((e) =>
      e.replace(new Range(line, 0, line, document.lineAt(line).text.length), 'title: Not saved yet'),
    );
    assert.ok(document.isDirty);
    const target = file('exported.step');
    await commands.executeCommand('scribeline.exportPart', document.uri, target);
    const text = new TextDecoder().decode(await workspace.fs.readFile(target));
    assert.match(text, /^ISO-10303-21;/);
    assert.match(text, /PRODUCT\('bearing-block','bearing-block','Not saved yet'/);
    assert.equal([...text.matchAll(/= CYLINDRICAL_SURFACE/g)].length, 3, 'the seat and two holes');
    assert.match(text, /END-ISO-10303-21;\s*$/);
  });
});

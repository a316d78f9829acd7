/** Writing: what may stand here, a new part, findings with every key, and mending all that is safe. */
import { strict as assert } from 'node:assert';
import { type CompletionList, commands, type Position, type TextDocument, ViewColumn, window, workspace } from 'vscode';
import { endOf, file, findings, ofPages, ofRule, putAway, settled, show } from './editor';
import { answers, attribute, present, press, screenshot, sees, type } from './person';

async function offered(document: TextDocument, at: Position): Promise<string[]> {
  const list = await settled(
    () => commands.executeCommand<CompletionList>('vscode.executeCompletionItemProvider', document.uri, at),
    (found) => found?.items.length > 0,
  );
  return list.items.map((item) => (typeof item.label === 'string' ? item.label : item.label.label));
}

describe('writing', () => {
  afterEach(putAway);

  it('is offered the kinds of feature', async () => {
    const { document } = await show('camera-tray.part.yaml');
    const labels = await offered(document, endOf(document, 'kind: '));
    for (const kind of ['hole', 'pocket', 'slot', 'step', 'contour', 'chamfer']) assert.ok(labels.includes(kind), kind);
  });

  it('is offered the faces', async () => {
    const { document } = await show('camera-tray.part.yaml');
    const labels = await offered(document, endOf(document, 'face: '));
    for (const face of ['left', 'right', 'front', 'back', 'bottom', 'top']) assert.ok(labels.includes(face), face);
  });

  it('is offered the keys a pocket still lacks', async () => {
    const editor = await show('camera-tray.part.yaml');
    const { document } = editor;
    const end = document.positionAt(document.getText().length);
    await editor.edit((edit) => edit.insert(end, '    '));
    const labels = await offered(document, document.positionAt(document.getText().length));
    assert.ok(labels.includes('floor-radius'), labels.join(', '));
    assert.ok(!labels.includes('corner-radius'), 'what is there is not offered again');
    assert.ok(!labels.includes('thread'), 'a hole has threads, a pocket has none');
  });

  it('is judged with every key, by hand', async function () {
    if (!present) this.skip();
    const { document } = await show('camera-tray.part.yaml', (d) => endOf(d, 'corner-radius: 1.5'));
    await findings(document, (d) => ofRule(d, 'corner/inside-radius').length > 0, 'no corner/inside-radius');
    for (const key of ['Backspace', 'Backspace', 'Backspace']) await press(key);
    await findings(document, (d) => ofRule(d, 'form/schema').length === 1, 'a key without a value is not found');
    await type('6');
    const text = await settled(
      async () => document.getText(),
      (now) => now.includes('corner-radius: 6 #'),
    );
    assert.match(text, /corner-radius: 6 # too small/);
    await findings(document, (d) => d.length === 0, 'a radius of 6 is sound');
  });

  it('is mended where it is safe, by one command', async () => {
    const { document } = await show('misspelt.part.yaml');
    const before = document.getText();
    await findings(document, (d) => ofRule(d, 'form/unknown-name').length === 1, 'no form/unknown-name');
    await commands.executeCommand('scribeline.fixAll');
    await findings(document, (d) => ofRule(d, 'form/unknown-name').length === 0, 'still form/unknown-name');
    assert.equal(document.getText(), before.replace('mouont', 'mount'));
    await screenshot('after-fix-all');
  });

  ofPages('starts from a part that has nothing wrong', async function () {
    if (!present) this.skip();
    await workspace.fs.delete(file('yoke-arm.part.yaml')).then(undefined, () => {});
    const asked = commands.executeCommand('scribeline.newPart', file('.'));
    await answers(/Name of the part/, 'yoke-arm');
    await sees('.quick-input-widget', /what is it cut from/);
    await screenshot('new-part-stock');
    await answers(/what is it cut from/, '40 x 16');
    await answers(/what is it like/, 'bearing');
    await asked;
    // It ends in the picture, and the plan lies behind it.
    await sees('#list [data-kind="feature"] .name', /\w/, true, 30_000);
    assert.equal(await attribute('body', 'data-part'), 'yoke-arm');
    const tabs = window.tabGroups.all.flatMap((group) => group.tabs.map((tab) => tab.label));
    assert.ok(
      ['yoke-arm (part view)', 'yoke-arm (plan)'].every((tab) => tabs.includes(tab)),
      tabs.join(', '),
    );
    await screenshot('new-part-picture');
    const document = window.visibleTextEditors
      .map((e) => e.document)
      .find((d) => d.uri.path.endsWith('yoke-arm.part.yaml'))!;
    await window.showTextDocument(document, ViewColumn.One);
    assert.equal(document.uri.path, file('yoke-arm.part.yaml').path);
    assert.match(document.getText(), /^part: yoke-arm$/m);
    assert.match(document.getText(), /^setups:$/m);
    assert.equal(document.isDirty, false);
    // A finding would be there by now: a broken letter brings one, and taking it back takes it away.
    const editor = window.activeTextEditor!;
    const unit = endOf(document, 'units: m');
    await editor.edit((edit) => edit.insert(unit, 'x'));
    await findings(document, (d) => d.length > 0, 'a broken unit is not found');
    await commands.executeCommand('undo');
    await findings(document, (d) => d.every((one) => one.severity > 0), 'the starter part has errors');
    await screenshot('new-part');
    const mine = '# mine\n';
    await workspace.fs.writeFile(document.uri, new TextEncoder().encode(mine));
    const again = commands.executeCommand('scribeline.newPart', file('.'));
    await answers(/Name of the part/, 'yoke-arm');
    await again;
    const left = new TextDecoder().decode(await workspace.fs.readFile(document.uri));
    assert.equal(left, mine, 'what is there is left');
    await workspace.fs.delete(document.uri);
  });
});

/** The part view in the real editor: it opens and draws, follows the text both ways, shows findings, set-ups, a cut, a measure. */
import { strict as assert } from 'node:assert';
import { commands, Range, type TextDocument, window, workspace } from 'vscode';
import { endOf, putAway, settled, show, within } from './editor';
import { attribute, choose, clickIn, pixels, present, press, read, screenshot, sees } from './person';

const version = async () => Number(await attribute('body', 'data-version'));

/** Waits until the panel shows this document as it is now. */
async function drawn(document: TextDocument, name: string): Promise<void> {
  const shown = await settled(
    async () => `${await attribute('body', 'data-part').catch(() => '')} ${await version().catch(() => -1)}`,
    (is) => is === `${name} ${document.version}`,
    20_000,
  );
  assert.equal(shown, `${name} ${document.version}`);
}

describe('the part view', function () {
  this.timeout(60_000);
  before(function () {
    // Only a browser can be looked into.
    if (!present) this.skip();
  });
  afterEach(async () => {
    await commands.executeCommand('workbench.action.closeAllEditors').then(undefined, () => {});
    await putAway();
  });

  const open = async (file: string, name: string, at?: string) => {
    const editor = await show(file, at === undefined ? undefined : (d) => within(d, at));
    await commands.executeCommand('scribeline.showPartView');
    await drawn(editor.document, name);
    return editor;
  };

  it('opens beside the text and draws the part: its faces, its features, its figures read aloud', async () => {
    await open('bearing-block.part.yaml', 'bearing-block');
    assert.ok(Number(await attribute('body', 'data-triangles')) > 100);
    const { share, colours } = await pixels('#picture');
    assert.ok(share > 0.08 && share < 0.95, `${share} of the picture is drawn`);
    assert.ok(colours > 5, `${colours} colours: faces at different angles`);
    const list = await read('#list [data-kind="feature"] .name', true);
    assert.deepEqual(list.split('\n'), ['bearing-seat', 'mount']);
    assert.match(await attribute('#picture', 'aria-label'), /Elevation bearing block: 60 mm by 40 mm by 16 mm/);
    await screenshot('part-view');
  });

  it('lights the feature that the cursor stands in', async () => {
    const editor = await open('bearing-block.part.yaml', 'bearing-block');
    const to = async (text: string) => {
      const at = within(editor.document, text);
      await window.showTextDocument(editor.document, { viewColumn: editor.viewColumn!, selection: new Range(at, at) });
    };
    await to('diameter: 22');
    await settled(
      () => attribute('#list [aria-selected="true"] .name', 'class'),
      (c) => c === 'name',
    );
    assert.equal(await read('#list [aria-selected="true"] .name', true), 'bearing-seat');
    const lit = Number(
      await settled(
        () => attribute('body', 'data-lit'),
        (n) => Number(n) > 0,
      ),
    );
    assert.ok(lit >= 2, `${lit} faces of the seat: wall and floor`);
    await to('diameter: 5.5');
    await settled(
      () => read('#list [aria-selected="true"] .name', true),
      (t) => t === 'mount',
    );
    assert.equal(await read('#list [aria-selected="true"] .name', true), 'mount');
  });

  it('selects the text of the face that is pressed', async () => {
    const editor = await open('bearing-block.part.yaml', 'bearing-block');
    await clickIn('[data-look="top"]');
    await clickIn('#picture', 0.5, 0.5); // the seat is in the middle
    const name = await settled(
      async () =>
        editor.document.getText(window.visibleTextEditors.find((e) => e.document === editor.document)?.selection),
      (t) => t === 'bearing-seat',
    );
    assert.equal(name, 'bearing-seat');
  });

  it('shows a finding where it is, and goes to its text by the keyboard', async () => {
    const editor = await open('camera-tray.part.yaml', 'camera-tray');
    const marks = await settled(
      () => read('#labels .mark.error', true),
      (t) => t.length > 0,
    );
    assert.ok(marks.length > 0, 'no mark on the part');
    await clickIn('#list');
    await press('Home');
    await press('Enter');
    const where = await settled(
      async () => window.visibleTextEditors.find((e) => e.document === editor.document)?.selection.active.line ?? -1,
      (line) => line === within(editor.document, 'corner-radius: 1.5').line,
    );
    assert.equal(where, within(editor.document, 'corner-radius: 1.5').line);
    await screenshot('part-view-finding');
  });

  it('draws again after an edit, from where one looked', async () => {
    const editor = await open('bearing-block.part.yaml', 'bearing-block');
    await clickIn('[data-look="front"]');
    await settled(
      () => pixels('#picture'),
      () => true,
    );
    const before = await pixels('#picture');
    const at = within(editor.document, 'diameter: 22');
    await editor.edit((e) => e.replace(new Range(at.translate(0, -1), endOf(editor.document, 'diameter: 22')), '24'));
    await drawn(editor.document, 'bearing-block');
    const after = await pixels('#picture');
    assert.ok(Math.abs(after.share - before.share) < 0.02, `${before.share} → ${after.share}: the eye moved`);
  });

  it('says when the text makes no part, and keeps the picture', async () => {
    const editor = await open('bearing-block.part.yaml', 'bearing-block');
    const at = within(editor.document, 'body: { x: 60');
    await editor.edit((e) => e.replace(new Range(at.with(undefined, 0), at.with(undefined, 4)), 'bodx'));
    const said = await sees('#status', /older/, true);
    assert.match(said, /no part/);
    assert.ok((await pixels('#picture')).share > 0.05);
  });

  it('steps through the set-ups, cuts open, measures, and takes keys', async () => {
    await open('bearing-block.part.yaml', 'bearing-block');
    assert.equal(await read('#step', true), 'finished part');
    await clickIn('#before');
    await clickIn('#before');
    await sees('#step', /before first, top up/, true);
    await screenshot('part-view-setup');
    await clickIn('#next');
    await clickIn('#next');
    await sees('#step', /finished part/, true);
    await choose('#cut-axis', 'y');
    const cut = await settled(
      () => pixels('#picture'),
      (p) => p.share > 0,
    );
    assert.ok(cut.share > 0.05);
    await screenshot('part-view-cut');
    await choose('#cut-axis', '');
    await clickIn('[data-look="top"]');
    await clickIn('#measure');
    await clickIn('#picture', 0.5, 0.5);
    await sees('#status', /floor of bearing-seat/, true);
    await clickIn('[data-look="bottom"]');
    await clickIn('#picture', 0.4, 0.5);
    await sees('#status', /\b9 mm\b/, true); // 16 less the 7 of the seat
    await clickIn('#measure');
    await clickIn('#picture', 0.02, 0.02);
    const before = await pixels('#picture');
    await press('+');
    const nearer = await settled(
      () => pixels('#picture'),
      (p) => p.share > before.share * 1.1,
    );
    assert.ok(nearer.share > before.share * 1.1, 'plus goes nearer');
  });

  for (const theme of ['Default Light Modern', 'Default High Contrast'] as const)
    it(`wears the editor’s theme: ${theme}`, async () => {
      const config = workspace.getConfiguration('workbench');
      await config.update('colorTheme', theme, true);
      try {
        await open('bearing-block.part.yaml', 'bearing-block');
        assert.ok((await pixels('#picture')).share > 0.08);
        await screenshot(`part-view-${theme.split(' ').slice(1).join('-').toLowerCase()}`);
      } finally {
        await config.update('colorTheme', undefined, true);
      }
    });
});

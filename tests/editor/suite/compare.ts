/** Comparing in the real editor: two files, a difference that is in view; each change leads to its line. */
import { strict as assert } from 'node:assert';
import { commands, Range, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import { file, IN_BROWSER, ofPages, putAway, settled } from './editor';
import { attribute, clickIn, pixels, present, press, read, screenshot, sees } from './person';

const seat = (diameter: string, more = '') =>
  `part: seat\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: 7, bottom: flat }\n${more}`;
const TIE = '  tie: { kind: hole, face: top, at: { x: 8, y: 8 }, diameter: 5.5, depth: through }\n';

const put = (name: string, text: string) => workspace.fs.writeFile(file(name), new TextEncoder().encode(text));

describe('comparing', function () {
  this.timeout(60_000);
  before(async function () {
    // Only a browser can be looked into.
    if (!present) this.skip();
    await workspace.fs.createDirectory(file('history'));
    await put('history/old.part.yaml', seat('32 H7'));
    await put('history/new.part.yaml', seat('30 H7', TIE));
  });
  afterEach(async () => {
    await commands.executeCommand('workbench.action.closeAllEditors').then(undefined, () => {});
    await putAway();
  });
  after(() => workspace.fs.delete(file('history'), { recursive: true }).then(undefined, () => {}));

  it('two files: what went and what came, stepped through, each to its line', async () => {
    await commands.executeCommand('scribeline.compare', file('history/old.part.yaml'), [
      file('history/old.part.yaml'),
      file('history/new.part.yaml'),
    ]);
    await sees('#side-titles', /^old\.part\.yaml → new\.part\.yaml$/, true, 20_000);
    const list = await read('#list [data-kind="change"] .name', true);
    assert.match(list, /^resized: hole seat: diameter 32 mm → 30 mm/m);
    assert.match(list, /^new: tie: hole on top: diameter 5\.5 mm/m);
    // The ring between 30 and 32 mm is back, and the new hole went: π/4 · 5.5² · 16.
    const went = Number(await attribute('body', 'data-went'));
    assert.ok(Math.abs(went - 380.1) < 3, `${went} mm³ went`);
    assert.ok(Number(await attribute('body', 'data-came')) > 650);
    await sees('#labels .mark.went', /went/, true);
    await sees('#labels .mark.came', /came/, true);
    const both = await pixels('#picture');
    await screenshot('compare');
    await clickIn('#show-before');
    await sees('#labels .mark.went', /went/, true);
    const before = await settled(
      () => pixels('#picture'),
      (p) => p.sum !== both.sum,
    );
    assert.notEqual(before.sum, both.sum);
    await clickIn('#later');
    assert.match(await read('#change', true), /^1 of \d+$/);
    await clickIn('#list [data-kind="change"]');
    const editor = await settled(
      async () => window.visibleTextEditors.find((e) => e.document.uri.path.endsWith('new.part.yaml')),
      (e) => e?.selection.start.line === 4,
    );
    assert.equal(editor?.selection.start.line, 4);
  });

  ofPages('a difference in view; an edit that is not saved is compared', async () => {
    const [old, now] = [file('history/old.part.yaml'), file('history/new.part.yaml')];
    await commands.executeCommand('vscode.diff', old, now);
    await commands.executeCommand('scribeline.compare');
    await sees('#side-titles', /old\.part\.yaml → new\.part\.yaml/, true, 20_000);
    const changes = await attribute('body', 'data-changes');
    const edit = new WorkspaceEdit();
    edit.replace(now, new Range(0, 0, 100, 0), seat('32 H7'));
    await workspace.applyEdit(edit);
    const same = await settled(
      () => attribute('body', 'data-changes'),
      (n) => n === '0',
      20_000,
    );
    assert.deepEqual([changes === '0', same], [false, '0']);
    assert.match(await read('#status', true), /the same, letter by letter/);
    await commands.executeCommand('workbench.action.files.revert');
  });

  it('two jobs: in words, then one of its parts, and back', async () => {
    const job = (quantity: number) =>
      `job: set\nparts:\n  seat: { spec: ${quantity === 1 ? 'old' : 'new'}.part.yaml, quantity: ${quantity} }\n`;
    await put('history/one.job.yaml', job(1));
    await put('history/two.job.yaml', job(2));
    const [one, two] = [file('history/one.job.yaml'), file('history/two.job.yaml')];
    await commands.executeCommand('scribeline.compare', one, [one, two]);
    await sees('#list .entry', /changed: part seat: [\s\S]*quantity 1 → 2/, true, 20_000);
    await screenshot('compare-job');
    await clickIn('#list .entry:last-child');
    await press('Enter');
    await sees('#list .entry', /resized: hole seat: diameter 32 mm → 30 mm/, true, 20_000);
    await clickIn('#back');
    await sees('#list .entry', /changed: part seat/, true, 20_000);
  });

  it('a revision of git where there is no git: said in a sentence', async () => {
    if (!IN_BROWSER) return;
    const row = { ref: 'a'.repeat(40), previousRef: 'b'.repeat(40) };
    await commands.executeCommand('scribeline.compare', row, file('history/new.part.yaml'));
    await sees('#status', /No revisions can be had here/, true, 20_000);
  });

  it('what are no two parts is said, and nothing is opened', async () => {
    await commands.executeCommand('scribeline.compare', Uri.file('/nowhere.txt'), []);
    assert.equal(window.tabGroups.all.flatMap((g) => g.tabs).length, 0);
  });
});

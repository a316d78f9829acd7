/** Comparing in the real editor: two files, a difference that is in view, a file's history; each change leads to its line. */
import { strict as assert } from 'node:assert';
import { execFileSync, spawnSync } from 'node:child_process';
import { commands, Range, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import { file, putAway, settled, show } from './editor';
import { attribute, clickIn, pixels, present, press, read, screenshot, sees } from './person';

const HAS_GIT = spawnSync('git', ['--version']).status === 0;
const seat = (diameter: string, more = '') =>
  `part: seat\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: 7, bottom: flat }\n${more}`;
const TIE = '  tie: { kind: hole, face: top, at: { x: 8, y: 8 }, diameter: 5.5, depth: through }\n';

const put = (name: string, text: string) => workspace.fs.writeFile(file(name), Buffer.from(text));
const git = (...words: string[]) =>
  execFileSync('git', ['-c', 'user.name=a', '-c', 'user.email=a@example.org', ...words], {
    cwd: file('history').fsPath,
    encoding: 'utf8',
  }).trim();

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

  it('a difference in view; an edit that is not saved is compared', async () => {
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

  it('a file’s history: a row of it, and a revision that is chosen', async function () {
    if (!HAS_GIT) this.skip();
    git('init', '-q', '-b', 'main');
    await put('history/seat.part.yaml', seat('32 H7'));
    git('add', 'seat.part.yaml');
    git('commit', '-qm', 'first');
    await put('history/seat.part.yaml', seat('32 H8'));
    git('commit', '-qam', 'second');
    const [second, first] = git('log', '--format=%H').split('\n') as [string, string];
    const uri = file('history/seat.part.yaml');
    await commands.executeCommand('scribeline.compare', { ref: second, previousRef: first }, uri);
    await sees('#list .entry', /tolerance: hole seat: diameter tolerance H7 .* → H8/, true, 20_000);
    assert.match(await read('#side-titles', true), new RegExp(`${first.slice(0, 8)}.*${second.slice(0, 8)}`));
    // Of the text that went, its line is shown as that revision had it.
    await clickIn('#list .entry');
    const editor = await settled(
      async () => window.visibleTextEditors.find((e) => e.document.uri.scheme === 'scribeline-revision'),
      (e) => e !== undefined,
    );
    assert.match(editor?.document.getText() ?? '', /32 H8/);
    await commands.executeCommand('workbench.action.closeAllEditors');
    await put('history/seat.part.yaml', seat('32 H8', TIE));
    await show('history/seat.part.yaml');
    void commands.executeCommand('scribeline.compareWith');
    await sees('.quick-input-list .monaco-list-row', /second/);
    await press('Enter');
    await sees('#list .entry', /new: tie: hole on top/, true, 20_000);
    assert.match(await read('#side-titles', true), new RegExp(`${second.slice(0, 8)}.*seat\\.part\\.yaml$`));
  });

  it('what are no two parts is said, and nothing is opened', async () => {
    await commands.executeCommand('scribeline.compare', Uri.file('/nowhere.txt'), []);
    assert.equal(window.tabGroups.all.flatMap((g) => g.tabs).length, 0);
  });
});

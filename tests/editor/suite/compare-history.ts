/** Comparing along a file's history in the real editor: what needs git, and a machine to run it. */
import { strict as assert } from 'node:assert';
import { execFileSync, spawnSync } from 'node:child_process';
import { commands, window, workspace } from 'vscode';
import { file, putAway, settled, show } from './editor';
import { clickIn, present, press, read, sees } from './person';

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

describe('comparing with what git has', function () {
  this.timeout(60_000);
  before(async function () {
    // Only a browser can be looked into.
    if (!present || !HAS_GIT) this.skip();
    await workspace.fs.createDirectory(file('history'));
    git('init', '-q', '-b', 'main');
  });
  afterEach(async () => {
    await commands.executeCommand('workbench.action.closeAllEditors').then(undefined, () => {});
    await putAway();
  });
  after(() => workspace.fs.delete(file('history'), { recursive: true }).then(undefined, () => {}));

  it('a file’s history: a row of it, and a revision that is chosen', async () => {
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
});

/** `scribeline git on` in a real repository: differences by sense, merges entry by entry, and all of it undone again. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { HAS_GIT, ownFolder, runIn } from './folder';

const PART = `part: plate
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat }
  tie: { kind: hole, face: top, at: { x: 8, y: 8 }, diameter: 5.5, depth: through }
`;

(HAS_GIT ? describe : describe.skip)('scribeline git', function () {
  this.timeout(120_000);
  const own = ownFolder('git');
  const { run, git, read } = own;
  const write = (text: string) => own.write('plate.part.yaml', text);
  beforeEach(() => {
    git('init', '-q', '-b', 'main');
    write(PART);
    git('add', '.');
    git('commit', '-qm', 'one');
  });

  it('on: a difference is one of sense; another unit or order is none; off: as before, letter by letter', () => {
    own.write('.git/info/attributes', '*.png binary\n');
    const config = read('.git/config');
    assert.equal(run('git', 'on').status, 0);
    assert.equal(run('git', 'on').status, 0, 'twice is once');
    write(PART.replace('22 H7', '24 H8'));
    const { out } = git('diff');
    assert.match(out, /^- {2}diameter: 22 mm$/m);
    assert.match(out, /^\+ {2}diameter: 24 mm$/m);
    assert.match(out, /^\+ {2}diameter tolerance: H8/m);
    // The same part in other words.
    write(PART.replace('x: 8, y: 8', 'x: 4 + 4, y: 8 mm'));
    assert.doesNotMatch(git('diff').out, /^[+-] {2}/m);
    assert.equal(run('git', 'off').status, 0);
    assert.match(git('diff').out, /^\+ {2}tie: .*4 \+ 4/m);
    assert.deepEqual([read('.git/info/attributes'), read('.git/config')], ['*.png binary\n', config]);
    assert.equal(git('log', '--oneline').out.trim().split('\n').length, 1);
  });

  it('two branches that touch different features, side by side, merge; the same feature is a conflict', () => {
    run('git', 'on');
    git('checkout', '-qb', 'other');
    write(PART.replace('5.5', '6.6'));
    git('commit', '-qam', 'theirs');
    git('checkout', '-q', 'main');
    write(PART.replace('22 H7', '24 H7'));
    git('commit', '-qam', 'ours');
    assert.equal(git('merge', '-q', '-m', 'both', 'other').status, 0);
    assert.equal(read('plate.part.yaml'), PART.replace('5.5', '6.6').replace('22 H7', '24 H7'));
    git('checkout', '-qb', 'third', 'HEAD~2');
    write(PART.replace('22 H7', '30 H7'));
    git('commit', '-qam', 'third');
    assert.notEqual(git('merge', '-q', '-m', 'no', 'main').status, 0);
    assert.match(
      read('plate.part.yaml'),
      /<<<<<<< ours\n {2}seat: .*30 H7.*\n=======\n {2}seat: .*24 H7.*\n>>>>>>> theirs\n/,
    );
    assert.match(read('plate.part.yaml'), /tie: .*6\.6/);
  });

  it('outside a repository it says so; a text that is no part is told as it stands', () => {
    const bare = mkdtempSync(join(tmpdir(), 'scribeline-bare-'));
    try {
      const done = runIn(bare, 'git', 'on');
      assert.equal(done.status, 2);
      assert.match(done.err, /is in no git repository/);
    } finally {
      rmSync(bare, { recursive: true, force: true });
    }
    write('part: [\n');
    assert.equal(run('tell', 'plate.part.yaml').out, 'part: [\n');
    assert.equal(run('git').status, 2);
  });
});

/** `scribeline git on` in a real repository: differences by sense, merges entry by entry, and all of it undone again. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { lstatSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run as handed } from '../node/writers';
import { HAS_GIT, ownFolder } from './folder';
import { oddFiles } from './odd-files';
import { asks } from './warm';

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

  it('a name that begins with a dash, and a file that is no text, end no difference of others', () => {
    const odd = ['-dash.part.yaml', "ü/it\"s a 'part' $HOME [x]*.part.yaml", ':top.part.yaml'];
    for (const name of odd) own.write(name, PART);
    writeFileSync(own.at('bytes.part.yaml'), Buffer.from([0xc3, 0x28, 0x0a]));
    git('add', '-A');
    git('commit', '-qm', 'odd');
    assert.equal(run('git', 'on').status, 0);
    for (const name of odd) own.write(name, PART.replace('22 H7', '24 H7'));
    writeFileSync(own.at('bytes.part.yaml'), Buffer.from([0xc3, 0x29, 0x0a]));
    write(PART.replace('22 H7', '26 H7'));
    const { out, status } = git('diff', '--no-color');
    assert.equal(status, 0);
    assert.equal([...out.matchAll(/^\+ {2}diameter: 24 mm$/gm)].length, odd.length);
    assert.match(out, /^\+ {2}diameter: 26 mm$/m);
    assert.match(out, /^\+This file .*: \d+ bytes, [0-9a-f]{8}\.$/m);
    for (const name of odd) assert.match(run('compare', '--since', 'HEAD', '--', name).out, /1 change/, name);
  });

  it('a part in a submodule is not called new: it is compared there', () => {
    const sub = own.at('sub');
    own.write('sub/a.part.yaml', PART);
    for (const words of [
      ['init', '-q', '-b', 'main'],
      ['add', '.'],
      ['commit', '-qm', 'a'],
    ])
      git('-C', sub, ...words);
    git('-c', 'protocol.file.allow=always', 'submodule', 'add', '-q', sub, 'lent');
    git('commit', '-qm', 'lent');
    const { out, err } = run('compare', '.', '--since', 'HEAD');
    assert.doesNotMatch(out, /lent/);
    assert.match(err, /lent\/a\.part\.yaml lies in a submodule/);
  });

  it('outside a repository it says so; a text that is no part is told as it stands', () => {
    const bare = mkdtempSync(join(tmpdir(), 'scribeline-bare-'));
    try {
      const done = asks(bare, ['git', 'on']);
      assert.equal(done.status, 2);
      assert.match(done.err, /is in no git repository/);
    } finally {
      rmSync(bare, { recursive: true, force: true });
    }
    write('part: [\n');
    assert.equal(run('tell', 'plate.part.yaml').out, 'part: [\n');
    assert.equal(run('git').status, 2);
  });

  it('on: lines of others stay byte for byte, in whatever encoding; what cannot be read is not written over', () => {
    const others = Buffer.from('# Größe\r\n\n*.png binary', 'latin1');
    own.write('.git/info/attributes', '');
    writeFileSync(own.at('.git/info/attributes'), others);
    assert.equal(run('git', 'on').status, 0);
    const on = readFileSync(own.at('.git/info/attributes'), 'latin1');
    assert.ok(on.startsWith(`${others.toString('latin1')}\n*.part.yaml diff=scribeline`));
    assert.equal(run('git', 'off').status, 0);
    assert.equal(readFileSync(own.at('.git/info/attributes'), 'latin1'), `${others.toString('latin1')}\n`);
    rmSync(own.at('.git/info/attributes'));
    spawnSync('mkfifo', [own.at('.git/info/attributes')]);
    const piped = run('git', 'on');
    assert.equal(piped.status, 2);
    assert.match(piped.err, /info\/attributes is no ordinary file: nothing was changed/);
  });

  it('on: settings that git cannot keep are said, with 2', () => {
    own.write('.git/config.lock', '');
    const { status, err } = run('git', 'on');
    assert.equal(status, 2);
    assert.match(err, /git could not keep the settings: .*lock.*`scribeline git off` undoes what was done/);
  });

  it('on in a second work tree counts there', () => {
    git('worktree', 'add', '-q', own.at('second'));
    assert.equal(asks(own.at('second'), ['git', 'on']).status, 0);
    own.write('second/plate.part.yaml', PART.replace('22 H7', '24 H8'));
    assert.match(git('-C', own.at('second'), 'diff').out, /^\+ {2}diameter: 24 mm$/m);
  });

  it('compare says what a revision has that is no text, instead of comparing what is left of it', () => {
    writeFileSync(own.at('plate.part.yaml'), Buffer.from(PART, 'utf16le'));
    git('commit', '-qam', 'two');
    write(PART);
    const { status, err } = run('compare', 'HEAD:plate.part.yaml', 'plate.part.yaml');
    assert.equal(status, 2);
    assert.match(err, /UTF-16/);
  });
});

describe('what is handed over to be told, merged or recorded', function () {
  this.timeout(240_000);
  const own = ownFolder('handed');

  it('is said for what it is where it is no text: nothing hangs, and nothing is written', async () => {
    for (const [i, odd] of oddFiles(PART).entries()) {
      const name = `odd${i}.record.yaml`;
      odd.make(own.at(name));
      own.write('ours.part.yaml', PART);
      // One that git cannot have told would end the differences of all: of an ordinary file something is told.
      const told = await handed(['tell', name], own.at('.'));
      const isFile = lstatSync(own.at(name)).isFile();
      assert.equal(told.status, isFile ? 0 : 2, odd.name);
      assert.match(isFile ? told.out : told.err, odd.says, `${odd.name}: tell`);
      for (const words of [
        ['record', name],
        ['merge', 'ours.part.yaml', 'ours.part.yaml', name],
        ['merge', name, 'ours.part.yaml', 'ours.part.yaml'],
      ]) {
        const { status, out, err } = await handed(words, own.at('.'));
        assert.deepEqual([status, out], [2, ''], `${odd.name}: ${words.join(' ')}`);
        assert.match(err, odd.says, `${odd.name}: ${words.join(' ')}`);
      }
      assert.equal(own.read('ours.part.yaml'), PART);
    }
    const gone = await handed(['record', 'none.record.yaml'], own.at('.'));
    assert.deepEqual([gone.status, /is not there/.test(gone.err)], [2, true]);
  });
});

/** `scribeline compare` as it is run: files, folders, revisions of a repository, each by its own shop; and what cannot be had. */
import assert from 'node:assert/strict';
import { chmodSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { HAS_GIT, ownFolder } from './folder';
import { asks } from './warm';

const seat = (diameter: string, more = '') =>
  `part: seat\nmaterial: aluminium-6061-t6\n${more}body: { x: 60, y: 40, z: 16 }\nfeatures:\n  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: 7, bottom: flat }\n`;

describe('scribeline compare', function () {
  this.timeout(120_000);
  const { at, run, write, git } = ownFolder('compare');

  it('two files: the bore, its fit, figures; the same part in inches is the same', () => {
    write('a.part.yaml', seat('32 H7'));
    write('b.part.yaml', seat('33 H8'));
    const { status, out } = run('compare', 'a.part.yaml', 'b.part.yaml');
    assert.equal(status, 0);
    assert.match(out, /^b\.part\.yaml: 1 change$/m);
    assert.match(out, /resized, tolerance {2}hole seat: diameter 32 mm → 33 mm; diameter tolerance H7 .* → H8/);
    assert.match(out, /^ {4}mass \d+\.\d+ → \d+\.\d+ g \(-/m);
    write(
      'c.part.yaml',
      seat('32 mm H7', 'units: in\n')
        .replace('x: 60, y: 40, z: 16', 'x: 60 mm, y: 40 mm, z: 16 mm')
        .replace('depth: 7,', 'depth: 7 mm,'),
    );
    assert.match(run('compare', 'a.part.yaml', 'c.part.yaml').out, /the same part, written in another way/);
    assert.match(run('compare', 'a.part.yaml', 'a.part.yaml').out, /the same, letter by letter/);
  });

  it('folders: parts that came and went, JSON and Markdown', () => {
    write('old/a.part.yaml', seat('32 H7'));
    write('old/gone.part.yaml', seat('12'));
    write('new/a.part.yaml', seat('32 H7').replace('seat: {', 'socket: {'));
    write('new/more/b.part.yaml', seat('10'));
    const told = JSON.parse(run('compare', 'old', 'new', '--format', 'json').out);
    assert.deepEqual(
      told.files.map((f: { path: string; status: string }) => [f.path, f.status]),
      [
        ['a.part.yaml', 'changed'],
        ['gone.part.yaml', 'gone'],
        ['more/b.part.yaml', 'new'],
      ],
    );
    assert.deepEqual(told.files[0].features, [
      { change: ['renamed'], kind: 'hole', name: 'socket', was: 'seat', differences: [] },
    ]);
    assert.match(
      run('compare', 'old', 'new', '--format', 'md').out,
      /^## a\.part\.yaml: 1 change\n\n### Features\n\n- \*\*renamed\*\* hole socket \(was seat\)$/m,
    );
  });

  it('what is not there, and what is no option, is an error', () => {
    write('a.part.yaml', seat('32 H7'));
    assert.deepEqual(
      [run('compare', 'a.part.yaml', 'b.part.yaml').status, run('compare', 'a.part.yaml').status],
      [2, 2],
    );
    assert.equal(run('compare', 'a.part.yaml', '--since', 'HEAD').status, 2);
  });

  (HAS_GIT ? describe : describe.skip)('in a repository', () => {
    const rack = (deepest: number) =>
      `shop: campus\nmachines:\n  mill: { travel: { x: 500, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } }\ntools:\n  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: ${deepest}, reach: ${deepest}, shank: 10, material: carbide }\n`;
    const committed = () => {
      git('init', '-q', '-b', 'main');
      write('campus.shop.yaml', rack(22));
      write('a.part.yaml', seat('32 H7', 'shop: campus.shop.yaml\n'));
      git('add', '.');
      git('commit', '-qm', 'one');
      write('a.part.yaml', seat('33 H8', 'shop: campus.shop.yaml\n'));
      git('commit', '-qam', 'two');
    };

    it('one file since a revision, and between two', () => {
      committed();
      assert.match(run('compare', 'a.part.yaml', '--since', 'HEAD~1').out, /diameter 32 mm → 33 mm/);
      assert.match(run('compare', 'HEAD:a.part.yaml', 'HEAD~1:a.part.yaml').out, /diameter 33 mm → 32 mm/);
      assert.match(run('compare', '.', '--since', 'HEAD').out, /a\.part\.yaml: the same, letter by letter/);
    });

    it('a revision is judged by the shop that it had; today’s shop is told beside', () => {
      committed();
      const old = run('compare', 'HEAD~1:a.part.yaml', 'HEAD:a.part.yaml').out;
      assert.doesNotMatch(old, /today/);
      write('campus.shop.yaml', rack(4));
      const again = run('compare', 'HEAD~1:a.part.yaml', 'HEAD:a.part.yaml').out;
      assert.match(again, /by today’s shop also error access\/reach/);
    });

    it('an unknown revision, and one that only a whole clone has, are errors', () => {
      committed();
      const unknown = run('compare', 'a.part.yaml', '--since', 'v9');
      assert.deepEqual([unknown.status, unknown.out], [2, '']);
      assert.match(unknown.err, /there is no revision `v9`/);
      assert.equal(run('compare', '--upload-pack=x:a.part.yaml', 'a.part.yaml').status, 2);
      const first = git('rev-parse', 'HEAD~1').out.trim();
      const clone = mkdtempSync(join(tmpdir(), 'scribeline-clone-'));
      try {
        git('clone', '-q', '--depth', '1', `file://${at('.')}`, clone);
        const done = asks(clone, ['compare', 'a.part.yaml', '--since', first]);
        assert.equal(done.status, 2);
        assert.match(done.err, /this clone is shallow; fetch its history/);
      } finally {
        rmSync(clone, { recursive: true, force: true });
      }
    });

    it('runs no hook and no watcher of the repository', () => {
      committed();
      const trace = at('.git/ran');
      write('.git/hooks/watch', `#!/bin/sh\ntouch ${trace}\n`);
      chmodSync(at('.git/hooks/watch'), 0o755);
      git('config', 'core.fsmonitor', at('.git/hooks/watch'));
      git('config', 'core.pager', at('.git/hooks/watch'));
      assert.equal(run('compare', 'a.part.yaml', '--since', 'HEAD~1').status, 0);
      assert.ok(!existsSync(trace));
    });
  });
});

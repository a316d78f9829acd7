/** The gate for files: where links lead, real links on a real disk, and whether that is inside what was named. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { foldersNamed, Gate, isBelow } from '../../server/src/node/gate';

let base: string;
let inside: string;

describe('the gate for files', () => {
  beforeEach(() => {
    base = realpathSync(mkdtempSync(join(tmpdir(), 'scribeline-gate-')));
    inside = join(base, 'inside');
    mkdirSync(join(inside, 'deep'), { recursive: true });
    mkdirSync(join(base, 'inside-not'));
    for (const file of ['inside/a.part.yaml', 'inside/deep/b.part.yaml', 'out.part.yaml', 'inside-not/c.part.yaml'])
      writeFileSync(join(base, file), file);
  });
  afterEach(() => rmSync(base, { recursive: true, force: true }));

  const pass = (path: string, folders = [inside]) => new Gate(folders).pass(path);

  it('lets through what lies below, and a link to it, as its real path', async () => {
    symlinkSync('deep/b.part.yaml', join(inside, 'link.part.yaml'));
    assert.deepEqual(await pass(join(inside, 'a.part.yaml')), { real: join(inside, 'a.part.yaml') });
    assert.deepEqual(await pass(join(inside, 'link.part.yaml')), { real: join(inside, 'deep/b.part.yaml') });
    assert.deepEqual(await pass(inside), { real: inside });
  });

  it('lets no link out, of the file or of a folder on the way, nor a neighbour whose name begins alike', async () => {
    symlinkSync('../out.part.yaml', join(inside, 'file.part.yaml'));
    symlinkSync('..', join(inside, 'up'));
    symlinkSync('file.part.yaml', join(inside, 'twice.part.yaml'));
    for (const path of ['file.part.yaml', 'up/out.part.yaml', 'twice.part.yaml', 'deep/../../inside-not/c.part.yaml']) {
      const { reason, why } = (await pass(`${inside}/${path}`)) as { reason: string; why: string };
      assert.equal(reason, 'outside', path);
      assert.match(why, /leads to .*(out|c)\.part\.yaml/);
    }
    // A link out and in again ends inside.
    assert.deepEqual(await pass(join(inside, 'up/inside/a.part.yaml')), { real: join(inside, 'a.part.yaml') });
  });

  it('follows the links of the folders that were named too', async () => {
    symlinkSync('inside', join(base, 'door'));
    const named = join(base, 'door');
    assert.deepEqual(await pass(join(named, 'a.part.yaml'), [named]), { real: join(inside, 'a.part.yaml') });
    assert.deepEqual(await pass(join(inside, 'a.part.yaml'), [named]), { real: join(inside, 'a.part.yaml') });
  });

  it('tells what is not there from a link that leads nowhere, or in a circle', async () => {
    symlinkSync('gone.part.yaml', join(inside, 'nowhere.part.yaml'));
    symlinkSync('round.part.yaml', join(inside, 'round.part.yaml'));
    const reason = async (name: string) => (await pass(join(inside, name))).reason;
    assert.equal(await reason('gone.part.yaml'), 'absent');
    assert.equal(await reason('a.part.yaml/x'), 'absent');
    assert.equal(await reason('nowhere.part.yaml'), 'dangling');
    assert.equal(await reason('round.part.yaml'), 'loop');
  });

  it('lets a new file into a folder inside, and through no link', async () => {
    symlinkSync('..', join(inside, 'up'));
    symlinkSync('../new.step', join(inside, 'nowhere.step'));
    const reason = async (name: string) => (await new Gate([inside]).passNew(join(inside, name))).reason;
    assert.deepEqual(await new Gate([inside]).passNew(join(inside, 'deep/new.step')), {
      real: join(inside, 'deep/new.step'),
    });
    assert.equal(await reason('up/new.step'), 'outside');
    assert.equal(await reason('nowhere.step'), 'dangling');
    assert.equal(await reason('gone/new.step'), 'absent');
  });

  it('opens the working folder, and the folders of what was named', async () => {
    const at = (name: string) => join(base, name);
    const words = [
      '../inside/a.part.yaml',
      '../inside/deep',
      `${base}/out*.part.yaml`,
      '*.part.yaml',
      '../gone/x.part.yaml',
    ];
    assert.deepEqual(await foldersNamed(words, at('inside-not')), [
      at('inside-not'),
      at('inside'),
      at('inside/deep'),
      base,
      at('gone'),
    ]);
  });

  it('counts folders by whole names', () => {
    assert.ok(isBelow('/a/b', '/a/b') && isBelow('/a/b/..c', '/a/b') && isBelow('/a', '/'));
    assert.ok(!isBelow('/a/bc', '/a/b') && !isBelow('/a', '/a/b') && !isBelow('/', '/a'));
  });
});

/**
 * Folders drawn at random from sound parts and from odd things under a document's name: pipes, devices, links that lead
 * nowhere, outside or in a ring, other encodings, too much. Whatever stands beside them, every sound part is judged, every
 * odd thing is said for what it is, and the answer is no success.
 */
import assert from 'node:assert/strict';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { asNobody, oddFiles, put, SHOP, SOUND } from '../cli/odd-files';
import { asks } from '../cli/warm';
import { run } from '../node/writers';
import { patience, random, runs } from './runs';

const KINDS = ['part', 'shop', 'job'] as const;
const TEXT = { part: SOUND, shop: SHOP, job: 'job: a\nparts: { a: { spec: sound.part.yaml } }\n' };

describe('odd files', function () {
  this.timeout(patience(120_000));
  let folder: string;
  const at = (name: string) => join(folder, name);
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-odd-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  for (const kind of KINDS)
    it(`named one by one as a ${kind}: each is said for what it is, with 2`, async () => {
      for (const [i, odd] of oddFiles(TEXT[kind]).entries()) {
        const name = `odd${i}.${kind}.yaml`;
        odd.make(at(name));
        const { status, out, err } = await run(['check', name, '--format', 'json'], folder);
        assert.equal(status, 2, odd.name);
        assert.match(err, odd.says, odd.name);
        assert.deepEqual(JSON.parse(out).unread, [err.trim().replace('scribeline: ', '')]);
      }
    });

  it('as the shop that is named, by a part, beside it or with --shop: said, and no other shop judges', async () => {
    for (const [i, odd] of oddFiles(SHOP).entries()) {
      const name = `${i}/odd.shop.yaml`;
      put(folder, {
        [`${i}/a.part.yaml`]: SOUND,
        [`${i}/b.part.yaml`]: SOUND.replace('units:', 'shop: odd.shop.yaml\nunits:'),
      });
      odd.make(at(name));
      for (const part of ['a', 'b']) {
        const file = `${i}/${part}.part.yaml`;
        const checked = await run(['check', file], folder);
        assert.equal(checked.status, 2, odd.name);
        assert.match(checked.out, /only what needs no shop is checked/, odd.name);
        assert.match(checked.err, odd.says, odd.name);
        assert.doesNotMatch(checked.out, /odd-diameter|flat-bottom/, odd.name);
        const planned = await run(['plan', file], folder);
        assert.deepEqual([planned.status, planned.out], [2, ''], odd.name);
        assert.match(planned.err, odd.says, odd.name);
      }
      put(folder, { 'plain.part.yaml': SOUND });
      for (const words of [
        ['check', 'plain.part.yaml'],
        ['plan', 'plain.part.yaml'],
        ['export', 'plain.part.yaml', '--to', 'svg'],
      ]) {
        const { status, out, err } = await run([...words, '--shop', name], folder);
        assert.deepEqual([status, out], [2, ''], odd.name);
        assert.match(err, odd.says, odd.name);
      }
    }
  });

  it('in folders of any make: nothing sound is missed, nothing odd is passed over', async () => {
    for (let seed = 1; seed <= runs(25); seed++) {
      const world = at(String(seed));
      const { sound, odd } = drawn(world, seed);
      const { status, out, err } = await run(['check', '.', '--format', 'json'], world);
      const { files, unread = [] } = JSON.parse(out) as { files: { path: string }[]; unread?: string[] };
      assert.deepEqual(files.map((f) => f.path).sort(), sound, `seed ${seed}`);
      assert.equal(status, odd.length > 0 ? 2 : 0, `seed ${seed}: ${err}`);
      for (const { path, says } of odd)
        assert.ok(
          unread.some((u) => u.startsWith(`${path} `) && says.test(u)),
          `seed ${seed}: ${path}\n${err}`,
        );
      assert.equal(unread.length, odd.length, `seed ${seed}: ${err}`);
    }
  });

  it('of the built program: a pipe does not hang it', () => {
    for (const odd of oddFiles(SOUND).filter(({ name }) => /pipe|device/.test(name)))
      odd.make(at(`${odd.name}.part.yaml`));
    put(folder, { 'sound.part.yaml': SOUND });
    const { status, out } = asks(folder, ['check', '.']);
    assert.equal(status, 2);
    assert.match(out, /^1 file checked, not all that was asked for: nothing found in these\.$/m);
  });

  it('a folder or file that may not be read is said, and the others are judged', function () {
    put(folder, { 'a/sound.part.yaml': SOUND, 'b/hidden.part.yaml': SOUND, 'c/shut.part.yaml': SOUND });
    chmodSync(folder, 0o755);
    chmodSync(at('b'), 0);
    chmodSync(at('c/shut.part.yaml'), 0);
    try {
      // Where there is nobody else to be, or the program is not his to run, there is nothing to see.
      if (asNobody(['--version'], folder).status !== 0) this.skip();
      const { status, out, err } = asNobody(['check', '.'], folder);
      assert.equal(status, 2);
      assert.match(err, /b (could not be reached|may not be read).*: nothing in it was looked at\.$/m);
      assert.match(err, /c\/shut\.part\.yaml may not be read: permission is denied\.$/m);
      assert.match(out, /^1 file checked, not all/m);
      assert.equal(asNobody(['check', 'b/hidden.part.yaml'], folder).status, 2);
    } finally {
      chmodSync(at('b'), 0o755);
    }
  });
});

interface Drawn {
  /** Shown paths of what must be judged. */
  readonly sound: readonly string[];
  readonly odd: readonly { readonly path: string; readonly says: RegExp }[];
}

/** A world of folders in `world`, with a part outside it that no link may reach. */
function drawn(world: string, seed: number): Drawn {
  const { below, pick, next } = random(seed);
  const folders = ['.', 'a', 'a/b', 'a/b/c', 'd'];
  for (const f of folders) mkdirSync(join(world, f), { recursive: true });
  put(`${world}-outside`, { 'out.part.yaml': SOUND, 'more/out.part.yaml': SOUND });
  const sound: string[] = [];
  const odd: { path: string; says: RegExp }[] = [];
  const kinds = oddFiles(SOUND);
  for (let i = 0; i < 8; i++) {
    const path = join(pick(folders), `f${i}.part.yaml`);
    if (next() < 0.5) {
      put(world, { [path]: SOUND });
      sound.push(path);
    } else {
      const one = pick(kinds);
      one.make(join(world, path));
      odd.push({ path, says: one.says });
    }
  }
  for (let i = 0; i < below(4); i++) {
    const folder = pick(folders);
    const link = join(folder, `link${i}`);
    const [target, says] = pick([
      // Back up, and across: what lies there is judged once, under its own name.
      ['..', undefined],
      ['.', undefined],
      ['nowhere', undefined],
      [`${world}-outside`, /leads to .*outside/],
    ] as const);
    const up = target === '..' && folder === '.';
    symlinkSync(up ? '.' : target, join(world, link));
    if (says) odd.push({ path: link, says });
  }
  if (next() < 0.5) {
    const path = join(pick(folders), 'leaves.part.yaml');
    symlinkSync(join(`${world}-outside`, 'out.part.yaml'), join(world, path));
    odd.push({ path, says: /leads to .*outside/ });
  }
  return { sound: sound.sort(), odd };
}

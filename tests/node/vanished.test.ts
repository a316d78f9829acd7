/** What goes while a command looks for it and reads it, and folders that hide whether a shop lies in them: both are said. */
import assert from 'node:assert/strict';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, unlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Host } from '../../server/src/service/host';
import { Workspace } from '../../server/src/service/workspace';
import { asNobody, put, SHOP, SOUND } from '../cli/odd-files';
import { run } from './writers';

// Its functions can be replaced, which those of an import cannot.
const files = require('node:fs/promises') as typeof import('node:fs/promises');

describe('a file that vanishes between search and reading', () => {
  let folder: string;
  const { open, stat } = files;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-vanished-'));
    put(folder, { 'gone.part.yaml': SOUND, 'left.part.yaml': SOUND });
  });
  afterEach(() => {
    Object.assign(files, { open, stat });
    rmSync(folder, { recursive: true, force: true });
  });

  /** Taken away by somebody else just before that operation of the reader. */
  function vanishesAt(name: 'open' | 'stat'): void {
    const real = { open, stat }[name] as (path: string, ...args: unknown[]) => Promise<unknown>;
    const taken = (path: string, ...args: unknown[]) => {
      if (path.endsWith('gone.part.yaml')) rmSync(path, { force: true });
      return real(path, ...args);
    };
    Object.assign(files, { [name]: taken });
  }

  for (const at of ['stat', 'open'] as const)
    it(`is said to be gone, and the others are judged (before ${at})`, async () => {
      vanishesAt(at);
      const { status, out, err } = await run(['check', '.'], folder);
      assert.equal(status, 2);
      assert.equal(err, 'scribeline: gone.part.yaml is gone: it was there when its folder was looked through.\n');
      assert.match(out, /1 file checked, not all that was asked for/);
    });

  it('is said by plan and export too', async () => {
    for (const words of [
      ['plan', 'gone.part.yaml', 'left.part.yaml'],
      ['export', 'gone.part.yaml', 'left.part.yaml', '--to', 'svg', '--face', 'top'],
    ]) {
      put(folder, { 'gone.part.yaml': SOUND });
      vanishesAt('open');
      const { status, out, err } = await run(words, folder);
      assert.equal(status, 2, words[0]);
      assert.match(err, /gone\.part\.yaml:? is gone: /, words[0]);
      assert.match(out, /left|plate/, words[0]);
      Object.assign(files, { open });
    }
  });

  it('of a word that never was there nothing of the kind is said', async () => {
    unlinkSync(join(folder, 'gone.part.yaml'));
    const { err } = await run(['check', 'gone.part.yaml'], folder);
    assert.equal(err, 'scribeline: gone.part.yaml is not there.\n');
  });
});

describe('a folder that cannot be listed on the way up to the nearest shop', () => {
  const why = 'may not be read: permission is denied';
  const part = 'mem:///w/a/b/c.part.yaml';
  async function judged(listed: Readonly<Record<string, readonly string[] | { why: string }>>, text = SOUND) {
    const host: Host = {
      log: () => undefined,
      read: async (path) => (path.endsWith('.shop.yaml') ? SHOP : undefined),
      list: async (folder) => listed[folder] ?? [],
      documents: async () => [],
    };
    const workspace = new Workspace(host, { roots: ['mem:///w'] });
    workspace.open(part, text);
    const snapshot = await workspace.snapshot(part);
    assert.ok(snapshot?.kind === 'part');
    assert.equal(await workspace.snapshot(part), snapshot, 'unchanged is the same object');
    return { shop: snapshot.checked.shop.name, said: snapshot.besides.map((f) => [f.severity, f.message] as const) };
  }

  it('is said, with who judges instead', async () => {
    const { said } = await judged({ 'mem:///w/a': { why } });
    assert.equal(said.length, 1);
    const [severity, message] = said[0]!;
    assert.equal(severity, 'warning');
    assert.match(
      message,
      /nearer shop file lies in mem:\/\/\/w\/a is not known: it may not be read: .*built-in shop is used/,
    );
    assert.ok(message.split(/\s+/).length <= 40, message);
  });

  it('is said where one farther up judges, and only the nearest', async () => {
    const { shop, said } = await judged({
      'mem:///w/a/b': { why },
      'mem:///w/a': { why },
      'mem:///w': ['x.shop.yaml'],
    });
    assert.equal(shop, 'mine');
    assert.deepEqual(
      said.map(([, m]) => /lies in (\S+) .* (\S+) is used/.exec(m)?.slice(1)),
      [['mem:///w/a/b', 'mine']],
    );
  });

  it('is no matter beyond the shop that was found, or where one is named', async () => {
    const listed = { 'mem:///w/a/b': ['n.shop.yaml'], 'mem:///w/a': { why } };
    assert.deepEqual((await judged(listed)).said, []);
    const named = SOUND.replace('units:', 'shop: own.shop.yaml\nunits:');
    assert.deepEqual((await judged({ 'mem:///w/a/b': { why } }, named)).said, []);
  });

  it('is said by the built program', function () {
    const folder = mkdtempSync(join(tmpdir(), 'scribeline-unlisted-'));
    try {
      mkdirSync(join(folder, 'shut'));
      put(folder, { 'shut/in/a.part.yaml': SOUND });
      chmodSync(folder, 0o755);
      chmodSync(join(folder, 'shut'), 0o711);
      if (asNobody(['--version'], folder).status !== 0) this.skip();
      const { status, out } = asNobody(['check', 'shut/in/a.part.yaml'], folder);
      assert.equal(status, 0);
      assert.match(out, /warning form\/unknown-name[\s\S]*nearer shop file lies in .*shut is not known/);
    } finally {
      chmodSync(join(folder, 'shut'), 0o755);
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

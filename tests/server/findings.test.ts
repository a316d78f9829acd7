/** The built server over a real connection: findings as diagnostics, fixes, and what must not happen. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { CLI, Client } from './client';

const SOUND = `# a plate
part: plate
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat: # for the bearing
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 16 H7
    depth: 7
    bottom: flat
`;
const THIN = `${SOUND}  gap: # near the front
    kind: pocket
    face: top
    at: { x: center, y: 4.4 } # stays
    size: { x: 20, y: 8 }
    corner-radius: 3.5
    depth: 6
`;
const URI = 'file:///w/plate.part.yaml';

describe('findings over a connection', () => {
  let client: Client;
  beforeEach(async () => {
    client = await Client.start({ initializationOptions: { pagesUri: 'file:///pages' } });
  });
  afterEach(async () => {
    assert.equal(await client.stop(), 0);
    assert.equal(client.stderr, '');
  });

  it('a sound part has none', async () => {
    client.open(URI, SOUND);
    assert.deepEqual(await client.diagnostics(URI), []);
  });

  it('a thin wall is an error with rule, link, related place and numbers', async () => {
    client.open(URI, THIN);
    const [thin] = (await client.diagnostics(URI)).filter((d) => d.code === 'wall/thin');
    assert.ok(thin);
    assert.equal(thin.severity, 1);
    assert.equal(thin.source, 'scribeline');
    assert.equal(thin.codeDescription?.href, 'file:///pages/wall/thin.md');
    assert.match(thin.message, /0\.4 mm/);
    assert.ok(Math.abs((thin.data as { facts: Record<string, number> }).facts.thickness_mm! - 0.4) < 1e-9);
  });

  it('each edit is answered for the text as it is then', async () => {
    client.open(URI, THIN);
    assert.ok((await client.diagnostics(URI)).some((d) => d.code === 'wall/thin'));
    client.replace(URI, 'y: 4.4', 'y: 6');
    assert.ok(!(await client.diagnostics(URI)).some((d) => d.code === 'wall/thin'));
    client.replace(URI, 'y: 6', 'y: 4.4');
    assert.ok((await client.diagnostics(URI)).some((d) => d.code === 'wall/thin'));
  });

  it('places follow lines put in above', async () => {
    client.open(URI, THIN);
    const before = (await client.diagnostics(URI)).find((d) => d.code === 'wall/thin')!;
    client.replace(URI, 'units: mm\n', 'units: mm\n# one\n# two\n');
    const after = (await client.diagnostics(URI)).find((d) => d.code === 'wall/thin')!;
    assert.equal(after.range.start.line, before.range.start.line + 2);
    assert.equal(after.range.start.character, before.range.start.character);
  });

  it('an unchanged document is answered in a word', async () => {
    client.open(URI, THIN);
    const first = await client.pull(URI);
    assert.equal(first.kind, 'full');
    const second = await client.pull(URI, first.kind === 'full' ? first.resultId : undefined);
    assert.equal(second.kind, 'unchanged');
    client.replace(URI, 'y: 4.4', 'y: 4.5');
    assert.equal((await client.pull(URI, second.resultId)).kind, 'full');
  });

  it('a fix cures its finding and keeps every comment; undone, all is as it was', async () => {
    client.open(URI, THIN);
    const thin = (await client.diagnostics(URI)).find((d) => d.code === 'wall/thin')!;
    const fixes = (await client.actions(URI, thin, ['quickfix'])).filter(
      (a) => a.diagnostics?.[0]?.code === 'wall/thin',
    );
    assert.ok(fixes.length >= 1);
    for (const fix of fixes) {
      assert.ok(fix.title.length > 10);
      client.apply(URI, fix);
      assert.ok(!(await client.diagnostics(URI)).some((d) => d.code === 'wall/thin'), fix.title);
      for (const comment of ['# a plate', '# for the bearing', '# near the front', '# stays'])
        assert.ok(client.text(URI).includes(comment), fix.title);
      client.open(URI, THIN);
    }
  });

  it('fix-all applies the safe fixes together', async () => {
    client.open(
      URI,
      SOUND.replace('seat: #', 'saet: #').replace(
        'bottom: flat\n',
        'bottom: flat\n  bore:\n    kind: hole\n    face: top\n    from: saeet\n    at: { x: center, y: center }\n    diameter: 12\n    depth: through\n',
      ),
    );
    const all = await client.actions(
      URI,
      { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } },
      ['source.fixAll'],
    );
    assert.equal(all.length, 1);
    assert.equal(all[0]!.kind, 'source.fixAll.scribeline');
    client.apply(URI, all[0]!);
    assert.match(client.text(URI), /from: saet\n/);
    assert.deepEqual(
      (await client.diagnostics(URI)).filter((d) => d.code === 'form/unknown-name'),
      [],
    );
  });

  it('one broken feature does not silence the others', async () => {
    client.open(URI, `${THIN}  odd:\n    kind: hole\n    face: top\n    diamter: 5\n`);
    const codes = (await client.diagnostics(URI)).map((d) => d.code);
    assert.ok(codes.includes('wall/thin'));
    assert.ok(codes.includes('form/schema'));
  });

  it('a closed document is forgotten, and an unknown one has nothing', async () => {
    client.open(URI, THIN);
    await client.diagnostics(URI);
    client.close(URI);
    assert.deepEqual(await client.diagnostics(URI), []);
    assert.deepEqual(await client.diagnostics('file:///w/other.txt'), []);
  });
});

describe('the command line’s server', () => {
  it('speaks the same over standard input and output', async () => {
    const client = await Client.start({ args: [CLI, 'serve', '--stdio'] });
    client.open(URI, THIN);
    assert.ok((await client.diagnostics(URI)).some((d) => d.code === 'wall/thin'));
    assert.equal(await client.stop(), 0);
    assert.equal(client.stderr, '');
  });
});

describe('the shop that judges', () => {
  let folder: string;
  let client: Client | undefined;
  const uri = (name: string) => pathToFileURL(join(folder, name)).href;
  const write = (name: string, text: string) => {
    mkdirSync(join(folder, name, '..'), { recursive: true });
    writeFileSync(join(folder, name), text);
  };
  const BARE = 'shop: bare\nunits: mm\ntools: {}\n';
  const TAPPED = SOUND.replace('diameter: 16 H7\n    depth: 7\n    bottom: flat', 'thread: M5\n    depth: through');

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-shop-'));
  });
  afterEach(async () => {
    await client?.stop();
    client = undefined;
    rmSync(folder, { recursive: true, force: true });
  });

  const codes = async (name: string) => (await client!.diagnostics(uri(name))).map((d) => d.code);

  it('is the nearest file going up, read from disk, and replaced when an editor holds another text', async () => {
    write('campus.shop.yaml', BARE);
    client = await Client.start({ roots: [pathToFileURL(folder).href] });
    client.open(uri('parts/deep/plate.part.yaml'), TAPPED);
    assert.ok((await codes('parts/deep/plate.part.yaml')).includes('thread/no-tap'));
    client.open(
      uri('campus.shop.yaml'),
      `${BARE.replace('tools: {}', 'tools:\n  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 22 }')}`,
    );
    assert.ok(!(await codes('parts/deep/plate.part.yaml')).includes('thread/no-tap'));
  });

  it('a change on disk counts once the editor tells of it', async () => {
    write('campus.shop.yaml', BARE);
    client = await Client.start({ roots: [pathToFileURL(folder).href] });
    client.open(uri('plate.part.yaml'), TAPPED);
    assert.ok((await codes('plate.part.yaml')).includes('thread/no-tap'));
    rmSync(join(folder, 'campus.shop.yaml'));
    void client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: uri('campus.shop.yaml'), type: 3 }],
    });
    assert.ok(!(await codes('plate.part.yaml')).includes('thread/no-tap'), 'the built-in shop has an M5 tap');
  });

  it('named by path, missing, of another kind or outside the folder: one message at the name', async () => {
    write('in/there.shop.yaml', BARE);
    write('out/side.shop.yaml', BARE);
    client = await Client.start({ roots: [uri('in')] });
    const name = 'in/plate.part.yaml';
    const say = async (path: string) => {
      client!.open(uri(name), TAPPED.replace('units:', `shop: ${path}\nunits:`));
      return (await client!.diagnostics(uri(name))).filter((d) => d.code === 'form/unknown-name');
    };
    assert.deepEqual(await say('there.shop.yaml'), []);
    assert.match((await say('gone.shop.yaml'))[0]!.message, /no shop file `gone\.shop\.yaml`/);
    assert.match((await say('plate.part.yaml'))[0]!.message, /not a shop file/);
    const [outside] = await say('../out/side.shop.yaml');
    assert.match(outside!.message, /outside the open folder/);
    assert.deepEqual(outside!.range.start, client.position(uri(name), '../out/side.shop.yaml'));
  });

  it('files outside every root, and two roots, each find their own shop', async () => {
    write('a/campus.shop.yaml', BARE);
    write('b/plate.part.yaml', TAPPED);
    client = await Client.start({ roots: [uri('a'), uri('b')] });
    client.open(uri('a/plate.part.yaml'), TAPPED);
    client.open(uri('b/plate.part.yaml'), TAPPED);
    client.open('untitled:plate.part.yaml', TAPPED);
    assert.ok((await codes('a/plate.part.yaml')).includes('thread/no-tap'));
    assert.ok(!(await codes('b/plate.part.yaml')).includes('thread/no-tap'));
    assert.ok(!(await client.diagnostics('untitled:plate.part.yaml')).some((d) => d.code === 'thread/no-tap'));
  });
});

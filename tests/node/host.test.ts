/** What the editor's side may read of a folder: links are followed inside it, and nowhere else. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { nodeHost } from '../../server/src/node/host';
import { Workspace } from '../../server/src/service/workspace';
import { put, SHOP, SOUND } from '../cli/odd-files';

describe('the host of an open folder', () => {
  let folder: string;
  let root: string;
  const host = nodeHost(() => undefined);
  const uri = (name: string) => pathToFileURL(join(folder, name)).href;
  before(() => {
    folder = realpathSync(mkdtempSync(join(tmpdir(), 'scribeline-host-')));
    mkdirSync(join(folder, 'open'));
    put(folder, {
      'open/a.part.yaml': SOUND,
      'open/sub/own.shop.yaml': SHOP,
      'secret.part.yaml': SOUND,
      'far/far.shop.yaml': SHOP,
      'far/key': 'secret',
    });
    const link = (target: string, name: string) => symlinkSync(join(folder, target), join(folder, name));
    link('open/sub/own.shop.yaml', 'open/inside.shop.yaml');
    link('secret.part.yaml', 'open/out.part.yaml');
    link('far', 'open/away');
    link('far/key', 'open/key.shop.yaml');
    link('far/key', 'far/key.shop.yaml');
    root = uri('open');
  });
  after(() => rmSync(folder, { recursive: true, force: true }));
  const read = (name: string) => host.read(uri(name), [root]);
  const outside = { why: /leads to .*, outside the open folder$/ };

  it('reads what is in it, and through links what is in it too', async () => {
    assert.equal(await read('open/a.part.yaml'), SOUND);
    assert.equal(await read('open/inside.shop.yaml'), SHOP);
    assert.equal(await read('open/gone.shop.yaml'), undefined);
  });

  for (const name of ['open/out.part.yaml', 'open/away/far.shop.yaml', 'open/key.shop.yaml', 'far/key.shop.yaml'])
    it(`reads nothing through ${name}`, async () => {
      const found = await read(name);
      assert.ok(typeof found === 'object', String(found));
      assert.match(found.why, outside.why);
    });

  it('reads a shop beyond it where the user has set it', async () => {
    assert.equal(await read('far/far.shop.yaml'), SHOP);
  });

  it('lists the documents in it once, and no folder that a link leads out to', async () => {
    const found = (await host.documents(root)).map((u) => u.slice(root.length + 1));
    assert.deepEqual(
      found.filter((f) => f.includes('away')),
      [],
    );
    assert.ok(found.includes('a.part.yaml') && found.includes('sub/own.shop.yaml'));
  });

  it('a job and a part read nothing through such a link either', async () => {
    const workspace = new Workspace(host, { roots: [root] });
    workspace.open(
      uri('open/j.job.yaml'),
      'job: j\nparts:\n  o: { spec: out.part.yaml }\n  s: { spec: ../secret.part.yaml }\n',
    );
    const job = await workspace.snapshot(uri('open/j.job.yaml'));
    assert.ok(job?.kind === 'job');
    assert.deepEqual(await workspace.piecesOf(job.path, job.checked.job), []);
    assert.equal(job.findings.filter((f) => /outside the open folder/.test(f.message)).length, 2);
    workspace.open(uri('open/b.part.yaml'), SOUND.replace('units:', 'shop: key.shop.yaml\nunits:'));
    const part = await workspace.snapshot(uri('open/b.part.yaml'));
    assert.ok(part?.kind === 'part' && /outside the open folder/.test(part.checked.shop.unread ?? ''));
  });
});

/** The part's shop is what its YAML says, however it is written; one that cannot be had is no other. */
import assert from 'node:assert/strict';
import type { FileText, Host } from '../../server/src/service/host';
import { Workspace } from '../../server/src/service/workspace';

const BODY =
  'units: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  a: { kind: hole, face: top, at: { x: 30, y: 20 }, thread: M5, depth: 10 }\n';
const PART = 'mem:///w/a.part.yaml';

function world(files: Readonly<Record<string, FileText>>): Host {
  return {
    log: () => undefined,
    read: async (path) => files[path],
    list: async (folder) =>
      Object.keys(files)
        .filter((f) => f.startsWith(`${folder}/`))
        .map((f) => f.slice(folder.length + 1))
        .filter((f) => !f.includes('/')),
    documents: async () => Object.keys(files),
  };
}

async function judged(text: string, files: Readonly<Record<string, FileText>>, shop?: string) {
  const workspace = new Workspace(world(files), { roots: ['mem:///w'], ...(shop !== undefined && { shop }) });
  workspace.open(PART, text);
  const snapshot = await workspace.snapshot(PART);
  assert.ok(snapshot?.kind === 'part');
  const { findings, checked } = snapshot;
  return { findings, checked, shop: checked.shop, workspace };
}

const WAYS: Readonly<Record<string, string>> = {
  plain: `part: a\nshop: NAME\n${BODY}`,
  'on the next line': `part: a\nshop:\n  NAME\n${BODY}`,
  'in quotes': `part: a\nshop: "NAME" # ours\n${BODY}`,
  'in single quotes': `part: a\nshop: 'NAME'\n${BODY}`,
  'with a quoted key': `part: a\n"shop": NAME\n${BODY}`,
  'with a space before the colon': `part: a\nshop : NAME\n${BODY}`,
  'folded over lines': `part: a\nshop: >-\n  NAME\n${BODY}`,
  'in flow style': `{ part: a, shop: "NAME", units: mm, body: { x: 60, y: 40, z: 16 } }\n`,
  'last of all': `part: a\n${BODY}shop: NAME\n`,
};

describe('the shop that a part names', () => {
  for (const name of ['mine.shop.yaml', 'my shop#1.shop.yaml', 'sub/ours.shop.yaml'])
    for (const [way, text] of Object.entries(WAYS))
      it(`${name}, ${way}`, async () => {
        const path = `mem:///w/${name.split('/').map(encodeURIComponent).join('/')}`;
        const files = { [path]: 'shop: named\n', 'mem:///w/aaa.shop.yaml': 'shop: nearest\n' };
        assert.equal((await judged(text.replace('NAME', name), files)).shop.name, 'named');
      });

  it('is not what only looks like it: in a comment, in a text', async () => {
    const files = { 'mem:///w/mine.shop.yaml': 'shop: named\n', 'mem:///w/aaa.shop.yaml': 'shop: nearest\n' };
    for (const text of [
      `part: a\n# shop: mine.shop.yaml\n${BODY}`,
      `part: a\ntitle: |\n  x\n  shop: mine.shop.yaml\n${BODY}`,
    ])
      assert.equal((await judged(text, files)).shop.name, 'nearest', text);
  });

  for (const [what, text] of Object.entries({
    'a list': `part: a\nshop: [mine.shop.yaml]\n${BODY}`,
    'a map': `part: a\nshop: { mine.shop.yaml: 1 }\n${BODY}`,
    'an open quote': `part: a\n${BODY}shop: "mine.shop.yaml\n`,
  }))
    it(`under which ${what} stands: no other judges`, async () => {
      const { shop, findings } = await judged(text, { 'mem:///w/aaa.shop.yaml': 'shop: nearest\n' });
      assert.notEqual(shop.unread, undefined);
      assert.ok(findings.some((f) => f.severity === 'error'));
    });
});

describe('a shop file that was copied into another folder', () => {
  const text = 'shop: campus\ntools:\n  six: { kind: end-mill, diameter: 6, flutes: 3 }\n';

  it('is the same tools, each with its own place, until one of them is changed', async () => {
    const [first, second] = ['mem:///w/1/a.shop.yaml', 'mem:///w/2/a.shop.yaml'] as const;
    const workspace = new Workspace(world({ [first]: text, [second]: text }), { roots: ['mem:///w'] });
    const shopOf = async (path: string) => {
      const snapshot = await workspace.snapshot(path);
      assert.ok(snapshot?.kind === 'shop');
      assert.equal(snapshot.path, path);
      return { ...snapshot.checked, findings: snapshot.findings };
    };
    const [one, two] = [await shopOf(first), await shopOf(second)];
    assert.deepEqual([one.shop.uri, two.shop.uri], [first, second]);
    assert.deepEqual({ ...two.shop, uri: first }, one.shop);
    assert.equal(two.shop.tools[0], one.shop.tools[0]);
    assert.deepEqual(two.findings, one.findings);
    workspace.open(second, text.replace('diameter: 6', 'diameter: 8'));
    const diameters = async (path: string) => (await shopOf(path)).shop.tools.map((t) => t.diameterMm);
    assert.deepEqual([await diameters(first), await diameters(second)], [[6], [8]]);
    workspace.open(second, text);
    assert.deepEqual(await diameters(second), [6]);
    assert.equal((await shopOf(second)).shop.uri, second);
  });
});

describe('a shop that cannot be had', () => {
  const text = `part: a\nshop: mine.shop.yaml\n${BODY}`;
  const cases: Readonly<Record<string, readonly [FileText, RegExp]>> = {
    'is not there': [undefined, /There is no shop file `mine\.shop\.yaml`/],
    'cannot be read': [{ why: 'is a folder, not a file' }, /`mine\.shop\.yaml` is a folder, not a file\./],
  };
  for (const [what, [found, says]] of Object.entries(cases)) {
    it(`${what}: said at its name, and only what needs no shop is judged`, async () => {
      const files = { 'mem:///w/mine.shop.yaml': found, 'mem:///w/near/x.shop.yaml': 'shop: other\n' };
      const { findings, checked, shop } = await judged(text, files);
      const [first, ...others] = findings;
      assert.match(first!.message, says);
      assert.ok(first!.message.split(/\s+/).length <= 40, first!.message);
      const { start } = checked.tree.locate(first!.span);
      assert.equal(text.slice(start).indexOf('mine.shop.yaml'), 0);
      assert.deepEqual(others, [], 'a thread without a tap is not judged by the built-in shop');
      assert.deepEqual([shop.builtIn, shop.tools.length, shop.machines.length], [false, 0, 0]);
    });
  }

  it('keeps the same snapshot while nothing changes, and judges when it comes', async () => {
    const files: Record<string, FileText> = {};
    const { workspace } = await judged(text, files);
    const first = await workspace.snapshot(PART);
    assert.equal(await workspace.snapshot(PART), first);
    files['mem:///w/mine.shop.yaml'] = 'shop: mine\ntools: {}\n';
    workspace.fileChanged('mem:///w/mine.shop.yaml');
    const then = await workspace.snapshot(PART);
    assert.ok(then?.kind === 'part' && then.checked.shop.name === 'mine');
    assert.ok(then.findings.some((f) => f.rule === 'thread/no-tap'));
  });

  it('that is set for all is said as a setting, whatever the part names', async () => {
    const { findings, shop } = await judged(
      text,
      { 'mem:///w/mine.shop.yaml': 'shop: mine\n' },
      'mem:///far/set.shop.yaml',
    );
    assert.match(findings[0]!.message, /set\.shop\.yaml, set as the shop of every part, is not there/);
    assert.equal(shop.unread, 'is not there');
  });
});

describe('a job', () => {
  const JOB = 'mem:///w/j.job.yaml';
  const files: Record<string, FileText> = {
    'mem:///w/a.part.yaml': `part: a\n${BODY}`,
    'mem:///w/b.part.yaml': { why: 'is UTF-16: save it as UTF-8' },
    'mem:///far/c.part.yaml': `part: c\n${BODY}`,
    'mem:///w/ours.shop.yaml': 'shop: ours\ntools: {}\n',
    'mem:///w/aaa.shop.yaml': 'shop: nearest\ntools: {}\n',
  };
  const job = async (text: string) => {
    const workspace = new Workspace(world(files), { roots: ['mem:///w'] });
    workspace.open(JOB, text);
    const snapshot = await workspace.snapshot(JOB);
    assert.ok(snapshot?.kind === 'job');
    return {
      findings: snapshot.findings,
      checked: snapshot.checked,
      pieces: await workspace.piecesOf(JOB, snapshot.checked.job),
      workspace,
    };
  };

  it('judges its parts by its own shop, each once', async () => {
    const { pieces, workspace, checked } = await job(
      'job: j\nshop: ours.shop.yaml\nparts: { a: { spec: a.part.yaml } }\n',
    );
    assert.equal(pieces[0]?.checked.shop.name, 'ours');
    assert.equal((await workspace.piecesOf(JOB, checked.job))[0]?.checked, pieces[0]?.checked);
    assert.equal((await job('job: j\nparts: { a: { spec: a.part.yaml } }\n')).pieces[0]?.checked.shop.name, 'nearest');
  });

  it('reads no part outside the open folder, and says of each part why it is not there', async () => {
    const specs = ['a.part.yaml', 'b.part.yaml', '../far/c.part.yaml', 'gone.part.yaml', 'ours.shop.yaml'];
    const parts = specs.map((s, i) => `  p${i}: { spec: ${s} }`).join('\n');
    const { pieces, findings } = await job(`job: j\nparts:\n${parts}\n`);
    assert.deepEqual(
      pieces.map((p) => p.entry.name),
      ['p0'],
    );
    const said = (i: number) => findings.find((f) => f.of[0] === `p${i}`)?.message;
    assert.equal(said(0), undefined);
    assert.match(said(1)!, /is UTF-16: save it as UTF-8/);
    assert.match(said(2)!, /outside the open folder/);
    assert.match(said(3)!, /There is no part file/);
    assert.match(said(4)!, /is not a part file/);
  });
});

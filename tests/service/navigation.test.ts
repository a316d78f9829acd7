/** Places round and beside the cursor: the same name elsewhere, links, what to select next, names of a workspace. */
import assert from 'node:assert/strict';
import { definitionAt, renameAt } from '../../server/src/service/names';
import { foundInWorkspace, highlightsAt, linksOf, selectionAt } from '../../server/src/service/navigation';
import { Workspace } from '../../server/src/service/workspace';

const PART = `part: yoke
shop: campus.shop.yaml
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  bearing-seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 H7
    depth: 7
    bottom: flat
  shaft:
    kind: hole
    face: top
    from: bearing-seat
    at: { x: center, y: center }
    diameter: 12
    depth: through
`;
const FILES: Readonly<Record<string, string>> = {
  'mem:///w/yoke.part.yaml': PART,
  'mem:///w/campus.shop.yaml': 'shop: campus\n',
  'mem:///w/set.job.yaml':
    'job: set\nshop: campus.shop.yaml\nparts:\n  yoke: { spec: yoke.part.yaml, quantity: 1 }\n  gone: { spec: gone.part.yaml, quantity: 1 }\n',
};

function world(): Workspace {
  return new Workspace(
    {
      log: () => undefined,
      read: async (path) => FILES[path],
      list: async () => Object.keys(FILES).map((p) => p.split('/').at(-1)!),
      documents: async () => Object.keys(FILES),
    },
    { roots: ['mem:///w'] },
  );
}
const at = async (workspace: Workspace, name: string) => (await workspace.snapshot(`mem:///w/${name}`))!;
const textIn = (
  text: string,
  { start, end }: { start: { line: number; character: number }; end: { line: number; character: number } },
) => {
  const lines = text.split('\n');
  const offset = (p: { line: number; character: number }) =>
    lines.slice(0, p.line).reduce((sum, l) => sum + l.length + 1, 0) + p.character;
  return text.slice(offset(start), offset(end));
};

/** A shop with a material of its own, a rack of it, and a part of it. */
const OWN: Readonly<Record<string, string>> = {
  'mem:///w/own.shop.yaml':
    'shop: own\nmaterials:\n  alloy-x: { like: aluminium-6061-t6, density: 2.6 }\nrack:\n  - { form: flat-bar, material: alloy-x, section: { width: 40, thickness: 20 } }\n',
  'mem:///w/rail.part.yaml': 'part: rail\nshop: own.shop.yaml\nmaterial: alloy-x\nbody: { x: 60, y: 40, z: 16 }\n',
  'mem:///w/plain.part.yaml':
    'part: plain\nshop: own.shop.yaml\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\n',
};

describe('a material of the shop’s own', () => {
  const [SHOP, RAIL, PLAIN] = Object.keys(OWN) as [string, string, string];
  const own = () =>
    new Workspace(
      {
        log: () => undefined,
        read: async (path) => OWN[path],
        list: async () => Object.keys(OWN).map((p) => p.split('/').at(-1)!),
        documents: async () => Object.keys(OWN),
      },
      { roots: ['mem:///w'] },
    );

  it('is found from a part and gets another name in the shop, its rack and every part of it', async () => {
    const workspace = own();
    const rail = (await workspace.snapshot(RAIL))!;
    const cursor = OWN[RAIL]!.indexOf('alloy-x') + 3;
    const home = await definitionAt(workspace, rail, cursor);
    assert.equal(home?.uri, SHOP);
    assert.equal(textIn(OWN[SHOP]!, home!.range), 'alloy-x');
    const renamed = await renameAt(workspace, rail, cursor, 'alloy-y');
    assert.ok(typeof renamed !== 'string', String(renamed));
    const places = Object.entries(renamed.changes!).map(([path, edits]) => [
      path,
      edits.map((e) => textIn(OWN[path]!, e.range)),
    ]);
    assert.deepEqual(Object.fromEntries(places), { [SHOP]: ['alloy-x', 'alloy-x'], [RAIL]: ['alloy-x'] });
  });

  it('of the tables keeps its name', async () => {
    const workspace = own();
    const plain = (await workspace.snapshot(PLAIN))!;
    const cursor = OWN[PLAIN]!.indexOf('aluminium') + 3;
    assert.equal(await definitionAt(workspace, plain, cursor), null);
    assert.match(String(await renameAt(workspace, plain, cursor, 'mine')), /is a material of the tables/);
  });
});

describe('places of a document', () => {
  it('a name under the cursor is lit where it is defined and where it is used', async () => {
    const snapshot = await at(world(), 'yoke.part.yaml');
    const lit = highlightsAt(snapshot, PART.indexOf('from: bearing-seat') + 8);
    assert.deepEqual(
      lit.map((h) => [textIn(PART, h.range), h.kind]),
      [
        ['bearing-seat', 3],
        ['bearing-seat', 2],
      ],
    );
    assert.deepEqual(highlightsAt(snapshot, PART.indexOf('22 H7')), []);
  });

  it('files that are there are links, those that are not are none', async () => {
    const workspace = world();
    const targets = async (name: string) => (await linksOf(workspace, await at(workspace, name))).map((l) => l.target);
    assert.deepEqual(await targets('yoke.part.yaml'), ['mem:///w/campus.shop.yaml']);
    assert.deepEqual(await targets('set.job.yaml'), ['mem:///w/campus.shop.yaml', 'mem:///w/yoke.part.yaml']);
    assert.deepEqual(await targets('campus.shop.yaml'), []);
  });

  it('a selection grows from a value to its line, its feature, the document', async () => {
    const snapshot = await at(world(), 'yoke.part.yaml');
    for (const offset of [0, PART.indexOf('22 H7') + 1, PART.indexOf('center, y') + 2, PART.length]) {
      const texts: string[] = [];
      for (let s: ReturnType<typeof selectionAt> | undefined = selectionAt(snapshot, offset); s; s = s.parent)
        texts.push(textIn(PART, s.range));
      for (const [i, text] of texts.entries())
        if (i > 0) assert.ok(text.includes(texts[i - 1]!) && text.length > texts[i - 1]!.length);
      assert.equal(texts.at(-1), PART);
    }
    const inner: string[] = [];
    for (
      let s: ReturnType<typeof selectionAt> | undefined = selectionAt(snapshot, PART.indexOf('22 H7') + 1);
      s;
      s = s.parent
    )
      inner.push(textIn(PART, s.range));
    assert.deepEqual(inner.slice(0, 2), ['22 H7', 'diameter: 22 H7']);
    assert.ok(inner.some((text) => text.startsWith('bearing-seat:')));
  });

  it('parts and features are found by a few letters', async () => {
    const workspace = world();
    const names = async (query: string) => (await foundInWorkspace(workspace, query)).map((s) => s.name);
    assert.deepEqual(await names('bseat'), ['bearing-seat']);
    assert.deepEqual(await names(''), ['yoke', 'bearing-seat', 'shaft']);
    assert.deepEqual(await names('zz'), []);
  });
});

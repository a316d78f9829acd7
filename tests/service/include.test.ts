/** A part that includes features of another file, in an editor: which file is read, when again, and where its names lead. */
import assert from 'node:assert/strict';
import { AsideAnswers } from '../../server/src/service/beside/answers';
import type { Host } from '../../server/src/service/host';
import { hoverAt } from '../../server/src/service/hover';
import { definitionAt, renameAt } from '../../server/src/service/names';
import { linksOf } from '../../server/src/service/navigation';
import { sizesAnswer, typedAnswer } from '../../server/src/service/view/typed';
import { Workspace } from '../../server/src/service/workspace';

const FACE =
  'part: face\nparameters: { d: 22 }\nbody: { x: 40, y: 40, z: 9 }\nfeatures:\n  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: d, depth: 4, bottom: flat }\n';
const YOKE =
  'part: yoke\nbody: { x: 60, y: 40, z: 16 }\ninclude:\n  motor: { from: face.part.yaml, features: [bore], prefix: m-, parameters: { d: 20 } }\nfeatures:\n  own: { kind: hole, face: top, from: m-bore, at: { x: 20, y: 20 }, diameter: 5, depth: through }\n';
const group = (from: string) => `part: p\nbody: { x: 60, y: 40, z: 16 }\ninclude:\n  g: { from: ${from} }\n`;

function world(files: Record<string, string>, roots = ['mem:///w']): Workspace {
  const host: Host = {
    log: () => undefined,
    read: async (path) => files[path],
    list: async () => [],
    documents: async () => Object.keys(files),
  };
  return new Workspace(host, { roots });
}

async function part(workspace: Workspace, path = 'mem:///w/yoke.part.yaml') {
  const snapshot = await workspace.snapshot(path);
  assert.ok(snapshot?.kind === 'part');
  return snapshot;
}

const both = () => world({ 'mem:///w/yoke.part.yaml': YOKE, 'mem:///w/face.part.yaml': FACE });

describe('a part that includes features of another', () => {
  it('has them as the editor holds that text, and again when it changes', async () => {
    const workspace = both();
    const first = await part(workspace);
    assert.deepEqual([...first.checked.part.featureByName.keys()], ['own', 'm-bore']);
    assert.equal(await part(workspace), first);
    assert.ok(workspace.isIncluded('mem:///w/face.part.yaml'));
    workspace.open('mem:///w/face.part.yaml', FACE.replace('depth: 4', 'depth: 3'));
    const second = await part(workspace);
    assert.equal(second.checked.part.featureByName.get('own')?.startMm, 3);
  });

  it('says in one sentence at the file’s name why it is not there', async () => {
    const files = {
      'mem:///w/self.part.yaml': group('self.part.yaml'),
      'mem:///w/a.part.yaml': group('b.part.yaml'),
      'mem:///w/b.part.yaml': group('a.part.yaml'),
      'mem:///w/gone.part.yaml': group('none.part.yaml'),
      'mem:///w/shop.part.yaml': group('x.shop.yaml'),
      'mem:///w/out.part.yaml': group('../far/face.part.yaml'),
      'mem:///w/broken.part.yaml': group('torn.part.yaml'),
      'mem:///w/torn.part.yaml': 'part: torn\nbody: { x: 1\n',
      'mem:///far/face.part.yaml': FACE,
    };
    const says: Readonly<Record<string, RegExp>> = {
      self: /is this part itself/,
      a: /in a circle/,
      gone: /There is no part file `none\.part\.yaml`/,
      shop: /is not a part file/,
      out: /lies outside the open folder/,
      broken: /cannot be read/,
    };
    for (const [name, expected] of Object.entries(says)) {
      const { findings, checked } = await part(world(files), `mem:///w/${name}.part.yaml`);
      const errors = findings.filter((f) => f.severity === 'error');
      assert.equal(errors.length, 1, JSON.stringify(errors.map((f) => f.message)));
      assert.match(errors[0]!.message, expected);
      const { start, end } = checked.tree.locate(errors[0]!.span);
      assert.match(checked.tree.text.slice(start, end), /yaml$/);
    }
  });

  it('ends a long row of files, and a wide one', async () => {
    const files: Record<string, string> = { 'mem:///w/p12.part.yaml': FACE };
    for (let i = 0; i < 12; i++) files[`mem:///w/p${i}.part.yaml`] = group(`p${i + 1}.part.yaml`);
    const { findings } = await part(world(files), 'mem:///w/p0.part.yaml');
    assert.match(findings.map((f) => f.message).join(), /row of more than 8 files/);
  });

  it('leads to where they stand, from their name here and there, and from the file’s name', async () => {
    const workspace = both();
    const snapshot = await part(workspace);
    for (const word of ['m-bore', 'bore]']) {
      const at = await definitionAt(workspace, snapshot, YOKE.indexOf(word) + 1);
      assert.equal(at?.uri, 'mem:///w/face.part.yaml');
      assert.deepEqual(at?.range.start, { line: 4, character: 2 });
    }
    const file = await definitionAt(workspace, snapshot, YOKE.indexOf('face.part') + 1);
    assert.equal(file?.uri, 'mem:///w/face.part.yaml');
    assert.ok((await linksOf(workspace, snapshot)).some((l) => l.target === 'mem:///w/face.part.yaml'));
    assert.match(hoverAt(snapshot, YOKE.indexOf('motor') + 1)!.contents.value, /`m-bore` \(`bore` there\): .*20/);
  });

  it('refuses to change a name in one of the two files alone', async () => {
    const workspace = both();
    const yoke = await part(workspace);
    const face = await part(workspace, 'mem:///w/face.part.yaml');
    assert.match(
      String(await renameAt(workspace, yoke, YOKE.indexOf('m-bore') + 1, 'seat')),
      /under `rename` of `motor`/,
    );
    assert.match(String(await renameAt(workspace, face, FACE.indexOf('bore') + 1, 'seat')), /included by .*yoke/);
    assert.match(String(await renameAt(workspace, face, FACE.indexOf('d: 22'), 'e')), /included by .*yoke/);
  });

  it('is not worked out anew in the thread beside where the other file is the same', async () => {
    const { checked, path, text } = await part(both());
    const beside = new AsideAnswers(() => false);
    const { others } = checked.tree;
    const order = { path, text, shop: checked.shop, question: 'rule', told: { name: 'hole/depth-ratio' } } as const;
    const first = beside.to({ number: 1, ...order, others: structuredClone(others) });
    assert.ok(Array.isArray(first.reply));
    const second = beside.to({ number: 2, ...order, others: structuredClone(others) });
    assert.equal(second.reply, first.reply);
  });

  it('does not type over what stands in the other file', async () => {
    const snapshot = await part(both());
    const { sizes } = sizesAnswer(snapshot, 'm-bore', 1)!;
    const size = sizes.findIndex((s) => s.what === 'diameter');
    const answer = typedAnswer(snapshot, { uri: snapshot.path, feature: 'm-bore', size, text: '30', version: 1 }, 1);
    assert.deepEqual(answer, { why: 'It stands in face.part.yaml. Change it there.' });
  });
});

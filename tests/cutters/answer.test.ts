/** Cutters of a list as the editor puts them into an open shop: one stretch of its text, and what there is to say. */
import assert from 'node:assert/strict';
import { importAnswer } from '../../server/src/service/import-tools';
import { Workspace } from '../../server/src/service/workspace';

const SHOP = 'shop: club # ours\ntools:\n  dr-3: { kind: drill, diameter: 3 } # good\nrack: []\n';

async function answer(path: string, text: string, list: string) {
  const workspace = new Workspace({
    log: () => undefined,
    read: async () => undefined,
    list: async () => [],
    documents: async () => [],
  });
  workspace.open(path, text);
  const snapshot = (await workspace.snapshot(path))!;
  return { snapshot, answer: importAnswer(snapshot, list) };
}

describe('a list of cutters in the editor', () => {
  it('is one edit below the tools, with what became of each row', async () => {
    const list = 'kind;DC\nend mill;6\ndrill;3\nspanner;8\n';
    const { snapshot, answer: told } = await answer('mem:///w/club.shop.yaml', SHOP, list);
    assert.deepEqual([told?.added, told?.there, told?.left, told?.edits.length], [1, 1, 1, 1]);
    const [{ range, newText }] = told!.edits as [(typeof told & object)['edits'][number]];
    const [from, to] = [snapshot.lines.offset(range.start), snapshot.lines.offset(range.end)];
    const next = SHOP.slice(0, from) + newText + SHOP.slice(to);
    assert.equal(next, SHOP.replace('# good\n', '# good\n  em-6: { kind: end-mill, diameter: 6 }\n'));
    assert.match(told!.told.join('\n'), /Line 3: dr-3 is there already\.\nLine 4: this row was left out/);
  });

  it('is refused for what is no shop, and for a shop that cannot be read', async () => {
    assert.equal((await answer('mem:///w/a.part.yaml', 'part: a\n', 'kind;DC\ndrill;3\n')).answer, null);
    await assert.rejects(answer('mem:///w/b.shop.yaml', 'shop: [', 'kind;DC\ndrill;3\n'), /cannot be read/);
  });
});

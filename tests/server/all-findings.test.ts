/** What is checked of documents that nobody has open is held as answers: no model of them stays, and none is made again unasked. */
import assert from 'node:assert/strict';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { AllFindings } from '../../server/src/lsp/all-findings';
import { JudgeSoon } from '../../server/src/service/judge-soon';
import { Pace } from '../../server/src/service/pace';
import { Workspace } from '../../server/src/service/workspace';

const COUNT = 12;
/** What was worked on last may still be at hand in stores of a few. */
const MOST_ALIVE = 3;
const textOf = (i: number) =>
  `part: p${i}\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 40, y: 30, z: ${10 + i} }\nfeatures:\n  a: { kind: pocket, face: top, at: { x: 12, y: 15 }, size: { x: 10, y: 18 }, corner-radius: 0.4, depth: 6 }\n`;
const pathOf = (i: number) => `mem:///w/${i}.part.yaml`;

describe('documents that nobody has open', () => {
  const texts = new Map(Array.from({ length: COUNT }, (_, i) => [pathOf(i), textOf(i)]));
  const workspace = new Workspace(
    {
      log: () => undefined,
      read: async (path) => texts.get(path),
      list: async () => [],
      documents: async () => [...texts.keys()],
    },
    { roots: ['mem:///w'] },
  );
  const read: string[] = [];
  const models: WeakRef<object>[] = [];
  const snapshot = workspace.snapshot.bind(workspace);
  workspace.snapshot = async (path) => {
    const got = await snapshot(path);
    read.push(path);
    if (got?.kind === 'part') models.push(new WeakRef(got.checked));
    return got;
  };
  const all = new AllFindings({
    workspace,
    judge: new JudgeSoon(new Pace(), undefined, () => undefined),
    options: {},
    changes: 0,
    answers: 0,
    changeSince: async () => undefined,
  });
  const report = async () => (await all.report({ previousResultIds: [] }, () => undefined)).items;

  it('are told whole, and leave no model behind', async () => {
    const items = await report();
    assert.equal(items.length, COUNT);
    for (const item of items) assert.ok(item.kind === 'full' && item.items.length > 0, item.uri);
    assert.equal(models.length, COUNT);
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    // A weak reference holds what it was asked for until the turn is over.
    await new Promise((resolve) => setTimeout(resolve));
    collect();
    const alive = models.filter((m) => m.deref() !== undefined).length;
    assert.ok(alive <= MOST_ALIVE, `${alive} of ${COUNT} models are still there`);
  });

  it('are told again from what was answered; only what changed is read', async () => {
    const first = await report();
    assert.equal(read.length, COUNT);
    texts.set(pathOf(5), textOf(5).replace('0.4', '3'));
    workspace.fileChanged(pathOf(5));
    const again = await report();
    assert.deepEqual(read.slice(COUNT), [pathOf(5)]);
    const ids = new Map(first.map(({ uri, resultId }) => [uri, resultId]));
    assert.deepEqual(
      again.flatMap(({ uri, resultId }) => (ids.get(uri) === resultId ? [] : [uri])),
      [pathOf(5)],
    );
  });
});

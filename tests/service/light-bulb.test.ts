/** What a light bulb may cost has a bound, and the answer says where it was met; it does not turn on what was asked before. */
import assert from 'node:assert/strict';
import { unitsOf } from '../../server/src/effort';
import { actionsOf } from '../../server/src/service/actions';
import type { Host } from '../../server/src/service/host';
import { Workspace } from '../../server/src/service/workspace';

const PATH = 'mem:///w/a.part.yaml';
const NOBODY: Host = {
  log: () => undefined,
  read: async () => undefined,
  list: async () => [],
  documents: async () => [],
};
const ALL = { start: { line: 0, character: 0 }, end: { line: 9999, character: 0 } };
const NOT_ALL = /^Not every fix of (one finding|\d+ findings) was tried: that would take too long$/;

/** Pockets with corners too tight, each with its findings. */
const tight = (count: number, comment: number) => {
  const features = Array.from(
    { length: count },
    (_, i) =>
      `  p${i}: { kind: pocket, face: top, at: { x: ${20 + 30 * (i % 6)}, y: ${20 + 30 * Math.floor(i / 6)} }, size: { x: 18, y: 18 }, corner-radius: 0.4, depth: 12 }\n`,
  );
  return `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 200, y: 160, z: 30 }\nfeatures:\n${features.join('')}# ${'x'.repeat(comment)}\n`;
};

async function offered(text: string, times = 1) {
  const service = new Workspace(NOBODY, {});
  service.open(PATH, text);
  const snapshot = (await service.snapshot(PATH))!;
  let titles: readonly string[] = [];
  let units = 0;
  for (let i = 0; i < times; i++) {
    units = unitsOf(() => {
      titles = actionsOf(snapshot, ALL, ['quickfix']).map((a) => a.title);
    });
  }
  return { titles, units };
}

describe('a light bulb', () => {
  it('tries all of a few findings', async () => {
    const { titles } = await offered(tight(1, 10));
    assert.ok(titles.length > 0);
    assert.ok(titles.every((t) => !NOT_ALL.test(t)));
  });

  it('is bounded, and says that not all was tried', async () => {
    const { titles, units } = await offered(tight(20, 150_000));
    assert.match(titles.at(-1)!, NOT_ALL);
    assert.ok(titles.length > 1, 'what could be tried is offered');
    assert.ok(units < 2e7, `${units}`);
  }).timeout(60_000);

  it('answers the same when it is asked again', async () => {
    const [once, again] = [await offered(tight(20, 150_000)), await offered(tight(20, 150_000), 3)];
    assert.deepEqual(again.titles, once.titles);
  }).timeout(60_000);
});

/** Open parts that are not being edited let go of what was worked out of them: what is told of them stays the same. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { hoverAt } from '../../server/src/service/hover';
import { JudgeSoon } from '../../server/src/service/judge-soon';
import { Pace } from '../../server/src/service/pace';
import { PlanSoon } from '../../server/src/service/plan/scheduler';
import { Resting } from '../../server/src/service/resting';
import type { PartSnapshot } from '../../server/src/service/snapshot';
import { Workspace } from '../../server/src/service/workspace';

const textOf = (wallMm: number) =>
  `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 40, y: 30, z: 20 }\nfeatures:\n  a: { kind: pocket, face: top, at: { x: 12, y: 15 }, size: { x: 10, y: 18 }, corner-radius: 0.4, depth: 12 }\n  b: { kind: hole, face: top, at: { x: ${17 + wallMm + 3}, y: 15 }, diameter: 6, depth: 9 }\n`;
const pathOf = (i: number) => `mem:///w/${i}.part.yaml`;

describe('resting', () => {
  const host = { log: () => undefined, read: async () => undefined, list: async () => [], documents: async () => [] };
  const workspace = new Workspace(host);
  let news = 0;
  const pace = new Pace();
  const judge = new JudgeSoon(pace, undefined, () => news++);
  const soon = new PlanSoon(host, () => news++);
  const shown = new Set<string>();
  const pictures = { shows: (path: string) => shown.has(path) };
  const resting = new Resting({ pace, workspace, judge, soon, pictures });

  async function edit(i: number, text: string): Promise<PartSnapshot> {
    workspace.open(pathOf(i), text);
    judge.supersede(pathOf(i));
    await resting.changed(pathOf(i));
    const read = (await workspace.snapshot(pathOf(i))) as PartSnapshot;
    await judge.whole(read);
    return judge.view(read);
  }
  const now = async (i: number) => judge.view((await workspace.snapshot(pathOf(i))) as PartSnapshot);

  it('keeps findings and answers, tells no news, and judges nothing again', async () => {
    shown.add(pathOf(1));
    const first: PartSnapshot[] = [];
    for (let i = 0; i < 4; i++) first.push(await edit(i, textOf(0.3 + i * 0.1)));
    for (let i = 4; i < 12; i++) await edit(i, textOf(0.3 + i * 0.1));
    const told = news;
    const rests = await Promise.all([0, 1, 2, 3].map(now));
    assert.deepEqual(
      rests.map((r, i) => r.checked.solid === first[i]!.checked.solid),
      [false, true, false, false],
      'one that is shown keeps what was measured in',
    );
    for (const [i, rest] of rests.entries()) {
      assert.ok(rest.findings.length >= 2);
      assert.equal(rest.findings, first[i]!.findings);
      const offset = rest.text.indexOf('  a:') + 3;
      assert.deepEqual(hoverAt(rest, offset), hoverAt(first[i]!, offset));
      assert.ok(judge.isDone(rest));
    }
    assert.equal(news, told);
    assert.equal((await now(11)).checked, (await now(11)).checked);
  });

  it('goes on from there as from any other text', async () => {
    const text = textOf(1.4);
    const { findings } = await edit(2, text);
    assert.deepEqual(findings, checkPart(text, builtinShop()).findings);
    const again = textOf(0.5);
    assert.deepEqual((await edit(2, again)).findings, checkPart(again, builtinShop()).findings);
  });
});

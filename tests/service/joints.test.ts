/** Joints in an editor: told in the job and in both parts, hovered, followed, renamed, completed. */
import assert from 'node:assert/strict';
import { completionsAt } from '../../server/src/service/completion';
import { diagnosticsOf } from '../../server/src/service/diagnostics';
import type { Host } from '../../server/src/service/host';
import { hoverAt } from '../../server/src/service/hover';
import { metText } from '../../server/src/service/hover-joints';
import { hasJointFinding, jobActions, partJointActions } from '../../server/src/service/joint-actions';
import { JointsSoon } from '../../server/src/service/joints-soon';
import { definitionAt, referencesAt, renameAt } from '../../server/src/service/names';
import { Pace } from '../../server/src/service/pace';
import { sizesAnswer } from '../../server/src/service/view/typed';
import { Workspace } from '../../server/src/service/workspace';
import { hole, plate } from '../rules/joint/job';

const FOUR = [
  [10, 10],
  [90, 10],
  [90, 50],
  [14, 50],
] as const;
const JOB = `job: box
parts:
  lid: { spec: parts/lid.part.yaml }
  tub: { spec: parts/tub.part.yaml }
joints:
  cover:
    screw: M5x20
    through: lid.screws
    into: tub.threads
  height:
    stack: [tub.z, -lid.z]
    leaves: [0, 30]
`;
const files = (moved = 0): Record<string, string> => ({
  'mem:///w/box.job.yaml': JOB,
  'mem:///w/parts/lid.part.yaml': plate(hole('screws', FOUR, 'clearance: M5, depth: through')),
  'mem:///w/parts/tub.part.yaml': plate(
    hole(
      'threads',
      [
        [10, 10],
        [90, 10],
        [90 + moved, 50],
        [14, 50],
      ],
      'thread: M5, depth: 25, thread-depth: 18',
    ),
    { size: '{ x: 100, y: 60, z: 30 }' },
  ),
});
const LID = 'mem:///w/parts/lid.part.yaml';
const TUB = 'mem:///w/parts/tub.part.yaml';
const HOME = 'mem:///w/box.job.yaml';

function worldOf(all: Readonly<Record<string, string>>): Workspace {
  const host: Host = {
    log: () => undefined,
    read: async (path) => all[path],
    list: async (folder) =>
      Object.keys(all)
        .filter((f) => f.startsWith(`${folder}/`) && !f.slice(folder.length + 1).includes('/'))
        .map((f) => f.slice(folder.length + 1)),
    documents: async (folder) => Object.keys(all).filter((f) => f.startsWith(`${folder}/`)),
  };
  return new Workspace(host, { roots: ['mem:///w'] });
}

async function partOf(workspace: Workspace, path: string) {
  const part = await workspace.snapshot(path);
  assert.ok(part?.kind === 'part');
  return part;
}

describe('joints in an editor', () => {
  it('what does not meet is told in the job, with a place in each part', async () => {
    const workspace = worldOf(files(0.9));
    const job = (await workspace.snapshot(HOME))!;
    const [found] = diagnosticsOf(job).filter((d) => d.code === 'joint/pattern');
    assert.deepEqual(found?.relatedInformation?.map((r) => r.location.uri).sort(), [LID, TUB]);
  });

  for (const [path, field] of [
    [LID, 'screws'],
    [TUB, 'threads'],
  ] as const)
    it(`and in ${path.slice(-12)}, once it was looked for, and no longer when it is mended`, async () => {
      const all = files(0.9);
      const workspace = worldOf(all);
      let news = 0;
      const soon = new JointsSoon(
        (of) => workspace.jobsOf(of),
        new Pace(),
        () => news++,
      );
      const part = await partOf(workspace, path);
      assert.equal(soon.with(part), part, 'nothing is known yet');
      await soon.look(part);
      const told = soon.with(part);
      assert.equal(soon.with(part), told, 'the same answer is the same object');
      const found = told.findings.find((f) => f.rule === 'joint/pattern')!;
      const { start, end } = part.checked.tree.locate(found.span);
      assert.equal(part.text.slice(start, end), field);
      assert.equal(
        diagnosticsOf(told).find((d) => d.code === 'joint/pattern')?.relatedInformation?.[0]?.location.uri,
        HOME,
      );
      await soon.look(part);
      assert.equal(news, 1, 'the same is no news');
      workspace.open(TUB, files()[TUB]!);
      await soon.look(part);
      assert.deepEqual([news, soon.with(part).findings.filter((f) => f.rule === 'joint/pattern')], [2, []]);
    });

  it('fixes are offered in the job and in both parts, each for the file that it changes', async () => {
    const workspace = worldOf(files(0.9));
    const name = (path: string) => workspace.name(path);
    const job = await workspace.snapshot(HOME);
    assert.ok(job?.kind === 'job');
    const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const inJob = jobActions(job, whole, name).filter((a) => a.diagnostics?.[0]?.code === 'joint/pattern');
    assert.deepEqual(
      inJob.map((a) => [a.title, Object.keys(a.edit?.changes ?? {})]),
      [
        ['Move lid.screws[3] to x 90.9, y 50', [LID]],
        ['Move tub.threads[3] to x 90, y 50', [TUB]],
      ],
    );
    for (const path of [LID, TUB]) {
      const part = await partOf(workspace, path);
      const soon = new JointsSoon(
        (of) => workspace.jobsOf(of),
        new Pace(),
        () => undefined,
      );
      await soon.look(part);
      assert.ok(hasJointFinding(soon.with(part), whole));
      assert.deepEqual(
        partJointActions(part, await workspace.jobsOf(path), whole, name).map((a) => a.title),
        inJob.map((a) => a.title),
      );
    }
    const [edit] = Object.entries(inJob[1]!.edit!.changes!);
    const { range, newText } = edit![1][0]!;
    assert.equal(newText, '90');
    assert.equal(
      files(0.9)
        [TUB]!.split('\n')
        [range.start.line]!.slice(range.start.character, range.start.character + 4),
      '90.9',
    );
  });

  it('a part that no job makes is left alone', async () => {
    const { [HOME]: _, ...alone } = files();
    const workspace = worldOf(alone);
    assert.deepEqual(await workspace.jobsOf(LID), []);
  });

  it('hover says what a joint comes to, and what a hole meets', async () => {
    const workspace = worldOf(files());
    const job = (await workspace.snapshot(HOME))!;
    const over = hoverAt(job, JOB.indexOf('M5x20'))?.contents as { value: string };
    for (const words of [/4 × ISO 4762 M5 × 20/, /grips 10 mm/, /lengths that fit: 20 mm, 25 mm/, /0\.5 mm of play/])
      assert.match(over.value, words);
    const tub = await partOf(workspace, TUB);
    const met = metText(tub, tub.text.indexOf('threads:') + 2, await workspace.jobsOf(TUB)).join('\n');
    assert.match(met, /Joint cover \(screws\): meets lid\.screws/);
    assert.deepEqual(metText(tub, 3, await workspace.jobsOf(TUB)), []);
  });

  it('the part view says what a chosen hole meets, at the hole', async () => {
    const workspace = worldOf(files());
    const tub = await partOf(workspace, TUB);
    const { sizes } = sizesAnswer(tub, 'threads', 3, await workspace.jobsOf(TUB))!;
    assert.deepEqual(
      sizes.filter((s) => s.job !== undefined),
      [
        {
          what: 'joint cover',
          text: 'cover: meets lid.screws',
          at: [
            [10, 10, 30],
            [10, 10, 30],
          ],
          job: 'box',
        },
      ],
    );
    assert.ok(sizes.length > 1 && sizes[0]!.job === undefined, 'its own sizes first: they are asked for by number');
  });

  it('a name is followed from the joint into the part', async () => {
    const workspace = worldOf(files());
    const job = (await workspace.snapshot(HOME))!;
    assert.equal((await definitionAt(workspace, job, JOB.indexOf('tub.threads') + 5))?.uri, TUB);
    assert.equal((await definitionAt(workspace, job, JOB.indexOf('tub.threads') + 1))?.uri, HOME);
    assert.equal((await referencesAt(workspace, job, JOB.indexOf('tub.threads') + 5, true)).length, 2);
  });

  it('a rename follows into the job, from the part and from the job', async () => {
    const workspace = worldOf(files());
    const [job, tub] = [(await workspace.snapshot(HOME))!, await partOf(workspace, TUB)];
    const expected = [HOME, TUB];
    for (const [of, at] of [
      [tub, tub.text.indexOf('threads') + 2],
      [job, JOB.indexOf('tub.threads') + 6],
    ] as const) {
      const renamed = await renameAt(workspace, of, at, 'tapped');
      assert.ok(typeof renamed !== 'string');
      assert.deepEqual(Object.keys(renamed.changes ?? {}).sort(), expected);
    }
    const lid = await partOf(workspace, LID);
    const other = await renameAt(workspace, lid, lid.text.indexOf('screws') + 2, 'holes');
    assert.ok(typeof other !== 'string');
    assert.deepEqual(Object.keys(other.changes ?? {}).sort(), [HOME, LID].sort());
    const piece = await renameAt(workspace, job, JOB.indexOf('lid: {') + 1, 'cap');
    assert.ok(typeof piece !== 'string');
    assert.equal(piece.changes?.[HOME]?.length, 3, 'its entry, the joint and the stack');
    assert.equal(typeof (await renameAt(workspace, job, JOB.indexOf('tub.threads') + 1, 'lid')), 'string');
  });

  it('completes everywhere, with holes of the right kind', async () => {
    const workspace = worldOf(files());
    const job = (await workspace.snapshot(HOME))!;
    for (let offset = 0; offset <= JOB.length; offset++) completionsAt(job, offset);
    const labels = (words: string) => completionsAt(job, JOB.indexOf(words) + words.length).map((c) => c.label);
    assert.deepEqual(labels('into: '), ['tub.threads']);
    assert.deepEqual(labels('through: '), ['lid.screws']);
    assert.ok(labels('screw: ').includes('M5'));
    assert.ok(labels('cover:\n    ').includes('with'));
  });
});

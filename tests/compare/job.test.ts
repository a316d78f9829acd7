/** Jobs drawn at random, each with a known edit: it is named rightly, and nothing else is; what is only said otherwise is no change. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { jobChange, renamesOf } from '../../server/src/compare/job';
import { jobLines, jobMarkdown } from '../../server/src/compare/job-lines';
import { partChange } from '../../server/src/compare/part';
import { jobFindings } from '../../server/src/planning/job';
import { checkJob } from '../../server/src/rules/check';
import { hole, jobOf, plate } from '../rules/joint/job';
import { drawnJob, JOB_EDITS, type JobData, SAME_JOB } from './job-edits';

type JobSide = Parameters<typeof jobChange>[0];
const RUNS = Number(process.env.SCRIBELINE_COMPARED ?? 3);

function read(data: JobData): JobSide {
  const text = Object.entries(data)
    .map(([key, value]) => `${key}: ${JSON.stringify(value)}\n`)
    .join('');
  const { job, tree, findings } = checkJob(text);
  assert.deepEqual(
    job.problems.map((p) => p.message),
    [],
  );
  return { text, tree, job, findings, pieces: [] };
}

const kindsOf = (all: readonly { readonly name: string; readonly kinds: readonly string[] }[]) =>
  Object.fromEntries(all.map((c) => [c.name, c.kinds]));

describe('a known edit of a job', () => {
  for (const [i, [name, { edit, job = [], parts = {}, joints = {} }]] of Object.entries(JOB_EDITS).entries())
    it(`${name}: that, and nothing else`, () => {
      fc.assert(
        fc.property(drawnJob, (data) => {
          const change = jobChange(read(data), read(edit(data)));
          assert.deepEqual(
            change.job.map((d) => d.what),
            job,
          );
          assert.deepEqual([kindsOf(change.parts), kindsOf(change.joints)], [parts, joints]);
          assert.equal(change.same, false);
          assert.equal(jobLines('x', change).length, 1 + job.length + change.parts.length + change.joints.length);
        }),
        { numRuns: RUNS, seed: 460 + i },
      );
    });
});

describe('the same job', () => {
  for (const [i, [name, other]] of Object.entries(SAME_JOB).entries())
    it(`${name}: no change`, () => {
      fc.assert(
        fc.property(drawnJob, (data) => {
          const change = jobChange(read(data), read(other(data)));
          assert.deepEqual([change.job, change.parts, change.joints, change.figures], [[], [], [], []]);
          assert.ok(change.same);
          assert.deepEqual(change.findings, { raised: [], cured: [], kept: [] });
        }),
        { numRuns: RUNS, seed: 560 + i },
      );
    });

  it('two edits at once are two changes', () => {
    const names = Object.keys(JOB_EDITS).filter((n) => !/name|less|no more|nut in place/.test(n));
    fc.assert(
      fc.property(drawnJob, fc.shuffledSubarray(names, { minLength: 2, maxLength: 2 }), (data, [one, other]) => {
        const [a, b] = [JOB_EDITS[one!]!, JOB_EDITS[other!]!];
        const change = jobChange(read(data), read(b.edit(a.edit(data))));
        assert.deepEqual(
          change.job.map((d) => d.what).sort(),
          [...new Set([...(a.job ?? []), ...(b.job ?? [])])].sort(),
        );
        assert.deepEqual(kindsOf(change.parts), { ...a.parts, ...b.parts });
        assert.deepEqual(kindsOf(change.joints), { ...a.joints, ...b.joints });
      }),
      { numRuns: 10 * RUNS, seed: 660 },
    );
  });
});

describe('a job with its parts', () => {
  const lid = (name: string, d = 'clearance: M5') =>
    plate(
      hole(
        name,
        [
          [20, 20],
          [80, 20],
        ],
        `${d}, depth: through`,
      ),
    );
  const tub = plate(
    hole(
      'threads',
      [
        [20, 20],
        [80, 20],
      ],
      'thread: M5, depth: 25, thread-depth: 18',
    ),
    {
      size: '{ x: 100, y: 60, z: 30 }',
    },
  );
  const side = (parts: Readonly<Record<string, string>>, joint: string, headline = ''): JobSide => {
    const { checked, pieces } = jobOf(parts, joint, headline);
    const { job, tree, findings } = checked;
    return { text: tree.text, tree, job, pieces, findings: [...findings, ...jobFindings(job, pieces, true)] };
  };
  const joint = (screw: string, name = 'screws') =>
    `  cover: { screw: ${screw}, through: lid.${name}, into: tub.threads }`;

  it('mass, hours and bars before and after; what is found of it, new and fixed', () => {
    const before = side({ lid: lid('screws'), tub }, joint('M5x30'));
    const after = side({ lid: lid('screws'), tub, more: lid('screws') }, joint('M5x20'), 'mass-limit: 500 g\n');
    const change = jobChange(before, after);
    assert.deepEqual(
      change.figures.map((f) => f.what),
      ['pieces', 'mass', 'at the machine', 'hours of a person', 'cost', 'bars to buy'].filter((w) =>
        change.figures.some((f) => f.what === w),
      ),
    );
    const mass = change.figures.find((f) => f.what === 'mass')!;
    // 6061: 2.7 g/cm³; lid 100 × 60 × 10 less two holes of 5.5 through 10.
    assert.ok(Math.abs(Number(mass.after) - Number(mass.before) - 2.7 * (60 - 2 * (Math.PI / 4) * 0.55 ** 2)) < 0.01);
    assert.deepEqual(
      change.findings.cured.map((f) => f.rule),
      ['joint/length'],
    );
    assert.deepEqual(
      change.findings.raised.map((f) => f.rule),
      ['cost/over-mass'],
    );
    const page = jobMarkdown('x.job.yaml', change).join('\n');
    for (const title of ['### Job', '### Parts', '### Joints', '### Figures', '### Findings'])
      assert.ok(page.includes(title), title);
  });

  it('a feature under another name, in part and joint: the joint is the same', () => {
    const before = side({ lid: lid('screws'), tub }, joint('M5x20'));
    const after = side({ lid: lid('holes'), tub }, joint('M5x20', 'holes'));
    const change = partChange(before.pieces[0]!.checked, after.pieces[0]!.checked);
    assert.ok(jobChange(before, after, renamesOf([{ piece: 'lid', change }])).same);
    assert.deepEqual(kindsOf(jobChange(before, after).joints), { cover: ['changed'] });
  });
});

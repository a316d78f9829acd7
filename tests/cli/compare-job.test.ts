/** Two revisions of a job on the command line: what changed of the job itself, in every format, beside its parts. */
import assert from 'node:assert/strict';
import { hole, plate } from '../rules/joint/job';
import { HAS_GIT, ownFolder } from './folder';

const TWO = [
  [20, 20],
  [80, 20],
] as const;
const lid = plate(hole('screws', TWO, 'clearance: M5, depth: through'));
const tub = plate(hole('threads', TWO, 'thread: M5, depth: 25, thread-depth: 18'), {
  size: '{ x: 100, y: 60, z: 30 }',
});
const JOB = `job: box
parts:
  lid: { spec: lid.part.yaml }
  tub: { spec: tub.part.yaml }
mass-limit: 900 g
joints:
  cover: { screw: M5x30, through: lid.screws, into: tub.threads }
  old: { bearing: 608, shaft: 8 h6 }
`;
const NEW = JOB.replace('x30', 'x20')
  .replace('lid.part.yaml }', 'lid.part.yaml, quantity: 2 }')
  .replace('900 g', '0.8 kg')
  .replace('  old: { bearing: 608, shaft: 8 h6 }\n', '  "new": { bearing: 6000, shaft: 10 h6 }\n');

describe('compare of a job', function () {
  this.timeout(120_000);
  const { run, write, read, git } = ownFolder('compare-job');
  const both = () => {
    for (const [folder, job] of [
      ['old', JOB],
      ['new', NEW],
    ] as const) {
      write(`${folder}/box.job.yaml`, job);
      write(`${folder}/lid.part.yaml`, lid);
      write(`${folder}/tub.part.yaml`, tub);
    }
  };

  it('as text and as JSON, of two files and of two folders', () => {
    both();
    const { out } = run('compare', 'old/box.job.yaml', 'new/box.job.yaml');
    for (const line of [
      /box\.job\.yaml: 5 changes/,
      /mass limit 900 g → 800 g/,
      /changed {2}part lid: quantity 1 → 2/,
      /changed {2}joint cover: length 30 mm → 20 mm/,
      /new {2}joint new: bearing 6000, shaft 10 mm/,
      /gone {2}joint old: bearing 608/,
      /mass \S+ → \S+ g/,
      /cured {2}joint\/length/,
      /lid: the same, letter by letter/,
    ])
      assert.match(out, line);
    const told = JSON.parse(run('compare', 'old', 'new', '--format', 'json').out);
    const job = told.files.find((f: { path: string }) => f.path === 'box.job.yaml');
    assert.equal(told.files.at(-1), job, 'parts come first');
    assert.deepEqual(
      [job.status, job.changes, job.parts[0].change, job.joints.map((j: { name: string }) => j.name).sort()],
      ['changed', [{ what: 'mass limit', before: '900 g', after: '800 g' }], ['changed'], ['cover', 'new', 'old']],
    );
    assert.ok(job.figures.some((f: { what: string }) => f.what === 'bars to buy' || f.what === 'mass'));
  });

  it('whose parts alone changed: its text is the same, what it comes to is not', () => {
    both();
    write('new/box.job.yaml', JOB);
    write('new/lid.part.yaml', lid.replace('M5', 'M6'));
    const { out } = run('compare', 'old/box.job.yaml', 'new/box.job.yaml');
    assert.match(out, /box\.job\.yaml: the same, letter by letter; what it comes to changed with its parts/);
    write('new/lid.part.yaml', lid);
    assert.match(run('compare', 'old/box.job.yaml', 'new/box.job.yaml').out, /job\.yaml: the same, letter by letter$/m);
  });

  it('whose old text cannot be read: so it says, and calls no part new', () => {
    both();
    write('old/box.job.yaml', 'job: box\nparts: [lid\n');
    const { out, status } = run('compare', 'old/box.job.yaml', 'new/box.job.yaml');
    assert.equal(status, 0);
    assert.match(out, /box\.job\.yaml: the old text cannot be read: nothing of it is compared/);
    assert.doesNotMatch(out, /\bnew\n|: new$/m);
  });

  it('as Markdown and as a page, with pictures of its parts', () => {
    both();
    write('new/lid.part.yaml', lid.replace('M5', 'M6'));
    assert.equal(run('compare', 'old', 'new', '--to', 'out.md').status, 0);
    assert.match(read('out.md'), /## box\.job\.yaml: 5 changes[\s\S]*### Joints[\s\S]*\*\*changed\*\* joint cover/);
    // Of a job by its own name too: each of its parts that differs has its picture.
    assert.equal(run('compare', 'old/box.job.yaml', 'new/box.job.yaml', '--to', 'job.md').status, 0);
    assert.match(read('job.md'), /!\[lid: went and came\]\(<(job-1-[\w-]+\.svg)>\)/);
    const [, picture] = /\(<(job-1-[\w-]+\.svg)>\)/.exec(read('job.md'))!;
    assert.match(read(picture!), /^<svg/);
    assert.equal(run('compare', 'old', 'new', '--to', 'out.html').status, 0);
    assert.match(read('out.html'), /<h2>box\.job\.yaml: 5 changes<\/h2>[\s\S]*joint cover: length 30 mm → 20 mm/);
  });

  if (HAS_GIT)
    it('of two revisions', () => {
      write('box.job.yaml', JOB);
      write('lid.part.yaml', lid);
      write('tub.part.yaml', tub);
      git('init', '-q', '-b', 'main');
      git('add', '.');
      git('commit', '-qm', 'one');
      write('box.job.yaml', NEW);
      const { out, status } = run('compare', 'box.job.yaml', '--since', 'HEAD');
      assert.equal(status, 0);
      assert.match(out, /box\.job\.yaml: 5 changes/);
    });
});

/** Joints on the command line: judged with the job, listed to be bought, told by a comparison. */
import assert from 'node:assert/strict';
import { hole, plate } from '../rules/joint/job';
import { HAS_GIT, ownFolder } from './folder';

const FOUR = [
  [10, 10],
  [90, 10],
  [90, 50],
  [14, 50],
] as const;
const lid = (moved = 0) =>
  plate(hole('screws', [...FOUR.slice(0, 3), [14 + moved, 50]], 'clearance: M5, depth: through'));
const tub = (moved = 0) =>
  plate(hole('screws', [...FOUR.slice(0, 3), [14 + moved, 50]], 'thread: M5, depth: 25, thread-depth: 18'), {
    size: '{ x: 100, y: 60, z: 30 }',
  });
const JOB = `job: box
parts:
  lid: { spec: lid.part.yaml }
  tub: { spec: tub.part.yaml }
joints:
  cover: { screw: M5, through: lid.screws, into: tub.screws, washer: ISO 7089 }
  seat: { bearing: 608, shaft: 8 h6, times: 2 }
`;

describe('joints on the command line', function () {
  this.timeout(120_000);
  const { run, write, read, git } = ownFolder('joints');

  it('check JOB: 0 where all meets, 1 where it does not, with the places in both parts', () => {
    write('box.job.yaml', JOB);
    write('lid.part.yaml', lid());
    write('tub.part.yaml', tub());
    assert.equal(run('check', 'box.job.yaml').status, 0, run('check', 'box.job.yaml').out);
    write('tub.part.yaml', tub(0.9));
    const { status, out } = run('check', 'box.job.yaml');
    assert.equal(status, 1);
    assert.match(out, /error joint\/pattern/);
    assert.match(out, /tub\.part\.yaml:6: joint cover/);
    const told = JSON.parse(run('check', 'box.job.yaml', '--format', 'json').out);
    const found = told.files[0].findings.find((f: { rule: string }) => f.rule === 'joint/pattern');
    assert.deepEqual(
      [found.facts.off_mm, found.related.map((r: { file: string }) => r.file)],
      [0.9, ['tub.part.yaml', 'lid.part.yaml']],
    );
    const sarif = JSON.parse(run('check', 'box.job.yaml', '--format', 'sarif').out);
    const [result] = sarif.runs[0].results.filter((r: { ruleId: string }) => r.ruleId === 'joint/pattern');
    assert.equal(result.relatedLocations[0].physicalLocation.artifactLocation.uri, 'tub.part.yaml');
    assert.equal(run('check', 'tub.part.yaml').status, 0, 'the part alone is right');
  });

  it('check --fix writes the screw that does, and no part; JSON and SARIF say what else would do, file by file', () => {
    write('box.job.yaml', JOB.replace('cover: { screw: M5,', 'cover: { # bought\n    screw: M5x30,'));
    write('lid.part.yaml', lid());
    write('tub.part.yaml', tub());
    const told = JSON.parse(run('check', 'box.job.yaml', '--format', 'json').out);
    const { fixes } = told.files[0].findings.find((f: { rule: string }) => f.rule === 'joint/length');
    assert.deepEqual(
      [fixes[0].title, fixes[0].keeps_shape, fixes[0].elsewhere],
      ['Use ISO 4762 M5 × 25', true, undefined],
    );
    const other = fixes.find((f: { elsewhere?: unknown }) => f.elsewhere);
    assert.deepEqual([other.edits, other.elsewhere[0].file], [[], 'tub.part.yaml']);
    const sarif = JSON.parse(run('check', 'box.job.yaml', '--format', 'sarif').out);
    const uris = sarif.runs[0].results
      .flatMap((r: { fixes?: { artifactChanges: { artifactLocation: { uri: string } }[] }[] }) => r.fixes ?? [])
      .flatMap((f: { artifactChanges: { artifactLocation: { uri: string } }[] }) => f.artifactChanges)
      .map((c: { artifactLocation: { uri: string } }) => c.artifactLocation.uri);
    assert.deepEqual([...new Set(uris)].sort(), ['box.job.yaml', 'tub.part.yaml']);
    const before = [read('lid.part.yaml'), read('tub.part.yaml')];
    assert.equal(run('check', 'box.job.yaml', '--fix').status, 0);
    assert.match(read('box.job.yaml'), /cover: \{ # bought\n {4}screw: M5x25,/);
    assert.deepEqual([read('lid.part.yaml'), read('tub.part.yaml')], before);
  });

  it('job: what to buy, in each format', () => {
    write('box.job.yaml', JOB);
    write('lid.part.yaml', lid());
    write('tub.part.yaml', tub());
    const rows = [
      [4, 'ISO 4762 M5 × 20'],
      [4, 'washer ISO 7089 M5'],
      [2, 'bearing 608'],
    ];
    assert.equal(run('job', 'box.job.yaml', '--to', 'box.json').status, 0);
    const told = JSON.parse(read('box.json'));
    assert.deepEqual(
      told.to_buy.map((b: { count: number; kind: string; name: string }) => [
        b.count,
        `${b.kind} ${b.name}`.replace('screw ', ''),
      ]),
      rows,
    );
    const { out } = run('job', 'box.job.yaml');
    for (const [count, what] of rows) assert.match(out, new RegExp(`\\| ${count} \\| ${what} \\|`));
    assert.equal(run('job', 'box.job.yaml', '--to', 'box.html').status, 0);
    assert.match(read('box.html'), /ISO 4762 M5 × 20/);
    assert.equal(run('job', 'box.job.yaml', '--to', 'box.pdf').status, 0);
  });

  it('compare: a part that is met was not changed with it', () => {
    for (const [folder, l, t] of [
      ['old', lid(), tub()],
      ['new', lid(1), tub()],
      ['both', lid(1), tub(1)],
    ] as const) {
      write(`${folder}/box.job.yaml`, JOB);
      write(`${folder}/lid.part.yaml`, l);
      write(`${folder}/tub.part.yaml`, t);
    }
    const { out } = run('compare', 'old', 'new');
    assert.match(out, /touches joint cover \(screws\): tub\.screws was not changed with it/);
    assert.match(out, /error joint\/pattern/);
    const both = run('compare', 'old', 'both').out;
    assert.match(both, /touches joint cover \(screws\): what it meets was changed too/);
    assert.doesNotMatch(both, /joint\/pattern/);
    const told = JSON.parse(run('compare', 'old', 'new', '--format', 'json').out);
    assert.deepEqual(told.files.find((f: { path: string }) => f.path === 'lid.part.yaml').touches[0].meets, [
      { what: 'tub.screws', changed: false },
    ]);
    assert.match(
      run('compare', 'old', 'new', '--format', 'md').out,
      /### Touches\n\n- touches joint cover[^\n]*\n {2}- error joint\/pattern/,
    );
    assert.match(run('compare', 'old/lid.part.yaml', 'new/lid.part.yaml').out, /tub\.screws was not compared/);
  });

  if (HAS_GIT)
    it('compare: of revisions the parts that are met are looked at, though not named', () => {
      write('box.job.yaml', JOB);
      write('lid.part.yaml', lid());
      write('tub.part.yaml', tub());
      git('init', '-q', '-b', 'main');
      git('add', '.');
      git('commit', '-qm', 'one');
      write('lid.part.yaml', lid(1));
      assert.equal(run('compare', 'lid.part.yaml', '--since', 'HEAD').err, '');
      assert.match(run('compare', 'lid.part.yaml', '--since', 'HEAD').out, /tub\.screws was not changed with it/);
      write('tub.part.yaml', tub(1));
      assert.match(run('compare', 'lid.part.yaml', '--since', 'HEAD').out, /what it meets was changed too/);
    });
});

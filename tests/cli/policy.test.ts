/** What a pipeline asks of `check`: formats for code hosts and test reports, only what is new, only what changed, when to fail. */
import assert from 'node:assert/strict';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { HAS_GIT, ownFolder } from './folder';

const GOOD = `part: plate
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 16 H7, depth: 7, bottom: flat }
`;
/** A pocket 0.4 mm from the front face. */
const BAD = `${GOOD}  gap: { kind: pocket, face: top, at: { x: center, y: 4.4 }, size: { x: 20, y: 8 }, corner-radius: 3.5, depth: 6 }\n`;

describe('check in a pipeline', function () {
  this.timeout(120_000);
  const { run, write, git } = ownFolder('policy');

  it('notes for a code host: one line each, places from 1, nothing that breaks the line', () => {
    write('a, b.part.yaml', BAD);
    const lines = run('check', '.', '--format', 'github').out.trimEnd().split('\n');
    const json = JSON.parse(run('check', '.', '--format', 'json').out).files[0].findings;
    assert.equal(lines.length, json.length);
    for (const [i, finding] of json.entries()) {
      const { start, end } = finding.range;
      const command = { error: 'error', warning: 'warning', hint: 'notice' }[finding.severity as 'error'];
      const head = `::${command} file=a%2C b.part.yaml,line=${start.line + 1},col=${start.character + 1},endLine=${end.line + 1},endColumn=${end.character + 1},title=${finding.rule}::`;
      assert.ok(lines[i]!.startsWith(head), lines[i]);
    }
  });

  it('a test report: well-formed, counted, each finding a case, a clean file one that passes', () => {
    write('good.part.yaml', GOOD);
    write('bad.part.yaml', BAD.replace('part: plate', 'part: plate\ntitle: "a < b & \\"c\\""'));
    const { out } = run('check', '.', '--format', 'junit');
    assert.equal(XMLValidator.validate(out), true);
    const json = JSON.parse(run('check', '.', '--format', 'json').out);
    const read = new XMLParser({ ignoreAttributes: false, isArray: (name) => /^test(suite|case)$/.test(name) }).parse(
      out,
    );
    const suites = read.testsuites.testsuite;
    assert.equal(suites.length, 2);
    for (const [i, file] of json.files.entries()) {
      assert.equal(suites[i]['@_name'], file.path);
      assert.equal(suites[i].testcase.length, Math.max(1, file.findings.length));
      const failing = file.findings.filter((f: { severity: string }) => f.severity !== 'hint').length;
      assert.equal(Number(suites[i]['@_failures']), failing);
    }
  });

  it('from which severity on it fails', () => {
    write('warned.part.yaml', BAD.replace('y: 4.4', 'y: 4.9'));
    const { findings } = JSON.parse(run('check', '.', '--format', 'json').out).files[0];
    const severities = new Set(findings.map((f: { severity: string }) => f.severity));
    assert.ok(severities.has('warning') && !severities.has('error'), [...severities].join());
    assert.deepEqual(
      [[], ['--fail-at', 'error'], ['--fail-at', 'warning'], ['--fail-at', 'hint']].map(
        (more) => run('check', '.', ...more).status,
      ),
      [0, 0, 1, 1],
    );
    assert.equal(run('check', '.', '--fail-at', 'note').status, 2);
  });

  it('what is known is not told again, until there is one more of it', () => {
    write('bad.part.yaml', BAD);
    write('known.json', run('check', '.', '--format', 'json').out);
    const { status, out } = run('check', '.', '--known', 'known.json');
    assert.deepEqual([status, /wall\//.test(out)], [0, false]);
    // Lines may move, a finding of another feature is new.
    write(
      'bad.part.yaml',
      `# moved\n${BAD}  gap-2: { kind: pocket, face: top, at: { x: center, y: 35.6 }, size: { x: 20, y: 8 }, corner-radius: 3.5, depth: 6 }\n`,
    );
    const more = JSON.parse(run('check', '.', '--known', 'known.json', '--format', 'json').out).files[0].findings;
    assert.ok(more.length > 0 && more.every((f: { of: string[] }) => f.of.includes('gap-2')), JSON.stringify(more));
    write('known.json', '[1]');
    assert.match(run('check', '.', '--known', 'known.json').err, /known\.json is no report/);
    assert.equal(run('check', '.', '--known', 'none.json').status, 2);
  });

  (HAS_GIT ? it : it.skip)('only what changed since a revision: parts, and those whose shop changed', () => {
    git('init', '-q', '-b', 'main');
    write('a.part.yaml', `shop: own.shop.yaml\n${GOOD}`);
    write('own.shop.yaml', 'shop: own\n');
    write('b.part.yaml', `shop: c.shop.yaml\n${GOOD}`);
    write('c.shop.yaml', 'shop: c\n');
    git('add', '.');
    git('commit', '-qm', 'one');
    const paths = () =>
      JSON.parse(run('check', '.', '--since', 'HEAD', '--format', 'json').out).files.map(
        (f: { path: string }) => f.path,
      );
    assert.deepEqual(paths(), []);
    write('a.part.yaml', `shop: own.shop.yaml\n${GOOD}# changed\n`);
    write('sub/new.part.yaml', `shop: ../own.shop.yaml\n${GOOD}`);
    assert.deepEqual(paths().sort(), ['a.part.yaml', 'sub/new.part.yaml']);
    git('add', '.');
    git('commit', '-qm', 'two');
    write('c.shop.yaml', 'shop: c\nparallels: [10]\n');
    assert.deepEqual(paths().sort(), ['b.part.yaml', 'c.shop.yaml']);
    write('d.part.yaml', 'part: d\nbody: { x: 60, y: 40, z: 16 }\ninclude:\n  g: { from: sub/new.part.yaml }\n');
    git('add', '.');
    git('commit', '-qm', 'three');
    write('sub/new.part.yaml', `shop: ../own.shop.yaml\n${GOOD}# changed\n`);
    assert.deepEqual(paths().sort(), ['d.part.yaml', 'sub/new.part.yaml']);
    const unknown = run('check', '.', '--since', 'v9');
    assert.deepEqual([unknown.status, unknown.out], [2, '']);
    assert.match(unknown.err, /there is no revision `v9`/);
  });
});

/** `scribeline job` as it is run: cut list, order of the day, sums, formats, and what it says where something is missing. */
import assert from 'node:assert/strict';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { readPdf } from '../sheet/reading';
import { ownFolder } from './folder';

const GIMBAL = resolve(__dirname, '../../examples/gimbal/gimbal.job.yaml');

/** A strut as long as it is sawn, out of a bar that is a metre long and costs 14. */
const strut = (mm: number) =>
  `part: strut-${mm}\nmaterial: aluminium-7075-t6\nshop: rack.shop.yaml\nbody: { x: ${mm}, y: 20, z: 20 }\nstock: { form: square-bar, sawn: [left, right] }\nfeatures:\n  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5, depth: through }\n`;
const CAMPUS = readFileSync(resolve(__dirname, '../../examples/gimbal/campus.shop.yaml'), 'utf8');
const BAR =
  '  - { form: square-bar, material: aluminium-7075-t6, section: { width: 20 }, lengths: [1000], prices: [14] }\n';
const SHOP = CAMPUS.replace(/^rack:.*\n/m, (line) => line + BAR);
const JOB = (more = '') =>
  `job: struts\n${more}parts:\n  long: { spec: long.part.yaml, quantity: 5 }\n  middle: { spec: middle.part.yaml, quantity: 5 }\n  short: { spec: short.part.yaml, quantity: 5 }\n`;

describe('scribeline job', function () {
  this.timeout(120_000);
  const { at, run, write, read } = ownFolder('job');
  beforeEach(() => {
    write('rack.shop.yaml', SHOP);
    write('long.part.yaml', strut(442));
    write('middle.part.yaml', strut(302));
    write('short.part.yaml', strut(252));
    write('struts.job.yaml', JOB());
  });

  it('what is wrong in its own text is said with its place: 2 where nothing is left of it, else 1', () => {
    write('struts.job.yaml', 'job: b\nparts: [\n');
    const broken = run('job', 'struts.job.yaml', '--to', 'b.md');
    assert.deepEqual([broken.status, broken.out, existsSync(at('b.md'))], [2, '', false]);
    assert.match(broken.err, /struts\.job\.yaml:\d+:\d+: /);
    write('struts.job.yaml', `${JOB()}  odd: { spec: short.part.yaml, quantity: many }\n`);
    const partly = run('job', 'struts.job.yaml');
    assert.equal(partly.status, 1);
    assert.match(partly.err, /struts\.job\.yaml:6:\d+: Part odd: there are no parameters/);
  });

  it('two thousand parts that are not there: the first are named, on paper and beside it', () => {
    const entries = Array.from({ length: 2000 }, (_, i) => `  n${i}: { spec: none-${i}.part.yaml }\n`);
    write('struts.job.yaml', `job: big\nparts:\n${entries.join('')}`);
    const { status, out, err } = run('job', 'struts.job.yaml');
    assert.equal(status, 1);
    assert.ok(err.split('\n').length < 60 && out.length < 4000, `${err.length} and ${out.length} letters`);
    assert.match(out, /n19, … \(\+1980\)/);
    assert.match(err, /and 1980 more of these/);
  });

  it('fifteen struts come out of five bars, exactly, and it says that nothing is to spare', () => {
    const { status, out, err } = run('job', 'struts.job.yaml');
    assert.deepEqual([status, err], [0, '']);
    assert.match(
      out,
      /^Buy 5 × 1000 mm\.\s+No other way needs less bar\.\s+Nothing left over: every bar is used up exactly\./m,
    );
    assert.match(out, /^- \[ \] 5 × 1000 mm: 442 mm \+ 302 mm \+ 252 mm, nothing left$/m);
    assert.deepEqual(run('job', 'struts.job.yaml', '--to', 'a.json').out.trim(), 'a.json');
    const told = JSON.parse(read('a.json'));
    assert.deepEqual(told.bars.length, 5);
    for (const bar of told.bars) {
      assert.deepEqual([bar.length_mm, bar.cuts_mm, bar.left_mm], [1000, [442, 302, 252], 0]);
    }
    assert.deepEqual([told.proven, told.bound], [true, 5]);
    assert.equal(told.cut_lists[0].buy[0].price, 14);
    assert.equal(run('job', 'struts.job.yaml', '--to', 'a.csv').status, 0);
    assert.equal(
      read('a.csv'),
      'stock,bars,length_mm,cuts_mm,left_mm,from\r\nsquare-bar 20 mm aluminium-7075-t6,5,1000,442 + 302 + 252,0,bought\r\n',
    );
  });

  it('what the saw holds, and an end that is trimmed, cost a sixth bar', () => {
    for (const more of ['saw-clamp: 1\n', 'saw-trim: 1\n', 'saw-kerf: 2.1\n']) {
      write('struts.job.yaml', JOB(more));
      run('job', 'struts.job.yaml', '--to', 'a.json');
      const told = JSON.parse(read('a.json'));
      assert.equal(told.bars.length, 6, more);
      assert.equal(told.proven, true);
    }
  });

  it('each set-up once, all its pieces; evenings as short as asked, never more than part by part', () => {
    write('struts.job.yaml', JOB('evening: 1 h\n'));
    run('job', 'struts.job.yaml', '--to', 'a.json');
    const { day } = JSON.parse(read('a.json'));
    const seen = day.steps.map((s: { part: string; setup: string }) => `${s.part} ${s.setup}`);
    assert.equal(new Set(seen).size, seen.length);
    assert.ok(seen.length >= 3);
    assert.ok(day.evenings <= day.part_by_part.evenings);
    for (let evening = 1; evening <= day.evenings; evening++) {
      const steps = day.steps.filter((s: { evening: number }) => s.evening === evening);
      const slow = steps.reduce((sum: number, s: { machine_min: [number, number] }) => sum + s.machine_min[1], 0);
      assert.ok(slow <= 60 + 1e-9 || steps.length === 1, `${slow} min`);
      assert.ok(steps[0].change.includes('vise'), 'an evening begins with a bare table');
    }
  });

  it('the gimbal: its mass, every part of it, and an order that saves changes', () => {
    assert.equal(run('job', GIMBAL, '--to', 'gimbal.json').status, 0);
    const told = JSON.parse(read('gimbal.json'));
    const sum = told.by_part.reduce((g: number, p: { all_mass_g: number }) => g + p.all_mass_g, 0);
    assert.ok(Math.abs(sum - told.mass_g) < 0.01 && told.mass_limit_g === 900);
    assert.equal(told.by_part.length, 7);
    assert.ok(told.day.changes < told.day.part_by_part.changes);
    assert.ok(told.day.machine_min[1] <= told.day.part_by_part.machine_min[1]);
    const named = new Set(told.tools.flatMap((t: { parts: string[] }) => t.parts));
    assert.equal(named.size, 7);
    // Set-ups apart, the sum is that of the parts: the order changes only what is set up.
    const alone = told.by_part.reduce((m: number, p: { machine_min: [number, number] }) => m + p.machine_min[1], 0);
    assert.ok(told.day.machine_min[1] < alone);
  });

  it('prints each part in the job’s number, under the mark that its own sheet has; the cover is tied to the job', () => {
    write('one.job.yaml', 'job: one\nparts:\n  long: { spec: long.part.yaml, quantity: 3 }\n');
    assert.equal(run('job', 'one.job.yaml', '--to', 'one.html').status, 0);
    assert.equal(run('sheet', 'long.part.yaml', '--to', 'long.html').status, 0);
    const marks = (html: string) => [...html.matchAll(/, ([0-9a-f]{8})</g)].map((m) => m[1]!);
    const [cover, ...parts] = [...new Set(marks(read('one.html')))];
    assert.deepEqual(parts, [...new Set(marks(read('long.html')))]);
    assert.match(read('one.html'), /make 3</);
    assert.match(read('one.html'), />3 × 442 mm</);
    assert.match(read('one.html'), /piece 3/);
    assert.match(read('long.html'), /make 1</);
    write('one.job.yaml', 'job: one\nparts:\n  long: { spec: long.part.yaml, quantity: 4 }\n');
    run('job', 'one.job.yaml', '--to', 'one.html');
    const again = [...new Set(marks(read('one.html')))];
    assert.notEqual(again[0], cover);
    assert.deepEqual(again.slice(1), parts);
  });

  it('`sheet` of a job: every part’s sheet behind one cover, in the order of the day, in each format', async () => {
    for (const name of ['all.pdf', 'all.md'])
      assert.equal(run('sheet', 'struts.job.yaml', '--to', name).out.trim(), name);
    const said = read('all.md').replaceAll('\\', '');
    const parts = [...said.matchAll(/^# (.*)$/gm)].map((m) => m[1]!);
    const day = [...new Set([...said.matchAll(/^\| \d+ \| (\w+) \| \S+ \| 5 \|/gm)].map((m) => m[1]!))];
    const names: Readonly<Record<string, string>> = { long: 'strut-442', middle: 'strut-302', short: 'strut-252' };
    assert.deepEqual(parts, ['struts', ...day.map((d) => names[d]!)]);
    assert.equal(day.length, 3);
    assert.match(said, /make 5 ·/);
    assert.equal(said.match(/^## Set-up 1 of /gm)!.length, 3);
    const pages = await readPdf(readFileSync(at('all.pdf')));
    const titles = pages.flatMap((p) => names[/^(\w+)/.exec(p.words)![1]!] ?? /^strut-\d+/.exec(p.words)?.[0] ?? []);
    assert.deepEqual([...new Set(titles)], parts.slice(1));
    // Beside the job, and never over what is there.
    assert.deepEqual(run('sheet', 'struts.job.yaml', '--to', 'md').out.trim(), 'struts.md');
    const again = run('sheet', 'struts.job.yaml', '--to', 'md');
    assert.deepEqual([again.status, /struts\.md is already there/.test(again.err)], [2, true]);
    const both = run('sheet', 'struts.job.yaml', 'long.part.yaml', '--to', 'md');
    assert.deepEqual([both.status, /name it alone/.test(both.err)], [2, true]);
    assert.equal(run('sheet', 'gone.job.yaml', '--to', 'gone.pdf').status, 2);
    rmSync(at('short.part.yaml'));
    assert.equal(run('sheet', 'struts.job.yaml', '--to', 'less.md').status, 1);
  });

  it('in German no English word of ours is left, in cover, sheet and Markdown', async () => {
    for (const name of ['de.md', 'de.pdf'])
      assert.equal(run('sheet', 'struts.job.yaml', '--language', 'de', '--to', name).status, 0);
    const pages = await readPdf(readFileSync(at('de.pdf')));
    const printed = pages.map((p) => p.words).join(' ');
    for (const words of [read('de.md'), printed]) {
      assert.match(words, /Nichts bleibt übrig/);
      const english =
        /\b(the|with|left|right|to|before|after|set-up|piece|pieces|bar|spindle|shows|feel|this|saves)\b/i;
      assert.equal(english.exec(words.replaceAll('left-right', ''))?.[0], undefined);
    }
    assert.match(read('de.md'), /^## Spannung 1 von \d: .*, oben [A-Z]+$/m);
    assert.match(read('de.md'), /^### Spannen$/m);
  });

  it('a part that cannot be read is named, and the status says so', () => {
    rmSync(at('short.part.yaml'));
    const { status, out, err } = run('job', 'struts.job.yaml');
    assert.equal(status, 1);
    assert.match(out, /^- without short: could not be read$/m);
    assert.match(err, /short could not be read: the job is reported without it/);
  });

  it('refuses other endings, parts in place of jobs, and two jobs', () => {
    assert.equal(run('job', 'struts.job.yaml', '--to', 'a.doc').status, 2);
    assert.ok(!existsSync(at('a.doc')));
    assert.match(run('job', 'long.part.yaml').err, /holds no job/);
    write('other.job.yaml', JOB());
    assert.match(run('job', '.').err, /holds 2 jobs: name one/);
    assert.equal(run('job').status, 2);
  });
});

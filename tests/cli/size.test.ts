/** The doors load at once: what few runs need lies beside them, is loaded when it is asked for, and all of it is small enough to fetch. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { ownFolder } from './folder';

const ROOT = resolve(__dirname, '../..');
const MOST_BYTES = 2_200_000;
const MOST_PACKED = 12_000_000;

describe('the bundles', () => {
  for (const door of ['cli.js', 'server.js'])
    it(`${door} is within 2.2 MB`, () => {
      const { size } = statSync(resolve(ROOT, 'dist', door));
      assert.ok(size <= MOST_BYTES, `${size} bytes: see what can lie beside (BESIDE in build.mjs)`);
    });

  it('the package is within 12 MB, and all that the extension loads is in it', function () {
    this.timeout(60_000);
    const named = readFileSync(join(ROOT, '.vscodeignore'), 'utf8').match(/(?<=^!).+$/gm)!;
    const files = named.flatMap((name) =>
      name.endsWith('/**') ? filesBelow(join(ROOT, name.slice(0, -3))) : [join(ROOT, name)],
    );
    for (const file of files) assert.ok(existsSync(file), `${file} is named in .vscodeignore, and not there`);
    // What a zip makes of each, and some hundred bytes for its name.
    const packed = files.reduce((sum, file) => sum + deflateRawSync(readFileSync(file)).length + 200, 0);
    assert.ok(packed <= MOST_PACKED, `${packed} bytes`);
    assert.ok(packed > MOST_PACKED / 4, 'something is missing');
    for (const file of readdirSync(join(ROOT, 'dist')).filter((f) => /\.(?:js|css|wasm)$/.test(f) && f !== 'cli.js'))
      assert.ok(
        files.some((f) => f === join(ROOT, 'dist', file)),
        `dist/${file} is not packed: see .vscodeignore`,
      );
  });

  it('fonts, the PDF’s writer and the solver are named with their licences', () => {
    const notices = readFileSync(join(ROOT, 'dist/THIRD-PARTY-NOTICES.txt'), 'utf8');
    for (const name of ['dejavu-fonts-ttf', 'pdfkit', 'fontkit', 'highs', 'manifold-3d', 'replicad-opencascadejs'])
      assert.match(notices, new RegExp(`^${name} \\d`, 'm'));
    // Of the fonts, as their licence asks.
    assert.match(notices, /Bitstream Vera/);
  });
});

describe('what is loaded', function () {
  this.timeout(120_000);
  const { at, write, read } = ownFolder('loaded');

  /** Modules and threads of a run, by name. */
  function loadedBy(...words: string[]): readonly string[] {
    const env = { ...process.env, SCRIBELINE_LOADED: at('loaded.txt') };
    write('loaded.txt', '');
    const hook = resolve(__dirname, 'loaded.cjs');
    const { status, stderr } = spawnSync(process.execPath, ['-r', hook, join(ROOT, 'dist/cli.js'), ...words], {
      cwd: at(''),
      env,
      encoding: 'utf8',
    });
    assert.ok(status !== 2, stderr);
    return [...new Set(read('loaded.txt').split('\n'))].filter((l) => l !== '').sort();
  }

  const rail = (x: number) =>
    `part: rail-${x}\nmaterial: aluminium-6061-t6\nbody: { x: ${x}, y: 20, z: 20 }\nstock: { form: square-bar, sawn: [left, right] }\nfeatures:\n  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5, depth: through }\nsetups:\n  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 8, stop: left }, zero: { x: left, y: back, z: parallels }, cuts: [tie] }\n`;

  it('checking loads neither fonts, PDF writer nor solver, printing no solver', () => {
    write('a.part.yaml', rail(80));
    const checked = loadedBy('check', 'a.part.yaml');
    assert.deepEqual(checked, ['cli.js', 'everyday.js', 'tables.js', 'texts.js', 'words.js', 'yaml.js', 'zod.js']);
    const printed = loadedBy('sheet', 'a.part.yaml', '--to', 'a.pdf');
    assert.ok(printed.includes('pdf.js') && !printed.some((l) => l.includes('solver')), printed.join());
  });

  it('a job loads the solver only where a cut list is not proven without it', () => {
    write('a.part.yaml', rail(80));
    write('easy.job.yaml', 'job: easy\nparts: { a: { spec: a.part.yaml, quantity: 3 } }\n');
    assert.ok(!loadedBy('job', 'easy.job.yaml').some((l) => l.includes('solver')));
  });
});

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name));
}

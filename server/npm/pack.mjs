// Packs the command line as an npm package of its own: one program, nothing to fetch with it. `node server/npm/pack.mjs [FOLDER]`
// writes scribeline-VERSION.tgz there (the current folder where none is named). What is built in dist/ is packed.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
/** What the command line loads, of what is built. */
const FILES = [
  ...[
    'cli',
    'server',
    'yaml',
    'zod',
    'glob',
    'zip',
    'pdf',
    'protocol',
    'document',
    'metrics',
    'everyday',
    'words',
    'readings',
    'texts',
    'language',
    'tables',
    'audit',
    'writing',
  ].map((name) => `${name}.js`),
  ...['aside', 'mesh', 'exact', 'solver'].map((name) => `${name}-worker.js`),
  ...['view.js', 'view.css', 'page.css'],
  ...['manifold.wasm', 'highs.wasm.br', 'kernel', 'fonts', 'THIRD-PARTY-NOTICES.txt'],
];

const { version, description, license, engines } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
const into = resolve(process.argv[2] ?? '.');
const staged = mkdtempSync(join(tmpdir(), 'scribeline-npm-'));
try {
  mkdirSync(join(staged, 'dist'));
  for (const file of FILES) cpSync(join(ROOT, 'dist', file), join(staged, 'dist', file), { recursive: true });
  cpSync(join(ROOT, 'server/npm/README.md'), join(staged, 'README.md'));
  for (const file of ['CHANGELOG.md', 'LICENSE']) cpSync(join(ROOT, file), join(staged, file));
  cpSync(join(ROOT, 'schemas'), join(staged, 'schemas'), { recursive: true });
  const manifest = {
    name: 'scribeline',
    version,
    description,
    license,
    keywords: ['milling', 'machining', 'yaml', 'cad', 'lint'],
    bin: { scribeline: 'dist/cli.js' },
    engines: { node: engines.node },
    files: ['dist', 'schemas'],
  };
  writeFileSync(join(staged, 'package.json'), `${JSON.stringify(manifest, null, 2)}\n`);
  const packed = spawnSync('npm', ['pack', staged, '--pack-destination', into, '--silent'], {
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  if (packed.status !== 0) throw new Error(packed.stderr || 'npm pack failed');
  console.log(join(into, packed.stdout.trim()));
} finally {
  rmSync(staged, { recursive: true, force: true });
}

/** What is bundled is named with its licence. */
import { strict as assert } from 'node:assert';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { copyKernel, KERNEL } from '../../client/notices/kernel.mjs';
import { bundledPackages, licenceOf, notices } from '../../client/notices/notices.mjs';

describe('licence notices', () => {
  it('finds the packages of bundled files: scoped, nested, each once', () => {
    const found = bundledPackages([
      'server/src/server.ts',
      'node_modules/yaml/browser/dist/index.js',
      'node_modules/yaml/browser/dist/parse/cst.js',
      'node_modules/@scope/thing/index.js',
      'node_modules/outer/node_modules/inner/lib/a.js',
    ]);
    assert.deepEqual(found, [
      'node_modules/@scope/thing',
      'node_modules/outer/node_modules/inner',
      'node_modules/yaml',
    ]);
  });

  it('gives name, version, licence and its text', () => {
    const text = notices([{ inputs: { 'node_modules/yaml/package.json': {} } }]);
    assert.match(text, /^yaml \d+\.\d+\.\d+ \(ISC\)$/m);
    assert.match(text, /Permission to use, copy, modify/);
  });

  it('names packages whose files lie beside the bundles', () => {
    const text = notices([], ['node_modules/replicad-opencascadejs']);
    assert.match(text, /^replicad-opencascadejs \d+\.\d+\.\d+ \(LGPL-2\.1-only\)$/m);
    assert.match(text, /GNU LESSER GENERAL PUBLIC LICENSE\s+Version 2\.1/);
  });

  it('copies the exact kernel apart, with its licence and how it is replaced', () => {
    const folder = mkdtempSync(join(tmpdir(), 'scribeline-kernel-'));
    try {
      copyKernel(folder);
      assert.deepEqual(readdirSync(folder).sort(), [
        'LICENSE',
        'NOTICE.txt',
        'replicad_single.mjs',
        'replicad_single.wasm.br',
      ]);
      assert.match(
        readFileSync(join(folder, 'NOTICE.txt'), 'utf8'),
        /Lesser General Public License, version 2\.1[\s\S]*replaced/,
      );
      const packed = brotliDecompressSync(readFileSync(join(folder, 'replicad_single.wasm.br')));
      assert.ok(
        packed.equals(readFileSync(join(KERNEL, 'dist/replicad_single.wasm'))),
        'unchanged but for its packing',
      );
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('keeps the exact kernel out of every bundle', () => {
    const build = readFileSync('build.mjs', 'utf8');
    assert.match(build, /copyKernel\('dist\/kernel'\)/);
    const sources = readdirSync('server/src', { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'));
    for (const file of sources) {
      const text = readFileSync(join('server/src', file), 'utf8');
      for (const [line] of text.matchAll(/^import .*'replicad-opencascadejs.*$/gm))
        assert.match(line, /^import type /, file);
    }
  });

  it('refuses a package that says no licence', () => {
    const folder = mkdtempSync(join(tmpdir(), 'scribeline-licence-'));
    try {
      writeFileSync(join(folder, 'package.json'), '{ "name": "bare", "version": "1.0.0" }');
      assert.throws(() => licenceOf(folder), /bare@1\.0\.0 says no licence/);
      writeFileSync(join(folder, 'LICENSE.md'), 'Do as you like.\r\n');
      assert.equal(licenceOf(folder).text, 'Do as you like.');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

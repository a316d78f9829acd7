/** What is bundled is named with its licence. */
import { strict as assert } from 'node:assert';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
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

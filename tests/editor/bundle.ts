/** Bundles the suite for the extension host. Mocha stays outside the bundle: it is found in this project's packages. */
import { join } from 'node:path';
import { build } from 'esbuild';
import { ROOT } from './places';

export async function bundleSuite(): Promise<string> {
  const outfile = join(ROOT, 'dist/tests/editor/suite.js');
  await build({
    entryPoints: [join(ROOT, 'tests/editor/suite/index.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    sourcemap: 'inline',
    external: ['vscode', 'mocha'],
    logLevel: 'warning',
  });
  return outfile;
}

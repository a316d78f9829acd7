/** Bundles the suite for the extension host: a process, where Mocha is found in this project's packages, or a page's worker. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'esbuild';
import { ROOT } from './places';
import { SIGNALS_URL } from './result';

const SUITE = join(ROOT, 'tests/editor/suite');
const COMMON = {
  bundle: true,
  target: 'node20',
  format: 'cjs',
  sourcemap: 'inline',
  logLevel: 'warning',
} as const;

export async function bundleSuite(): Promise<string> {
  const outfile = join(ROOT, 'dist/tests/editor/suite.js');
  await build({
    ...COMMON,
    entryPoints: [join(SUITE, 'index.ts')],
    outfile,
    platform: 'node',
    external: ['vscode', 'mocha'],
  });
  return outfile;
}

/** The same cases without a Node around them; `signals`: where the runner listens. */
export async function bundleForBrowser(outfile: string, signals: string): Promise<void> {
  const mocha = await readFile(join(ROOT, 'node_modules/mocha/mocha.js'), 'utf8');
  const env = { [SIGNALS_URL]: signals, SCRIBELINE_TEST_HOST: 'browser', SCRIBELINE_WEB: process.env.SCRIBELINE_WEB };
  await build({
    ...COMMON,
    entryPoints: [join(SUITE, 'index-in-browser.ts')],
    outfile,
    platform: 'browser',
    external: ['vscode'],
    alias: { 'node:assert': join(SUITE, 'strict.ts') },
    // As a script: its package says that it is a module, and it is none.
    banner: {
      js: `(function (exports, module, define) {${mocha}\n})();\nvar global = globalThis; var process = { env: ${JSON.stringify(env)}, platform: 'browser' };`,
    },
  });
}

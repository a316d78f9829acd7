/**
 * Runs the suite in a real VS Code with the packaged extension installed: a desktop one where there is one and a screen
 * to show it, else VS Code's server in a headless Chromium. Only the suite's result file decides.
 *
 * SCRIBELINE_VSCODE=/path/to/code   that desktop VS Code
 * SCRIBELINE_HOST=desktop|server    one of the two and no other
 */
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { bundleSuite } from './bundle';
import { endChildrenWithUs } from './children';
import { findDesktop, runOnDesktop } from './desktop';
import { runOnServer } from './on-server';
import { builtPackage, copyFixture, emptyArtefacts, freshFolder } from './places';
import { verdict } from './result';
import { readResult } from './result-file';

/** One run, without what is fetched before it. */
const LIMIT_MS = 420_000;

export interface Run {
  readonly home: string;
  readonly folder: string;
  readonly vsix: string;
  readonly suite: string;
  readonly resultFile: string;
  readonly limitMs: number;
  say(line: string): void;
}

const say = (line: string) => console.log(`editor: ${line}`);

async function main(): Promise<boolean> {
  const home = await freshFolder();
  endChildrenWithUs(() => rm(home, { recursive: true, force: true }));
  try {
    await emptyArtefacts(false);
    const run: Run = {
      home,
      folder: await copyFixture(home),
      vsix: builtPackage(),
      suite: await bundleSuite(),
      resultFile: join(home, 'result.json'),
      limitMs: LIMIT_MS,
      say,
    };
    const desktop = process.env.SCRIBELINE_HOST === 'server' ? undefined : await findDesktop(say);
    if (!desktop && process.env.SCRIBELINE_HOST === 'desktop') throw new Error('there is no desktop VS Code to be had');
    const began = Date.now();
    await (desktop ? runOnDesktop(desktop, run) : runOnServer(run));
    const result = readResult(run.resultFile);
    const { ok, line } = verdict(result);
    if (typeof result !== 'string') console.log(result.report);
    say(`${((Date.now() - began) / 1000).toFixed(1)} s; pictures and logs in tests/artefacts`);
    console.log(line);
    return ok;
  } finally {
    await rm(home, { recursive: true, force: true, maxRetries: 3 });
  }
}

main().then(
  (ok) => process.exit(ok ? 0 : 1),
  (error) => {
    console.error(error instanceof Error ? error.stack : error);
    console.log('editor: 0 passed, 1 failed');
    process.exit(1);
  },
);

/**
 * The packaged extension in an editor in a browser: VS Code's server lends the files alone, the extension and its language
 * server run in the page, and so does the suite, with the same cases as on a desktop (`suite/cases.ts`). What runs on Node
 * is taken out of the installed package first; any address beyond this machine fails the run.
 *
 * SCRIBELINE_WEB=whole   the cases too that ask nothing but the pages, which are the same
 */
import assert from 'node:assert/strict';
import { mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { bundleForBrowser } from './bundle';
import { endChildrenWithUs } from './children';
import { startServer } from './editor-server';
import { getBrowser, getHost } from './host';
import { ARTEFACTS, builtPackage, copyFixture, emptyArtefacts, freshFolder } from './places';
import { type Result, verdict } from './result';
import { SETTINGS } from './settings';
import { listenForSignals } from './signals';
import { EditorWindow } from './window';

const LIMIT_MS = 300_000;
const KINDS = { 'scribeline.scribeline': ['web'], 'tests.suite-runner': ['web'] };
const IN_PAGE = { ...SETTINGS, 'remote.extensionKind': KINDS };
const RUNNER = {
  name: 'suite-runner',
  publisher: 'tests',
  version: '0.0.1',
  engines: { vscode: '^1.100.0' },
  browser: './suite.js',
};

const say = (line: string) => console.log(`browser editor: ${line}`);

/** What an editor on Node would start. */
async function takeOutNode(extensions: string): Promise<void> {
  const [name] = (await readdir(extensions)).filter((folder) => folder.startsWith('scribeline.scribeline'));
  for (const file of ['extension.js', 'server.js', 'aside-worker.js', 'mesh-worker.js', 'exact-worker.js'])
    await rm(join(extensions, name!, 'dist', file));
}

/** A suite runs inside an extension under development: one of its own, that has nothing but the suite. */
async function runnerIn(home: string, signals: string): Promise<string> {
  const folder = join(home, 'runner');
  await mkdir(folder);
  await writeFile(join(folder, 'package.json'), JSON.stringify(RUNNER));
  await bundleForBrowser(join(folder, 'suite.js'), signals);
  return folder;
}

async function main(): Promise<boolean> {
  const home = await freshFolder();
  endChildrenWithUs(() => rm(home, { recursive: true, force: true }));
  const [host, browser] = [await getHost(say), await getBrowser(say)];
  const folder = await copyFixture(home);
  await emptyArtefacts(true);
  let window: EditorWindow | undefined;
  let result: Result | string = 'nothing was heard of the suite';
  const signals = await listenForSignals(async (signal) => {
    if (signal.do === 'result') result = JSON.parse(signal.result) as Result;
    if (!window || signal.do === 'result') return '';
    return window.act(signal.do === 'screenshot' ? { ...signal, name: `browser-${signal.name}` } : signal);
  });
  const runnerExtension = await runnerIn(home, signals.url);
  const began = Date.now();
  const name = 'localhost';
  const server = await startServer({ host, home, vsix: builtPackage(), settings: IN_PAGE, forTests: true, name });
  await takeOutNode(join(home, 'extensions'));
  try {
    const suite = join(runnerExtension, 'suite.js');
    window = await EditorWindow.open({
      browser,
      port: server.port,
      name,
      folder,
      runnerExtension,
      suite,
      artefacts: ARTEFACTS,
    });
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<string>((resolve) => {
      timer = setTimeout(() => resolve(`time is up after ${LIMIT_MS / 1000} s`), LIMIT_MS);
    });
    const why = await Promise.race([window.over, late]);
    clearTimeout(timer);
    const { ok, line } = verdict(result);
    if (typeof result !== 'string') console.log((result as Result).report);
    if (!ok) {
      say(why);
      await window.act({ do: 'screenshot', name: 'browser-failure' }).catch((error) => say(`no picture: ${error}`));
      await writeFile(join(ARTEFACTS, 'browser-console.log'), window.console.join('\n'));
    }
    say(`${((Date.now() - began) / 1000).toFixed(1)} s`);
    assert.deepEqual(window.beyond, [], 'an address beyond this machine was asked for');
    console.log(`browser ${line}`);
    return ok;
  } finally {
    signals.close();
    await window?.close();
    await server.stop();
    await rm(home, { recursive: true, force: true, maxRetries: 3 });
  }
}

main().then(
  (ok) => process.exit(ok ? 0 : 1),
  (error) => {
    console.error(error instanceof Error ? error.stack : error);
    process.exit(1);
  },
);

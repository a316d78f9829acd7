/** The suite in VS Code's server, shown in a headless Chromium. */
import { cp, mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { startServer } from './editor-server';
import { getBrowser, getHost } from './host';
import { ARTEFACTS, RUNNER_EXTENSION } from './places';
import { RESULT_FILE, SIGNALS_URL, verdict } from './result';
import { readResult } from './result-file';
import type { Run } from './run';
import { SETTINGS } from './settings';
import { listenForSignals } from './signals';
import { EditorWindow } from './window';

export async function runOnServer(run: Run): Promise<void> {
  const host = await getHost(run.say);
  const browser = await getBrowser(run.say);
  let window: EditorWindow | undefined;
  const signals = await listenForSignals(async (signal) => {
    if (!window) throw new Error('the window is not open yet');
    return window.act(signal);
  });
  const env = { [RESULT_FILE]: run.resultFile, [SIGNALS_URL]: signals.url };
  run.say('starting the editor server');
  const server = await startServer({ host, home: run.home, vsix: run.vsix, settings: SETTINGS, env, forTests: true });
  try {
    window = await EditorWindow.open({
      browser,
      port: server.port,
      folder: run.folder,
      runnerExtension: RUNNER_EXTENSION,
      suite: run.suite,
      artefacts: ARTEFACTS,
    });
    const gone = new Promise<string>((resolve) => server.child.once('exit', () => resolve('the server ended')));
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<string>((resolve) => {
      timer = setTimeout(() => resolve(`time is up after ${run.limitMs / 1000} s`), run.limitMs);
    });
    const why = await Promise.race([window.over, gone, late]);
    clearTimeout(timer);
    if (!verdict(readResult(run.resultFile)).ok) await keepEvidence(run, window, why);
  } finally {
    signals.close();
    await window?.close();
    await server.stop();
  }
}

/** After a failure: how it ended, the screen, the page's console and the editor's logs. */
async function keepEvidence(run: Run, window: EditorWindow, why: string): Promise<void> {
  run.say(why);
  await window.act({ do: 'screenshot', name: 'failure' }).catch((error) => run.say(`no picture: ${error}`));
  const logs = join(ARTEFACTS, 'logs');
  await mkdir(logs, { recursive: true });
  await cp(join(run.home, 'data/data/logs'), logs, { recursive: true }).catch(() => {});
  await writeFile(join(ARTEFACTS, 'console.log'), window.console.join('\n'));
}

/** The suite in a desktop VS Code: one that is given, or one that is downloaded where that can be done and shown. */
import { spawnSync } from 'node:child_process';
import { createWriteStream, existsSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import {
  downloadAndUnzipVSCode,
  resolveCliArgsFromVSCodeExecutablePath,
  type TestOptions,
} from '@vscode/test-electron';
import { end, start } from './children';
import { cacheFolder } from './host';
import { ARTEFACTS, ROOT, RUNNER_EXTENSION } from './places';
import { RESULT_FILE } from './result';
import type { Run } from './run';
import { SETTINGS } from './settings';

/** A desktop VS Code's executable, or nothing. Fails only where one was named that is not there. */
export async function findDesktop(say: (line: string) => void): Promise<string | undefined> {
  const given = process.env.SCRIBELINE_VSCODE;
  if (given) {
    if (!existsSync(given)) throw new Error(`SCRIBELINE_VSCODE names ${given}, which is not there.`);
    return given;
  }
  if (!hasScreen()) return undefined;
  try {
    const cachePath = join(cacheFolder(), 'desktop');
    await mkdir(cachePath, { recursive: true });
    return await downloadAndUnzipVSCode({ version: 'stable', cachePath, timeout: 10_000 });
  } catch (error) {
    say(`no desktop VS Code (${error instanceof Error ? error.message : error}); the editor server instead`);
    return undefined;
  }
}

/** On Linux a desktop program needs a display; the others have one. */
function hasScreen(): boolean {
  return process.platform !== 'linux' || Boolean(process.env.DISPLAY || process.env.WAYLAND_DISPLAY);
}

export async function runOnDesktop(executable: string, run: Run): Promise<void> {
  run.say(`in ${executable}`);
  const profile = ['--user-data-dir', join(run.home, 'user'), '--extensions-dir', join(run.home, 'extensions')];
  await mkdir(join(run.home, 'user/User'), { recursive: true });
  await writeFile(join(run.home, 'user/User/settings.json'), JSON.stringify(SETTINGS, null, 2));
  const [cli, ...cliArgs] = resolveCliArgsFromVSCodeExecutablePath(executable);
  // Its own profile arguments are left out: the last ones given would win, and these are ours.
  const own = cliArgs.filter((arg) => !/^--(user-data|extensions)-dir/.test(arg));
  const install = [...own, ...profile, '--install-extension', run.vsix, '--force'];
  if (process.getuid?.() === 0) install.push('--no-sandbox');
  const installed = spawnSync(cli!, install, {
    encoding: 'utf8',
    shell: process.platform === 'win32',
    timeout: 60_000,
  });
  if (installed.status !== 0)
    throw new Error(`The package could not be installed:\n${installed.stdout}${installed.stderr}`);
  const options: TestOptions = {
    vscodeExecutablePath: executable,
    extensionDevelopmentPath: RUNNER_EXTENSION,
    extensionTestsPath: run.suite,
    extensionTestsEnv: { [RESULT_FILE]: run.resultFile },
    launchArgs: [run.folder, ...profile, '--disable-workspace-trust', '--disable-telemetry', '--skip-welcome'],
  };
  const script = join(ROOT, 'tests/editor/desktop-child.ts');
  const child = start(process.execPath, [...process.execArgv, script, JSON.stringify(options)]);
  const logs = createWriteStream(join(ARTEFACTS, 'desktop.log'));
  child.stdout?.pipe(logs);
  child.stderr?.pipe(logs);
  const timer = setTimeout(() => {
    run.say(`time is up after ${run.limitMs / 1000} s`);
    void end(child);
  }, run.limitMs);
  await new Promise<void>((resolve) => child.once('exit', () => resolve()));
  clearTimeout(timer);
  await end(child);
}

/**
 * For someone without VS Code: builds and packages the extension, installs it into VS Code's server and opens the
 * gimbal example in the browser. Ctrl-C ends everything. `npm run try -- FOLDER` opens another folder.
 */
import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { resolve } from 'node:path';
import { endChildrenWithUs, finish } from './children';
import { startServer } from './editor-server';
import { getHost } from './host';
import { builtPackage, freshFolder, ROOT } from './places';
import { SETTINGS } from './settings';

const say = (line: string) => console.log(line);

async function main(): Promise<void> {
  const folder = resolve(process.argv[2] ?? `${ROOT}/examples/gimbal`);
  if (!existsSync(folder)) throw new Error(`${folder} is not there.`);
  const home = await freshFolder();
  endChildrenWithUs(() => rm(home, { recursive: true, force: true }));
  const host = await getHost(say);
  say('building and packaging');
  await finish('npm', ['run', 'package'], { cwd: ROOT, shell: process.platform === 'win32' });
  // The editor can run programs and write files, so its address carries a secret that other pages cannot guess.
  const token = randomBytes(16).toString('hex');
  const server = await startServer({ host, home, vsix: builtPackage(), settings: SETTINGS, forTests: false, token });
  server.child.once('exit', () => {
    say('The editor server ended.');
    process.exit(1);
  });
  const address = `http://127.0.0.1:${server.port}/?${new URLSearchParams({ folder, tkn: token })}`;
  say(`\nOpen this address in a browser (Ctrl-C here ends the editor):\n\n  ${address}\n`);
  openBrowser(address);
}

/** Where the desktop has a way to open an address; elsewhere the printed one does. */
function openBrowser(address: string): void {
  const opener = process.platform === 'darwin' ? 'open' : process.platform === 'linux' ? 'xdg-open' : undefined;
  if (!opener) return;
  const child = spawn(opener, [address], { stdio: 'ignore', detached: true });
  child.once('error', () => {});
  child.unref();
}

main().catch((error) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});

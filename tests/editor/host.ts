/**
 * Gets a real VS Code where no desktop one is to be had: the VS Code server inside the npm package `code-server`, the
 * Node it wants, and a Chromium to show it. Kept in a cache folder of the user, outside this project's dependencies:
 * 780 MB, half a minute the first time.
 */
import { existsSync } from 'node:fs';
import { access, mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';
import { finish } from './children';

const EDITOR_VERSION = '4.139.1';
const NODE_VERSION = '24.21.0';

export interface Host {
  /** The Node that the editor's server runs on. */
  readonly node: string;
  /** Wrapper, used for its `--install-extension`. */
  readonly entry: string;
  /** VS Code's own server. */
  readonly server: string;
}

export function cacheFolder(): string {
  const own = process.env.SCRIBELINE_HOST_CACHE;
  return own || join(process.env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'scribeline');
}

/** The host from the cache, fetched first where it is not there. */
export async function getHost(say: (line: string) => void): Promise<Host> {
  const folder = join(cacheFolder(), `editor-${EDITOR_VERSION}-node-${NODE_VERSION}`);
  if (!existsSync(folder)) await fetchHost(folder, say);
  const modules = join(folder, 'node_modules');
  const host: Host = {
    node: join(modules, nodePackage(), 'bin', process.platform === 'win32' ? 'node.exe' : 'node'),
    entry: join(modules, 'code-server/out/node/entry.js'),
    server: join(modules, 'code-server/lib/vscode/out/server-main.js'),
  };
  for (const file of Object.values(host)) {
    await access(file).catch(() => {
      throw new Error(
        `The editor host in ${folder} is not whole (${file} is missing). Remove the folder and try again.`,
      );
    });
  }
  return host;
}

function nodePackage(): string {
  const system = process.platform === 'win32' ? 'win' : process.platform;
  return `node-${system}-${process.arch}`;
}

/** Made aside and moved into place when whole, so that an interrupted fetch is never taken for a host. */
async function fetchHost(folder: string, say: (line: string) => void): Promise<void> {
  say(`fetching the editor host into ${folder} (once; about 780 MB)`);
  await mkdir(cacheFolder(), { recursive: true });
  const aside = await mkdtemp(join(cacheFolder(), 'fetching-'));
  try {
    await writeFile(join(aside, 'package.json'), '{ "private": true }\n');
    // Their install scripts build native modules that nothing here needs, and refuse every other version of Node.
    const env = { ...process.env, npm_config_ignore_scripts: 'true', npm_config_engine_strict: 'false' };
    const quiet = ['--no-audit', '--no-fund', '--loglevel=error'];
    const packages = [`${nodePackage()}@${NODE_VERSION}`, `code-server@${EDITOR_VERSION}`];
    const shell = process.platform === 'win32';
    await finish('npm', ['install', ...quiet, ...packages], { cwd: aside, env, shell });
    const inner = join(aside, 'node_modules/code-server/lib/vscode');
    await finish('npm', ['install', '--omit=dev', ...quiet], { cwd: inner, env, shell });
    // Another run may have been quicker: then its folder stands, and this one goes.
    await rename(aside, folder).catch((error) => {
      if (!existsSync(folder)) throw error;
    });
  } finally {
    await rm(aside, { recursive: true, force: true });
  }
}

const BROWSERS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];
const ELSEWHERE = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

export function findBrowser(): string | undefined {
  const given = process.env.SCRIBELINE_CHROMIUM;
  if (given) return given;
  const folders = (process.env.PATH ?? '').split(delimiter);
  const named = BROWSERS.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...named, ...ELSEWHERE].find((file) => existsSync(file));
}

/** A Chromium on this machine; installed by Debian's package manager where that is there and may be used. */
export async function getBrowser(say: (line: string) => void): Promise<string> {
  const found = findBrowser();
  if (found) return found;
  const mayInstall = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (mayInstall) {
    say('installing chromium with apt-get');
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    await finish('apt-get', ['update', '-q'], { env });
    await finish('apt-get', ['install', '-y', '-q', '--no-install-recommends', 'chromium'], { env });
    const installed = findBrowser();
    if (installed) return installed;
  }
  throw new Error(
    'No Chromium was found to show the editor in. Install one (Debian: sudo apt-get install chromium) or name it in SCRIBELINE_CHROMIUM.',
  );
}

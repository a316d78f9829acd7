/** VS Code's server on this machine's own address: installs the packaged extension into it, starts it, says where it is. */
import type { ChildProcess } from 'node:child_process';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { end, finish, start } from './children';
import type { Host } from './host';

interface EditorServer {
  readonly port: number;
  readonly child: ChildProcess;
  stop(): Promise<void>;
}

interface ServerOptions {
  readonly host: Host;
  /** Everything the editor writes goes below this folder. */
  readonly home: string;
  readonly vsix: string;
  readonly settings: Readonly<Record<string, unknown>>;
  readonly env?: Readonly<Record<string, string>>;
  /** Lets the page's address name a test suite. */
  readonly forTests: boolean;
  /** Asked of whoever opens the page; without one the page is open to every program on this machine. */
  readonly token?: string;
  readonly port?: number;
  /** What the page is called by: extensions in a page are let in from `localhost` only. */
  readonly name?: 'localhost';
}

/** No extension gallery: the run must not depend on anything but this machine. */
const QUIET = { EXTENSIONS_GALLERY: '{}' };

export async function startServer(options: ServerOptions): Promise<EditorServer> {
  const { host, home } = options;
  const data = join(home, 'data');
  const extensions = join(home, 'extensions');
  const user = join(data, 'data/User');
  await mkdir(user, { recursive: true });
  await mkdir(extensions, { recursive: true });
  await writeFile(join(user, 'settings.json'), JSON.stringify(options.settings, null, 2));
  const env = { ...process.env, ...QUIET, ...options.env };
  const install = [host.entry, '--install-extension', options.vsix, '--force'];
  const folders = ['--extensions-dir', extensions, '--user-data-dir', join(home, 'install')];
  await finish(host.node, [...install, ...folders], { env });
  const args = [host.server, '--host', options.name ?? '127.0.0.1', '--port', String(options.port ?? 0)];
  args.push(...(options.token ? ['--connection-token', options.token] : ['--without-connection-token']));
  args.push('--accept-server-license-terms', '--disable-workspace-trust', '--telemetry-level', 'off');
  args.push('--server-data-dir', data, '--extensions-dir', extensions);
  if (options.forTests) args.push('--enable-smoke-test-driver');
  const child = start(host.node, args, { env });
  return { port: await listening(child), child, stop: () => end(child) };
}

function listening(child: ChildProcess): Promise<number> {
  return new Promise((resolve, reject) => {
    let printed = '';
    const timer = setTimeout(() => reject(new Error(`The editor's server did not start:\n${printed}`)), 60_000);
    const read = (chunk: Buffer) => {
      printed = (printed + chunk).slice(-20_000);
      const port = /listening on (\d+)/.exec(printed)?.[1] ?? /Web UI available at \S+?:(\d+)/.exec(printed)?.[1];
      if (port === undefined) return;
      clearTimeout(timer);
      resolve(Number(port));
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    child.once('exit', (code) => reject(new Error(`The editor's server ended with ${code}:\n${printed}`)));
  });
}

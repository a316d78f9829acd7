/** Child processes that never outlive the run: each in a process group of its own, ended by its id whatever happens. */
import { type ChildProcess, type SpawnOptions, spawn } from 'node:child_process';

const running = new Set<ChildProcess>();
const WINDOWS = process.platform === 'win32';

export function start(command: string, args: readonly string[], options: SpawnOptions = {}): ChildProcess {
  const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'pipe'], ...options, detached: !WINDOWS });
  running.add(child);
  child.once('exit', () => running.delete(child));
  return child;
}

/** Runs a command to its end; answers what it printed, or throws with the last of it. */
export async function finish(command: string, args: readonly string[], options: SpawnOptions = {}): Promise<string> {
  const child = start(command, args, options);
  let printed = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk) => (printed += chunk));
  const code = await new Promise<number | string>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (status, signal) => resolve(status ?? signal ?? 'unknown'));
  });
  if (code !== 0) throw new Error(`${command} ${args.join(' ')} ended with ${code}:\n${printed.slice(-3000)}`);
  return printed;
}

function signal(child: ChildProcess, name: NodeJS.Signals): void {
  try {
    if (WINDOWS) child.kill(name);
    else process.kill(-child.pid!, name);
  } catch {
    // Gone already.
  }
}

/** Asks a child and all that it started to leave, and makes them after a while. */
export async function end(child: ChildProcess, patienceMs = 3000): Promise<void> {
  if (child.pid === undefined) return;
  const left = child.exitCode !== null || child.signalCode !== null;
  const gone = left ? Promise.resolve() : new Promise<void>((resolve) => child.once('exit', () => resolve()));
  signal(child, 'SIGTERM');
  const timer = setTimeout(() => signal(child, 'SIGKILL'), patienceMs);
  await gone;
  clearTimeout(timer);
  // What it started may have stayed behind in its group.
  signal(child, 'SIGKILL');
  running.delete(child);
}

/** Called on the way out, where nothing can be awaited any more. */
function killAll(): void {
  for (const child of running) signal(child, 'SIGKILL');
}

/** Ends every child when this process ends, is interrupted or fails. `tidy` runs first when it is interrupted. */
export function endChildrenWithUs(tidy: () => Promise<void> = async () => {}): void {
  process.once('exit', killAll);
  for (const name of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.once(name, () => {
      void tidy()
        .catch(() => {})
        .finally(() => process.exit(name === 'SIGINT' ? 130 : 143));
    });
  }
}

/** Loads the cases into Mocha and tells the result as it goes, wherever the extension host runs. */
import type Mocha from 'mocha';
import type { Result } from '../result';

export type MochaLike = typeof Mocha;

interface Here {
  mocha(): Promise<MochaLike>;
  /** Registers them. */
  cases(): Promise<unknown>;
  write(result: Result): void;
  /** Hears of failures that nobody waits for. */
  onStumble(stumble: (error: unknown) => void): void;
}

export async function runWith(here: Here): Promise<void> {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const lines: string[] = [];
  let finished = false;
  const write = (end: Partial<Result>) => {
    if (finished) return;
    finished = end.finished === true;
    here.write({ finished: false, ...counts, report: lines.join('\n'), ...end });
  };
  write({});
  const stumble = (error: unknown) =>
    write({ trouble: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  here.onStumble(stumble);
  try {
    const Mocha = await here.mocha();
    Mocha.reporters.Base.consoleLog = (...args: unknown[]) => void lines.push(formatted(args));
    // Once more where an editor on a busy machine lost a keystroke or a request; a fault of ours fails twice.
    const mocha = new Mocha({ ui: 'bdd', reporter: Mocha.reporters.Spec, timeout: 30_000, retries: 1, color: false });
    mocha.suite.emit('pre-require', globalThis, 'suite', mocha);
    await here.cases();
    await new Promise<void>((resolve) => {
      const runner = mocha.run(() => resolve());
      const count = (kind: keyof typeof counts) => () => {
        counts[kind]++;
        write({});
      };
      runner.on('pass', count('passed'));
      runner.on('fail', count('failed'));
      runner.on('pending', count('skipped'));
    });
    write({ finished: true });
  } catch (error) {
    stumble(error);
  }
  if (counts.failed > 0) throw new Error(`${counts.failed} failed`);
}

/** As Mocha's reporter writes its lines: `%s` and `%d` in the first are what follows. */
function formatted([first = '', ...rest]: readonly unknown[]): string {
  const left = [...rest];
  const line = String(first).replace(/%[sdi%]/g, (mark) => (mark === '%%' ? '%' : String(left.shift())));
  return [line, ...left.map(String)].join(' ');
}

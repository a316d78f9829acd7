/** Entry of the suite, run inside the extension host: loads the cases into Mocha and writes the result file as it goes. */
import { renameSync, writeFileSync } from 'node:fs';
import { format } from 'node:util';
import { RESULT_FILE, type Result } from '../result';

export async function run(): Promise<void> {
  const file = process.env[RESULT_FILE];
  if (!file) throw new Error(`${RESULT_FILE} is not set`);
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const lines: string[] = [];
  let finished = false;
  const write = (end: Partial<Result>) => {
    if (finished) return;
    finished = end.finished === true;
    const result: Result = { finished: false, ...counts, report: lines.join('\n'), ...end };
    writeFileSync(`${file}.new`, JSON.stringify(result));
    renameSync(`${file}.new`, file);
  };
  write({});
  const stumble = (error: unknown) =>
    write({ trouble: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  process.on('unhandledRejection', stumble);
  try {
    const { default: Mocha } = await import('mocha');
    Mocha.reporters.Base.consoleLog = (...args: unknown[]) => void lines.push(format(...args));
    // Once more where an editor on a busy machine lost a keystroke or a request; a fault of ours fails twice.
    const mocha = new Mocha({ ui: 'bdd', reporter: 'spec', timeout: 30_000, retries: 1, color: false });
    mocha.suite.emit('pre-require', globalThis, 'suite', mocha);
    await import('./cases');
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

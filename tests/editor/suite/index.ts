/** Entry of the suite where the extension host is a process: writes the result file as it goes. */
import { renameSync, writeFileSync } from 'node:fs';
import { RESULT_FILE, type Result } from '../result';
import { type MochaLike, runWith } from './running';

export async function run(): Promise<void> {
  const file = process.env[RESULT_FILE];
  if (!file) throw new Error(`${RESULT_FILE} is not set`);
  const write = (result: Result) => {
    writeFileSync(`${file}.new`, JSON.stringify(result));
    renameSync(`${file}.new`, file);
  };
  await runWith({
    mocha: async () => (await import('mocha')).default as unknown as MochaLike,
    cases: () => import('./cases-on-node'),
    write,
    onStumble: (stumble) => process.on('unhandledRejection', stumble),
  });
}

/** STEP in a browser: the exact kernel is read from the extension's own folder when it is first asked for, and works in a worker of its own. */
import { stepWriter } from '../export/step';
import { ExportError, type Writer } from '../export/writer';
import { ExactQueue } from '../service/beside/exact-queue';
import type { Own } from './own';
import { addressOf, threadsOf } from './threads';

export interface ExactStart {
  /** Where the kernel's script is. */
  readonly glue: string;
  readonly wasm: Uint8Array;
  readonly isPacked: boolean;
}

const WASM = 'kernel/replicad_single.wasm';

export function exactWriter(own: Own, threads: boolean): Writer {
  const writer = stepWriter(
    new ExactQueue(
      threadsOf(async () => {
        const [script, glue, bare] = await Promise.all([
          own.bytes('web-exact.js'),
          own.bytes('kernel/replicad_single.mjs'),
          own.there(WASM),
        ]);
        const wasm = bare ?? (await own.bytes(`${WASM}.br`));
        const first: ExactStart = { glue: addressOf([glue]), wasm, isPacked: !bare };
        return { address: addressOf([script]), first };
      }),
    ),
  );
  if (threads) return writer;
  return {
    ...writer,
    write: async () => {
      throw new ExportError(
        'STEP is made in a worker of its own, and this browser allows none here. Write STL or 3MF, or use the editor on a desktop.',
      );
    },
  };
}

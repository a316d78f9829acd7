/** Asks the built program without starting it anew (see warm.cjs), and waits for its answer. */
import { resolve } from 'node:path';
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

const MOST_WAIT_MS = 100_000;
let asked: { readonly port: MessagePort; readonly flag: Int32Array } | undefined;

function begun() {
  const { port1: port, port2 } = new MessageChannel();
  const flag = new Int32Array(new SharedArrayBuffer(4));
  const workerData = { port: port2, flag };
  new Worker(resolve(__dirname, 'warm.cjs'), { workerData, transferList: [port2] }).unref();
  port.unref();
  return { port, flag };
}

/** The program asked in a folder. Its streams, signals and exit are not proven by this: start it for them. */
export function asks(folder: string, words: readonly string[]): Ran {
  asked ??= begun();
  const { port, flag } = asked;
  Atomics.store(flag, 0, 0);
  port.postMessage({ folder, words });
  if (Atomics.wait(flag, 0, 0, MOST_WAIT_MS) === 'timed-out') throw new Error(`no answer to ${words.join(' ')}`);
  return (receiveMessageOnPort(port) as { message: Ran }).message;
}

/** Questions answered beside the typing, on Node: a question is called off through a flag in memory that both threads see. */
import { join } from 'node:path';
import { AsideQueue } from '../service/beside/aside-queue';
import { NodeThreads } from './thread';

/** The number of the question to be left, in memory that the thread sees too. */
export interface AsideData {
  readonly leave: SharedArrayBuffer;
}

const HEAP_MB = 1024;

export class NodeAside extends AsideQueue {
  readonly #threads: NodeThreads;

  /** `script`: the worker's bundle. A thread that gives no answer for `longestMs` is ended as if it had died. */
  constructor(script: string, log: (message: string) => void, longestMs?: number, heapMb = HEAP_MB, quietMs?: number) {
    const shared = new Int32Array(new SharedArrayBuffer(4));
    const data: AsideData = { leave: shared.buffer as SharedArrayBuffer };
    const threads = new NodeThreads({ script, data, heapMb });
    const leave = (number: number) => void Atomics.store(shared, 0, number);
    super(threads, { leave, longestMs, quietMs, log });
    this.#threads = threads;
  }

  /** The thread's number, while there is one. */
  get threadId(): number | undefined {
    return this.#threads.worker?.threadId;
  }
}

/** The thread beside this file's bundle. */
export function nodeAside(log: (message: string) => void): NodeAside {
  return new NodeAside(join(__dirname, 'aside-worker.js'), log);
}

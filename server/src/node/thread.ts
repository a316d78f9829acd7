/** Threads of Node: each runs a bundle of its own. */
import { Worker } from 'node:worker_threads';
import type { Ears } from '../service/beside/thread';

interface Bundle {
  readonly script: string;
  /** What it is started with. */
  readonly data?: unknown;
  readonly heapMb?: number;
}

export class NodeThreads {
  readonly #bundle: Bundle;
  #worker: Worker | undefined;

  constructor(bundle: Bundle) {
    this.#bundle = bundle;
  }

  /** The last one started, while it runs: for tests that end it. */
  get worker(): Worker | undefined {
    return this.#worker;
  }

  start<From>({ heard, died }: Ears<From>) {
    const { script, data, heapMb } = this.#bundle;
    const resourceLimits = heapMb === undefined ? {} : { maxOldGenerationSizeMb: heapMb };
    const worker = new Worker(script, { workerData: data, resourceLimits });
    this.#worker = worker;
    worker.unref();
    let reason = 'it ended';
    worker.on('message', heard);
    worker.on('error', (failure) => {
      reason = failure instanceof Error ? failure.message : String(failure);
    });
    worker.on('exit', () => {
      this.#forget(worker);
      died(reason);
    });
    return {
      post: (message: unknown) => worker.postMessage(message),
      hold: () => worker.ref(),
      release: () => worker.unref(),
      end: async () => {
        this.#forget(worker);
        await worker.terminate();
      },
    };
  }

  later(ms: number, work: () => void): () => void {
    const timer = setTimeout(work, ms);
    timer.unref();
    return () => clearTimeout(timer);
  }

  #forget(worker: Worker): void {
    if (this.#worker === worker) this.#worker = undefined;
  }
}

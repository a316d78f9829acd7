/** Exact solids on Node. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Worker } from 'node:worker_threads';
import type { ExactMaker } from '../export/step';
import { ExactQueue, type Limits } from '../service/beside/exact-queue';
import { NodeThreads } from './thread';

export class ExactThread extends ExactQueue {
  readonly #threads: NodeThreads;

  /** `script`: the worker's bundle. */
  constructor(script: string, limits: Partial<Limits> = {}) {
    const threads = new NodeThreads({ script });
    super(threads, limits);
    this.#threads = threads;
  }

  /** The thread, while there is one: for tests that end it. */
  get worker(): Worker | undefined {
    return this.#threads.worker;
  }
}

/** The worker's bundle: beside this one, or where the build puts it when the sources run as they are. */
function exactScript(): string {
  const beside = join(__dirname, 'exact-worker.js');
  return existsSync(beside) ? beside : join(__dirname, '../../../dist/exact-worker.js');
}

let shared: ExactThread | undefined;

/** One thread a process: two would take twice the memory and not be quicker. */
export const sharedExact: ExactMaker = {
  step(cuttings) {
    shared ??= new ExactThread(exactScript());
    return shared.step(cuttings);
  },
};

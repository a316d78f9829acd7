/** The mesh maker on Node, in a thread of its own. */
import { join } from 'node:path';
import { MeshQueue } from '../service/beside/mesh-queue';
import { NodeThreads } from './thread';

const HEAP_MB = 768;

export class NodeMeshMaker extends MeshQueue {
  readonly #threads: NodeThreads;

  /** `script`: the worker's bundle. A thread that gives no answer for `longestMs` is ended as if it had died. */
  constructor(script: string, log: (message: string) => void, longestMs?: number, heapMb = HEAP_MB, quietMs?: number) {
    const threads = new NodeThreads({ script, heapMb });
    super(threads, { longestMs, quietMs, log });
    this.#threads = threads;
  }

  /** The thread's number, while there is one. */
  get threadId(): number | undefined {
    return this.#threads.worker?.threadId;
  }
}

let shared: NodeMeshMaker | undefined;

/** The one thread of this process, for views and files alike; `log` of whoever asks first. */
export function sharedMeshes(log: (message: string) => void = () => {}): NodeMeshMaker {
  shared ??= new NodeMeshMaker(join(__dirname, 'mesh-worker.js'), log);
  return shared;
}

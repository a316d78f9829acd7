/**
 * Threads of a browser: workers that the server's worker starts beside itself, so that what takes long does not keep the
 * editor waiting. They share no memory with it.
 */
import type { Ears, Threads } from '../service/beside/thread';

/** What is used of a browser, which Node's types do not name. */
interface Nested {
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
  postMessage(message: unknown): void;
  terminate(): void;
}
const browser = globalThis as unknown as {
  readonly Worker?: new (address: string) => Nested;
  readonly location: { readonly href: string };
};

/** What a worker beside is told first, so that it knows what it is for. */
export type BesideStart = { readonly does: 'questions' } | { readonly does: 'meshes'; readonly manifold: ArrayBuffer };

/** So long a browser may take to start a worker that does nothing, ms. */
const PROBE_MS = 3000;

/** Whether a worker may start another here: not in every browser, and not under every policy. */
export function allowsThreads(): Promise<boolean> {
  return new Promise((resolve) => {
    const { Worker } = browser;
    if (!Worker) return resolve(false);
    const address = addressOf(['postMessage(0)']);
    let probe: Nested | undefined;
    const said = (allowed: boolean) => {
      clearTimeout(timer);
      probe?.terminate();
      URL.revokeObjectURL(address);
      resolve(allowed);
    };
    const timer = setTimeout(() => said(false), PROBE_MS);
    try {
      probe = new Worker(address);
      probe.onmessage = () => said(true);
      probe.onerror = () => said(false);
    } catch {
      said(false);
    }
  });
}

/** A script in memory, by an address that workers and imports take. */
export function addressOf(pieces: readonly (string | Uint8Array)[]): string {
  return URL.createObjectURL(new Blob(pieces as never, { type: 'text/javascript' }));
}

/** A thread of this worker's own script. */
export const ownThread = <To, From>(first: BesideStart): Threads<To, From> =>
  threadsOf(async () => ({ address: browser.location.href, first }));

interface Script {
  readonly address: string;
  /** What it is told before anything else. */
  readonly first: unknown;
}

/** What is posted before the script has come waits for it. */
export function threadsOf<To, From>(script: () => Promise<Script>): Threads<To, From> {
  return { later, start: (ears) => started(script, ears) };
}

export function later(ms: number, work: () => void): () => void {
  const timer = setTimeout(work, ms);
  return () => clearTimeout(timer);
}

function started<To, From>(
  script: () => Promise<Script>,
  { heard, died }: Ears<From>,
): ReturnType<Threads<To, From>['start']> {
  let worker: Nested | undefined;
  let isOver = false;
  const waiting: To[] = [];
  const begin = ({ address, first }: Script) => {
    if (isOver || !browser.Worker) return;
    worker = new browser.Worker(address);
    worker.onmessage = ({ data }) => heard(data as From);
    worker.onerror = ({ message }) => {
      worker?.terminate();
      died(message ?? 'it could not be started');
    };
    worker.postMessage(first);
    for (const message of waiting) worker.postMessage(message);
  };
  script()
    .then(begin)
    .catch((failure: unknown) => died(failure instanceof Error ? failure.message : String(failure)));
  return {
    post(message) {
      if (worker) worker.postMessage(message);
      else waiting.push(message);
    },
    end() {
      isOver = true;
      worker?.terminate();
    },
  };
}

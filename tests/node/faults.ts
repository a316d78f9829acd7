/**
 * A disk that fails: Node's own, but from the n-th operation on, or at it only, what a full, broken or guarded disk does.
 * Every operation that saving makes is counted, those of open files too.
 */
import { DISK, type Disk, type DiskFile } from '../../server/src/node/disk';

/** Codes of errno(3) that writing a file meets; `short` writes half of what it was given, and says so. */
export type Fault = 'ENOSPC' | 'EIO' | 'EACCES' | 'short';

/** Once, or from then on: a full disk stays full. */
export const FAULTS: readonly { readonly fault: Fault; readonly lasting: boolean }[] = [
  { fault: 'ENOSPC', lasting: true },
  { fault: 'EIO', lasting: false },
  { fault: 'EACCES', lasting: false },
  { fault: 'short', lasting: false },
  { fault: 'short', lasting: true },
];

interface Faulty {
  readonly disk: Disk;
  /** What was done, in order: `rename`, `file.write`. */
  readonly done: readonly string[];
}

/** `lasting`: all that comes after fails too. */
export function faulty(at: number, fault: Fault, lasting = false): Faulty {
  const done: string[] = [];
  const fails = (name: string) => {
    done.push(name);
    return lasting ? done.length > at : done.length === at + 1;
  };
  const failure = (name: string) => {
    const code = fault === 'short' ? 'ENOSPC' : fault;
    return Object.assign(new Error(`${code}: made up, ${name}`), { code });
  };
  const file = (of: DiskFile): DiskFile =>
    wrap(of, (name, run, args) => {
      if (!fails(`file.${name}`)) return run();
      if (name === 'write' && fault === 'short') {
        const [bytes, from, length] = args as [Uint8Array, number, number];
        return of.write(bytes, from, length >> 1);
      }
      // What was open is closed all the same: only its answer is lost.
      if (name === 'close') return of.close().then(() => Promise.reject(failure(name)));
      return fault === 'short' ? run() : Promise.reject(failure(name));
    });
  const disk = wrap(DISK, (name, run) => {
    if (fails(name) && fault !== 'short') return Promise.reject(failure(name));
    return name === 'open' ? run().then((opened) => file(opened as DiskFile)) : run();
  });
  return { disk, done };
}

type Call = (name: string, run: () => Promise<unknown>, args: readonly unknown[]) => Promise<unknown>;

/** Every method goes through `call`. */
function wrap<T extends object>(of: T, call: Call): T {
  return new Proxy(of, {
    get(target, name) {
      const method: unknown = Reflect.get(target, name, target);
      if (typeof method !== 'function') return method;
      return (...args: unknown[]) =>
        call(String(name), () => Promise.resolve(Reflect.apply(method, target, args)), args);
    },
  });
}

/**
 * A standard stream, written to its last byte before the program goes on: an answer that is cut off must not look like one.
 * Node's own streams do not tell of a short write to a file, and leave what a pipe does not take yet for later.
 */
import { writeSync } from 'node:fs';

/** What writes to a file descriptor; tests hand in another. */
export type Write = (fd: number, bytes: Uint8Array) => number;

/** So long a full pipe is left to its reader before it is tried again, ms. */
const PAUSE_MS = 2;

export class Output {
  readonly #fd: number;
  readonly #write: Write;
  #failure: string | undefined;

  constructor(fd: number, write: Write = writeSync) {
    this.#fd = fd;
    this.#write = write;
  }

  /** After a failure nothing more is written. */
  write(text: string): void {
    let left: Uint8Array = Buffer.from(text, 'utf8');
    while (left.length > 0 && this.#failure === undefined) {
      try {
        left = left.subarray(this.#write(this.#fd, left));
      } catch (error) {
        const { code = String(error) } = error as NodeJS.ErrnoException;
        if (code === 'EAGAIN' || code === 'EINTR') pause();
        else this.#failure = FAILURES[code] ?? code;
      }
    }
  }

  /** Why not all of it was written; undefined where it was. */
  get failure(): string | undefined {
    return this.#failure;
  }
}

const FAILURES: Readonly<Record<string, string>> = {
  EPIPE: 'its reader went away before the end',
  EOF: 'its reader went away before the end',
  ENOSPC: 'no space is left there',
  EDQUOT: 'no space is left there',
  EFBIG: 'the file would be larger than is allowed there',
  EBADF: 'it is closed',
};

function pause(): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE_MS);
}

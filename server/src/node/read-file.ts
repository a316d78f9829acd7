/** Reads one file as text. Whatever it is that stands there (a folder, a pipe, UTF-16, too much), it is said, and nothing hangs. */
import { isUtf8 } from 'node:buffer';
import { constants, type Stats } from 'node:fs';
import { type FileHandle, lstat, open, stat } from 'node:fs/promises';
import type { FileText, Unread } from '../service/host';

/** Larger files are not read at all: nobody writes them by hand. Bytes. */
const FILE_LIMIT = 8_000_000;

/** The text of a file, why it has none, or undefined where nothing is there. Its links have been followed already. */
export async function readDocument(path: string): Promise<FileText> {
  const bytes = await bytesOf(path);
  return Buffer.isBuffer(bytes) ? decoded(bytes) : bytes;
}

/** The same, before anything is said of its encoding. */
export async function bytesOf(path: string): Promise<Buffer | Unread | undefined> {
  try {
    const odd = oddity(await stat(path));
    if (odd) return odd;
    // Without waiting, and without another link: what was a file a moment ago may be a pipe now, or lead elsewhere.
    const handle = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOFOLLOW ?? 0));
    try {
      return oddity(await handle.stat()) ?? (await allOf(handle));
    } finally {
      await handle.close();
    }
  } catch (error) {
    return failure(error as NodeJS.ErrnoException, path);
  }
}

function oddity(info: Stats): Unread | undefined {
  if (info.isDirectory()) return { why: 'is a folder, not a file' };
  if (info.isFIFO()) return { why: 'is a pipe, not a file' };
  if (info.isSocket()) return { why: 'is a socket, not a file' };
  if (info.isCharacterDevice() || info.isBlockDevice()) return { why: 'is a device, not a file' };
  return info.size > FILE_LIMIT ? tooLarge(info.size) : undefined;
}

function tooLarge(size: number): Unread {
  return { why: `is too large: ${(size / 1e6).toFixed(1)} MB, where at most ${FILE_LIMIT / 1e6} MB are read` };
}

/** To its end, whatever size it claims: some files claim none. */
async function allOf(handle: FileHandle): Promise<Buffer | Unread> {
  const pieces: Buffer[] = [];
  let size = 0;
  for (;;) {
    const { bytesRead, buffer } = await handle.read({ buffer: Buffer.alloc(65_536) });
    if (bytesRead === 0) break;
    size += bytesRead;
    if (size > FILE_LIMIT) return tooLarge(size);
    pieces.push(buffer.subarray(0, bytesRead));
  }
  return Buffer.concat(pieces);
}

/** UTF-8, its byte order mark kept; of anything else what it is, and that it is to be saved as UTF-8. */
export function decoded(bytes: Buffer): string | Unread {
  const other = otherUnicode(bytes);
  if (other) return { why: `is ${other}: save it as UTF-8` };
  if (isUtf8(bytes)) return bytes.toString('utf8');
  const { line, byte } = firstWrong(bytes);
  const shown = `0x${byte.toString(16).toUpperCase().padStart(2, '0')}`;
  return { why: `is not UTF-8 (byte ${shown} in line ${line}; it may be Latin-1 or Windows-1252): save it as UTF-8` };
}

/** By its byte order mark; without one by the zeros, which no text in UTF-8 has, on one side of each pair. */
function otherUnicode(bytes: Buffer): string | undefined {
  const [a, b, c, d] = bytes;
  if (a === 0xff && b === 0xfe) return c === 0 && d === 0 ? 'UTF-32' : 'UTF-16';
  if (a === 0xfe && b === 0xff) return 'UTF-16';
  if (a === 0 && b === 0 && c === 0xfe && d === 0xff) return 'UTF-32';
  const zeros = [0, 0];
  const head = bytes.subarray(0, 4096);
  for (const [i, byte] of head.entries()) if (byte === 0) zeros[i % 2]!++;
  const [even, odd] = zeros as [number, number];
  if (Math.max(even, odd) <= head.length / 8) return undefined;
  return Math.min(even, odd) <= head.length / 32 ? 'UTF-16 without a byte order mark' : 'no text (full of zero bytes)';
}

/** Where the bytes stop being UTF-8. A line break is never part of another character, so that lines can be asked one by one. */
function firstWrong(bytes: Buffer): { readonly line: number; readonly byte: number } {
  let line = 1;
  let from = 0;
  for (let end = bytes.indexOf(10); end >= 0 && isUtf8(bytes.subarray(from, end)); end = bytes.indexOf(10, from)) {
    from = end + 1;
    line++;
  }
  for (let at = from; at < bytes.length; ) {
    let next = at + 1;
    while (next < bytes.length && (bytes[next]! & 0xc0) === 0x80) next++;
    if (!isUtf8(bytes.subarray(at, next))) return { line, byte: bytes[at]! };
    at = next;
  }
  return { line, byte: bytes.at(-1) ?? 0 };
}

async function failure(error: NodeJS.ErrnoException, path: string): Promise<Unread | undefined> {
  switch (error.code) {
    case 'ENOENT': {
      const link = await lstat(path).catch(() => undefined);
      return link?.isSymbolicLink() ? { why: 'is a link that leads nowhere' } : undefined;
    }
    case 'ENOTDIR':
      return undefined;
    default:
      return { why: whyNot(error) };
  }
}

/** To follow a name: what the system had against it. */
export function whyNot(error: NodeJS.ErrnoException): string {
  switch (error.code) {
    case 'EACCES':
    case 'EPERM':
      return 'may not be read: permission is denied';
    case 'ELOOP':
      return 'is a link that leads back to itself';
    case 'ENAMETOOLONG':
      return 'has a name too long for a file';
    case 'EMFILE':
    case 'ENFILE':
      return 'could not be read: too many files are open';
    default:
      return `could not be read (${error.code ?? error.message})`;
  }
}

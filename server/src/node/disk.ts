/** The file operations that saving is made of, in one place to be handed in: tests hand in a disk that fails. */
import * as files from 'node:fs/promises';

export type Disk = Pick<
  typeof files,
  'access' | 'link' | 'lstat' | 'open' | 'readdir' | 'readlink' | 'realpath' | 'rename' | 'unlink'
>;
export type DiskFile = Awaited<ReturnType<Disk['open']>>;

export const DISK: Disk = files;

/** `ENOSPC` and its like, of an error that the system raised; anything else is a fault of ours and goes on. */
export function codeOf(error: unknown): string {
  const { code } = error as NodeJS.ErrnoException;
  if (typeof code !== 'string') throw error;
  return code;
}

const WORDS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the share of the disk is used up',
  EROFS: 'the disk is read-only',
  EACCES: 'that is not permitted',
  EPERM: 'that is not permitted',
  EIO: 'the disk failed',
  ENOENT: 'it, or its folder, is gone',
};

export function reasonOf(error: unknown): string {
  const code = codeOf(error);
  return WORDS[code] ? `${WORDS[code]} (${code})` : code;
}

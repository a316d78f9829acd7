/**
 * The one way in which the command line writes a file. What is new is written beside it, flushed, and takes its name in
 * one step: whatever fails, and wherever the process is killed, the file is the old one or the new one, byte for byte.
 * Links are followed, inside the folders of the gate only; the link stays one. Mode stays, and the owner where the
 * system lets us; access lists and extended attributes of the file, which Node does not know, do not.
 */
import { randomBytes } from 'node:crypto';
import { constants, type Stats } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { codeOf, DISK, type Disk, type DiskFile, reasonOf } from './disk';
import type { Gate } from './gate';

interface Saving {
  readonly path: string;
  readonly bytes: Uint8Array;
  /**
   * What may be written over: these bytes, which were read and judged, and nothing else; `anything`, where the user named
   * the file to be replaced; `nothing`, where a new file is made.
   */
  readonly over: Uint8Array | 'anything' | 'nothing';
}

/** Answers why not, to be said after the file's name; undefined where the file is written and safe on the disk. */
export async function save(saving: Saving, gate: Gate, disk: Disk = DISK): Promise<string | undefined> {
  const { path, over } = saving;
  const passed = over instanceof Uint8Array ? await gate.pass(path) : await gate.passNew(path);
  if (passed.reason) return passed.why;
  const { real } = passed;
  try {
    const old = await infoOf(real, disk);
    if (old && over === 'nothing') return ALREADY_THERE;
    if (!old && over instanceof Uint8Array) return 'is gone: nothing was written.';
    return (old && (await protectedBy(real, old, disk))) || (await put(real, old, saving, disk));
  } catch (error) {
    return `could not be written: ${reasonOf(error)}. Nothing was changed.`;
  }
}

const ALREADY_THERE = 'is already there: nothing was written.';
const CHANGED = 'is not plain UTF-8, or changed meanwhile: nothing was written.';

async function infoOf(real: string, disk: Disk): Promise<Stats | undefined> {
  return disk.lstat(real).catch((error: unknown) => {
    if (codeOf(error) === 'ENOENT') return undefined;
    throw error;
  });
}

/** What must not be replaced by another file of the same name. */
async function protectedBy(real: string, old: Stats, disk: Disk): Promise<string | undefined> {
  if (!old.isFile()) return 'is no ordinary file: nothing was written.';
  const names = old.nlink > 1 ? await otherNames(real, old, disk) : 1;
  if (names > 1)
    return `has ${names} names on this disk (hard links), and only this one would change: nothing was written. Make it a file of its own first.`;
  // Asked of the mode too: an administrator may write anything, and would not know that it was protected.
  const writable = (old.mode & 0o222) !== 0 && (await disk.access(real, constants.W_OK).then(...EITHER));
  return writable ? undefined : 'is write-protected: nothing was written.';
}

const EITHER = [() => true, () => false] as const;

/** How many names a file has, once those are gone that an earlier run left when it was killed. */
async function otherNames(real: string, old: Stats, disk: Disk): Promise<number> {
  let names = old.nlink;
  for (const name of await disk.readdir(dirname(real))) {
    if (!LEFTOVER.test(name)) continue;
    const path = join(dirname(real), name);
    const info = await disk.lstat(path);
    if (info.ino !== old.ino || info.dev !== old.dev) continue;
    await disk.unlink(path);
    names--;
  }
  return names;
}

const LEFTOVER = /^\.scribeline-[0-9a-f]{16}\.tmp$/;

/** Short, however long the file's own name is; no one can guess it, and it is only made where nothing is. */
function nameBeside(real: string): string {
  return join(dirname(real), `.scribeline-${randomBytes(8).toString('hex')}.tmp`);
}

async function put(
  real: string,
  old: Stats | undefined,
  { bytes, over }: Saving,
  disk: Disk,
): Promise<string | undefined> {
  const half = nameBeside(real);
  let left = true;
  let why: string | undefined;
  try {
    const made = await disk.open(half, 'wx', old ? 0o600 : 0o666).catch((error: unknown) => {
      left = false;
      throw error;
    });
    await fill(made, bytes, old);
    if (over instanceof Uint8Array && !(await isStill(real, old!, over, disk))) why = CHANGED;
    else if (over === 'nothing') why = await nameNew(half, real, disk);
    else await disk.rename(half, real);
    left = over === 'nothing' || why !== undefined;
  } catch (error) {
    why = `could not be written: ${reasonOf(error)}. Nothing was changed.`;
  }
  const rest = left ? await remove(half, disk) : undefined;
  // A new name is not sure to outlast a loss of power before its folder is flushed.
  why ??= (await flushFolder(dirname(real), disk)) ?? (rest && 'is written.');
  return why && rest ? `${why} ${rest}` : why;
}

/** All of it on the disk, or an error: what closing says counts too. */
async function fill(file: DiskFile, bytes: Uint8Array, old: Stats | undefined): Promise<void> {
  let open = true;
  try {
    for (let at = 0; at < bytes.length; ) {
      const { bytesWritten } = await file.write(bytes, at, bytes.length - at);
      if (bytesWritten === 0) throw Object.assign(new Error('nothing was written'), { code: 'ENOSPC' });
      at += bytesWritten;
    }
    if (old) await file.chmod(old.mode & ((await keepOwner(file, old)) ? 0o7777 : 0o777));
    await flush(file);
    open = false;
    await file.close();
  } finally {
    if (open) await file.close().catch(() => {});
  }
}

/** Whether owner and group are those of the old file. Another's file may be ours to write, and not ours to give back. */
async function keepOwner(file: DiskFile, { uid, gid }: Stats): Promise<boolean> {
  const own = await file.stat();
  if (own.uid === uid && own.gid === gid) return true;
  if (await file.chown(uid, gid).then(...EITHER)) return true;
  if (own.gid !== gid) await file.chown(own.uid, gid).catch(() => {});
  return false;
}

/** Neither waits for a pipe that was put there meanwhile, nor follows a link. */
const READ = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOFOLLOW ?? 0);

async function isStill(real: string, old: Stats, bytes: Uint8Array, disk: Disk): Promise<boolean> {
  const file = await disk.open(real, READ).catch((error: unknown) => {
    if (codeOf(error) === 'ENOENT' || codeOf(error) === 'ELOOP') return undefined;
    throw error;
  });
  if (!file) return false;
  try {
    const now = await file.stat();
    if (now.ino !== old.ino || now.dev !== old.dev || now.nlink > 1 || now.size !== bytes.length) return false;
    const read = new Uint8Array(bytes.length + 1);
    let length = 0;
    for (let more = 1; more > 0 && length < read.length; length += more)
      more = (await file.read(read, length, read.length - length, length)).bytesRead;
    return length === bytes.length && Buffer.compare(read.subarray(0, length), bytes) === 0;
  } finally {
    await file.close().catch(() => {});
  }
}

/** Gives the finished file a name that nothing has. Where the disk knows no second names, an empty file keeps the place. */
async function nameNew(half: string, real: string, disk: Disk): Promise<string | undefined> {
  try {
    await disk.link(half, real);
    return undefined;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return ALREADY_THERE;
  }
  const place = await disk.open(real, 'wx').catch((error: unknown) => {
    if (codeOf(error) === 'EEXIST') return undefined;
    throw error;
  });
  if (!place) return ALREADY_THERE;
  try {
    await place.close();
    await disk.rename(half, real);
  } catch (error) {
    await disk.unlink(real).catch(() => {});
    throw error;
  }
  return undefined;
}

/** What there is to say where it stays; one that took the file's name is gone already. */
async function remove(half: string, disk: Disk): Promise<string | undefined> {
  return disk.unlink(half).then(
    () => undefined,
    (error: unknown) => (codeOf(error) === 'ENOENT' ? undefined : `${basename(half)} beside it is left over.`),
  );
}

/** Some disks cannot be asked to. */
const CANNOT_FLUSH = new Set(['EINVAL', 'ENOSYS', 'ENOTSUP', 'EOPNOTSUPP', 'EISDIR', 'EPERM', 'EACCES', 'EBADF']);

async function flush(file: DiskFile): Promise<void> {
  await file.sync().catch((error: unknown) => {
    if (!CANNOT_FLUSH.has(codeOf(error))) throw error;
  });
}

/** So that the new name is on the disk as well as what it names. */
async function flushFolder(folder: string, disk: Disk): Promise<string | undefined> {
  let opened: DiskFile | undefined;
  try {
    opened = await disk.open(folder, 'r');
    await flush(opened);
    return undefined;
  } catch (error) {
    if (CANNOT_FLUSH.has(codeOf(error))) return undefined;
    return `is written, but whether it outlasts a loss of power is not known: ${reasonOf(error)}.`;
  } finally {
    await opened?.close().catch(() => {});
  }
}

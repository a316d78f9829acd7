/**
 * The exact kernel and how it is worked with. The loaded kernel is handed in; nothing here knows where it came from.
 * Everything it makes lies in its own memory until it is deleted, so work is done in rooms that are cleared afterwards.
 */
import type { OpenCascadeInstance, TopoDS_Shape } from 'replicad-opencascadejs';

export type Oc = OpenCascadeInstance;
export type Shape = TopoDS_Shape;

interface Deletable {
  delete(): void;
}

/** A place to work: the kernel, and a keeper of what is to be deleted at the end. */
export interface Room {
  readonly oc: Oc;
  keep<T extends Deletable>(handle: T): T;
}

/** The kernel could not do what was asked; the message is for the user. */
export class ExactError extends Error {}

/**
 * Does the work and deletes all that it kept, but what it answers. What the kernel throws becomes an `ExactError`:
 * `doing` completes the sentence "… failed while".
 */
export function inRoom<T>(oc: Oc, doing: string, work: (room: Room) => T): T {
  const kept: Deletable[] = [];
  const room: Room = {
    oc,
    keep(handle) {
      kept.push(handle);
      return handle;
    },
  };
  let answer: T | undefined;
  try {
    answer = work(room);
    return answer;
  } catch (error) {
    throw clear(oc, error, doing);
  } finally {
    for (const handle of kept.reverse()) if ((handle as unknown) !== answer) handle.delete();
  }
}

function clear(oc: Oc, error: unknown, doing: string): Error {
  // a trap of the machine below: out of memory, or a fault of the kernel; what it holds is not to be trusted any more
  if (error instanceof Error && error.name === 'RuntimeError')
    return new ExactError(`The geometry kernel ran out of memory or broke while ${doing} (${error.message}).`);
  if (error instanceof Error) return error;
  let said = '';
  try {
    said = oc
      .getExceptionMessage(error as never)
      .filter((s) => s)
      .join(': ');
  } catch {
    // what cannot be read is still a failure
  }
  return new ExactError(`The geometry kernel failed while ${doing}${said ? ` (${said})` : ''}.`);
}

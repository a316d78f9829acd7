/**
 * Linear programs on Node: the solver works in a thread that is ended when it takes too long, since it answers nothing while
 * it works. One program at a time.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Solved, Solver } from '../planning/cut-list/program';
import { Thread } from '../service/beside/thread';
import { NodeThreads } from './thread';

export interface ToSolver {
  readonly program: string;
  readonly columns: number;
  readonly rows: number;
}
export type FromSolver = { readonly solved: Solved } | { readonly trouble: string };

/** The worker's bundle: beside this one, or where the build puts it when the sources run as they are. */
function solverScript(): string {
  const beside = join(__dirname, 'solver-worker.js');
  return existsSync(beside) ? beside : join(__dirname, '../../../dist/solver-worker.js');
}

/** All programs of one question together may take `mostMs`; then every one that is left is refused. `end` lets the thread go. */
export function solverWithin(mostMs: number): { readonly solve: Solver; end(): Promise<void> } {
  const until = Date.now() + mostMs;
  let waiting: { resolve(solved: Solved): void; reject(failure: Error): void } | undefined;
  const answered = (act: (waiter: NonNullable<typeof waiting>) => void) => {
    const now = waiting;
    waiting = undefined;
    if (now) act(now);
  };
  const threads = new NodeThreads({ script: solverScript() });
  const thread = new Thread<ToSolver, FromSolver>(
    {
      quietMs: 10_000,
      holdsProcess: true,
      heard: (answer) => {
        thread.rest();
        answered((w) => ('solved' in answer ? w.resolve(answer.solved) : w.reject(new Error(answer.trouble))));
      },
      gone: () => {},
      lost: (reason) => answered((w) => w.reject(new Error(reason))),
    },
    threads,
  );
  const solve: Solver = (program, columns, rows) =>
    new Promise((resolve, reject) => {
      const left = until - Date.now();
      if (left <= 0 || waiting)
        return reject(new Error(waiting ? 'It solves one at a time.' : 'There is no time left.'));
      waiting = { resolve, reject };
      thread.send({ program, columns, rows });
      thread.within(left);
    });
  return { solve, end: () => thread.end() };
}

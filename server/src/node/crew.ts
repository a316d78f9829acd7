/** Many files are judged by several threads, each with a judge of its own; the answers come back in the files' order. */
import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Disk } from './disk';
import type { Found } from './files';
import { type Judged, type JudgeOptions, makeJudge } from './judge';

/** A thread takes about as long to start as it takes to judge this many files. */
const FILES_A_HAND = 40;
/** Handed out at a time, so that no thread is left with all the large ones. */
const LOT = 16;

interface Call {
  readonly crew: JudgeOptions;
}

/** Whether this thread is one of a crew; then it serves until it is ended. */
export function joinCrew(): boolean {
  const call = workerData as Call | null;
  if (isMainThread || !parentPort || !call?.crew) return false;
  const port = parentPort;
  const judge = makeJudge(call.crew);
  port.on('message', (files: readonly Found[]) => {
    judge(files).then(
      (judged) => port.postMessage(judged),
      (failure: unknown) => {
        throw failure;
      },
    );
  });
  return true;
}

/** `script`: the file that a further thread runs; it must call `joinCrew`. A disk handed in is used without threads. */
export async function judgeAll(
  files: readonly Found[],
  options: JudgeOptions,
  script: string,
  disk?: Disk,
): Promise<Judged> {
  const hands = Math.min(availableParallelism(), Math.floor(files.length / FILES_A_HAND));
  if (hands < 2 || disk) return makeJudge(options, disk)(files);
  const lots: (readonly Found[])[] = [];
  for (let at = 0; at < files.length; at += LOT) lots.push(files.slice(at, at + LOT));
  const answers: Judged[] = new Array(lots.length);
  let next = 0;
  await Promise.all(
    Array.from({ length: hands }, async () => {
      const worker = new Worker(script, { workerData: { crew: options } satisfies Call });
      try {
        for (let lot = next++; lot < lots.length; lot = next++) answers[lot] = await ask(worker, lots[lot]!);
      } finally {
        await worker.terminate();
      }
    }),
  );
  return {
    reported: answers.flatMap((a) => a.reported),
    facts: answers.flatMap((a) => a.facts),
    notes: answers.flatMap((a) => a.notes),
    lost: answers.some((a) => a.lost),
    unread: answers.flatMap((a) => a.unread),
    lacking: answers.flatMap((a) => a.lacking),
  };
}

function ask(worker: Worker, files: readonly Found[]): Promise<Judged> {
  return new Promise((resolve, reject) => {
    const done = () => {
      worker.off('message', answered).off('error', failed).off('exit', left);
    };
    const answered = (judged: Judged) => {
      done();
      resolve(judged);
    };
    const failed = (failure: unknown) => {
      done();
      reject(failure instanceof Error ? failure : new Error(String(failure)));
    };
    const left = () => failed(new Error('a judging thread ended before its answer'));
    worker.on('message', answered).on('error', failed).on('exit', left);
    worker.postMessage(files);
  });
}

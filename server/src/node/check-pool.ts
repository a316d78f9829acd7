/**
 * Many files are judged by several threads, each with a judge of its own; the answers come back in the files' order. A
 * thread that ends over a file is replaced, and the file tried once more; then it is said to be not judged.
 */
import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { type Judged, type JudgeOptions, makeJudge } from './check-files';
import type { Disk } from './disk';
import type { Found } from './files';
import { roomForPool, spareMemory } from './thrift';

/** A thread takes about as long to start as it takes to judge this many files. */
const FILES_A_HAND = 40;
/** Handed out at a time, so that no thread is left with all the large ones. */
const LOT = 16;
/** A file that so many threads ended over is not given to another. */
const MOST_DEATHS = 2;
/** Where so many threads have ended, something is wrong with more than a file: the rest is not tried. */
const MOST_LOST = 16;
/** Beyond its heap a thread ends alone, not the whole program. */
const HEAP_MB = 768;

interface Call {
  readonly pool: JudgeOptions;
}

/** What has been answered, by the files' order, and what is still to be judged. */
interface Round {
  readonly files: readonly Found[];
  readonly answers: Judged[];
  readonly deaths: number[];
  readonly lots: number[][];
  /** Why threads ended. */
  readonly lost: string[];
}

/** Whether this thread is one of a pool; then it serves until it is ended. */
export function joinPool(): boolean {
  const call = workerData as Call | null;
  if (isMainThread || !parentPort || !call?.pool) return false;
  const port = parentPort;
  const judge = makeJudge(call.pool);
  const serve = async (files: readonly Found[]) => {
    // One by one, so that who ends this thread is known, and nothing is lost that was judged before.
    for (const file of files) port.postMessage(await judge([file]));
  };
  port.on('message', (files: readonly Found[]) => {
    serve(files).catch((failure: unknown) => {
      throw failure;
    });
  });
  return true;
}

/** `script`: the file that a further thread runs; it must call `joinPool`. A disk handed in is used without threads. */
export async function judgeAll(
  files: readonly Found[],
  options: JudgeOptions,
  script: string,
  disk?: Disk,
): Promise<Judged> {
  const hands = Math.min(availableParallelism(), Math.floor(files.length / FILES_A_HAND));
  if (hands < 2 || disk) {
    // Few files: nobody notices the time, and the largest of them fits. Of many the time counts.
    if (files.length < FILES_A_HAND) spareMemory();
    return makeJudge(options, disk)(files);
  }
  roomForPool();
  const lots: number[][] = [];
  for (let at = 0; at < files.length; at += LOT)
    lots.push(Array.from({ length: Math.min(LOT, files.length - at) }, (_, i) => at + i));
  const round: Round = { files, answers: new Array(files.length), deaths: files.map(() => 0), lots, lost: [] };
  const begin = () =>
    new Worker(script, {
      workerData: { pool: options } satisfies Call,
      resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
    });
  await Promise.all(Array.from({ length: hands }, () => judgeLots(round, begin)));
  // No thread could even begin: this one does it all.
  if (round.lost.length > 0 && !round.answers.some(Boolean)) return makeJudge(options)(files);
  return together(round);
}

/** As long as there are lots, with one thread after the other. */
async function judgeLots(round: Round, begin: () => Worker): Promise<void> {
  const { lots, lost, answers, deaths } = round;
  while (lots.length > 0 && lost.length < MOST_LOST) {
    let worker: Worker | undefined;
    try {
      worker = begin();
      for (let lot = lots.shift(); lot; lot = lots.shift()) await judgeLot(round, lot, worker);
    } catch (failure) {
      if (!(failure instanceof Ended)) throw failure;
      lost.push(failure.message);
      const [over, ...others] = failure.lot.filter((at) => !answers[at]);
      if (others.length > 0) lots.push(others);
      if (over !== undefined && ++deaths[over]! < MOST_DEATHS) lots.push([over]);
    } finally {
      await worker?.terminate();
    }
  }
}

class Ended extends Error {
  readonly lot: readonly number[];

  constructor(why: string, lot: readonly number[]) {
    super(why);
    this.lot = lot;
  }
}

function judgeLot({ files, answers }: Round, lot: readonly number[], worker: Worker): Promise<void> {
  return new Promise((resolve, reject) => {
    let count = 0;
    let why = 'it ended';
    const answered = (judged: Judged) => {
      answers[lot[count++]!] = judged;
      if (count < lot.length) return;
      worker.off('message', answered).off('error', failed).off('exit', left);
      resolve();
    };
    const failed = (failure: unknown) => {
      why = failure instanceof Error ? failure.message : String(failure);
    };
    const left = () => reject(new Ended(why, lot));
    worker.on('message', answered).on('error', failed).on('exit', left);
    worker.postMessage(lot.map((at) => files[at]!));
  });
}

function together({ files, answers, deaths, lost }: Round): Judged {
  const judged = answers.filter(Boolean);
  const notes = judged.flatMap((a) => a.notes);
  const unread = files.flatMap(({ shown }, at) => {
    if (answers[at]) return answers[at].unread;
    const why = deaths[at] ? 'each thread that checked it ended' : 'too many checking threads ended';
    return [`${shown} could not be checked: ${why}.`];
  });
  if (lost.length > 0) {
    const count = lost.length === 1 ? 'A checking thread' : `${lost.length} checking threads`;
    notes.push(`${count} ended (${[...new Set(lost)].join('; ')}); others took over.`);
  }
  return {
    reported: judged.flatMap((a) => a.reported),
    facts: judged.flatMap((a) => a.facts),
    notes,
    lost: judged.some((a) => a.lost),
    unread,
    lacking: judged.flatMap((a) => a.lacking),
  };
}

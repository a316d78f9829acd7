/**
 * Many files are judged by several processes, each with a judge of its own; the answers come back in the files' order. A
 * process that ends over a file is replaced, and the file tried once more; then it is said to be not judged. Processes, not
 * threads: one that runs out of memory ends alone without a limit of its own, which costs a sixth of the time, and each can
 * be begun with a collector that takes no helpers.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { type Judged, type JudgeOptions, makeJudge } from './check-files';
import type { Disk } from './disk';
import type { Found } from './files';
import { judgeMany, POOL_FLAGS, spareMemory } from './thrift';

/** Where there are fewer files for each, starting it takes longer than it saves. */
const FILES_A_HAND = 40;
/** Handed out at a time, at most; fewer towards the end, so that all are done at about the same time. */
const MOST_IN_LOT = 16;
/** A file that so many ended over is not given to another. */
const MOST_DEATHS = 2;
/** Where so many have ended, something is wrong with more than a file: the rest is not tried. */
const MOST_LOST = 16;
/** The word that the program is begun with to judge for another. */
const JUDGES = '--judges';
/** More of what an ended process said last is not looked at, letters. */
const MOST_SAID = 20_000;

/** What a process says: an answer, or why it ends. */
type Said = Judged | { readonly ends: string };

/** What has been answered, by the files' order, and what is still to be judged. */
interface Round {
  readonly files: readonly Found[];
  readonly answers: Judged[];
  readonly deaths: number[];
  readonly lots: number[][];
  /** Why processes ended. */
  readonly lost: string[];
}

/** Whether this process is one of a pool; then it serves until it is ended. */
export function joinPool(): boolean {
  const [, , word] = process.argv;
  if (word !== JUDGES || !process.send) return false;
  const say = (said: Said, then: () => void = () => {}) => void process.send!(said, then);
  process.on('disconnect', () => process.exit());
  process.on('uncaughtException', (failure: unknown) => {
    say({ ends: failure instanceof Error ? failure.message : String(failure) }, () => process.exit(1));
  });
  process.once('message', (options: JudgeOptions) => {
    const judge = makeJudge(options);
    process.on('message', async (files: readonly Found[]) => {
      // One by one, so that who ends this process is known, and nothing is lost that was judged before.
      for (const file of files) say(await judge([file]));
    });
  });
  return true;
}

/** `script`: the file that a further process runs; it must call `joinPool`. A disk handed in is used here alone. */
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
    else judgeMany();
    return makeJudge(options, disk)(files);
  }
  const lots = lotsOf(files.length, hands);
  const round: Round = { files, answers: new Array(files.length), deaths: files.map(() => 0), lots, lost: [] };
  const begin = () => {
    const judge = fork(script, [JUDGES], {
      execArgv: [...process.execArgv, ...POOL_FLAGS],
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    judge.send(options);
    return judge;
  };
  await Promise.all(Array.from({ length: hands }, () => judgeLots(round, begin)));
  // None could even begin: this one does it all.
  if (round.lost.length > 0 && !round.answers.some(Boolean)) return makeJudge(options)(files);
  return together(round);
}

/** Each a small share of what is left, so that no one judges a long last lot alone. */
function lotsOf(count: number, hands: number): number[][] {
  const lots: number[][] = [];
  for (let at = 0; at < count; at += lots.at(-1)!.length) {
    const length = Math.min(MOST_IN_LOT, Math.ceil((count - at) / (4 * hands)));
    lots.push(Array.from({ length }, (_, i) => at + i));
  }
  return lots;
}

/** As long as there are lots, with one process after the other. */
async function judgeLots(round: Round, begin: () => ChildProcess): Promise<void> {
  const { lots, lost, answers, deaths } = round;
  while (lots.length > 0 && lost.length < MOST_LOST) {
    let judge: ChildProcess | undefined;
    try {
      judge = begin();
      for (let lot = lots.shift(); lot; lot = lots.shift()) await judgeLot(round, lot, judge);
    } catch (failure) {
      if (!(failure instanceof Ended)) throw failure;
      lost.push(failure.message);
      const [over, ...others] = failure.lot.filter((at) => !answers[at]);
      if (others.length > 0) lots.push(others);
      if (over !== undefined && ++deaths[over]! < MOST_DEATHS) lots.push([over]);
    } finally {
      judge?.kill();
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

function judgeLot({ files, answers }: Round, lot: readonly number[], judge: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    let count = 0;
    let why: string | undefined;
    let last = '';
    const heard = (said: Said) => {
      if ('ends' in said) {
        why = said.ends;
        return;
      }
      answers[lot[count++]!] = said;
      if (count < lot.length) return;
      judge.off('message', heard).off('error', failed).off('close', left);
      judge.stderr?.off('data', words);
      resolve();
    };
    const words = (chunk: Buffer) => {
      last = (last + chunk.toString()).slice(-MOST_SAID);
    };
    const failed = (failure: Error) => {
      why ??= failure.message;
      // Never begun, or gone before this lot came to it: nothing closes any more.
      if (judge.pid === undefined || judge.exitCode !== null || judge.signalCode !== null) left();
    };
    const left = () => reject(new Ended(why ?? (OUT_OF_MEMORY.test(last) ? 'its memory limit' : 'it ended'), lot));
    judge.on('message', heard).on('error', failed).on('close', left);
    judge.stderr?.on('data', words);
    judge.send(lot.map((at) => files[at]!));
  });
}
const OUT_OF_MEMORY = /heap out of memory|heap limit/;

function together({ files, answers, deaths, lost }: Round): Judged {
  const judged = answers.filter(Boolean);
  const notes = judged.flatMap((a) => a.notes);
  const unread = files.flatMap(({ shown }, at) => {
    if (answers[at]) return answers[at].unread;
    const why = deaths[at] ? 'each process that checked it ended' : 'too many checking processes ended';
    return [`${shown} could not be checked: ${why}.`];
  });
  if (lost.length > 0) {
    const count = lost.length === 1 ? 'A checking process' : `${lost.length} checking processes`;
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

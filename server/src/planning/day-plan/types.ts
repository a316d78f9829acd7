/** The set-ups of all parts of a job in the order of the day: what each leaves on the machine, and what the next can leave there. */
import type { Minutes } from '../../model/shop-times';

/** What stands on the machine while a set-up is cut. Two that are alike in a field need no change of it. */
export interface Standing {
  readonly machine: string;
  /** The vise, or another way to hold that is built up anew each time. */
  readonly holds: string;
  /** A way to hold that is taken down afterwards: nothing of it serves the next. */
  readonly onlyHere: boolean;
  readonly parallels: string;
  readonly stop: string;
  /** What each axis is set from, and where that is on the table; undefined: on the piece itself. */
  readonly zero: readonly [x: string | undefined, y: string | undefined, z: string | undefined];
}

/** One set-up for all pieces of its part. */
export interface DaySetup {
  readonly part: string;
  readonly name: string;
  readonly pieces: number;
  readonly standing: Standing;
  /** In the order they are put in; empty where nothing is cut. */
  readonly tools: readonly string[];
  /** Whatever was there before: cutting, loading, touching off, changing tools, of all its pieces. */
  readonly work: Minutes;
  /** Vise, parallels, stop and zero on a bare table. */
  readonly settingUp: Minutes;
  /** One change of tool. */
  readonly toolChange: Minutes;
}

/** What must be changed before a set-up. */
export type Change = 'machine' | 'vise' | 'parallels' | 'stop' | 'zero x' | 'zero y' | 'zero z' | 'tool';

export interface DayStep {
  readonly setup: DaySetup;
  /** From 1. */
  readonly evening: number;
  readonly changes: readonly Change[];
  readonly minutes: Minutes;
}

export interface DayPlan {
  readonly steps: readonly DayStep[];
  /** By slow hands, where an evening has a length; else 1. */
  readonly evenings: number;
  readonly minutes: Minutes;
  readonly changes: number;
  /** No order is better; else it is the best of a bounded search. */
  readonly proven: boolean;
  /** Names of set-ups that take longer than an evening: told, not split. */
  readonly tooLong: readonly string[];
}

export interface DayAsk {
  /** The set-ups of each part, in their order. */
  readonly parts: readonly (readonly DaySetup[])[];
  /** Minutes at the machine; absent: as long as it takes. */
  readonly eveningMin?: number;
}

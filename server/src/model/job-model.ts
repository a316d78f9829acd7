/** A job as it is meant: which parts, how many, in which shop, and within what. Shapes only; `job.ts` resolves them. */
import type { Span } from '../text/tree';
import type { SharedParameter } from './job-parameters';
import type { Joint } from './joint-model';
import type { Named, SpecProblem, Units } from './model';
import type { Assumed } from './shop-fields';

export interface JobPart extends Named {
  /** Path of the part file, as written: from the job file's folder, with `/`. */
  readonly spec: Named;
  /** The row of that part's table of variants that it is. */
  readonly variant?: Named;
  /** Absent where the text says none: then the part's own quantity holds. */
  readonly quantity?: { readonly value: number; readonly span: Span };
  readonly note?: string;
  /** Key and value. */
  readonly whole: Span;
}

/** A number of the job in one unit, and where it stands. */
export interface JobLimit {
  readonly value: number;
  /** As written: `900 g`. */
  readonly text: string;
  readonly span: Span;
}

/** What the saw takes of a bar that no piece comes of, mm. */
export interface Saw {
  /** At each cut. */
  readonly kerfMm: number;
  /** At the end that it holds: no piece comes out of it. 0 where the rest is turned round, or held by the last piece. */
  readonly clampMm: number;
  /** Off the first end of each bar, its cut included: 0 where the end will do as it was bought. */
  readonly trimMm: number;
}

export interface Job {
  readonly name: string;
  readonly units: Units;
  /** Path of the shop file, as written; absent: each part's own shop. */
  readonly shopPath?: Named;
  /** Those that could be understood, in text order. */
  readonly parts: readonly JobPart[];
  /** Those that could be understood, in text order. */
  readonly joints: readonly Joint[];
  /** Values that all parts have under these names. */
  readonly parameters: readonly SharedParameter[];
  /** In grams. */
  readonly massLimitG?: JobLimit;
  /** Machine hours. */
  readonly hours?: JobLimit;
  /** Machine hours of one evening. */
  readonly evening?: JobLimit;
  readonly saw: Saw;
  /** Every default that took the place of something left out. */
  readonly assumed: readonly Assumed[];
  readonly problems: readonly SpecProblem[];
}

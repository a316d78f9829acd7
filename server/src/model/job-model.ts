/** A job as it is meant: which parts, how many, in which shop, and within what. Shapes only; `job.ts` resolves them. */
import type { Span } from '../text/tree';
import type { Named, SpecProblem, Units } from './model';
import type { Assumed } from './shop-fields';

export interface JobPart extends Named {
  /** Path of the part file, as written: from the job file's folder, with `/`. */
  readonly spec: Named;
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

export interface Job {
  readonly name: string;
  readonly units: Units;
  /** Path of the shop file, as written; absent: each part's own shop. */
  readonly shopPath?: Named;
  /** Those that could be understood, in text order. */
  readonly parts: readonly JobPart[];
  /** In grams. */
  readonly massLimitG?: JobLimit;
  /** Machine hours. */
  readonly hours?: JobLimit;
  /** What the saw takes at each cut, mm. */
  readonly sawKerfMm: number;
  /** Every default that took the place of something left out. */
  readonly assumed: readonly Assumed[];
  readonly problems: readonly SpecProblem[];
}

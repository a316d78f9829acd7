/** What the attempts at one plan share, and what each comes to. */
import type { Solid } from '../geometry/types';
import type { Part, Setup } from '../model/model';
import type { Shop } from '../model/shop-model';
import type { Finding } from '../rules/kit/rule';
import type { TextTree } from '../text/tree';
import type { Judged } from './blame';
import type { Item } from './item';
import type { Pose } from './poses';
import type { Tried } from './search';

/** Rounds of leaving something out, at most. */
export const MOST_ROUNDS = 8;

export interface Made {
  readonly setup: Setup;
  readonly warnings: readonly Finding[];
  /** So many hints were given: zero found anew for each piece, or from a sawn face; a vise to be closed gently. */
  readonly hints: number;
}

/** Why an item could not be cut in a pose: the first thing that the rules say against it. */
export interface Refusal {
  readonly pose: Pose;
  readonly why: Finding;
}

/** By all that an attempt depends on; `attempt-cache.ts` bounds how many. */
export interface KnownOutcomes {
  /** How often it was asked for what it does not know: what had to be judged. */
  readonly judged: number;
  get(key: string): Outcome | undefined;
  set(key: string, outcome: Outcome): void;
}

export interface Trial {
  readonly part: Part;
  readonly shop: Shop;
  readonly solid: Solid;
  readonly tree: TextTree;
  readonly items: readonly Item[];
  /** Of earlier plans, of this part and others. */
  readonly attempts: KnownOutcomes;
  /** By item, filled as setups are tried: what was said against it, pose by pose. */
  readonly refusals: Map<number, Refusal[]>;
  /** Poses in which nothing could be held at all, and why. */
  readonly unheld: Map<string, Refusal>;
}

/** What one attempt came to, and all that was said against others on the way. */
export interface Outcome {
  readonly tried: Tried<Made>;
  readonly refused: readonly { readonly item: number; readonly why: Finding }[];
  readonly unheld?: Finding;
}

export function madeOf({ setup, warnings, hints }: Judged): Made {
  return { setup, warnings, hints };
}

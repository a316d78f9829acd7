/**
 * Where questions are answered beside the thread that the editor waits for. A host hands one in; without one everything
 * is answered here. What is sent and what comes back is plain data: the same text and shop give the same part anywhere.
 */

import type { Shop } from '../model/shop-model';
import type { Plan } from '../planning/plan';
import type { Finding } from '../rules/kit/rule';
import type { Others } from '../text/tree';
import type { Question, Questions } from './questions';

/** Who waits for it: somebody who looks at the screen; the findings of a text just typed; nobody in particular. */
export type Urgency = 'asked' | 'typed' | 'quiet';

export interface Order<Q extends Question = Question> {
  readonly path: string;
  readonly text: string;
  /** The documents that it includes. */
  readonly others?: Others;
  readonly shop: Shop;
  readonly question: Q;
  readonly told: Questions[Q]['told'];
  readonly urgency: Urgency;
  /** What is known of the part beside its text: its plan (null: that there is none), and what the planner found. */
  readonly plan?: Plan | null;
  readonly found?: readonly Finding[];
}

export interface Errand<T> {
  /** Undefined where it was called off, or could not be done; never rejects. */
  readonly reply: Promise<T | undefined>;
  cancel(): void;
}

export interface Aside {
  ask<Q extends Question>(order: Order<Q>): Errand<Questions[Q]['answer']>;
}

/** What a plan is: its set-ups, what each cuts, and how sure it is that there are no fewer. */
import type { Setup } from '../model/model';
import type { Finding } from '../rules/kit/rule';
import type { Item } from './item';
import type { Searched } from './search';
import type { PlanTime } from './times';
import type { Uncut } from './uncut';

export interface Plan {
  /** All there is to cut. */
  readonly items: readonly Item[];
  readonly setups: readonly PlannedSetup[];
  /** Directions alone need so many. */
  readonly bound: number;
  readonly proof: Searched<unknown>['proof'];
  /** Setups tried, for the curious. */
  readonly attempts: number;
  readonly time: PlanTime;
  /** What no setup cuts, and why not; empty for a whole plan. */
  readonly uncut: readonly Uncut[];
  /** Of a plan with more set-ups than faces ask for: which cut is in the way of fewer, and what is in its way. */
  readonly blocked?: Uncut;
}

export interface PlannedSetup {
  readonly setup: Setup;
  readonly items: readonly Item[];
  readonly warnings: readonly Finding[];
}

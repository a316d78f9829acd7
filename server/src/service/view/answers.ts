/** What a picture asks that can take long: answered from a part's snapshot alone, here or in any thread. */
import type { Workpiece } from '../../process/stock/types';
import type { Finding } from '../../rules/kit/rule';
import { type PartSnapshot, partShowing } from '../snapshot';
import { type Done, madeBy, workAt } from './moments';
import { type Told, toldOf } from './picture';
import type { Moment } from './protocol';
import { type SetUpTold, setUpOf } from './set-up';

interface ToldTold {
  readonly missing: readonly string[];
  readonly findings: readonly Finding[];
  readonly planned: boolean;
}

interface WorkTold {
  readonly moment: Moment;
  readonly planned: boolean;
  readonly done?: readonly Done[];
}

/** By name: what is told with the question, and what is answered. */
export interface ViewQuestions {
  /** The workpiece at a moment of its set-ups; null where there is no such set-up. */
  work: { told: WorkTold; answer: Pick<Workpiece, 'body' | 'voids'> | null };
  /** A set-up with its passes and tools; null where there is none. */
  setUp: { told: { readonly setup: number; readonly planned: boolean }; answer: SetUpTold | null };
  /** What a picture tells beside its mesh. */
  told: { told: ToldTold; answer: Told };
}

export const VIEW_ANSWERS: {
  readonly [Q in keyof ViewQuestions]: (of: PartSnapshot, told: ViewQuestions[Q]['told']) => ViewQuestions[Q]['answer'];
} = {
  work: ({ checked }, { moment, planned, done }) => {
    const of = madeBy(checked, planned);
    return (of && workAt(of, moment, done)) ?? null;
  },
  setUp: ({ checked }, { setup, planned }) => {
    const of = madeBy(checked, planned);
    return (of && setUpOf(of, setup)) ?? null;
  },
  told: (of, { missing, findings, planned }) => toldOf(partShowing(of, findings), missing, planned),
};

/** Answers what may take long: at once where a slice of time suffices, and in the thread beside where not. */
import { knownPlan } from '../planning/plan-cache';
import type { Aside, Errand } from './aside';
import { Unanswered } from './asked';
import { CUT, type Pace } from './pace';
import { answerTo, type Question, type Questions } from './questions';
import type { PartSnapshot } from './snapshot';

/** Called with what is to be done when nobody waits for the answer any more. */
export type OnGone = (leave: () => void) => void;

export class Asker {
  readonly #pace: Pace;
  readonly #aside: Aside | undefined;

  constructor(pace: Pace, aside: Aside | undefined) {
    this.#pace = pace;
    this.#aside = aside;
  }

  async answer<Q extends Question>(
    question: Q,
    part: PartSnapshot,
    told: Questions[Q]['told'],
    onGone: OnGone = () => {},
  ): Promise<Questions[Q]['answer']> {
    if (!this.#aside) return answerTo(question, part, told);
    const here = this.#pace.slice(() => answerTo(question, part, told));
    if (here !== CUT) return here;
    const errand = this.ask(question, part, told);
    if (!errand) return answerTo(question, part, told);
    onGone(() => errand.cancel());
    const answer = await errand.reply;
    if (answer === undefined)
      throw new Unanswered('This could not be computed: its thread ended twice. The log shows why.');
    return answer;
  }

  /** Has it answered beside, at once. */
  ask<Q extends Question>(
    question: Q,
    { path, text, checked, besides }: PartSnapshot,
    told: Questions[Q]['told'],
  ): Errand<Questions[Q]['answer']> | undefined {
    const plan = knownPlan(checked);
    const of = { path, text, others: checked.tree.others, shop: checked.shop } as const;
    const order = { ...of, question, told, urgency: 'asked' } as const;
    return this.#aside?.ask({ ...order, found: besides, ...(plan && { plan }) });
  }
}

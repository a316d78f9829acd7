/**
 * What the planner has to say of a part, after a quiet moment: planning takes longer than a keystroke, so the first answer
 * goes without it, and the editor is asked to ask again when there is something to add. The next edit calls it off.
 */
import { memo } from '../../memo';
import { knownPlan } from '../../planning/plan-cache';
import type { CheckedPart } from '../../rules/checked-part';
import type { Finding } from '../../rules/kit/rule';
import type { Errand, Urgency } from '../aside';
import { Unanswered } from '../asked';
import type { Host } from '../host';
import { answerTo, type PlanReply, takePlan } from '../questions';
import { type PartSnapshot, partWith, type Snapshot } from '../snapshot';
import { answerFor, type PlanAnswer } from './answer';

/** So long a document must stay as it is before it is planned, ms; how often it is asked about is no matter. */
const QUIET_MS = 1200;

interface Running {
  readonly checked: CheckedPart;
  readonly want: 'findings' | 'plan';
  readonly done: Promise<void>;
  cancel(): void;
}

/** The same snapshot as long as nothing else is found: what is kept with it stays. */
const withFindings = memo((part: PartSnapshot, found: readonly Finding[]) => partWith(part, found));

export class PlanSoon {
  readonly #host: Host;
  readonly #news: () => void;
  /** What the planner said, when it did: news from another thread, that nobody here can work out again. */
  readonly #found = new WeakMap<CheckedPart, readonly Finding[]>();
  /** By path: for which text it is waited, and what calls the wait off. */
  readonly #waiting = new Map<string, { readonly checked: CheckedPart; leave(): void }>();
  readonly #running = new Map<string, Running>();

  constructor(host: Host, news: () => void) {
    this.#host = host;
    this.#news = news;
  }

  /** The snapshot with the planner's findings, where they are known; else they are looked for soon. */
  with<T extends Snapshot>(snapshot: T): T | PartSnapshot {
    if (snapshot.kind !== 'part' || !this.#host.later) return snapshot;
    const { checked, path } = snapshot;
    const found = this.#found.get(checked);
    if (!found) {
      if (this.#running.get(path)?.checked === checked || this.#waiting.get(path)?.checked === checked) return snapshot;
      this.#waiting.get(path)?.leave();
      this.#waiting.set(path, { checked, leave: this.#host.later(QUIET_MS, () => this.#look(snapshot)) });
      return snapshot;
    }
    return this.withKnown(snapshot);
  }

  /** The same, without looking for what is not known. */
  withKnown(part: PartSnapshot): PartSnapshot {
    const found = this.#found.get(part.checked);
    return found && found.length > 0 ? withFindings(part, found) : part;
  }

  /** The text was changed, or closed: what was being planned of it is of no use any more. */
  forget(path: string): void {
    this.#waiting.get(path)?.leave();
    this.#waiting.delete(path);
    this.#running.get(path)?.cancel();
    this.#running.delete(path);
  }

  /** What is known of a part is known of the same text read anew; what is waited for is waited for there. */
  carry(from: PartSnapshot, to: PartSnapshot): void {
    const found = this.#found.get(from.checked);
    const plan = knownPlan(from.checked);
    if (plan) takePlan(to.checked, { plan });
    if (found) this.#found.set(to.checked, found);
    else if (this.#waiting.has(from.path) || this.#running.has(from.path)) {
      this.forget(from.path);
      this.with(to);
    }
  }

  /** Has the part planned, unless it was; resolves when its plan is known, or will not be: the text was changed meanwhile. */
  async planned(snapshot: PartSnapshot): Promise<void> {
    const { checked, path } = snapshot;
    if (knownPlan(checked)) return;
    const running = this.#running.get(path);
    if (running?.checked !== checked || running.want !== 'plan')
      return this.#run(snapshot, 'plan', (reply) => takePlan(checked, reply));
    return running.done;
  }

  /** Has the part planned for somebody who waits for it, whatever is typed meanwhile; what is found is there for `answer`. */
  async answerable({ path, text, checked }: PartSnapshot, onGone: (leave: () => void) => void): Promise<void> {
    if (knownPlan(checked) || !this.#host.aside) return;
    const told = { want: 'plan' } as const;
    const of = { path, text, others: checked.tree.others, shop: checked.shop } as const;
    const order = { ...of, question: 'plan', told, urgency: 'asked' } as const;
    const errand = this.#host.aside.ask(order);
    onGone(() => errand.cancel());
    const reply = await errand.reply;
    if (reply) takePlan(checked, reply);
  }

  /** The plan in words, asked for by a person: carried to its end whatever is typed meanwhile. Null where there is none. */
  async answer(snapshot: PartSnapshot, onGone: (leave: () => void) => void = () => {}): Promise<PlanAnswer | null> {
    const { checked } = snapshot;
    const errand = this.#errand(snapshot, 'answer', 'asked');
    onGone(() => errand.cancel());
    const reply = await errand.reply;
    if (!reply) throw new Unanswered('The part could not be planned: the planner ended twice. The log shows why.');
    takePlan(checked, reply);
    return reply.answer ? answerFor(reply.answer, snapshot) : null;
  }

  #errand(part: PartSnapshot, want: 'findings' | 'plan' | 'answer', urgency: Urgency): Errand<PlanReply> {
    const { path, text, checked } = part;
    if (!this.#host.aside) return { reply: Promise.resolve(answerTo('plan', part, { want })), cancel: () => {} };
    const of = { path, text, others: checked.tree.others, shop: checked.shop } as const;
    return this.#host.aside.ask({ ...of, question: 'plan', told: { want }, urgency });
  }

  #look(snapshot: PartSnapshot): void {
    const { checked, path } = snapshot;
    this.#waiting.delete(path);
    const told = (reply: PlanReply) => {
      takePlan(checked, reply);
      const found = reply.findings ?? [];
      this.#found.set(checked, found);
      if (found.length > 0 || (reply.plan && !checked.part.setups)) this.#news();
    };
    if (this.#host.aside) void this.#run(snapshot, 'findings', told);
    else told(answerTo('plan', snapshot, { want: 'findings' }));
  }

  async #run(snapshot: PartSnapshot, want: Running['want'], told: (reply: PlanReply) => void): Promise<void> {
    const { checked, path } = snapshot;
    const before = this.#running.get(path);
    if (before?.checked === checked) await before.done;
    else before?.cancel();
    const errand = this.#errand(snapshot, want, want === 'findings' ? 'quiet' : 'asked');
    const done = errand.reply.then((reply) => {
      if (this.#running.get(path)?.done === done) this.#running.delete(path);
      if (!reply) return;
      told(reply);
    });
    this.#running.set(path, { checked, want, done, cancel: () => errand.cancel() });
    await done;
  }
}

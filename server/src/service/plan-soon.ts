/**
 * What the planner has to say of a part, after a quiet moment: planning takes longer than a keystroke, so the first answer
 * goes without it, and the editor is asked to ask again when there is something to add. The next edit calls it off.
 */
import { knownPlan, rememberPlan } from '../planning/fewer';
import type { CheckedPart } from '../rules/check';
import { inTextOrder } from '../rules/order';
import type { Finding } from '../rules/rule';
import { Unanswered } from './asked';
import type { Host } from './host';
import { type PlanJob, type PlanReply, replyFor } from './planner';
import { answerFor, type PlanAnswer } from './planning';
import type { PartSnapshot, Snapshot } from './workspace';

/** So long nothing must be asked of a document before it is planned, ms. */
const QUIET_MS = 1200;

interface Running {
  readonly checked: CheckedPart;
  readonly want: 'findings' | 'plan';
  readonly done: Promise<void>;
  cancel(): void;
}

export class PlanSoon {
  readonly #host: Host;
  readonly #news: () => void;
  readonly #found = new WeakMap<CheckedPart, readonly Finding[]>();
  readonly #with = new WeakMap<Snapshot, Snapshot>();
  /** By path: what calls the wait off. */
  readonly #waiting = new Map<string, () => void>();
  readonly #running = new Map<string, Running>();

  constructor(host: Host, news: () => void) {
    this.#host = host;
    this.#news = news;
  }

  /** The snapshot with the planner's findings, where they are known; else they are looked for soon. */
  with(snapshot: Snapshot): Snapshot {
    if (snapshot.kind !== 'part' || !this.#host.later) return snapshot;
    const { checked, path } = snapshot;
    const found = this.#found.get(checked);
    if (!found) {
      if (this.#running.get(path)?.checked === checked) return snapshot;
      this.#waiting.get(path)?.();
      this.#waiting.set(
        path,
        this.#host.later(QUIET_MS, () => this.#look(snapshot)),
      );
      return snapshot;
    }
    if (found.length === 0) return snapshot;
    let made = this.#with.get(snapshot);
    if (!made) {
      made = { ...snapshot, findings: inTextOrder([...snapshot.findings, ...found], checked.tree) };
      this.#with.set(snapshot, made);
    }
    return made;
  }

  /** The text was changed, or closed: what was being planned of it is of no use any more. */
  forget(path: string): void {
    this.#waiting.get(path)?.();
    this.#waiting.delete(path);
    this.#running.get(path)?.cancel();
    this.#running.delete(path);
  }

  /** Has the part planned, unless it was; resolves when its plan is known, or will not be: the text was changed meanwhile. */
  async planned(snapshot: PartSnapshot): Promise<void> {
    const { checked, path } = snapshot;
    if (knownPlan(checked)) return;
    const running = this.#running.get(path);
    if (running?.checked !== checked || running.want !== 'plan') return this.#run(snapshot, 'plan', () => {});
    return running.done;
  }

  /** The plan in words, asked for by a person: carried to its end whatever is typed meanwhile. Null where there is none. */
  async answer(snapshot: PartSnapshot): Promise<PlanAnswer | null> {
    const { checked, path, text } = snapshot;
    const reply = this.#host.planner
      ? await this.#host.planner.plan({ path, text, shop: checked.shop, want: 'answer' }).reply
      : replyFor(checked, { path, text, want: 'answer' });
    if (!reply)
      throw new Unanswered('The part could not be planned: the planner was lost twice over it. The log tells why.');
    take(checked, reply);
    return reply.answer ? answerFor(reply.answer, snapshot) : null;
  }

  #look(snapshot: PartSnapshot): void {
    const { checked, path, text } = snapshot;
    this.#waiting.delete(path);
    const told = (reply: PlanReply) => {
      const found = reply.findings ?? [];
      this.#found.set(checked, found);
      if (found.length > 0 || (reply.plan && !checked.part.setups)) this.#news();
    };
    if (!this.#host.planner) told(replyFor(checked, { path, text, want: 'findings' }));
    else void this.#run(snapshot, 'findings', told);
  }

  async #run(snapshot: PartSnapshot, want: Running['want'], told: (reply: PlanReply) => void): Promise<void> {
    const { checked, path, text } = snapshot;
    const { planner } = this.#host;
    if (!planner) {
      take(checked, replyFor(checked, { path, text, want }));
      return;
    }
    const before = this.#running.get(path);
    if (before?.checked === checked) await before.done;
    else before?.cancel();
    const job: PlanJob = planner.plan({ path, text, shop: checked.shop, want });
    const done = job.reply.then((reply) => {
      if (this.#running.get(path)?.done === done) this.#running.delete(path);
      if (!reply) return;
      take(checked, reply);
      told(reply);
    });
    this.#running.set(path, { checked, want, done, cancel: () => job.cancel() });
    await done;
  }
}

function take(checked: CheckedPart, { plan }: PlanReply): void {
  if (plan !== undefined) rememberPlan(checked, plan ?? undefined);
}

/**
 * Has the rules judge what is being edited, so that nobody waits for it: rule by rule, in slices between which requests are
 * answered; a rule that several slices do not suffice for is left to the thread beside. Until a rule has judged the newest
 * text, what it found in the text before stands for it, where that text is still there: nothing flickers while one types.
 */

import { isLast } from '../rules/judging';
import { notJudgedFinding } from '../rules/kit/not-judged';
import type { Finding } from '../rules/kit/rule';
import type { Aside } from './aside';
import { CUT, type Pace } from './pace';
import { type PartSnapshot, partSoFar } from './snapshot';

/** Slices that a rule gets here before it is left to the thread beside: each finds what the one before has worked out. */
const MOST_SLICES = 6;
/** While more is coming, the editor is told of what is new so often, ms. */
const NEWS_MS = 700;

interface Work {
  readonly part: PartSnapshot;
  /** What the rules found in the text before; let go of when all have judged. */
  before: ReadonlyMap<string, readonly Finding[]>;
  view: PartSnapshot | undefined;
  isDone: boolean;
  isGone: boolean;
  /** Somebody was told less than all. */
  wasTold: boolean;
  /** Settled when it is done, or gone. */
  readonly ended: Promise<void>;
  end(): void;
}

export class JudgeSoon {
  readonly #pace: Pace;
  readonly #aside: Aside | undefined;
  readonly #news: () => void;
  readonly #works = new Map<string, Work>();

  /** `news`: there are findings that were not there when somebody asked. */
  constructor(pace: Pace, aside: Aside | undefined, news: () => void) {
    this.#pace = pace;
    this.#aside = aside;
    this.#news = news;
  }

  /** The part with what is known of it by now. */
  view(part: PartSnapshot): PartSnapshot {
    const work = this.#workOn(part);
    if (!work.isDone) work.wasTold = true;
    work.view ??= partSoFar(
      part,
      part.checked.judging.soFar((rule) => work.before.get(rule) ?? []),
    );
    return work.view;
  }

  /** Whether every rule has judged the part. */
  isDone(part: PartSnapshot): boolean {
    return this.#workOn(part).isDone;
  }

  /** Whether there are findings of the text before that stand until this one is judged. */
  hasBefore(part: PartSnapshot): boolean {
    return this.#workOn(part).before.size > 0;
  }

  /** Resolves when every rule has judged, or the text has been changed meanwhile; answers which. */
  async whole(part: PartSnapshot): Promise<boolean> {
    const work = this.#workOn(part);
    await work.ended;
    return work.isDone;
  }

  /** The text was changed: what is being judged of it is of no use any more. */
  supersede(path: string): void {
    this.#leave(this.#works.get(path));
  }

  /** The part as it was last asked for, where every rule has judged it. */
  whollyJudged(path: string): PartSnapshot | undefined {
    const work = this.#works.get(path);
    return work?.isDone && !work.isGone ? work.part : undefined;
  }

  /** The same text was read anew: what is known of it is known of that, and nothing else is held on to. */
  carry(part: PartSnapshot): void {
    this.#workOn(part);
  }

  /** The document was closed. */
  forget(path: string): void {
    this.#leave(this.#works.get(path));
    this.#works.delete(path);
  }

  #workOn(part: PartSnapshot): Work {
    const old = this.#works.get(part.path);
    if (old && !old.isGone && old.part.checked === part.checked && old.part.besides === part.besides) return old;
    this.#leave(old);
    let end = () => {};
    const ended = new Promise<void>((resolve) => {
      end = resolve;
    });
    const work: Work = {
      part,
      before: new Map(),
      view: undefined,
      isDone: false,
      isGone: false,
      wasTold: false,
      ended,
      end,
    };
    this.#works.set(part.path, work);
    void this.#judge(work);
    // Mostly it is done already, and nothing of the text before is held on to.
    if (!work.isDone && old) work.before = raisedIn(old);
    return work;
  }

  /** Nobody wants to know of this text any more. */
  #leave(work: Work | undefined): void {
    if (!work) return;
    work.isGone = true;
    work.end();
  }

  async #judge(work: Work): Promise<void> {
    const { judging } = work.part.checked;
    const hard: string[] = [];
    for (const name of judging.open.filter((n) => !isLast(n))) {
      if (!this.#pace.isOver && this.#pace.rest(() => judging.judge(name)) !== CUT) continue;
      if (await this.#inSlices(work, () => judging.judge(name))) continue;
      if (work.isGone) return;
      hard.push(name);
    }
    work.view = undefined;
    await this.#judgeBeside(work, hard);
    if (work.isGone) return;
    judging.finish();
    work.view = undefined;
    work.before = new Map();
    work.isDone = true;
    work.end();
    if (work.wasTold) this.#news();
  }

  /** Whether that is done now, after as many slices as a rule gets. */
  async #inSlices(work: Work, judge: () => unknown): Promise<boolean> {
    for (let slices = 0; slices < MOST_SLICES; slices++) {
      await this.#pace.pause();
      work.view = undefined;
      if (work.isGone) return false;
      if (this.#pace.rest(judge) !== CUT) return true;
    }
    return false;
  }

  async #judgeBeside(work: Work, names: readonly string[]): Promise<void> {
    const { path, text, checked } = work.part;
    let told = performance.now();
    for (const name of names) {
      if (!this.#aside) {
        await this.#pace.pause();
        if (work.isGone) return;
        checked.judging.judge(name);
        continue;
      }
      const { shop, tree } = checked;
      const of = { path, text, others: tree.others, shop } as const;
      const order = { ...of, question: 'rule', told: { name }, urgency: 'typed' } as const;
      const errand = this.#aside.ask(order);
      void work.ended.then(() => errand.cancel());
      const found = await errand.reply;
      if (work.isGone) return;
      checked.judging.take(name, found ?? [notJudgedFinding(name, checked.part)]);
      work.view = undefined;
      if (performance.now() - told < NEWS_MS) continue;
      told = performance.now();
      this.#news();
    }
  }
}

function raisedIn({ part, before }: Work): ReadonlyMap<string, readonly Finding[]> {
  const raised = new Map(before);
  for (const [name, found] of part.checked.judging.raised) raised.set(name, found);
  return raised;
}

/**
 * Parts that are open and not being edited: what was worked out of them on the way to their findings is let go of, so that
 * a day with many open files takes no more memory than one with a few. What was found stays, and nothing is judged again.
 */
import { workingOut } from '../rules/check';
import type { JudgeSoon } from './judge-soon';
import type { Pace } from './pace';
import type { PlanSoon } from './plan/scheduler';
import { type PartSnapshot, wholePart } from './snapshot';
import type { Pictures } from './view/pictures';
import type { Workspace } from './workspace';

/** Parts that keep all that was worked out of them: those edited last. */
const MOST_AWAKE = 6;

interface Kept {
  readonly pace: Pace;
  readonly workspace: Workspace;
  readonly judge: JudgeSoon;
  readonly soon: PlanSoon;
  readonly pictures: Pick<Pictures, 'shows'> | undefined;
}

export class Resting {
  readonly #kept: Kept;
  /** The one edited last is last. */
  readonly #awake = new Set<string>();
  #isAt = false;

  /** `kept` is looked at anew each time: a session takes another workspace when its editor is known. */
  constructor(kept: Kept) {
    this.#kept = kept;
  }

  /** The text was opened, or changed. */
  async changed(path: string): Promise<void> {
    const isNew = !this.#awake.delete(path);
    this.#awake.add(path);
    if (isNew) await this.#rest();
  }

  forget(path: string): void {
    this.#awake.delete(path);
  }

  /** A part that is still being judged, or is shown, has its turn later. */
  async #rest(): Promise<void> {
    if (this.#isAt) return;
    this.#isAt = true;
    try {
      const { workspace, judge, soon, pictures } = this.#kept;
      for (const path of [...this.#awake].slice(0, -MOST_AWAKE)) {
        if (pictures?.shows(path)) continue;
        const before = judge.whollyJudged(path);
        const after = before && (await this.#readAnew(before));
        if (!after || !workspace.exchange(before, after)) continue;
        this.#awake.delete(path);
        soon.carry(before, after);
        judge.carry(after);
      }
    } finally {
      this.#isAt = false;
    }
  }

  /** The same with all that was found of it. */
  async #readAnew({ path, text, lines, checked, shopPath, besides }: PartSnapshot): Promise<PartSnapshot | undefined> {
    const { pace, judge } = this.#kept;
    await pace.pause();
    const reading = await pace.through(
      workingOut(text, undefined, checked.tree.others),
      () => judge.whollyJudged(path)?.checked !== checked,
    );
    return reading && wholePart({ path, text, lines, checked: checked.over(reading), shopPath, besides });
  }
}

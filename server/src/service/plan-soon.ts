/**
 * What the planner has to say of a part, after a quiet moment: planning takes longer than a keystroke, so the first answer
 * goes without it, and the editor is asked to ask again when there is something to add.
 */
import { planFor } from '../planning/fewer';
import { plannerFindings } from '../planning/told';
import type { CheckedPart } from '../rules/check';
import { inTextOrder } from '../rules/check';
import type { Finding } from '../rules/rule';
import type { Host } from './host';
import type { Snapshot } from './workspace';

/** So long nothing must be asked of a document before it is planned, ms. */
const QUIET_MS = 1200;

export class PlanSoon {
  readonly #host: Host;
  readonly #news: () => void;
  readonly #found = new WeakMap<CheckedPart, readonly Finding[]>();
  readonly #with = new WeakMap<Snapshot, Snapshot>();
  readonly #waiting = new Map<string, () => void>();

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
      this.#waiting.get(path)?.();
      this.#waiting.set(
        path,
        this.#host.later(QUIET_MS, () => this.#look(path, checked)),
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

  forget(path: string): void {
    this.#waiting.get(path)?.();
    this.#waiting.delete(path);
  }

  #look(path: string, checked: CheckedPart): void {
    this.#waiting.delete(path);
    // A part without set-ups has its plan told above it: then it is there when it is asked for, and prices are by it.
    const planned = checked.part.setups ? undefined : planFor(checked);
    const found = plannerFindings(checked);
    this.#found.set(checked, found);
    if (found.length > 0 || planned) this.#news();
  }
}

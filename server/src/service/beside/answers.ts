/** What the thread beside does: answers questions about parts, one after the other. Keeps each part's last reading, so that an edit costs what changed. */
import { CutShort, metered } from '../../effort';
import type { Shop } from '../../model/shop-model';
import { knowingOnly } from '../../planning/plan-cache';
import { readPart } from '../../rules/check';
import type { CheckedPart } from '../../rules/checked-part';
import { linesOf } from '../../text/lines';
import { othersAsBefore } from '../included';
import { answerTo } from '../questions';
import { wholePart } from '../snapshot';
import type { FromAside, ToAside } from './aside-queue';

/** Readings kept; the one that was longest not asked for goes first. */
const MOST_KEPT = 2;

export class AsideAnswers {
  readonly #isLeft: (number: number) => boolean;
  readonly #kept = new Map<string, CheckedPart>();
  #shop: Shop | undefined;

  /** `isLeft`: whether the question of that number is called off. */
  constructor(isLeft: (number: number) => boolean) {
    this.#isLeft = isLeft;
  }

  to(asked: ToAside): FromAside {
    const { number } = asked;
    if (asked.shop) this.#shop = asked.shop;
    const judge = this.#shop;
    if (!judge) throw new Error('the first question names no shop');
    try {
      const reply = metered(
        () => this.#isLeft(number),
        () => this.#answer(asked, judge),
      );
      return { number, reply };
    } catch (failure) {
      if (!(failure instanceof CutShort)) throw failure;
      return { number };
    }
  }

  #answer({ path, text, others, question, told, plan, found }: ToAside, judge: Shop) {
    const kept = this.#kept;
    const before = kept.get(path);
    const read = readPart(text, judge, before, othersAsBefore(others, before?.tree.others));
    kept.delete(path);
    kept.set(path, read);
    for (const old of [...kept.keys()].slice(0, Math.max(0, kept.size - MOST_KEPT))) kept.delete(old);
    const asksPlan = 'want' in told && told.want !== 'findings';
    const checked = asksPlan ? read : knowingOnly(read, plan);
    const part = wholePart({ path, text, lines: linesOf(text), checked, shopPath: undefined, besides: found ?? [] });
    return answerTo(question, part, told);
  }
}

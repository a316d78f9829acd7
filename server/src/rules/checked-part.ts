/** A part as read from a text, and with the shop that judges it. */
import type { Solid } from '../geometry/types';
import { inShop } from '../model/material-of';
import type { Part } from '../model/model';
import type { Shop } from '../model/shop-model';
import type { TextTree } from '../text/tree';
import { Judging, type ReadPart } from './judging';
import type { Finding } from './kit/rule';

/** What a part's text says, before any shop is asked: which shop is to judge it stands in it. */
export interface Reading {
  readonly tree: TextTree;
  readonly part: Part;
  readonly solid: Solid;
  /** What was found while the text was read. */
  readonly problems: readonly Finding[];
  /** The part could not be worked out, and there is nothing to judge. */
  readonly lost: boolean;
}

/** What the text alone does not know its shop may: a material of its own. */
function known(problems: readonly Finding[], part: Part): readonly Finding[] {
  return part.material?.own ? problems.filter((p) => p.rule !== 'stock/unknown-material') : problems;
}

/** A part read, worked out, and judged as far as anybody asked. */
export class CheckedPart implements ReadPart {
  readonly tree: TextTree;
  readonly part: Part;
  readonly solid: Solid;
  readonly judging: Judging;
  /** Of the text before this one: whoever takes a change back, or tries two values in turn, asks for that again. */
  readonly former: CheckedPart | undefined;

  constructor(
    readonly reading: Reading,
    readonly shop: Shop,
    before?: CheckedPart,
    judged?: Judging,
  ) {
    const { tree, part, solid, problems, lost } = reading;
    this.tree = tree;
    this.part = inShop(part, shop);
    this.solid = solid;
    this.judging = judged ?? new Judging({ tree, part: this.part, solid, shop }, known(problems, this.part), lost);
    this.former = before && before.shop === shop && before.reading !== reading ? before.alone() : undefined;
  }

  /** Without what was before it: of the texts before, one is kept. */
  private alone(): CheckedPart {
    return this.former ? new CheckedPart(this.reading, this.shop, undefined, this.judging) : this;
  }

  /** What a text is to be read against: this one, or the one before where it is that again. */
  against(text: string): Reading {
    return this.former?.tree.text === text ? this.former.reading : this.reading;
  }

  /** What comes after this: another part, or one of these two again, with all that was found of it. */
  next(reading: Reading, shop: Shop): CheckedPart {
    const again = [this, this.former].find((c) => c?.reading === reading && c.shop === shop);
    return new CheckedPart(reading, shop, this, again?.judging);
  }

  /** The same with all that was found of it, over the same text read anew: what was worked out on the way is let go of. */
  over(reading: Reading): CheckedPart {
    const { tree, part, solid } = reading;
    const judged = this.judging.over({ tree, part: inShop(part, this.shop), solid, shop: this.shop });
    return new CheckedPart(reading, this.shop, undefined, judged);
  }

  /** In text order; accepted ones left out. Judges what was not judged yet. */
  get findings(): readonly Finding[] {
    return this.judging.finish();
  }
}

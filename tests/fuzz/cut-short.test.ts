/**
 * Judging that is cut short at any moment, and gone on with: whatever was half done leaves nothing behind, in whatever
 * order the rules are asked, and what is found in the end is what is found by a check from nothing.
 */

import assert from 'node:assert/strict';
import { CutShort, metered } from '../../server/src/effort';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { figuresAtHand } from '../../server/src/report/at-hand';
import { checkPart, readPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { RULES } from '../../server/src/rules/registry';
import { chainOfHoles, leaningPockets, vent } from '../bench/slow-parts';
import { shopOf } from '../rules/tester';
import { patience, type Random, random, runs } from './runs';

/** Does the work, or is cut short after so many looks at the meter. */
function cutAfter<T>(looks: number, work: () => T): T | undefined {
  let left = looks;
  try {
    return metered(() => left-- <= 0, work);
  } catch (failure) {
    if (failure instanceof CutShort) return undefined;
    throw failure;
  }
}

/** Asks every rule until it has answered, each time for a little longer, the others between. */
function judgedInPieces(checked: CheckedPart, draw: Random): number {
  const { judging } = checked;
  let cuts = 0;
  for (let longest = 2; judging.open.length > 0; longest *= 2) {
    const open = [...judging.open];
    while (open.length > 0) {
      const [name] = open.splice(draw.below(open.length), 1);
      if (cutAfter(draw.below(longest), () => judging.judge(name!)) === undefined) cuts++;
    }
  }
  return cuts;
}

/** One number of the features changed, so that the text after it takes over the most of what is known. */
function edited(text: string, draw: Random): string {
  const places = [...text.matchAll(/(?:depth|diameter|[xy]): (\d+(?:\.\d+)?)\b/g)];
  if (places.length === 0) return `${text}# edited\n`;
  const place = draw.pick(places);
  const at = place.index + place[0].length - place[1]!.length;
  return `${text.slice(0, at)}${(Number(place[1]) * 1.03).toFixed(2)}${text.slice(at + place[1]!.length)}`;
}

/** Texts of each, the later ones with what is kept of the earlier. */
const EDITS = runs(1) > 1 ? 3 : 2;

interface Case {
  readonly name: string;
  readonly text: string;
  readonly shop: Shop;
}

function cases(): readonly Case[] {
  const draw = random(41);
  const rules = RULES.filter((r) => r.when !== 'job' && r.when !== 'plan');
  const drawn = Array.from({ length: runs(5) }, () => draw.pick(rules));
  // Twice as much work each where more was asked for.
  const more = runs(1) > 1 ? 1 : 0;
  const crossing = [vent(2 + more), chainOfHoles(4 + more), leaningPockets(2 + more)].map((text, i) => ({
    name: `what crosses itself ${i + 1}`,
    text,
    shop: builtinShop(),
  }));
  return [
    ...crossing,
    ...drawn.map((rule) => ({ name: `the bad example of ${rule.name}`, text: rule.bad, shop: shopOf(rule) })),
  ];
}

describe('judging that is cut short at any moment', function () {
  this.timeout(patience(60_000));
  let cuts = 0;

  for (const [i, { name, text, shop }] of cases().entries())
    it(`finds in the end what a check finds: ${name} (${i})`, () => {
      const draw = random(100 + i);
      let before: CheckedPart | undefined;
      let now = text;
      for (let edits = 0; edits < EDITS; edits++) {
        const checked = readPart(now, shop, before);
        cuts += judgedInPieces(checked, draw);
        assert.deepEqual(checked.findings, checkPart(now, shop).findings, now);
        let figures: unknown;
        for (let longest = 2; figures === undefined; longest *= 2)
          figures = cutAfter(draw.below(longest), () => figuresAtHand(checked));
        assert.deepEqual(figures, figuresAtHand(readPart(now, shop)), now);
        before = checked;
        now = edited(now, draw);
      }
    });

  after(() => assert.ok(cuts > 50, `only ${cuts} judgings were cut short: nothing was tried`));
});

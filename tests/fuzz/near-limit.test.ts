/**
 * Whether a rule is stopped by its limit turns on the part alone: on a text that needs about as much as is allowed the
 * answer is that of a fresh start, whatever else was judged first, and whatever the text was before.
 */

import assert from 'node:assert/strict';
import { turnsOf } from '../../server/src/effort';
import { resolveShop } from '../../server/src/model/shop';
import type { Shop } from '../../server/src/model/shop-model';
import { readPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { readText } from '../../server/src/text/read';
import { random, runs } from './runs';

/** They follow outlines that cross each other, which is what the limit is there for. */
const HEAVY = ['form/in-pieces', 'form/removes-nothing', 'form/overlap', 'wall/thin', 'wall/slender', 'wall/floor'];

function shopWith(units: number): Shop {
  const shop = resolveShop(readText('shop: s\nunits: mm\n'), 's.shop.yaml');
  return { ...shop, limits: new Map([['form/not-judged', new Map([['work', units / 1e6]])]]) };
}

/** Slots and holes that run into each other. */
function crossing(draw: ReturnType<typeof random>): string {
  const at = () => 15 + draw.below(90);
  const features = Array.from({ length: 5 + draw.below(6) }, (_, i) => {
    const depth = 2 + draw.below(7);
    return draw.below(3) > 0
      ? `  s${i}: { kind: slot, face: top, ends: [{ x: ${at()}, y: ${at()} }, { x: ${at()}, y: ${at()} }], width: ${4 + draw.below(6)}, depth: ${depth} }`
      : `  h${i}: { kind: hole, face: top, at: { x: ${at()}, y: ${at()} }, diameter: ${4 + draw.below(9)}, depth: ${depth} }`;
  });
  return `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 120, y: 120, z: 10 }\nfeatures:\n${features.join('\n')}\n`;
}

/** One number of a feature is another, most often. */
function edited(text: string, draw: ReturnType<typeof random>): string {
  const numbers = [...text.matchAll(/(?<=depth: |width: |diameter: )\d+/g)];
  const { index, 0: old } = draw.pick(numbers);
  return text.slice(0, index) + String(3 + draw.below(6)) + text.slice(index + old.length);
}

function coldOf(text: string, rule: string): number {
  const checked = readPart(text, shopWith(1e12));
  return turnsOf(() => checked.judging.judge(rule));
}

const stopped = (checked: CheckedPart, rule: string) =>
  checked.judging.judge(rule).some((f) => f.rule === 'form/not-judged');

describe('a rule near its limit', () => {
  for (let i = 0; i < runs(2); i++) {
    it(`is stopped or not by the part alone (${i + 1})`, () => {
      const draw = random(700 + i);
      const text = crossing(draw);
      for (const rule of HEAVY) {
        const cold = coldOf(text, rule);
        if (cold < 100) continue;
        for (const [shop, isStopped] of [
          [shopWith(cold - 0.5), true],
          [shopWith(cold + 0.5), false],
        ] as const) {
          assert.equal(stopped(readPart(text, shop), rule), isStopped, `${rule}: fresh, ${cold} needed`);
          const warm = readPart(text, shopWith(1e12));
          warm.judging.finish();
          const again = readPart(`${text}# more\n`, shopWith(1e12), warm);
          again.judging.finish();
          assert.equal(stopped(readPart(text, shop, again), rule), isStopped, `${rule}: all was judged before`);
          let last = readPart(text, shop);
          for (let step = 0; step < 4; step++) {
            last = readPart(edited(text, draw), shop, last);
            stopped(last, draw.pick(HEAVY));
          }
          assert.equal(stopped(readPart(text, shop, last), rule), isStopped, `${rule}: after other texts`);
        }
      }
    }).timeout(60_000);
  }
});

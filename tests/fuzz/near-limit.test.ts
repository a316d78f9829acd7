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
import { ruleByName } from '../../server/src/rules/registry';
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

/** They ask what cuts a feature and what is in the way as the work is then. */
const PROCESS = ['access/no-tool', 'access/holder', 'access/reach', 'access/jaw', 'hold/in-the-cut', 'hold/let-go'];

/** The same held in a vise, from above and from below. */
function held(draw: ReturnType<typeof random>): string {
  const names = [...crossing(draw).matchAll(/^ {2}(\w+): .*$/gm)].slice(0, 5);
  const hold = 'hold: { vise: mill-vise-100, jaws: [left, right], grip: 6, parallels: 24 }';
  return `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 80, z: 20 }\nstock: { form: block, extra: { top: 1, bottom: 1 } }
features:\n${names.map(([line]) => line.replace(/(?<=[xy]: )\d+/g, (n) => String(Math.round(Number(n) / 2) + 12))).join('\n')}
setups:
  first: { up: top, ${hold}, cuts: [top, ${names.map(([, name]) => name).join(', ')}] }
  second: { up: bottom, ${hold}, cuts: [bottom] }
`;
}

function coldOf(text: string, rule: string): number {
  const checked = readPart(text, shopWith(1e12));
  // What those find that it stands under is judged before, each within a limit of its own.
  for (const above of ruleByName(rule)?.under ?? []) checked.judging.judge(above);
  return turnsOf(() => checked.judging.judge(rule));
}

const stopped = (checked: CheckedPart, rule: string) =>
  checked.judging.judge(rule).some((f) => f.rule === 'form/not-judged');

/** Just below and just above what a rule needs on a text: fresh, after all was judged, and after other texts. */
function tryAt(text: string, rule: string, draw: ReturnType<typeof random>, among: readonly string[]): boolean {
  const cold = coldOf(text, rule);
  if (cold < 100) return false;
  // What it stands under has a limit of its own, and is stopped sooner: then this one is told less.
  const under = ruleByName(rule)?.under ?? [];
  if (under.some((above) => stopped(readPart(text, shopWith(cold - 0.5)), above))) return false;
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
      stopped(last, draw.pick(among));
    }
    assert.equal(stopped(readPart(text, shop, last), rule), isStopped, `${rule}: after other texts`);
  }
  return true;
}

describe('a rule near its limit', () => {
  for (const [what, drawn, rules, seed] of [
    ['crossing outlines', crossing, HEAVY, 700],
    ['cuts in a vise', held, PROCESS, 800],
  ] as const)
    for (let i = 0; i < runs(2); i++) {
      it(`is stopped or not by the part alone: ${what} (${i + 1})`, () => {
        const draw = random(seed + i);
        const text = drawn(draw);
        const tried = rules.filter((rule) => tryAt(text, rule, draw, rules));
        assert.ok(tried.length >= 2, `only ${tried.join()} need enough to be stopped`);
      }).timeout(60_000);
    }
});

/**
 * No message shows a figure beside a limit that is printed the same: nobody believes `2 mm, and 2 mm is the least`. Of every
 * rule and every limit of it the setting is sought at which its bad example is only just told, and that message is read.
 */
import assert from 'node:assert/strict';
import type { Shop } from '../../server/src/model/shop-model';
import { readPart } from '../../server/src/rules/check';
import type { Finding, Limit, Rule } from '../../server/src/rules/kit/rule';
import { RULES } from '../../server/src/rules/registry';
import { runOne } from '../../server/src/rules/run';
import { shopOf } from './tester';

/** Settings far enough off that a finding goes, as shares of the usual value. */
const FAR = [0, 0.01, 0.3, 0.7, 1.5, 4, 30, 1000];
const STEPS = 60;

function withLimit(shop: Shop, rule: Rule, name: string, value: number): Shop {
  const own = new Map([...(shop.limits.get(rule.name) ?? []), [name, value]] as const);
  return { ...shop, limits: new Map([...shop.limits, [rule.name, own]]) };
}

/** What a rule finds in its bad example with a limit set so. */
function finder(rule: Rule, limit: Limit): (value: number) => readonly Finding[] {
  const shop = shopOf(rule);
  const { part, solid, tree } = readPart(rule.bad, shop);
  return (value) => runOne(rule, { part, shop: withLimit(shop, rule, limit.name, value), solid, tree });
}

/** The settings on the side that is told, each as near as may be to where one finding fewer is. */
function* brinks(found: (value: number) => readonly Finding[], limit: Limit): Generator<number> {
  const there = found(limit.value).length;
  if (there === 0) return;
  for (const share of FAR) {
    let [told, silent] = [limit.value, limit.value === 0 ? share : share * limit.value];
    if (found(silent).length >= there) continue;
    for (let i = 0; i < STEPS && Math.abs(told - silent) > 1e-12; i++) {
      const middle = (told + silent) / 2;
      if (found(middle).length >= there) told = middle;
      else silent = middle;
    }
    yield told;
  }
}

/** Figures as printed, with what stands behind them. */
const FIGURE = /(?<![\w.-])\d+(?:\.\d+)?(?: ?(?:mm²|mm³|mm|in|%|°|kN|N|MPa|µm|min|times))?/g;

/** Printed twice; of a ratio whatever stands behind the number. */
function twice(message: string, { unit }: Limit): readonly string[] {
  const figures = [...message.matchAll(FIGURE)].map(([f]) => (unit === 'ratio' ? f.split(' ')[0]! : f));
  return figures.filter((f, i) => figures.indexOf(f) !== i);
}

/** Figures printed twice that are this value to the last digit shown. */
function alike(message: string, value: number, limit: Limit): readonly string[] {
  const isLimit = (figure: string) => {
    const [number = ''] = figure.split(' ');
    const digits = (number.split('.')[1] ?? '').length;
    return Number(number) > 0 && [value, value * 100].some((v) => Number(v.toFixed(digits)) === Number(number));
  };
  return [...new Set(twice(message, limit))].filter(isLimit);
}

describe('a figure beside its limit', () => {
  for (const rule of RULES) {
    if (rule.limits.length === 0 || ['read', 'plan', 'job', 'last'].includes(rule.when ?? 'part')) continue;
    it(`${rule.name} never prints both alike`, () => {
      for (const limit of rule.limits.filter((l) => l.unit !== 'count')) {
        const found = finder(rule, limit);
        // What is printed twice whatever the limit is no figure beside its limit; a count is one of things.
        const usual = new Set(found(limit.value).flatMap(({ message }) => twice(message, limit)));
        for (const value of brinks(found, limit))
          for (const { message } of found(value)) {
            const wrong = alike(message, value, limit).filter((f) => !usual.has(f));
            assert.deepEqual(wrong, [], `${limit.name} ${value}: ${message}`);
          }
      }
    });
  }
});

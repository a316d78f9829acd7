/** Planning from nothing, and again after one edit: in this process, after a few rounds to get warm. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { planOf } from '../../server/src/planning/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { plate } from './parts';

export interface PlanTimes {
  readonly fresh: readonly number[];
  readonly again: readonly number[];
  readonly setups: number;
  readonly attempts: number;
}

export function planTimes(count: number, rounds: number): PlanTimes {
  const text = readFileSync(resolve(__dirname, '../../examples/gimbal/campus.shop.yaml'), 'utf8');
  const fresh: number[] = [];
  const again: number[] = [];
  let [setups, attempts] = [0, 0];
  for (let i = 0; i < rounds + 2; i++) {
    // A shop read anew: nothing that was kept for the last one serves again.
    const { shop } = checkShop(text, 'file:///campus.shop.yaml');
    const checked = checkPart(plate(count), shop);
    let begun = performance.now();
    const plan = planOf(checked);
    const first = performance.now() - begun;
    const all = [...checked.tree.text.matchAll(/depth: \d[\d.]*$/gm)];
    const at = all[Math.floor(all.length / 2)]!;
    const end = at.index + at[0].length;
    const edited = `${checked.tree.text.slice(0, at.index)}depth: 4.25${checked.tree.text.slice(end)}`;
    const next = checkPart(edited, shop, checked);
    begun = performance.now();
    planOf(next);
    if (i < 2) continue;
    fresh.push(first);
    again.push(performance.now() - begun);
    setups = plan?.setups.length ?? 0;
    attempts = plan?.attempts ?? 0;
  }
  return { fresh, again, setups, attempts };
}

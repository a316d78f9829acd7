/**
 * A feature's cuts in words: tool, speed, feed, force, bending and time, each with what limits it. For the hover, `--facts`
 * and the sheet. Speeds are where to begin, not orders: the sheet and the hover say so, and defer to the shop.
 */
import { milledVoids } from '../machining/milling';
import { operationsOf } from '../machining/operations';
import { passedOver } from '../machining/operations/outlines';
import { type Priced, priceOf } from '../machining/operations/priced';
import { findMaterial } from '../reference/materials';
import type { CheckedPart } from '../rules/check';
import type { Feature } from '../spec/model';
import { formatLength } from '../text/format';

/** Said once wherever speeds are shown. */
export const WHERE_TO_BEGIN =
  'Speeds and feeds are where to begin, from tables that disagree: the shop’s own rules, its trained staff and the sound of the cut go before them.';

/** Every cut of a feature with what it takes; empty without a known material, a machine, or a cut. */
export function pricedCuts(feature: Feature, { part, shop, solid }: CheckedPart): readonly Priced[] {
  const material = part.material && findMaterial(part.material.name);
  const machine = shop.machines[0];
  if (!material || !machine) return [];
  return operationsOf(feature, part, solid, shop).map((o) => priceOf(o, material, machine));
}

/** One line a cut: `drill with dr-4.2: 4615 rpm, 388 mm/min, 0.2 to 0.3 min`. */
export function cutLine(priced: Priced, units: 'mm' | 'in'): string {
  const { operation: o, conditions: c, milling } = priced;
  if (o.does === 'missing') return `nothing on hand: ${o.wanted}`;
  const words = [`${o.does} with ${o.tool.name}${o.times > 1 ? `, ${o.times} times` : ''}`];
  if (c) {
    words.push(
      `${Math.round(c.rpm)} rpm (${Math.round(c.speedMPerMin)} m/min of ${c.speedRange.map(Math.round).join(' to ')}), feed ${Math.round(c.feedMmPerMin)} mm/min`,
    );
    if (milling)
      words.push(
        `${formatLength(round(milling.aeMm), units)} wide and ${formatLength(round(milling.apMm), units)} deep, ${Math.round(milling.load.resultantN)} N, bends ${formatLength(round(milling.deflectionMm, 3), units)}, ${watts(milling.load.powerW)}`,
      );
    else if (priced.torqueNm !== undefined)
      words.push(`${priced.torqueNm.toFixed(1)} N·m, ${watts(priced.powerW ?? 0)}`);
    if (c.limitedBy !== 'range') words.push(`limited by ${LIMIT[c.limitedBy]}`);
  }
  words.push(minutesText(priced.minutes));
  return words.join(' · ');
}

const LIMIT = {
  range: '',
  revolutions: 'the spindle’s highest revolutions',
  slowest: 'the spindle’s lowest revolutions: too fast for the cutter',
  feed: 'the machine’s feed',
  power: 'the spindle’s power',
  torque: 'the spindle’s torque',
  step: 'the spindle’s steps',
  deflection: 'how far the cutter may bend',
  stiffness: 'how far the machine may give way',
} as const;

/** Why larger end mills do not cut it, at most so many. */
export function passedOverLines(feature: Feature, { part, shop, solid }: CheckedPart, most = 3): readonly string[] {
  const [m] = milledVoids(feature, part, solid);
  if (!m) return [];
  const finish = operationsOf(feature, part, solid, shop).find((o) => o.does === 'finish');
  const chosen = finish?.does === 'finish' ? finish.tool : undefined;
  return passedOver(m, solid, shop, chosen)
    .slice(0, most)
    .map(({ tool, why }) => `not ${tool.name}: ${why}`);
}

/** `0.2 to 0.3 min`, `45 s` under a minute. */
export function minutesText([low, high]: readonly [number, number]): string {
  if (!Number.isFinite(low)) return 'no end of it';
  const one = (minutes: number) =>
    high < 1 ? Math.max(1, Math.round(minutes * 60)) : Number(minutes.toFixed(minutes < 10 ? 1 : 0));
  const [a, b] = [one(low), one(high)];
  return `${a === b ? a : `${a} to ${b}`} ${high < 1 ? 's' : 'min'}`;
}

function watts(w: number): string {
  return w < 100 ? `${Math.round(w)} W` : `${(w / 1000).toFixed(2)} kW`;
}

function round(mm: number, digits = 2): number {
  return Number(mm.toFixed(digits));
}

/** Work in a vise for these tests: the built-in shop's vise of 100 mm, jaws back and front. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { heldOf, type InJaws } from '../../../server/src/process/workholding/in-jaws';
import { make } from '../parts';

export const shop = builtinShop();

interface Held {
  readonly body?: string;
  readonly features?: string;
  readonly grip?: number;
  readonly jaws?: string;
  readonly up?: string;
  readonly cuts?: string;
  readonly before?: string;
  readonly tail?: string;
}

/** The last set-up; `before` names cuts made in one before it. */
export function put({
  body = '{ x: 60, y: 40, z: 20 }',
  features = '',
  grip = 10,
  jaws = '[back, front]',
  up = 'top',
  cuts = '[spare]',
  before,
  tail = '',
}: Held): InJaws & { readonly made: ReturnType<typeof make> } {
  const spare = '  spare: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 3, depth: 3 }\n';
  const hold = (g: number) => `hold: { vise: mill-vise-100, jaws: ${jaws}, grip: ${g} }`;
  const setups = [
    ...(before
      ? [`  zero: { up: front, hold: { vise: mill-vise-100, jaws: [left, right], grip: 10 }, cuts: ${before} }`]
      : []),
    `  one: { up: ${up}, ${hold(grip)}, cuts: ${cuts} }`,
  ];
  const made = make(body, features + spare, `${tail}setups:\n${setups.join('\n')}\n`);
  const all = heldOf({ part: made.part, solid: made.solid, shop });
  const last = all[all.length - 1];
  assert.ok(last, 'nothing is held');
  return { ...last, made };
}

export function near(actual: number, expected: number, within = 1e-6): void {
  assert.ok(Math.abs(actual - expected) <= within * Math.max(1, Math.abs(expected)), `${actual} is not ${expected}`);
}

/** The azimuth yoke of the examples, set up by hand: what holds a U whose corners come off, and what does not. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { timelineOf } from '../../../server/src/process/stock';
import { seatingOf } from '../../../server/src/process/workholding/seating';
import { checkPart, checkShop } from '../../../server/src/rules/check';

const GIMBAL = resolve(__dirname, '../../../examples/gimbal');
const campus = checkShop(readFileSync(resolve(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;
const yoke = readFileSync(resolve(GIMBAL, 'parts/yoke.part.yaml'), 'utf8').split('\nsetups:')[0]!;

interface One {
  readonly up: string;
  readonly jaws?: string;
  readonly grip: number;
  readonly stop: string;
  readonly cuts: string;
}
const NAMES = ['first', 'second', 'third', 'fourth', 'fifth'];
const checked = (setups: readonly One[]) =>
  checkPart(
    `${yoke}\nsetups:\n${setups
      .map(
        ({ up, jaws = 'back, front', grip, stop, cuts }, i) =>
          `  ${NAMES[i]}:\n    up: ${up}\n    hold: { vise: mill-vise-100, jaws: [${jaws}], grip: ${grip}, parallels: ${32 - grip}, stop: ${stop} }\n    cuts: [${cuts}]\n`,
      )
      .join('')}`,
    campus,
  );
const errors = (setups: readonly One[]) => checked(setups).findings.filter((f) => f.severity === 'error');

const ENDS: readonly One[] = [
  { up: 'left', grip: 32, stop: 'bottom', cuts: 'left, block-screws-left' },
  { up: 'right', grip: 32, stop: 'bottom', cuts: 'right, block-screws-right' },
];
const PIVOT: One = { up: 'top', grip: 22, stop: 'left', cuts: 'pivot' };
const FRONT: One = {
  up: 'front',
  jaws: 'left, right',
  grip: 10,
  stop: 'bottom',
  cuts: 'throat, shoulders, break-front',
};
const BACK: One = { up: 'back', jaws: 'left, right', grip: 10, stop: 'bottom', cuts: 'break-front' };

describe('the azimuth yoke set up by hand', () => {
  it('its ends first, then the U with the corners out of the jaws: no error, but its free arms are pressed together', () => {
    const { findings } = checked([...ENDS, PIVOT, FRONT, BACK]);
    const found = findings.filter((f) => f.severity !== 'hint');
    assert.ok(found.length > 0);
    for (const { rule, facts, message } of found) {
      assert.equal(rule, 'hold/squeeze', message);
      assert.equal(facts.as, 'arm');
    }
  });

  it('the throat alone, with the stop at the top: no error of it', () => {
    const found = errors([
      ...ENDS,
      PIVOT,
      { ...FRONT, stop: 'top', cuts: 'throat' },
      { ...BACK, cuts: 'shoulders, break-front' },
    ]);
    assert.deepEqual(
      found.filter((f) => f.of.includes('throat')).map((f) => f.message),
      [],
    );
  });

  it('the work is pushed out of the jaws where its corners come off, unless the stop stands there', () => {
    const seat = (stop: string) => {
      const { part, solid } = checked([...ENDS, PIVOT, { ...FRONT, stop }, BACK]);
      return seatingOf(timelineOf(part, solid).setups[3]!, part, campus)!.held!;
    };
    // The corners come off from z = 46 up; the jaws end 3 mm below.
    assert.ok(Math.abs(seat('bottom').jawToMm - 43) < 1e-3);
    assert.equal(seat('top').jawToMm, 80);
  });

  it('with stock still on its ends the outline takes off what the jaws press on: told, with what they would press on', () => {
    const found = errors([FRONT, PIVOT, ...ENDS, BACK]).filter((f) => f.rule === 'hold/cut-free');
    assert.equal(found.length, 1);
    const { facts } = found[0]!;
    assert.equal(facts.first, 'left right');
    assert.equal(facts.stock_mm, 1.5);
    // From the bottom to where the corners come off, as deep as the grip.
    assert.ok(Math.abs(Number(facts.then_mm2) - 46 * 10) < 0.01);
  });

  it('turned over after its edges are broken: what is left of its sides is found, and zero on them', () => {
    const found = checked([...ENDS, PIVOT, FRONT, BACK]).findings.filter((f) =>
      ['hold/parallel', 'setup/zero-lost'].includes(f.rule),
    );
    assert.deepEqual(
      found.filter((f) => f.facts.why !== 'sawn').map((f) => f.message),
      [],
    );
  });
});

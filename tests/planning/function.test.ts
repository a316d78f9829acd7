/**
 * What would spare a set-up leaves what the part is for. Parts are drawn so that a thing on one face needs a set-up of its
 * own; of each the generator knows, by its own arithmetic, what may be done to it without another part coming of it: a plain
 * drilled hole may go through where nothing lies below it, a marking that names no side may move, wide edges may be filed.
 * Common sense of drawings, no source. `FUNCTION_RUNS=300` draws three hundred.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { planOf } from '../../server/src/planning/plan';
import { reasonsOf } from '../../server/src/planning/reasons';
import { checkPart } from '../../server/src/rules/check';
import { planText } from '../report/told';
import { SHOP } from './parts';

type May = 'through' | 'other-face' | 'by-hand';

interface Thing {
  readonly name: string;
  readonly text: string;
  readonly more?: string;
  /** What may be done to it; whether nothing lies below it is asked apart. */
  readonly may?: May;
  /** Where it goes in, and how wide it is: on top, mm. */
  readonly at: readonly [x: number, y: number];
  readonly wideMm: number;
}

const SIZE = { x: 60, y: 40, z: 24 };
/** On the bottom: so that top up is one set-up more. */
const SEAT = {
  at: [42, 20],
  wideMm: 16,
  text: '{ kind: pocket, face: bottom, at: { x: 42, y: 20 }, diameter: 16, depth: 6 }',
};

const whole = (min: number, max: number) => fc.integer({ min, max });
const HOLES: readonly (readonly [what: string, may?: May])[] = [
  ['diameter: 5.5, depth: 8', 'through'],
  ['diameter: 4.5, depth: 12', 'through'],
  ['diameter: 5.5, depth: 8, bottom: flat'],
  ['diameter: 6 H7, depth: 8'],
  ['diameter: 5.5, depth: 8 ±0.1'],
  ['thread: M5, depth: 14, thread-depth: 9'],
  ['diameter: 4.5, depth: 12, counterbore: { diameter: 8, depth: 4 }'],
];
const MARKS: readonly (readonly [text: string, may?: May])[] = [
  ['GB-7', 'other-face'],
  ['K 12', 'other-face'],
  ['TOP'],
  ['"LEFT 2"'],
  ['"THIS SIDE UP"'],
  ['"Z+"'],
];

const hole = fc
  .tuple(whole(8, 52), whole(8, 32), fc.constantFrom(...HOLES), fc.constantFrom('', '', 'placed', 'datum'))
  .map(([x, y, [size, may], asked]): Thing => {
    const more =
      asked === 'placed'
        ? 'tolerances:\n  - { position: 0.3, of: thing, datums: [A] }\ndatums: { A: front }\n'
        : asked === 'datum'
          ? 'datums: { A: thing }\n'
          : '';
    return {
      name: 'thing',
      text: `{ kind: hole, face: top, at: { x: ${x}, y: ${y} }, ${size} }`,
      more,
      ...(may && asked === '' && { may }),
      at: [x, y],
      wideMm: 6,
    };
  });
const pocket = fc.tuple(whole(12, 48), whole(12, 28), whole(3, 10)).map(
  ([x, y, z]): Thing => ({
    name: 'thing',
    text: `{ kind: pocket, face: top, at: { x: ${x}, y: ${y} }, size: { x: 16, y: 14 }, corner-radius: 5, depth: ${z} }`,
    at: [x, y],
    wideMm: 16,
  }),
);
/** The pin of a clevis: across both arms, and nowhere else. */
const clevis = whole(6, 14).map(
  (x): Thing => ({
    name: 'thing',
    text: `{ kind: hole, face: front, at: { x: ${x}, z: 17 }, diameter: 6, depth: through }
  fork: { kind: slot, face: bottom, ends: [{ x: -8, y: 20 }, { x: 20, y: 20 }], width: 10, depth: 14 }`,
    at: [x, 0],
    wideMm: 6,
  }),
);
const mark = fc.tuple(whole(14, 30), fc.constantFrom(...MARKS)).map(
  ([x, [text, may]]): Thing => ({
    name: 'thing',
    text: `{ kind: engraving, face: top, at: { x: ${x}, y: 20 }, text: ${text}, height: 4, stroke: 0.5, depth: 0.3 }`,
    ...(may && { may }),
    at: [x, 20],
    wideMm: 0,
  }),
);
const edges = fc.constantFrom(1.5, 2).map(
  (size): Thing => ({
    name: 'thing',
    text: `{ kind: chamfer, edges: top, size: ${size} }`,
    may: 'by-hand',
    at: [0, 0],
    wideMm: 0,
  }),
);

/** By plain distance of two circles: what goes through from above would come out in the seat. */
function isOver({ at: [x, y], wideMm }: Thing): boolean {
  return Math.hypot(x - SEAT.at[0]!, y - SEAT.at[1]!) < (wideMm + SEAT.wideMm) / 2;
}

const RUNS = Number(process.env.FUNCTION_RUNS ?? 24);

describe('what would spare a set-up', function () {
  this.timeout(30_000 + RUNS * 5_000);
  it('leaves what the part is for, and names what it is about', () => {
    const told = new Map<string, number>();
    const all = fc.oneof(
      { weight: 4, arbitrary: hole },
      { weight: 1, arbitrary: pocket },
      { weight: 1, arbitrary: clevis },
      { weight: 3, arbitrary: mark },
      { weight: 1, arbitrary: edges },
    );
    fc.assert(
      fc.property(all, (thing) => {
        const text = `part: block
material: aluminium-6061-t6
body: { x: ${SIZE.x}, y: ${SIZE.y}, z: ${SIZE.z} }
features:
  seat: ${SEAT.text}
  thing: ${thing.text}
${thing.more ?? ''}`;
        const checked = checkPart(text, SHOP);
        const plan = planOf(checked)!;
        for (const { changes } of reasonsOf(plan, checked))
          for (const change of changes) {
            const names = change.items.map((i) => i.name);
            // The seat alone is not asked: a pocket's floor is there for something.
            assert.deepEqual([...new Set(names)], ['thing'], text);
            assert.equal(change.type, thing.may, text);
            if (change.type === 'through') assert.ok(!isOver(thing), text);
            assert.ok(change.setups < plan.setups.length, text);
            if (change.type !== 'by-hand') assert.ok(change.faces.length > 0, text);
            told.set(change.type, (told.get(change.type) ?? 0) + 1);
          }
        const words = planText(plan, checked);
        assert.doesNotMatch(words, / on {2}| on \?|undefined|with {2}up| on instead/, text);
      }),
      { seed: 20261130, numRuns: RUNS, endOnFailure: true },
    );
    // Each kind of advice was given at least once: silence would pass every check above.
    assert.deepEqual([...told.keys()].sort(), ['by-hand', 'other-face', 'through']);
  });
});

/**
 * The same question has the same answer whoever asks first: asked in random orders, after random histories of edits, of
 * objects that lent each other what did not change, it is answered as by objects that nobody asked anything before.
 */

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { bodyPrism } from '../../server/src/geometry/solid/body';
import { sectionOf } from '../../server/src/geometry/solid/section';
import type { Shop } from '../../server/src/model/shop-model';
import { pieceTime } from '../../server/src/planning/piece-time';
import { planOf } from '../../server/src/planning/plan';
import { verdictsOf } from '../../server/src/process/access';
import { operationsOf } from '../../server/src/process/operations';
import { boxLeft } from '../../server/src/process/stock/in-process-stock';
import { timelineOf } from '../../server/src/process/stock/timeline';
import { seatingOf } from '../../server/src/process/workholding/seating';
import { checkPart, checkShop } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { draws, patience } from '../fuzz/runs';

const SHOP = readFileSync(resolve(__dirname, '../../examples/gimbal/campus.shop.yaml'), 'utf8');

/** One number of a text, and what it may be edited to: a wall gets thin, a hole runs into a pocket, a drill gets too short. */
const EDITS: readonly (readonly [from: string, to: string])[] = [
  ['size: { x: 28', 'size: { x: 40'],
  ['depth: 9', 'depth: 14'],
  ['ends: [{ x: 72, y: 18 }, { x: 72, y: 34 }]', 'ends: [{ x: 37, y: 22 }, { x: 37, y: 25 }]'],
  ['at: { x: 52, y: 12 }', 'at: { x: 44, y: 12 }'],
  ['z: 24 }', 'z: 70 }'],
  ['size: 0.5', 'size: 1'],
  ['notch, hole, rim', 'notch, rim'],
  ['grip: 8', 'grip: 5'],
];
const PART = `part: block
material: aluminium-6061-t6
body: { x: 84, y: 40, z: 24 }
stock: { form: flat-bar, extra: { top: 1 } }
features:
  pocket: { kind: pocket, face: top, at: { x: 22, y: 20 }, size: { x: 28, y: 22 }, corner-radius: 4, depth: 9 }
  hole: { kind: hole, face: top, at: { x: 52, y: 12 }, diameter: 5, depth: through }
  other: { kind: pocket, face: top, at: { x: 48, y: 26 }, size: { x: 20, y: 14 }, corner-radius: 4, depth: 9 }
  notch: { kind: slot, face: top, ends: [{ x: 72, y: 18 }, { x: 72, y: 34 }], width: 6, depth: 9 }
  side: { kind: slot, face: front, ends: [{ x: 40, z: 15 }, { x: 58, z: 15 }], width: 6, depth: 3 }
  rim: { kind: chamfer, edges: [{ rim: pocket }], size: 0.5 }
setups:
  one:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 8, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [top, pocket, other, notch, hole, rim]
  two:
    up: front
    hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 12, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [side]
`;

/** Every state a history can come to is told by which edits are in it. */
function textWith(edits: ReadonlySet<number>): string {
  return [...edits].reduce((text, i) => text.replace(EDITS[i]![0], EDITS[i]![1]), PART);
}

type Question = (of: CheckedPart) => unknown;
const QUESTIONS: Readonly<Record<string, Question>> = {
  sections: ({ solid }) =>
    [bodyPrism(solid.body), ...solid.voids].map((p) =>
      ([0, 1, 2] as const).map((axis) => sectionOf(p, axis, (p.bounds.min[axis] + 2 * p.bounds.max[axis]) / 3)),
    ),
  measures: ({ solid }) => [solid.measures, solid.pieces],
  volumes: ({ solid }) => solid.voids.map((v) => [solid.aloneMm3(v), solid.voids.map((w) => solid.sharedMm3(v, w))]),
  walls: ({ solid }) => [solid.walls(3), solid.walls(8, 1)],
  'work left': ({ part, solid }) => timelineOf(part, solid).setups.map((s) => s.cuts.map((c) => boxLeft(c.after))),
  operations: ({ part, solid, shop }) => part.features.map((f) => operationsOf(f, { part, solid, shop })),
  access: ({ part, solid, shop }) => verdictsOf({ part, solid, shop }),
  seats: ({ part, solid, shop }) => timelineOf(part, solid).setups.map((s) => seatingOf(s, part, shop)),
  findings: ({ findings }) => findings.map(({ rule, message, facts, of }) => ({ rule, message, facts, of })),
  time: (of) => pieceTime(of),
  plan: (of) => planOf(of),
};

/** As plain data: what has a name by its name, so that the objects themselves do not matter. */
function told(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(told);
  if (value instanceof Set || value instanceof Map) return told([...value]);
  if (typeof value !== 'object' || value === null) return typeof value === 'function' ? 'function' : value;
  if ('featureByName' in value) return 'part';
  if ('region' in value && 'frame' in value && 'feature' in value && 'member' in value) {
    const { feature, member, role, from, to } = value as Record<string, unknown>;
    return `${feature}[${member}] ${role} ${from}..${to}`;
  }
  if ('before' in value && 'removes' in value && 'name' in value) return `cut of ${value.name}`;
  if ('places' in value && 'kind' in value && 'name' in value) return `feature ${value.name}`;
  if ('removed' in value && 'tree' in value) return 'checked';
  // How much of a plan was judged anew is told as well, and is less after a history: that is what it is for.
  return Object.fromEntries(Object.entries(value).flatMap(([k, v]) => (k === 'judged' ? [] : [[k, told(v)]])));
}

const shopOf = (): Shop => checkShop(SHOP, 'file:///bench.shop.yaml').shop;

describe('what is asked of a part', function () {
  this.timeout(patience(60_000));
  const names = Object.keys(QUESTIONS);
  const answers = new Map<string, unknown>();
  const fresh = (text: string, name: string) => {
    const key = `${name}\n${text}`;
    if (!answers.has(key)) answers.set(key, told(QUESTIONS[name]!(checkPart(text, shopOf()))));
    return answers.get(key);
  };

  it('is told by a shop and parts that read without a fault', () => {
    assert.deepEqual(
      checkShop(SHOP).findings.filter((f) => f.severity === 'error'),
      [],
    );
    for (const [i, [from]] of EDITS.entries()) {
      assert.ok(PART.includes(from), from);
      assert.deepEqual(checkPart(textWith(new Set([i])), shopOf()).part.problems, [], from);
    }
    for (const name of names) assert.ok(JSON.stringify(fresh(PART, name) ?? null).length > 20, `${name}: an answer`);
  });

  it('is answered as if nothing else had ever been asked, after any history', () => {
    const step = fc.record({
      edit: fc.nat(EDITS.length - 1),
      ask: fc.shuffledSubarray(names, { minLength: 1, maxLength: 4 }),
    });
    const shop = shopOf();
    let last: CheckedPart | undefined;
    fc.assert(
      fc.property(fc.array(step, { minLength: 3, maxLength: 6 }), (steps) => {
        const edits = new Set<number>();
        for (const { edit, ask } of steps) {
          if (!edits.delete(edit)) edits.add(edit);
          const text = textWith(edits);
          last = checkPart(text, shop, last);
          for (const name of ask) {
            assert.deepEqual(told(QUESTIONS[name]!(last)), fresh(text, name), `${name} with edits ${[...edits]}`);
          }
        }
      }),
      draws(11, 2),
    );
  });
});

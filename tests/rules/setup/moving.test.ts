/**
 * A feature moved from one set-up to another changes what is found of it, of what is cut after it, and of the set-ups it
 * leaves and enters; and nothing else. Each finding is compared with all its facts.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import type { Finding } from '../../../server/src/rules/kit/rule';
import { ALUMINIUM } from '../parts';
import { findingsOf, onlyFinding } from '../tester';

/** Cut through, so that top and bottom both get to them; some run into each other, near the sides, near thin walls. */
const THROUGH: Readonly<Record<string, string>> = {
  window: 'kind: pocket, face: top, at: { x: 40, y: 25 }, size: { x: 24, y: 18 }, corner-radius: 5, depth: through',
  deep: 'kind: hole, face: top, at: { x: 12, y: 25 }, diameter: 3, depth: through',
  edgy: 'kind: hole, face: top, at: { x: 26, y: 25 }, diameter: 6, depth: through',
  beside: 'kind: slot, face: top, ends: [{ x: 62, y: 16 }, { x: 62, y: 34 }], width: 8, depth: through',
  near: 'kind: hole, face: top, at: { x: 55, y: 25 }, diameter: 5, depth: through',
  corner: 'kind: hole, face: top, at: { x: 74, y: 5 }, diameter: 5.5, depth: through',
};
/** From one side only. */
const FIXED: Readonly<Record<string, string>> = {
  ramp: 'kind: slope, face: top, along: left, angle: 30, width: 20',
  hollow: 'kind: pocket, face: bottom, at: { x: 40, y: 25 }, size: { x: 60, y: 34 }, corner-radius: 6, depth: 8',
};
const NAMES = Object.keys(THROUGH);
const UPS = ['top', 'bottom', 'top'] as const;
const SETUPS = ['first', 'second', 'third'];
/** The second on the bed of the vise, where nothing may go through; the third so deep that the jaws stand in the way of some. */
const GRIPS = [10, 32, 22];

type Plan = readonly (readonly string[])[];
const text = (plan: Plan) => {
  const features = Object.entries({ ...THROUGH, ...FIXED })
    .map(([name, body]) => `  ${name}: { ${body} }\n`)
    .join('');
  const setups = plan
    .map((cuts, i) =>
      cuts.length === 0
        ? ''
        : `  ${SETUPS[i]}: { up: ${UPS[i]}, hold: { vise: mill-vise-100, jaws: [back, front], grip: ${GRIPS[i]}, parallels: ${32 - GRIPS[i]!}, stop: left }, zero: { x: left, y: back, z: parallels }, cuts: [${cuts.join(', ')}] }\n`,
    )
    .join('');
  return `${ALUMINIUM}tolerance: ISO 2768-m\nbody: { x: 80, y: 50, z: 24 }\nfeatures:\n${features}setups:\n${setups}`;
};
const told = (f: Finding) => JSON.stringify([f.rule, f.severity, f.of, f.facts]);
const baseOf = (name: string) => name.replace(/\[\d+\]$/, '');

/** How the work is seated hangs on everything that its set-up cuts. */
const OF_THE_SEAT = /^(access\/(jaw|holder)|hold\/|machine\/)/;

/** Whether it may change when `moved` goes from one plan to the other. */
function mayChange(f: Finding, moved: string, plans: readonly [Plan, Plan]): boolean {
  const names = [...f.of, ...Object.values(f.facts).map(String)].flatMap((n) => n.split(' ')).map(baseOf);
  if (names.includes(moved)) return true;
  const ofs = f.of.map(baseOf);
  const touched = plans.map((p) => p.findIndex((cuts) => cuts.includes(moved)));
  const from = Math.min(...touched);
  if (ofs.length === 0) {
    const at = SETUPS.indexOf(String(f.facts.set_up));
    return at < 0 || at >= from;
  }
  return ofs.some((name) =>
    plans.some((p) => {
      const at = p.findIndex((cuts) => cuts.includes(name));
      const there = p.findIndex((cuts) => cuts.includes(moved));
      const after = at > there || (at === there && p[at]!.indexOf(name) > p[at]!.indexOf(moved));
      return after || (OF_THE_SEAT.test(f.rule) && touched.includes(at));
    }),
  );
}

const plans = fc
  .tuple(
    fc.shuffledSubarray(NAMES, { minLength: NAMES.length }),
    fc.array(fc.integer({ min: 0, max: 2 }), { minLength: NAMES.length, maxLength: NAMES.length }),
    fc.integer({ min: 0, max: NAMES.length - 1 }),
    fc.integer({ min: 1, max: 2 }),
    fc.boolean(),
  )
  .map(([order, where, which, by, first]) => {
    const plan = [['ramp'], ['hollow'], []] as string[][];
    order.forEach((name, i) => {
      plan[where[i]!]!.push(name);
    });
    const moved = order[which]!;
    const to = (where[which]! + by) % 3;
    const other = plan.map((cuts) => cuts.filter((n) => n !== moved));
    if (first) other[to]!.unshift(moved);
    else other[to]!.push(moved);
    return { plan, other, moved };
  });

describe('moving a feature from one set-up to another', () => {
  it('changes the right findings and no others', function () {
    this.timeout(60_000);
    const shop = builtinShop();
    let changed = 0;
    fc.assert(
      fc.property(plans, ({ plan, other, moved }) => {
        const [a, b] = [plan, other].map((p) => checkPart(text(p), shop).findings) as [
          readonly Finding[],
          readonly Finding[],
        ];
        const [inA, inB] = [new Set(a.map(told)), new Set(b.map(told))];
        const differ = [...a.filter((f) => !inB.has(told(f))), ...b.filter((f) => !inA.has(told(f)))];
        changed += differ.length;
        for (const f of differ)
          assert.ok(
            mayChange(f, moved, [plan, other]),
            `${moved} moved, and changed:\n${f.rule} ${f.message}\n${JSON.stringify([plan, other])}`,
          );
      }),
      { numRuns: 8, seed: 41 },
    );
    assert.ok(changed > 8, `${changed}`);
  });
});

describe('what is drilled is what is there then', () => {
  const part = (features: string, setups: string, more = '') =>
    `${ALUMINIUM}body: { x: 80, y: 50, z: 24 }\n${more}features:\n${features}setups:\n${setups}`;
  const HOLD = 'hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }';
  const HOLE = '  deep: { kind: hole, face: top, at: { x: 40, y: 25 }, diameter: 3, depth: through }\n';

  it('a hole drilled before the hollow below it is as deep as the work; after it, as what is left', () => {
    const text = (first: string, second: string) =>
      part(
        `${HOLE}  hollow: { kind: pocket, face: bottom, at: { x: 40, y: 25 }, size: { x: 40, y: 24 }, corner-radius: 6, depth: 12 }\n`,
        `  one: { up: bottom, ${HOLD}, cuts: [${first}] }\n  two: { up: top, ${HOLD}, cuts: [${second}] }\n`,
      );
    // 12 mm are 4 diameters, 24 mm are 8.
    assert.deepEqual(findingsOf('hole/depth-ratio', text('hollow', 'deep')), []);
    const before = text('deep, hollow', 'spare').replace(
      'setups:',
      '  spare: { kind: hole, face: top, at: { x: 10, y: 25 }, diameter: 5, depth: 5 }\nsetups:',
    );
    assert.equal(onlyFinding('hole/depth-ratio', before).facts.depth_mm, 24);
  });

  it('stock that is still on the face is drilled through as well', () => {
    const at = (cuts: string) =>
      findingsOf(
        'hole/depth-ratio',
        part(
          HOLE.replace('through', '14'),
          `  one: { up: top, ${HOLD}, cuts: [${cuts}] }\n`,
          'stock: { form: block, extra: { top: 3 } }\n',
        ),
      );
    assert.deepEqual(at('top, deep'), []);
    assert.equal(at('deep, top')[0]?.facts.depth_mm, 17);
  });

  it('a hole that comes out on a slope starts on the flat where it is drilled before the slope', () => {
    const at = (cuts: string) =>
      findingsOf(
        'hole/sloped-start',
        part(
          '  slope: { kind: slope, face: top, along: left, angle: 30, width: 30 }\n  pin: { kind: hole, face: top, at: { x: 15, y: 25 }, diameter: 6, depth: through }\n',
          `  one: { up: top, ${HOLD}, cuts: [${cuts}] }\n`,
        ),
      ).length;
    assert.deepEqual([at('slope, pin'), at('pin, slope')], [1, 0]);
  });

  it('a hole half in a pocket drifts where the pocket is there, not where it is cut later', () => {
    const at = (cuts: string) =>
      findingsOf(
        'hole/crosses',
        part(
          '  bay: { kind: pocket, face: top, at: { x: 40, y: 25 }, size: { x: 30, y: 20 }, corner-radius: 5, depth: 14 }\n  pin: { kind: hole, face: top, at: { x: 56.5, y: 25 }, diameter: 6, depth: 20 }\n',
          `  one: { up: top, ${HOLD}, cuts: [${cuts}] }\n`,
        ),
      ).length;
    assert.deepEqual([at('bay, pin'), at('pin, bay')], [1, 0]);
  });
});

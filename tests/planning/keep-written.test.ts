/** Whatever a person wrote into a set-up is in the text that a plan is written into: as it was, or as a remark. */
import assert from 'node:assert/strict';
import { setup as setupSchema } from '../../server/src/model/schema/part';
import { shapeOf } from '../../server/src/model/schema/shape';
import { writePlan } from '../../server/src/planning/keep';
import { planOf } from '../../server/src/planning/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';

const MACHINE = 'travel: { x: 300, y: 200, z: 300 }, spindle: { rpm: [100, 6000], power: 2 kW }';
const SHOP = checkShop(`shop: attic
machines:
  small: { ${MACHINE} }
  large: { ${MACHINE.replace('300', '600')} }
  tiny: { ${MACHINE}, takes: [plastic] }
parallels: [10, 14, 22, 26]
vises:
  vise: { jaw: { width: 100, height: 30 }, opens: 100, force: 12 kN, face: smooth }
tools:
  dr-4: { kind: drill, diameter: 4, flute-length: 40 }
  dr-8: { kind: drill, diameter: 8, flute-length: 60 }
  em-6: { kind: end-mill, diameter: 6, reach: 20 }
`).shop;
const HEAD = `part: foot
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  spike: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: 7 }
  lock: { kind: hole, face: front, at: { x: 12, z: 8 }, diameter: 4, depth: 12 }
`;
const HOLD = 'vise: vise, jaws: [back, front], grip: 9';
const setup = (name: string, up: string, cuts: string, more: string, hold = HOLD) =>
  `  ${name}:\n    up: ${up}\n    hold: { ${hold} }\n    zero: { x: left, y: ${up === 'top' ? 'back' : 'parallels'}, z: ${up === 'top' ? 'parallels' : 'bottom'} }\n    cuts: [${cuts}]\n${more}`;
const OTHER = 'vise: vise, jaws: [bottom, top], grip: 20';

function written(text: string): string {
  const checked = checkPart(text, SHOP);
  const plan = planOf(checked);
  assert.ok(plan && plan.uncut.length === 0);
  const answer = writePlan(plan, checked);
  assert.ok(!answer.kept, `${answer.kept}: ${answer.kept && answer.why}`);
  const form = checkPart(answer.text, SHOP).findings.filter((f) => f.severity === 'error');
  assert.deepEqual(
    form.map((f) => f.message),
    [],
    answer.text,
  );
  return answer.text;
}

/** By field: lines that a person may write, and what of them must be found afterwards. */
const FIELDS: Readonly<Record<string, 'replaced' | readonly (readonly [line: string, stays: RegExp])[]>> = {
  up: 'replaced',
  zero: 'replaced',
  // The faces of a hold and the order of cuts are what a plan is; what else is in them stays as a remark.
  cuts: 'replaced',
  hold: 'replaced',
  machine: [['machine: large', /^ {4}machine: large$/m]],
  method: [['method: probe', /method: probe/]],
  clock: [['clock: { indicator: back }', /clock: \{ indicator: back \}/]],
  tools: [['tools: { spike: dr-8 }', /^ {4}tools: \{ spike: dr-8 \}$/m]],
  note: [['note: square it up', /square it up/]],
};

describe('a plan written over set-ups', function () {
  this.timeout(60_000);

  it('says of every field of a set-up what becomes of it', () => {
    const shape = shapeOf(setupSchema);
    assert.ok(shape.type === 'map');
    assert.deepEqual(Object.keys(FIELDS).sort(), [...shape.keys.keys()].sort());
  });

  for (const [field, lines] of Object.entries(FIELDS))
    if (lines !== 'replaced')
      for (const [line, stays] of lines)
        it(`keeps ${field}, in a set-up that stays and in one that goes`, () => {
          // `first` has its name and face in every plan of this part; `last-of-all` is no plan’s name.
          for (const name of ['first', 'last-of-all']) {
            const text = `${HEAD}setups:\n${setup(name, 'top', 'spike', `    ${line}\n`)}${setup('other', 'front', 'lock', '', OTHER)}`;
            const after = written(text);
            assert.match(
              after,
              name === 'first' ? stays : new RegExp(stays.source.replace(/\^ \{4\}|\$$/g, ''), 'm'),
              after,
            );
            const again = checkPart(after, SHOP);
            const same = writePlan(planOf(again)!, again);
            assert.equal(same.kept, 'same', same.kept ? same.why : same.text);
          }
        });

  it('keeps what is special in a hold, or in a cut of a saw, as a remark', () => {
    for (const [hold, stays] of [
      [`${HOLD}, pieces: 2, gap: 14, pad: 1`, /# first: hold: \{ .*pieces: 2, gap: 14, pad: 1 \}/],
      [`${HOLD}, overhang: { left: 6 }`, /# first: hold: \{ .*overhang: \{ left: 6 \} \}|overhang: \{ left: 6 \}/],
      [`${HOLD}, apart: 200`, /# first: hold: \{ .*apart: 200 \}/],
      ['clamps: [{ x: 6, y: center }, { right: 6, y: center }], on: plate', /# first: hold: \{ clamps: .*on: plate/],
    ] as const) {
      const after = written(
        `${HEAD}setups:\n${setup('first', 'top', 'spike', '', hold)}${setup('second', 'front', 'lock', '', OTHER)}`,
      );
      assert.match(after, stays, after);
    }
    const sawn = `${HEAD}setups:\n${setup('first', 'top', 'spike, { cut: right, by: saw, leave: 1 }', '')}${setup('second', 'front', 'lock', '', OTHER)}`;
    assert.match(written(sawn), /by: saw, leave: 1/);
  });

  it('is made on the machine that every set-up names, and says so where that one cannot', () => {
    const on = (...machines: readonly string[]) =>
      written(
        `${HEAD}setups:\n${setup('one', 'top', 'spike', `    machine: ${machines[0]}\n`)}${setup('two', 'front', 'lock', machines[1] ? `    machine: ${machines[1]}\n` : '', OTHER)}`,
      );
    assert.equal(on('large', 'large').match(/machine: large/g)?.length, 2);
    assert.match(on('tiny', 'tiny'), /# one: machine: tiny\n {2}# two: machine: tiny\n[\s\S]*machine: small/);
    assert.match(on('large'), /# one: machine: large/);
  });
});

/** What a machine takes, by families of materials: what is small or fast refuses steel, in each set-up on its own machine. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import { planOf } from '../../../server/src/planning/plan';
import { checkPart } from '../../../server/src/rules/check';
import { readText } from '../../../server/src/text/read';

const shopOf = (takes: string, second = '') => {
  const shop = resolveShop(
    readText(`shop: attic
machines:
  router: { travel: { x: 600, y: 400, z: 100 }, spindle: { rpm: [3000, 24000], power: 0.8 kW }${takes} }
${second}vises: { small: { jaw: { width: 80, height: 32 }, opens: 80, force: 8 kN } }
parallels: [20]
tools:
  dr-6: { kind: drill, diameter: 6, flute-length: 57 }
`),
  );
  return shop;
};
const MILL = '  mill: { travel: { x: 300, y: 200, z: 300 }, spindle: { rpm: [100, 3000], power: 1 kW } }\n';
const SETUP = `setups:
  first:
    up: top
    hold: { vise: small, jaws: [back, front], grip: 8, parallels: 20 }
    cuts: [mount]
`;
const told = (material: string, shop: ReturnType<typeof shopOf>, setups = '') =>
  checkPart(
    `part: bracket\nmaterial: ${material}\nbody: { x: 60, y: 40, z: 20 }\nfeatures:\n  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 6, depth: through }\n${setups}`,
    shop,
  ).findings.filter((f) => f.rule === 'machine/material');

describe('machine/material', () => {
  it('refuses what is not on the list, and takes what is, or everything where none is given', () => {
    const takes = ', takes: [plastic, aluminium]';
    for (const material of ['steel-s235jr', 'stainless-303', 'titanium-6al-4v']) {
      const [one, ...more] = told(material, shopOf(takes));
      assert.deepEqual([one?.severity, more.length], ['error', 0], material);
      assert.match(one!.message, /router takes plastic and aluminium alone\. Choose another material/);
    }
    for (const material of ['aluminium-6061-t6', 'pom-c']) assert.deepEqual(told(material, shopOf(takes)), []);
    assert.deepEqual(told('steel-s235jr', shopOf('')), []);
  });

  it('asks each set-up’s own machine where another of the shop takes it', () => {
    const shop = shopOf(', takes: [plastic]', MILL);
    assert.deepEqual(told('steel-s235jr', shop), []);
    assert.match(told('steel-s235jr', shop, SETUP)[0]!.message, /Use mill for set-up first\./);
    assert.deepEqual(told('steel-s235jr', shop, `${SETUP}    machine: mill\n`), []);
    assert.match(told('steel-s235jr', shop, `${SETUP}    machine: router\n`)[0]!.message, /takes plastic alone/);
  });

  it('keeps no plan from being made where another machine takes it', () => {
    const shop = shopOf(', takes: [plastic]', MILL);
    const text =
      'part: bracket\nmaterial: steel-s235jr\nbody: { x: 60, y: 40, z: 20 }\nfeatures:\n  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 6, depth: through }\n';
    const checked = checkPart(text, shop);
    const plan = planOf(checked)!;
    assert.deepEqual([plan.setups.length, plan.uncut], [1, []]);
  });

  it('says where the shop names a family that there is none of', () => {
    const { problems } = shopOf(', takes: [wood]');
    assert.match(problems.map((p) => p.message).join(), /wood/);
  });
});

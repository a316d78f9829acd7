/**
 * Parts worked by hand, whose least number of set-ups follows from published rules of set-up planning: features are grouped
 * by the direction their tool comes from, datums by the state of their surface, and precedence orders what is left
 * (Hazarika and Dixit, Setup Planning for Machining, Springer 2015, chapter 2).
 */
import assert from 'node:assert/strict';
import { OPPOSITE } from '../../server/src/model/model';
import { planOf } from '../../server/src/planning/plan';
import { checkPart } from '../../server/src/rules/check';
import { SHOP } from './parts';

const part = (features: string, stock = '') => `part: block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 24 }
${stock}features:
${features}`;
const hole = (name: string, face: string, a: string, b: string, depth: string) =>
  `  ${name}: { kind: hole, face: ${face}, at: { ${a}: center, ${b}: center }, diameter: 5.5, depth: ${depth} }\n`;
const plan = (text: string) => planOf(checkPart(text, SHOP))!;
const ups = (text: string) => plan(text).setups.map((s) => s.setup.up?.name);

describe('plans of parts worked by hand', () => {
  it('grouping by approach: all that one direction reaches is one set-up, through or blind', () => {
    const text = part(
      `${hole('tie', 'top', 'x', 'y', 'through')}  seat: { kind: pocket, face: top, at: { x: 14, y: center }, diameter: 14, depth: 5 }\n`,
    );
    assert.deepEqual(ups(text), ['top']);
    assert.equal(plan(text).proof, 'bound');
  });

  it('grouping by approach: a through hole goes with what can be cut from one side only', () => {
    const text = part(
      `${hole('tie', 'top', 'x', 'y', 'through')}  under: { kind: pocket, face: bottom, at: { x: 14, y: center }, diameter: 14, depth: 5 }\n`,
    );
    assert.deepEqual(ups(text), ['bottom']);
  });

  it('blind holes in n faces need n set-ups, no more', () => {
    const faces = [
      ['top', 'x', 'y'],
      ['left', 'y', 'z'],
      ['front', 'x', 'z'],
    ] as const;
    for (const n of [1, 2, 3]) {
      const text = part(
        faces
          .slice(0, n)
          .map(([f, a, b]) => hole(f, f, a, b, '6'))
          .join(''),
      );
      const found = plan(text);
      assert.equal(found.setups.length, n);
      assert.equal(found.bound, n);
      assert.deepEqual(
        ups(text).sort(),
        faces
          .slice(0, n)
          .map(([f]) => f)
          .sort(),
      );
    }
  });

  it('precedence: a hole from a pocket’s floor comes after the pocket, an edge after what bounds its face', () => {
    const text = part(`  seat: { kind: pocket, face: top, at: { x: center, y: center }, diameter: 20, depth: 5 }
  tie: { kind: hole, face: top, from: seat, at: { x: center, y: center }, diameter: 5.5, depth: 8 }
  ledge: { kind: step, face: top, along: left, width: 6, depth: 4 }
  rim: { kind: chamfer, edges: top, size: 0.5 }
`);
    const [only, ...more] = plan(text).setups;
    assert.equal(more.length, 0);
    const order = only!.setup.cuts.map((c) => c.name);
    assert.ok(order.indexOf('seat') < order.indexOf('tie'), order.join());
    assert.ok(order.indexOf('ledge') < order.indexOf('rim'), order.join());
  });

  it('datum: with both ends raw and shorter than the jaws each end takes a set-up, the second measured from the first', () => {
    const text = part(
      hole('tie', 'top', 'x', 'y', '8'),
      'stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }\n',
    );
    const { setups, proof, bound } = plan(text);
    assert.equal(bound, 1);
    assert.equal(proof, 'tried');
    assert.equal(setups.length, 2);
    const [first, second] = setups.map((s) => s.setup);
    const milled = first!.cuts[0]!.name;
    assert.ok(milled === 'left' || milled === 'right');
    // Against the stop, or lying on it.
    const lies = second!.up!.name === OPPOSITE[milled] && second!.zero.x?.name === 'parallels';
    assert.ok(lies || (second!.hold?.stop?.name === milled && second!.zero.x?.name === milled));
  });

  it('a hole that no drill on hand is long enough for is told, and the rest is planned', () => {
    const text = part(`${hole('long', 'left', 'y', 'z', '58')}${hole('tie', 'top', 'x', 'y', '8')}`);
    const { uncut: left, setups } = plan(text);
    assert.deepEqual(
      left.map((l) => [l.item.name, l.why?.rule]),
      [['long', 'access/reach']],
    );
    assert.deepEqual(
      setups.flatMap((s) => s.setup.cuts.map((c) => c.name)),
      ['tie'],
    );
  });

  it('a through hole that no drill is long enough for is drilled half from each end', () => {
    const text = part(`${hole('long', 'left', 'y', 'z', 'through')}${hole('tie', 'top', 'x', 'y', '8')}`);
    const { uncut: left, setups } = plan(text);
    assert.deepEqual(left, []);
    assert.deepEqual(
      setups.flatMap((s) => s.setup.cuts.map((c) => `${s.setup.up!.name}: ${c.name} ${c.depth ?? 'whole'}`)).sort(),
      ['left: long half', 'right: long half', 'top: tie whole'],
    );
  });
});

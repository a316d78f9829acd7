/** Clear of hardened steel by the shop's margin: over the jaws, past their ends; and how far the work stands out of them. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { standsOutOf } from '../../../server/src/report/stands-out';
import { checkPart } from '../../../server/src/rules/check';
import { ALUMINIUM } from '../parts';
import { endMill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'access/jaw';

/** A rail whose ends are milled with the jaws as long as it will be. */
const rail = (hold = '', long = 100) => `${ALUMINIUM}body: { x: ${long}, y: 40, z: 16 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
setups:
  ends:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22${hold} }
    zero: { x: left, y: back, z: parallels }
    cuts: [left, right]
`;

/** The top of a block faced, so much of it between the jaws. */
const block = (grip: number) => `${ALUMINIUM}body: { x: 60, y: 45, z: 20 }
stock: { form: block, sawn: [top], extra: { top: 2 } }
setups:
  facing:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: ${grip} }
    zero: { x: left, y: back, z: parallels }
    cuts: [top]
`;

describe('a margin to hardened steel', () => {
  it('past the ends of the jaws: run into or touched an error, nearer than the margin a warning, more is clean', () => {
    const at = (long: number) => findingsOf(RULE, rail('', long)).map((f) => f.severity);
    assert.deepEqual(at(98), ['error', 'error']);
    assert.deepEqual(at(100), ['error', 'error']);
    assert.deepEqual(at(100.1), ['warning', 'warning']);
    assert.deepEqual(at(101.9), ['warning', 'warning']);
    assert.deepEqual(at(102.1), []);
    assert.equal(findingsOf(RULE, rail('', 101))[0]!.facts.clear_mm, 0.5);
  });

  it('over their tops: flush grazes, 1 mm is clear; less in the jaws is offered', () => {
    const found = onlyFinding(RULE, block(20));
    assert.deepEqual([found.severity, found.facts.clear_mm, found.facts.margin_mm], ['error', 0, 1]);
    const half = onlyFinding(RULE, block(19.5));
    assert.deepEqual([half.severity, half.facts.clear_mm], ['warning', 0.5]);
    assert.deepEqual(findingsOf(RULE, block(19)), []);
    assert.deepEqual(findingsOf(RULE, mended(RULE, block(20), /^Grip \d/)), []);
  });

  it('is the shop’s: it sets another', () => {
    const shop = (clear: number) => shopWith(endMill('em-10', 10, 40), `  access/jaw: { clear: ${clear} }`);
    const text = block(19).replace('mill-vise-100', 'vise');
    assert.deepEqual(findingsOf(RULE, text, shop(1)), []);
    assert.equal(onlyFinding(RULE, text, shop(2)).facts.margin_mm, 2);
    assert.deepEqual(findingsOf(RULE, block(19.5).replace('mill-vise-100', 'vise'), shop(0.5)), []);
  });

  it('does not count where the work itself stands between: a pocket beside a thin wall', () => {
    const text = `${ALUMINIUM}body: { x: 60, y: 30, z: 20 }
features:
  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 28.4 }, corner-radius: 6, depth: 14 }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [well] }
`;
    assert.deepEqual(findingsOf(RULE, text), []);
  });
});

describe('what is swept away from the walls', () => {
  const step = (width: number, deep: number) => `${ALUMINIUM}body: { x: 60, y: 40, z: 24 }
features:
  ledge: { kind: step, face: top, along: front, width: ${width}, depth: ${deep} }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    cuts: [ledge]
`;
  const tools = shopWith(endMill('em-10', 10, 34));
  const clear = (width: number, deep: number) =>
    findingsOf(RULE, step(width, deep).replace('mill-vise-100', 'vise'), tools).map((f) => f.facts.clear_mm);

  it('a step wider than any cutter goes over the jaw at its side like a narrow one', () => {
    // The floor 0.5 mm above the tops of the jaws; then a margin above.
    for (const width of [4, 12, 30]) {
      assert.deepEqual(clear(width, 13.5), [0.5], `${width}`);
      assert.deepEqual(clear(width, 13), [], `${width}`);
    }
  });

  it('nothing is swept where the cut ends inside the work', () => {
    const inside = step(30, 13.5)
      .replace('kind: step', 'kind: pocket')
      .replace('along: front, width: 30', 'at: { x: center, y: center }, size: { x: 40, y: 20 }, corner-radius: 6');
    assert.deepEqual(findingsOf(RULE, inside.replace('mill-vise-100', 'vise'), tools), []);
  });

  it('the nut below a saw passes over the jaw too', () => {
    const saw = shopWith(
      'saw-40: { kind: slitting-saw, diameter: 40, thickness: 1, flange: 14, below: 3, reach: 20, shank: 12, material: hss }\n',
    );
    const slit = (y: number) => `${ALUMINIUM}body: { x: 26, y: 27, z: 28 }
features:
  slit: { kind: slot, face: top, ends: [{ x: -8, y: ${y} }, { x: 34, y: ${y} }], width: 1, depth: 3 }
setups:
  first: { up: front, hold: { vise: vise, jaws: [bottom, top], grip: 10 }, cuts: [slit] }
`;
    // Its lower side 3 mm above the jaws, and the nut 3 below that.
    const [near] = findingsOf(RULE, slit(13.5), saw);
    assert.deepEqual([near?.severity, near?.facts.clear_mm], ['error', 0]);
    assert.deepEqual(findingsOf(RULE, slit(12.5), saw), []);
  });
});

describe('how far the work stands out of the jaws', () => {
  const told = (text: string) => standsOutOf(checkPart(text, builtinShop()))[0]?.text;

  it('is worked out and told: in the middle where nothing is said', () => {
    assert.equal(
      told(rail('', 120)),
      '10 mm in the jaws of mill-vise-100, 6 mm above the jaws, 12 mm out of them on the left, 12 mm out of them on the right',
    );
    assert.match(told(rail('', 60)) ?? '', /18 mm inside them on the left, 18 mm inside them on the right/);
  });

  it('can be written: the jaws stand there, and what is cut is judged by it', () => {
    const written = rail(', overhang: { left: 20 }', 120);
    assert.match(told(written) ?? '', /20 mm out of them on the left, 4 mm out of them on the right/);
    assert.deepEqual(findingsOf(RULE, written), []);
    // 2.5 mm of bar and 0.5 of the finished part out of the jaws.
    const near = onlyFinding(RULE, rail(', overhang: { right: 2.5 }', 120));
    assert.deepEqual([near.of, near.facts.clear_mm], [['right'], 0.5]);
    assert.equal(onlyFinding(RULE, rail(', overhang: { right: 1 }', 120)).severity, 'error');
  });

  it('at one end along the jaws, and at no other', () => {
    const problem = (overhang: string) => onlyFinding('form/schema', rail(`, overhang: ${overhang}`)).message;
    assert.match(problem('{ front: 4 }'), /front is neither of them/);
    assert.match(problem('{ top: 4 }'), /top is neither of them/);
    assert.match(problem('{ left: 4, right: 4 }'), /one is enough/);
  });
});

describe('a strap that stands beside the cut', () => {
  /** Upright against an angle plate, 40 mm out above it; the straps press on the front, 25 mm wide. */
  const upright = (z: number, y = 0) => `${ALUMINIUM}body: { x: 60, y: 20, z: 130 }
features:
  shelf: { kind: pocket, face: top, at: { x: center, y: ${y + 2} }, size: { x: 80, y: 4 }, depth: 8 }
setups:
  first:
    up: top
    hold: { angle-plate: angle-plate-100, against: back, out: 40, clamps: [{ x: 15, z: ${z} }, { x: 45, z: ${z} }] }
    cuts: [shelf]
`;

  it('is touched by whatever cutter takes what is right beside it, and told', () => {
    // The floor is at 122: straps up to 130.5 stand higher, up to 121 keep the margin of 1 mm.
    const { severity, facts } = onlyFinding(RULE, upright(118));
    assert.deepEqual([severity, facts.clear_mm], ['error', 0]);
    assert.deepEqual(findingsOf(RULE, upright(108)), []);
    // As far below the floor as it is under the margin.
    assert.equal(onlyFinding(RULE, upright(109)).facts.clear_mm, 0.5);
  });

  it('is none where what is cut keeps off it', () => {
    assert.deepEqual(findingsOf(RULE, upright(118, 12)), []);
  });
});

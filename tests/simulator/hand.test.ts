/** Parts small enough to know the answer by hand. */
import assert from 'node:assert/strict';
import { partOf, shopOf } from './parts';
import { type Report, simulate } from './simulate';

const BASE = `shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } } }
vises: { vise: { jaw: { width: 40, height: 32 }, opens: 110, force: 15 kN } }
parallels: [10, 14, 18, 22, 26]
holders: { collet: { diameter: 30, length: 50 } }
`;
const EM6 =
  'em-6: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 20, shank: 6, holder: collet, stickout: 24 }';
const EM3 =
  'em-3: { kind: end-mill, diameter: 3, flutes: 3, flute-length: 9, reach: 12, shank: 6, holder: collet, stickout: 20 }';
const EM12 =
  'em-12: { kind: end-mill, diameter: 12, flutes: 3, flute-length: 26, reach: 40, shank: 12, holder: collet, stickout: 45 }';
const DR5 = 'dr-5: { kind: drill, diameter: 5, flute-length: 52, holder: collet, stickout: 70 }';
const withTools = (...tools: string[]) => shopOf(`${BASE}tools:\n${tools.map((t) => `  ${t}\n`).join('')}`);

function run(body: string, features: string, setup: string, ...tools: string[]): Report {
  return finely(0.45, body, features, setup, ...tools);
}
function finely(fineMm: number, body: string, features: string, setup: string, ...tools: string[]): Report {
  const text = `part: piece\nmaterial: aluminium-6061-t6\nbody: ${body}\nfeatures:\n${features}\nsetups:\n  only:\n${setup}\n`;
  return simulate(partOf(text), withTools(...tools), { fineMm });
}
const held = (up: string, cuts: string, jaws = '[back, front]', grip = 10, more = '') =>
  `    up: ${up}\n    hold: { vise: vise, jaws: ${jaws}, grip: ${grip}${more} }\n    cuts: [${cuts}]`;
const metIn = (r: Report) => r.setups.flatMap((s) => s.cuts.flatMap((c) => c.met));
const near = (got: number, wanted: number, share: number) =>
  assert.ok(Math.abs(got - wanted) <= share * wanted, `${got}, not ${wanted}`);

describe('known by hand', () => {
  it('a square corner keeps (1 − π/4) r² h of a round cutter', () => {
    const pocket = '  p: { kind: pocket, face: top, at: { x: 20, y: 15 }, size: { x: 20, y: 14 }, depth: 5 }';
    const r = finely(0.2, '{ x: 40, y: 30, z: 20 }', pocket, held('top', 'p'), EM6);
    near(r.setups[0]!.cuts[0]!.leftMm3, 4 * (1 - Math.PI / 4) * 9 * 5, 0.06);
    near(r.setups[0]!.cuts[0]!.removedMm3, 20 * 14 * 5 - 4 * (1 - Math.PI / 4) * 9 * 5, 0.002);
    assert.equal(r.right, false);
    assert.deepEqual(r.excess.of, ['p']);
    // As far in from the cut as the corner is from the circle: (√2 − 1) r.
    near(r.excess.depthMm, (Math.SQRT2 - 1) * 3, 0.1);
    assert.equal(r.gouged.volumeMm3, 0);
  });

  it('the same corner rounded to the cutter is clean', () => {
    const pocket =
      '  p: { kind: pocket, face: top, at: { x: 20, y: 15 }, size: { x: 20, y: 14 }, corner-radius: 3, depth: 5 }';
    const r = finely(0.2, '{ x: 40, y: 30, z: 20 }', pocket, held('top', 'p'), EM6);
    assert.equal(r.right, true, JSON.stringify(r));
    near(r.setups[0]!.cuts[0]!.removedMm3, (20 * 14 - (4 - Math.PI) * 9) * 5, 0.003);
  });

  it('a slot as wide as its cutter is made by it, one a tenth narrower is not', () => {
    const slot = (w: number) =>
      `  s: { kind: slot, face: top, ends: [{ x: 8, y: 15.3 }, { x: 32, y: 15.3 }], width: ${w}, depth: 6 }`;
    const whole = run('{ x: 40, y: 30, z: 20 }', slot(6), held('top', 's'), EM6);
    assert.equal(whole.right, true, JSON.stringify(whole));
    near(whole.setups[0]!.cuts[0]!.removedMm3, (24 * 6 + Math.PI * 9) * 6, 0.003);
    const narrow = run('{ x: 40, y: 30, z: 20 }', slot(5.9), held('top', 's'), EM6);
    assert.equal(narrow.setups[0]!.cuts[0]!.removedMm3, 0);
    assert.deepEqual(narrow.excess.of, ['s']);
  });

  it('a hole of ten diameters keeps its bottom when the flutes end before it', () => {
    const hole = '  h: { kind: hole, face: top, at: { x: 20, y: 15 }, diameter: 5, depth: 50 }';
    const short = DR5.replace('52', '30');
    const r = run('{ x: 40, y: 30, z: 60 }', hole, held('top', 'h', '[back, front]', 18), short);
    // 20 mm of it, and what stands beside the cone of the point, 2.5 / tan 59° long: it is a part of the flutes' length
    // (common practice, no source). Depths are tried in layers of 1.5 mm.
    const [area, point] = [(Math.PI / 4) * 25, 2.5 / Math.tan((59 * Math.PI) / 180)];
    const left = r.setups[0]!.cuts[0]!.leftMm3;
    assert.ok(left > area * (20 + (2 * point) / 3) * 0.99 && left < area * (21.5 + (2 * point) / 3) * 1.01, `${left}`);
    assert.deepEqual(metIn(r), ['shank']);
    assert.equal(run('{ x: 40, y: 30, z: 60 }', hole, held('top', 'h', '[back, front]', 18), DR5).right, true);
  });

  it("a shank as thick as its cutter rubs below the cutter's reach", () => {
    const slot = (d: number) =>
      `  s: { kind: slot, face: top, ends: [{ x: -8, y: 15 }, { x: 48, y: 15 }], width: 6, depth: ${d} }`;
    const long = EM6.replace('24', '40');
    assert.equal(run('{ x: 40, y: 30, z: 40 }', slot(19.5), held('top', 's'), long).right, true);
    const deep = run('{ x: 40, y: 30, z: 40 }', slot(25), held('top', 's'), long);
    assert.equal(deep.right, false);
    assert.deepEqual(metIn(deep), ['shank']);
    assert.deepEqual(deep.excess.of, ['s']);
  });

  it('a thick shank over a thin cutter meets the wall beside it', () => {
    const step = '  s: { kind: step, face: top, along: right, width: 10, depth: 14 }';
    const groove = (x: number) =>
      `  g: { kind: slot, face: top, from: s, ends: [{ x: ${x}, y: -9 }, { x: ${x}, y: 39 }], width: 3, depth: 3 }`;
    const at = (x: number) =>
      run(
        '{ x: 40, y: 30, z: 40 }',
        `${step}\n${groove(x)}`,
        held('top', 's, g'),
        EM12,
        EM3.replace('stickout: 20', 'stickout: 40'),
      );
    // 17 deep with a reach of 12: the shank is 3 off the axis, the wall at x = 30.
    assert.equal(at(34).right, true);
    const close = at(32.5);
    assert.deepEqual(metIn(close), ['shank']);
    assert.deepEqual(close.excess.of, ['g']);
  });

  it('a holder that stands out too little meets the work', () => {
    const pocket =
      '  p: { kind: pocket, face: top, at: { x: 20, y: 15 }, size: { x: 20, y: 16 }, corner-radius: 3.5, depth: 18 }';
    assert.equal(run('{ x: 40, y: 30, z: 40 }', pocket, held('top', 'p'), EM6).right, true);
    const r = run('{ x: 40, y: 30, z: 40 }', pocket, held('top', 'p'), EM6.replace('stickout: 24', 'stickout: 16'));
    assert.deepEqual(metIn(r), ['holder']);
  });

  it('a step below the tops of the jaws meets them', () => {
    const step = (d: number) => `  s: { kind: step, face: top, along: front, width: 5, depth: ${d} }`;
    assert.equal(run('{ x: 40, y: 30, z: 20 }', step(9.5), held('top', 's'), EM12).right, true);
    const r = run('{ x: 40, y: 30, z: 20 }', step(12), held('top', 's'), EM12);
    assert.deepEqual(metIn(r), ['jaw']);
    assert.deepEqual(r.excess.of, ['s']);
    // A pocket as deep, away from the jaws, does not.
    const pocket = '  p: { kind: pocket, face: top, at: { x: 20, y: 15 }, diameter: 16, depth: 12 }';
    assert.equal(run('{ x: 40, y: 30, z: 20 }', pocket, held('top', 'p'), EM6).right, true);
  });

  it('a hole through the work meets the parallel under it, beside it not, on the bed the bed', () => {
    // One at each end: whichever way the work stands out of the jaws, one of them is between them.
    const hole = (y: number) =>
      `  h: { kind: hole, face: top, at: { x: 20, y: ${y} }, pattern: { line: { x: 28, count: 2 } }, diameter: 5, depth: through }`;
    assert.equal(run('{ x: 40, y: 30, z: 20 }', hole(15), held('top', 'h'), DR5).right, true);
    assert.deepEqual(metIn(run('{ x: 40, y: 30, z: 20 }', hole(4), held('top', 'h'), DR5)), ['parallel']);
    const flat = run('{ x: 40, y: 30, z: 50 }', hole(15), held('top', 'h', '[back, front]', 32), DR5);
    assert.deepEqual(metIn(flat), ['bed']);
  });

  it('an end that is faced meets the stop against it, the other end not', () => {
    const features = '  h: { kind: hole, face: top, at: { x: 20, y: 15 }, diameter: 5, depth: 6 }';
    const text = (stop: string) => `part: piece
body: { x: 60, y: 30, z: 20 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
${features}
setups:
  first: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10, stop: ${stop} }, cuts: [h, left] }
  second: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10, stop: left }, cuts: [right] }
`;
    const shop = withTools(EM12, DR5);
    const good = simulate(partOf(text('right')), shop);
    assert.equal(good.right, true, JSON.stringify(good));
    const r = simulate(partOf(text('left')), shop);
    assert.ok(r.setups[0]!.cuts[1]!.met.includes('stop'), JSON.stringify(r));
    assert.deepEqual(r.excess.of, ['left']);
  });

  it('a drill over its size cuts what should stay; what no set-up cuts is left', () => {
    const two =
      '  h: { kind: hole, face: top, at: { x: 12, y: 15 }, diameter: 4.8, depth: 8 }\n  p: { kind: pocket, face: top, at: { x: 28, y: 15 }, diameter: 10, depth: 3 }';
    const text = (cuts: string) =>
      partOf(`part: piece\nbody: { x: 40, y: 30, z: 20 }\nfeatures:\n${two}\nsetups:\n  only:\n${held('top', cuts)}\n`);
    const forced = simulate(text('h, p'), withTools(DR5.replace('diameter: 5', 'diameter: 5.8'), EM6), {
      tools: [{ cut: 'h', tools: ['dr-5'] }],
      fineMm: 0.2,
    });
    assert.equal(forced.right, false);
    assert.ok(forced.gouged.volumeMm3 > 0 || forced.excess.of.includes('h'), JSON.stringify(forced));
    const left = simulate(text('h'), withTools(DR5.replace('diameter: 5', 'diameter: 4.8'), EM6), { fineMm: 0.2 });
    assert.deepEqual(left.excess.of, ['p']);
    near(left.excess.volumeMm3, (Math.PI / 4) * 100 * 3, 0.02);
  });
});

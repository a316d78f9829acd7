/** Discs that cut from beside, on parts small enough to know the answer by hand. */
import assert from 'node:assert/strict';
import { partOf, shopOf } from './parts';
import { type Report, simulate } from './simulate';

const shop = (tool: string) =>
  shopOf(`shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [60, 5000], power: 1.1 kW } } }
vises: { vise: { jaw: { width: 60, height: 32 }, opens: 110, force: 15 kN } }
parallels: [10, 14, 18, 22, 26]
holders: { collet: { diameter: 30, length: 50 } }
tools:
  disc: ${tool}
`);
const TEE =
  '{ kind: tee-cutter, diameter: 20, neck: 8, thickness: 4, reach: 30, material: hss, holder: collet, stickout: 40 }';
const SAW = '{ kind: slitting-saw, diameter: 40, thickness: 1, flange: 14, below: 3, reach: 30, shank: 12 }';
const cut = (feature: string, tool: string, grip = 6): Report =>
  simulate(
    partOf(`part: piece
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 16 }
features: { f: { ${feature} } }
setups: { only: { up: front, hold: { vise: vise, jaws: [bottom, top], grip: ${grip} }, cuts: [f] } }
`),
    shop(tool),
    { fineMm: 0.5 },
  );
const key = (more = '', y = 10) =>
  `kind: keyway, face: top, at: { x: center, y: ${y} }, along: x, length: 18, width: 4, depth: 3, ends: run-out, cutter: 20${more}`;
const slit = (y: number, depth: number, width = 1) =>
  `kind: slot, face: top, ends: [{ x: -8, y: ${y} }, { x: 48, y: ${y} }], width: ${width}, depth: ${depth}`;
const metIn = (r: Report) => r.setups.flatMap((s) => s.cuts.flatMap((c) => c.met));

describe('a disc from beside, known by hand', () => {
  it('leaves the level floor and its own round at both ends', () => {
    const r = cut(key(), TEE);
    assert.equal(r.right, true, JSON.stringify(r));
    // Two halves of a segment 3 high of a circle of 10.
    const segment = 100 * Math.acos(0.7) - 7 * Math.sqrt(2 * 10 * 3 - 9);
    const wanted = 4 * (18 * 3 + segment);
    const got = r.setups[0]!.cuts[0]!.removedMm3;
    assert.ok(Math.abs(got - wanted) < 0.02 * wanted, `${got}, not ${wanted}`);
  });

  it('too thick cuts nothing of it, half as thick cuts it in two passes, a larger one leaves the run-outs', () => {
    assert.deepEqual(cut(key(), TEE.replace('thickness: 4', 'thickness: 4.2')).excess.of, ['f']);
    assert.equal(cut(key(), TEE.replace('thickness: 4', 'thickness: 2')).right, true);
    assert.deepEqual(cut(key(), TEE.replace('diameter: 20', 'diameter: 30')).excess.of, ['f']);
  });

  it('goes no deeper than its neck or flange lets it, and says so', () => {
    assert.deepEqual(metIn(cut(key(), TEE.replace('neck: 8', 'neck: 15'))), ['shank']);
    // (40 − 14) / 2 = 13, less what a flange needs not to rub.
    assert.equal(cut(slit(10, 12), SAW).right, true);
    assert.deepEqual(metIn(cut(slit(10, 14), SAW)), ['shank']);
  });

  it('what begins above its reach meets the work over it, and so does a holder', () => {
    assert.deepEqual(metIn(cut(key(), TEE.replace('reach: 30', 'reach: 9'))), ['shank']);
    assert.deepEqual(metIn(cut(key(), TEE.replace('stickout: 40', 'stickout: 9'))), ['holder']);
  });

  it('its nut meets the jaw below it', () => {
    assert.equal(cut(slit(10, 8), SAW, 14).right, true);
    assert.deepEqual(metIn(cut(slit(12.5, 8), SAW, 16)), ['jaw']);
  });

  it('does not saw a slit that ends in the metal', () => {
    const blind = cut(slit(10, 8).replace('x: 48', 'x: 28'), SAW);
    assert.deepEqual(blind.excess.of, ['f']);
  });
});

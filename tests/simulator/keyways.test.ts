/**
 * Keyways that lie wholly inside a face or a shaft, both ways: drawn ones that no rule calls an error come out right, and
 * none does in which a rule calls a matter of geometry an error. One of each; more with SCRIBELINE_KEYWAYS=NUMBER, others
 * with SCRIBELINE_SEED=NUMBER.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { SHOP } from './defects';
import { inwardFor } from './margin';
import { isGeometry, isSeen } from './seen';
import { simulate } from './simulate';

const WANTED = Number(process.env.SCRIBELINE_KEYWAYS ?? 1);
const SEED = Number(process.env.SCRIBELINE_SEED ?? 17);
const WARNED = new Set(['hold/drills-the-parallels', 'hold/parallels', 'setup/unassigned']);
const one = <T>(...of: T[]) => fc.constantFrom(...of);

/** In a block: deep and narrow ones, beside a shoulder that a holder meets, or over a hole. */
const inBlock = fc
  .record({
    width: one(2, 3, 4, 6, 7, 10),
    depth: one(3, 6, 8, 11, 14, 16, 20, 23, 28),
    length: one(12, 18, 26),
    along: one('x', 'y'),
    floor: one('', '  low: { kind: step, face: top, along: right, width: 38, depth: 14 }\n'),
    grip: one(6, 10, 14, 18),
    over: one('', '  h: { kind: hole, face: top, at: { x: 40, y: 20 }, diameter: 5, depth: 30 }\n'),
  })
  .map(({ width, depth, length, along, floor, grip, over }) => {
    const names = [floor && 'low', 'key', over && 'h'].filter(Boolean).join(', ');
    const from = floor ? 'from: low' : 'face: top';
    return `part: piece
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 44 }
features:
${floor}  key: { kind: keyway, ${from}, at: { x: 40, y: 20 }, along: ${along}, length: ${length}, width: ${width}, depth: ${depth} }
${over}setups:
  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: ${grip} }, cuts: [${names}] }
`;
  });

/** In a shaft, two of them across from one another at times; the jaws reach its middle or over it. */
const inShaft = fc
  .record({
    diameter: one(20, 25, 32, 40),
    width: one(2, 4, 6, 7),
    depth: one(2, 4, 7, 11, 14),
    length: one(12, 20, 30),
    over: one(1, 4, 6),
    end: one('', '', '  flat: { kind: step, face: top, along: left, width: 20, depth: 3 }\n'),
  })
  .map(
    ({ diameter, width, depth, length, over, end }) => `part: piece
material: steel-1018
body: { diameter: ${diameter}, length: 70, axis: x }
features:
${end}  key: { kind: keyway, face: top, at: { x: 42, y: center }, length: ${length}, width: ${width}, depth: ${depth} }
setups:
  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: ${diameter / 2 + over} }, cuts: [${end ? 'flat, ' : ''}key] }
`,
  );

describe('keyways inside a face or a shaft', () => {
  const { shop } = checkShop(SHOP);
  for (const [where, text] of [
    ['face', inBlock],
    ['shaft', inShaft],
  ] as const) {
    const texts = fc.sample(text, { numRuns: WANTED * 30, seed: SEED });
    it(`${WANTED} clean ones in a ${where} come out right`, function () {
      this.timeout(WANTED * 20_000);
      let made = 0;
      for (const text of texts) {
        const { part, findings } = checkPart(text, shop);
        if (findings.some((f) => f.severity === 'error' || (WARNED.has(f.rule) && f.severity !== 'hint'))) continue;
        const { right, ...seen } = simulate(part, shop, { fineMm: 0.5, asWritten: true, inward: inwardFor(findings) });
        assert.ok(right, `${JSON.stringify(seen, null, 1)}\n${text}`);
        if (++made === WANTED) break;
      }
      assert.equal(made, WANTED);
    });
    it(`${WANTED} with errors of geometry in a ${where} do not`, function () {
      this.timeout(WANTED * 20_000);
      let tried = 0;
      for (const text of texts) {
        const { part, findings } = checkPart(text, shop);
        const errors = findings.filter((f) => f.severity === 'error');
        if (errors.length === 0 || !errors.every((f) => isGeometry(f) && isSeen(f))) continue;
        if (findings.some((f) => f.rule === 'form/removes-nothing')) continue;
        const { right, setups } = simulate(part, shop, { fineMm: 0.5, asWritten: true });
        const said = errors.map((f) => `${f.rule}: ${f.message}`).join('\n');
        assert.equal(right, false, `${said}\n${JSON.stringify(setups)}\n${text}`);
        if (++tried === WANTED) break;
      }
      assert.equal(tried, WANTED);
    });
  }
});

/**
 * Sloped faces cut level, with the work held at their angle, both ways: drawn ones that no rule calls an error come out
 * right, and none does that is held at another angle. One of each; more with SCRIBELINE_LEANING=NUMBER, others with
 * SCRIBELINE_SEED=NUMBER.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { SHOP } from './defects';
import { simulate } from './simulate';

const WANTED = Number(process.env.SCRIBELINE_LEANING ?? 1);
const SEED = Number(process.env.SCRIBELINE_SEED ?? 3);
const one = <T>(...of: T[]) => fc.constantFrom(...of);
/** Turned so that the slope looks up: about which axis, and which way round. */
const TURN: Readonly<Record<string, readonly ['x' | 'y', 1 | -1]>> = {
  front: ['x', 1],
  back: ['x', -1],
  left: ['y', -1],
  right: ['y', 1],
};
/** So much of the angle the field can tell: over the width of a slope it must lift the cutter by more than its cells. */
const OFF_DEG = [-16, -12, 12, 16] as const;

const slopes = fc
  .record({
    along: one('front', 'back', 'left', 'right'),
    angle: one(8, 12, 20, 30, 40),
    width: one(10, 14, 20),
    grip: one(6, 10),
    off: one(...OFF_DEG),
    more: one('', '  s2: { kind: step, face: top, along: ALONG, width: 3, depth: 2 }\n'),
  })
  .map(({ along, angle, width, grip, off, more }) => {
    const [about, turn] = TURN[along]!;
    const jaws = about === 'x' ? '[back, front]' : '[right, left]';
    const text = (deg: number) => `part: piece
material: aluminium-6061-t6
body: { x: 32, y: 34, z: 36 }
features:
${more.replace('ALONG', along)}  s: { kind: slope, face: top, along: ${along}, angle: ${angle}, width: ${width} }
setups:
${more && `  flat: { up: top, hold: { vise: vise, jaws: ${jaws}, grip: ${grip} }, cuts: [s2] }\n`}  lean: { up: top, hold: { angle: ${turn * deg}, about: ${about}, vise: vise, jaws: ${jaws}, grip: ${grip} }, cuts: [s] }
`;
    return { right: text(angle), wrong: text(angle + off > 3 ? angle + off : angle - off) };
  });

describe('sloped faces cut level', () => {
  const { shop } = checkShop(SHOP);
  const drawn = fc.sample(slopes, { numRuns: WANTED * 8, seed: SEED });
  const errorsOf = (text: string) => {
    const { part, findings } = checkPart(text, shop);
    return { part, errors: findings.filter((f) => f.severity === 'error') };
  };
  it(`${WANTED} held at their own angle come out right`, function () {
    this.timeout(WANTED * 30_000);
    let made = 0;
    for (const { right } of drawn) {
      const { part, errors } = errorsOf(right);
      if (errors.length > 0) continue;
      const { right: comesOut, ...seen } = simulate(part, shop, { fineMm: 0.6, asWritten: true });
      assert.ok(comesOut, `${JSON.stringify(seen, null, 1)}\n${right}`);
      if (++made === WANTED) break;
    }
    assert.equal(made, WANTED);
  });
  it(`${WANTED} held at another do not, and a rule says so`, function () {
    this.timeout(WANTED * 30_000);
    let tried = 0;
    for (const { wrong } of drawn) {
      const { part, errors } = errorsOf(wrong);
      assert.ok(
        errors.some((f) => f.rule === 'access/angle' || f.rule === 'access/no-setup'),
        wrong,
      );
      const { right: comesOut, ...seen } = simulate(part, shop, { fineMm: 0.6, asWritten: true });
      assert.equal(comesOut, false, `${JSON.stringify(seen, null, 1)}\n${wrong}`);
      if (++tried === WANTED) break;
    }
    assert.equal(tried, WANTED);
  });
});

/** Plates by the edges that hold them: against published tables, beams in closed form, and finite elements of our own. */
import assert from 'node:assert/strict';
import { type Plate, POISSON, plateDeflection, plateStiffness } from '../../../server/src/process/cutting/plates';
import { deflectionUnderForce, type Edge } from './plate-elements';

const near = (actual: number | undefined, wanted: number, share: number) =>
  assert.ok(actual !== undefined && Math.abs(actual - wanted) <= share * Math.abs(wanted), `${actual} for ${wanted}`);

const E = 70_000;
const D = plateStiffness(2, E);
const plate = (sidesMm: Plate['sidesMm'], held: string): Plate => ({
  thicknessMm: 2,
  sidesMm,
  held: [
    [held.includes('l'), held.includes('r')],
    [held.includes('d'), held.includes('u')],
  ],
});
/** α of w = α F b² / D for b = 1: D and F taken out. */
const alpha = (x: number, y: number, held: string, amidst = false) =>
  (plateDeflection(plate([x, y], held), 100, E, amidst)! * D) / 100;

describe('the finite elements that plates are checked by', () => {
  // Roark's Formulas for Stress and Strain, 7th ed., table 11.4 case 1b: y = α W b² / E t³ for ν = 0.3, simply supported all
  // round, the load on a small circle in the middle. D = E t³ / 10.92.
  for (const [ratio, published] of [
    [1, 0.1267],
    [1.4, 0.1621],
    [2, 0.1805],
  ] as const)
    it(`come to Roark's ${published} for a supported plate of ${ratio} to 1`, () => {
      const edges: readonly [Edge, Edge, Edge, Edge] = ['supported', 'supported', 'supported', 'supported'];
      const cells = [2 * Math.round(10 * ratio), 20] as const;
      const found = deflectionUnderForce({ sides: [ratio, 1], edges, at: [0.5, 0.5], poisson: 0.3, cells });
      near(found * 10.92, published, 6e-3);
    });
});

describe('plates held on all four edges', () => {
  // Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, table 37 (from memory); Roark table 11.4 case 8b has the
  // same, 0.0611, 0.0754, 0.0788 and 0.0791 in E t³ (from memory).
  for (const [ratio, roark] of [
    [1, 0.0611],
    [1.4, 0.0754],
    [2, 0.0788],
    [50, 0.0791],
  ] as const)
    it(`of ${ratio} to 1 give way as in two handbooks`, () => near(alpha(ratio, 1, 'lrdu'), roark / 10.92, 2e-3));
});

describe('plates with free edges', () => {
  const at = { three: [0.5, 1], beside: [1, 1], opposite: [0.5, 1], one: [1, 1], amidst: [0.5, 1] } as const;
  const held = { three: 'lrd', beside: 'ld', opposite: 'lr', one: 'd', amidst: 'd' } as const;
  for (const [name, letters] of Object.entries(held))
    for (const ratio of [0.4, 0.85, 1.7, 3.5])
      it(`held on ${name}, ${ratio} to 1, are as limp as by finite elements`, () => {
        const edges = [...'lrdu'].map((e): Edge => (letters.includes(e) ? 'clamped' : 'free'));
        const long = Math.round(16 * Math.max(ratio, 1 / ratio)) * 2;
        const cells = (ratio > 1 ? [Math.min(56, long), 24] : [24, Math.min(56, long)]) as readonly [number, number];
        const found = deflectionUnderForce({
          sides: [ratio, 1],
          edges: edges as unknown as readonly [Edge, Edge, Edge, Edge],
          at: at[name as keyof typeof at],
          poisson: POISSON,
          cells,
        });
        near(alpha(ratio, 1, letters, name === 'amidst'), found, 0.025);
      });

  it('narrow ones are beams: F h³ / 3 E I on one edge, F l³ / 192 E I between two', () => {
    const inertia = (2 * 2 ** 3) / 12;
    near(plateDeflection(plate([2, 20], 'd'), 50, E, true), (50 * 20 ** 3) / (3 * E * inertia), 0.02);
    near(plateDeflection(plate([30, 2], 'lr'), 50, E), (50 * 30 ** 3) / (192 * E * inertia), 0.03);
  });

  it('one long on one edge gives way by 0.168 F h² / D (T. J. Jaramillo, J. Appl. Mech. 1950, from memory), 2.5 times that at its end', () => {
    near(alpha(40, 1, 'd', true), 0.168, 0.01);
    near(alpha(40, 1, 'd') / alpha(40, 1, 'd', true), 2.5, 0.02);
  });

  it('are the same whichever way they are turned, and as stiff as the cube of their thickness', () => {
    for (const [a, b] of [
      ['lrd', 'dul'],
      ['lr', 'du'],
      ['d', 'l'],
      ['ld', 'ru'],
      ['lrdu', 'lrdu'],
    ] as const)
      near(alpha(1.7, 1, a), alpha(1, 1.7, b), 1e-9);
    const thick = { ...plate([10, 8], 'ld'), thicknessMm: 4 };
    near(plateDeflection(thick, 1, E)! * 8, plateDeflection(plate([10, 8], 'ld'), 1, E)!, 1e-9);
  });

  it('that nothing holds are none', () => assert.equal(plateDeflection(plate([10, 8], ''), 1, E), undefined));

  it('another edge held never makes them limper', () => {
    for (const ratio of [0.2, 0.6, 1, 2.3, 5]) {
      const row = ['d', 'ld', 'lrd', 'lrdu'].map((h) => alpha(ratio, 1, h));
      for (let i = 1; i < row.length; i++) assert.ok(row[i]! < row[i - 1]! * 1.0001, `${ratio}: ${row}`);
    }
  });
});

/**
 * Walls between cuts that lean, where the nearest line between two of them may be cut away by a third, by a face, or by
 * one of their own: against brute force. The surfaces are sampled densely; of all pairs of samples between which material
 * stands, by the part's own answer for points, none may be nearer than the wall that was found.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { solidsApart } from '../../server/src/geometry/distance/solids';
import { solidOf } from '../../server/src/geometry/part-solid';
import type { Solid, Vec3, Void } from '../../server/src/geometry/types';
import { distance, mix } from '../../server/src/geometry/vector';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';
import { samples } from './distance/samples';

const LIMIT = 2;
const runs = Number(process.env.PROOF_RUNS ?? 1);
const seed = 77 + Number(process.env.PROOF_SEED ?? 0);
const solidFrom = (features: string) =>
  solidOf(resolvePart(readText(`part: p\nunits: mm\nbody: { x: 30, y: 20, z: 12 }\nfeatures:\n${features}`)));

const cutName = (v: Void) => `${v.feature}[${v.member}]`;

/** Material all along the line, its ends left out; `clear`: and to every side of it, so that it runs along no surface. */
function standsBetween(solid: Solid, p: Vec3, q: Vec3, clear: boolean): boolean {
  for (let n = 1; n < 20; n++) {
    const x = mix(p, q, n / 20);
    if (!solid.isMaterial(x)) return false;
    if (!clear) continue;
    for (const a of [0, 1, 2]) {
      for (const by of [-1e-6, 1e-6]) {
        if (!solid.isMaterial(x.map((c, i) => (i === a ? c + by : c)) as unknown as Vec3)) return false;
      }
    }
  }
  return true;
}

const clouds = new WeakMap<Void, Vec3[]>();
/** Samples of what is left of a volume's surface in the part. */
function cloudOf(solid: Solid, v: Void): Vec3[] {
  let cloud = clouds.get(v);
  if (!cloud) {
    const { max } = solid.body.box;
    cloud = samples(v).filter((p) => p.every((x, i) => x > 0 && x < max[i as 0]));
    clouds.set(v, cloud);
  }
  return cloud;
}

/** The nearest two samples of two volumes with material between them, nearer than `below`. */
function bruteForce(solid: Solid, a: Void, b: Void, below: number): number {
  const near = (p: Vec3, o: Void) =>
    p.every((x, i) => x > o.bounds.min[i as 0] - below && x < o.bounds.max[i as 0] + below);
  const pa = cloudOf(solid, a).filter((p) => near(p, b));
  const pb = cloudOf(solid, b).filter((p) => near(p, a));
  let best = below;
  for (const p of pa) {
    for (const q of pb) {
      const mm = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
      if (mm > 1e-3 && mm < best && standsBetween(solid, p, q, true)) best = mm;
    }
  }
  return best;
}

/** They meet in a point or a line: what is left beside it is a cusp too. */
const touching = (a: Void, b: Void) => (solidsApart(a, b, LIMIT)?.mm ?? LIMIT) < 1e-4;

function meet(solid: Solid, one: string, two: string): boolean {
  const of = (name: string) => solid.voids.filter((v) => cutName(v) === name);
  return of(one).some((a) => of(two).some((b) => solid.sharedMm3(a, b) > 0 || touching(a, b)));
}

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((x) => Math.round(x * 100) / 100);
const hole = fc
  .record({
    x: number(5, 25),
    y: number(4, 16),
    d: number(2, 5),
    depth: number(4, 11),
    about: fc.constantFrom('x', 'y'),
    angle: fc.integer({ min: -30, max: 30 }),
    sink: fc.boolean(),
    more: number(0.8, 2),
    count: fc.constantFrom(1, 2),
    pitch: number(4, 8),
  })
  .map((h) => {
    const pattern = h.count > 1 ? `, pattern: { line: { x: ${h.pitch}, count: 2 } }` : '';
    const sink = h.sink ? `, countersink: { diameter: ${h.d + h.more}, angle: 90 }` : '';
    return `kind: hole, face: top, at: { x: ${h.x}, y: ${h.y} }${pattern}, diameter: ${h.d}, depth: ${h.depth}, bottom: flat${sink}, tilt: { about: ${h.about}, angle: ${h.angle || 1} }`;
  });
const pocket = fc
  .record({ x: number(5, 25), y: number(4, 16), a: number(5, 9), b: number(5, 9), depth: number(1, 9) })
  .map(
    (p) =>
      `kind: pocket, face: top, at: { x: ${p.x}, y: ${p.y} }, size: { x: ${p.a}, y: ${p.b} }, corner-radius: 1.5, depth: ${p.depth}`,
  );
const parts = fc
  .tuple(
    hole,
    fc.array(fc.oneof({ weight: 3, arbitrary: hole }, { weight: 1, arbitrary: pocket }), {
      minLength: 1,
      maxLength: 2,
    }),
  )
  .map(([first, more]) => [first, ...more].map((f, i) => `  f${i + 1}: { ${f} }\n`).join(''));

describe('walls between leaning cuts', function () {
  this.timeout(120_000 * runs);

  it('none thinner between any two samples of their surfaces', () => {
    const tally = { pairs: 0, standing: 0 };
    fc.assert(
      fc.property(parts, (text) => {
        const solid = solidFrom(text);
        const walls = solid.walls(LIMIT);
        const thinnest = new Map<string, number>();
        const key = (a: Void, b: Void) => [cutName(a), cutName(b)].sort().join('–');
        for (const w of walls) {
          if (typeof w.b === 'string' || w.a === w.b) continue;
          const k = key(w.a, w.b);
          thinnest.set(k, Math.min(thinnest.get(k) ?? LIMIT, w.thicknessMm));
          assert.ok(Math.abs(distance(...w.at) - w.thicknessMm) < 1e-6, 'ends and thickness');
          assert.ok(standsBetween(solid, ...w.at, false), `${k}: ${w.thicknessMm} does not stand`);
        }
        solid.voids.forEach((a, i) => {
          for (const b of solid.voids.slice(0, i)) {
            // cuts that run into each other leave a cusp between them, no wall
            if (cutName(a) === cutName(b) || meet(solid, cutName(a), cutName(b))) continue;
            tally.pairs++;
            const told = thinnest.get(key(a, b)) ?? LIMIT;
            const sampled = bruteForce(solid, a, b, told - 5e-3);
            if (thinnest.has(key(a, b))) tally.standing++;
            assert.ok(sampled >= told - 5e-3, `${key(a, b)}: told ${told}, samples ${sampled}\n${text}`);
          }
        });
      }),
      { seed, numRuns: 12 * runs, endOnFailure: true },
    );
    assert.ok(tally.standing > 5 && tally.pairs > 30, JSON.stringify(tally));
  });

  it('a low web that a third, leaning cut leaves at the foot of two is found', () => {
    const solid = solidFrom(
      '  pair: { kind: hole, face: top, at: { x: 10.78, y: 4 }, pattern: { line: { x: 6.01, count: 2 } }, diameter: 4.22, depth: 4.57, bottom: flat, tilt: { about: x, angle: -6 } }\n' +
        '  third: { kind: hole, face: top, at: { x: 11.07, y: 4 }, diameter: 5, depth: 4, bottom: flat, countersink: { diameter: 6.25, angle: 90 }, tilt: { about: y, angle: -11 } }\n',
    );
    const web = solid
      .walls(LIMIT)
      .find((w) => w.a.feature === 'pair' && typeof w.b !== 'string' && w.b.feature === 'pair');
    assert.ok(web && Math.abs(web.thicknessMm - 1.79) < 1e-6 && web.heightMm > 0.1 && web.heightMm < 0.57);
    assert.ok(standsBetween(solid, ...web.at, true));
  });

  it('as thin whichever of two alike comes first, and where the nearest line leaves the body', () => {
    const [way, back] = [7.3, -7.3].map((pitch) => {
      const solid = solidFrom(
        `  f1: { kind: hole, face: top, at: { x: 15, y: 10 }, pattern: { places: [{ x: ${15 - pitch / 2}, y: 10 }, { x: ${15 + pitch / 2}, y: 10 }] }, diameter: 5, depth: 9, bottom: flat, countersink: { diameter: 6.8, angle: 90 }, tilt: { about: y, angle: 15 } }\n`,
      );
      return solid.walls(LIMIT).map((w) => w.thicknessMm.toFixed(4));
    });
    assert.deepEqual(way, back);
    assert.ok(way!.length > 2);
    // both ends on the upper face, which cuts off the countersink and the hole where they are nearer
    const solid =
      solidFrom(`  f2: { kind: hole, face: top, at: { x: 9, y: 7.26 }, diameter: 2.2, depth: 6.72, bottom: flat, tilt: { about: x, angle: 29 } }
  f3: { kind: hole, face: top, at: { x: 3.61, y: 4.95 }, diameter: 3.65, depth: 7.8, bottom: flat, countersink: { diameter: 5.54, angle: 90 }, tilt: { about: x, angle: -20 } }
`);
    const [lowest] = solid.walls(LIMIT).filter((w) => typeof w.b !== 'string' && w.a.feature !== w.b.feature);
    assert.ok(Math.abs(lowest!.thicknessMm - 1.9486) < 2e-4, String(lowest!.thicknessMm));
    for (const end of lowest!.at) assert.ok(Math.abs(end[2] - 12) < 1e-4);
  });
});

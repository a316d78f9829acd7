/** What the large proof of sameness found once: parts that came out otherwise when turned or listed in another order. */
import assert from 'node:assert/strict';
import { solidOf } from '../../server/src/geometry/part-solid';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';
import { TURNS, turnedText } from '../proof/turn';

const solidFrom = (body: string, features: string) =>
  solidOf(resolvePart(readText(`part: p\nunits: mm\nbody: ${body}\nfeatures:\n${features}`)));

describe('the same part, however it lies', () => {
  it('a wall between a short side and a long one is as long, whichever is listed first', () => {
    const short = '{ kind: pocket, face: top, at: { x: 10, y: 15 }, size: { x: 8, y: 8 }, depth: 6 }';
    const long = '{ kind: pocket, face: top, at: { x: 20.5, y: 15 }, size: { x: 10, y: 20 }, depth: 6 }';
    const [one, other] = [
      [short, long],
      [long, short],
    ].map(([a, b]) => solidFrom('{ x: 30, y: 30, z: 20 }', `  a: ${a}\n  b: ${b}\n`).walls(2));
    for (const walls of [one!, other!]) {
      assert.equal(walls.length, 1);
      assert.ok(Math.abs(walls[0]!.thicknessMm - 1.5) < 1e-9);
      assert.ok(Math.abs(walls[0]!.lengthMm - 8) < 1e-6, String(walls[0]!.lengthMm));
    }
  });

  it('leaning pockets with deep fillets that leave a thread of material do not leave two pieces, seen along any axis', () => {
    const lying = (body: string, face: string, [u, v, side]: readonly [string, string, string]) =>
      solidFrom(
        body,
        `  f1: { kind: pocket, face: ${face}, at: { ${u}: 14.35, ${v}: 5.9 }, pattern: { line: { ${u}: 6.5, count: 3 } }, size: { ${u}: 18, ${v}: 15.07 }, corner-radius: 2.34, rotate: 45, depth: 12.35, floor-radius: 6.18, tilt: { about: ${u}, angle: 16 } }
  f2: { kind: step, face: ${face}, along: ${side}, width: 12.05, depth: 7.98 }
`,
      );
    assert.equal(lying('{ x: 41, y: 47.5, z: 10 }', 'back', ['x', 'z', 'left']).pieces, 1);
    assert.equal(lying('{ x: 41, y: 10, z: 47.5 }', 'top', ['x', 'y', 'left']).pieces, 1);
  });

  it('drilled points of a row that runs into itself at the edge leave the same three walls, turned all ways', () => {
    const text = `part: p\nunits: mm\nbody: { x: 30, y: 24, z: 12 }\nfeatures:\n  f1: { kind: hole, face: top, at: { x: 3, y: 2.4 }, pattern: { line: { x: 3, count: 3 } }, diameter: 3.14, depth: 8, bottom: cone }\n`;
    for (const turn of TURNS) {
      const walls = solidOf(resolvePart(readText(turnedText(text, turn)))).walls(2.00371);
      assert.deepEqual(
        walls.map((w) => w.thicknessMm.toFixed(6)),
        ['0.830000', '0.830000', '0.830000'],
      );
    }
  });

  it('a leaning countersink is thinnest over its mouth, on the face itself, turned all ways', () => {
    const text =
      'part: p\nunits: mm\nbody: { x: 59, y: 49.5, z: 11.14 }\nfeatures:\n  f1: { kind: hole, face: front, at: { x: 44.84, z: 5.35 }, diameter: 7.5, depth: 37.62, bottom: flat, countersink: { diameter: 9.5, angle: 90 }, tilt: { about: z, angle: 24 } }\n';
    for (const turn of TURNS.filter((_, i) => i % 5 === 0)) {
      const walls = solidOf(resolvePart(readText(turnedText(text, turn)))).walls(2.00371);
      assert.equal(walls.length, 4);
      for (const [n, mm] of [0.6, 1.04, 1.48465, 1.6].entries())
        assert.ok(Math.abs(walls[n]!.thicknessMm - mm) < 5e-5, String(walls[n]!.thicknessMm));
    }
  });
});

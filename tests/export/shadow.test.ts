/** What a flat view covers: closed forms of tubes and bushes that lie across. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { within } from '../../server/src/effort';
import { drawFace } from '../../server/src/export/flat/lines';
import { regionMoments } from '../../server/src/geometry/2d/moments';
import { solidOf } from '../../server/src/geometry/part-solid';
import { FACES } from '../../server/src/model/model';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';
import { partTexts } from '../proof/parts';

const solidFrom = (text: string) => solidOf(resolvePart(readText(text)));

describe('what a flat view covers', () => {
  it('a tube or bush lying across is a plain rectangle, with only its outline seen', () => {
    for (const [stock, bore] of [
      ['{ form: tube, diameter: 30, wall: 3, axis: x }', ''],
      [
        '{ form: round-bar }',
        '  b: { kind: hole, face: left, at: { y: center, z: center }, diameter: 24, depth: through }\n',
      ],
      [
        '{ form: round-bar }',
        '  b: { kind: hole, face: left, at: { y: center, z: center }, diameter: 8, depth: 12 }\n',
      ],
    ] as const) {
      const text = `part: p\nbody: { diameter: 30, length: 40, axis: x }\nstock: ${stock}\nfeatures:${bore ? `\n${bore}` : ' {}\n'}`;
      for (const face of ['front', 'top', 'back', 'bottom'] as const) {
        const drawn = drawFace(solidFrom(text), face)!;
        const area = drawn.shadow.reduce((sum, r) => sum + regionMoments(r).area, 0);
        assert.ok(Math.abs(area - 30 * 40) < 1e-3, `${stock} ${face}: ${area}`);
        assert.equal(drawn.shadow.length, 1);
        assert.equal(drawn.visible.length, 4, `${stock} ${face}`);
      }
    }
  });

  it('a bush with chamfers is its outline without their corners', () => {
    const solid = solidFrom(`part: p
body: { diameter: 30, length: 40, axis: x }
features:
  b: { kind: hole, face: left, at: { y: center, z: center }, diameter: 24, depth: through }
  c: { kind: chamfer, edges: [left, right, { rim: b }], size: 1 }
`);
    const { shadow } = drawFace(solid, 'front')!;
    assert.equal(shadow.length, 1);
    const area = regionMoments(shadow[0]!).area;
    assert.ok(Math.abs(area - (30 * 40 - 4 * 0.5)) < 0.05, String(area));
  });

  it('a bush with a countersunk cross hole is one piece, its outline notched by the countersink', () => {
    const solid = solidFrom(`part: p
body: { diameter: 30, length: 50, axis: x }
features:
  b: { kind: hole, face: left, at: { y: center, z: center }, diameter: 20, depth: through }
  c: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5, depth: 8, countersink: { diameter: 10, angle: 90 } }
`);
    // The outline over x is the highest point of the round side that the cone (5 mm at the top, 45°) leaves: by bisection.
    const height = (x: number) => {
      let [inside, outside] = [0, 5];
      for (let n = 0; n < 60; n++) {
        const y = (inside + outside) / 2;
        if (Math.hypot(x, y) < Math.sqrt(225 - y * y) - 10) inside = y;
        else outside = y;
      }
      return Math.sqrt(225 - outside * outside);
    };
    const steps = 2000;
    let notch = 0;
    for (let n = 0; n < steps; n++) notch += (2 * 5 * (15 - height(((n + 0.5) / steps) * 5))) / steps;
    for (const face of ['front', 'back'] as const) {
      const { shadow } = drawFace(solid, face)!;
      assert.equal(shadow.length, 1);
      const [{ outer, holes }] = shadow as [(typeof shadow)[number]];
      assert.equal(holes.length, 0, String(outer.edges.length));
      const area = regionMoments(shadow[0]!).area;
      assert.ok(Math.abs(area - (30 * 50 - notch)) < 0.5, `${face}: ${area}, not ${30 * 50 - notch}`);
    }
  });

  it('of what is dear to follow costs hardly more than without looking between', function () {
    this.timeout(60_000);
    // Drawn parts with leaning pockets and rounded floors: views were lost where every slice was halved.
    for (const { text } of fc.sample(partTexts(3), { seed: 12, numRuns: 4 })) {
      const solid = solidFrom(text);
      for (const face of FACES) {
        const budget = { remaining: 1e8 };
        const drawn = within(
          budget,
          () => drawFace(solid, face),
          () => undefined,
        );
        assert.ok(drawn, `${face}\n${text}`);
      }
    }
  });
});

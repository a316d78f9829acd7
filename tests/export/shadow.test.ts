/** What a flat view covers: closed forms of tubes and bushes that lie across. */
import assert from 'node:assert/strict';
import { drawFace } from '../../server/src/export/flat/lines';
import { regionMoments } from '../../server/src/geometry/2d/moments';
import { solidOf } from '../../server/src/geometry/part-solid';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';

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
});

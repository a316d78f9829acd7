/**
 * Threads on bosses, as written. Limits of the outside are those of ISO 965-2 (6g, coarse and fine) and of ASME B1.1 (2A), by
 * public tables, from memory, to 2 µm: our deviations are not rounded to the standards' steps.
 */
import assert from 'node:assert/strict';
import type { Contour } from '../../server/src/model/feature-kinds/contour';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';

function boss(fields: string) {
  const text = `part: spindle\nbody: { x: 40, y: 40, z: 40 }\nfeatures:\n  end: { kind: contour, face: top, at: { x: center, y: center }, ${fields} }\n`;
  const part = resolvePart(readText(text));
  return { made: part.featureByName.get('end') as Contour | undefined, said: part.problems.map((p) => p.message) };
}

describe('a thread on a boss', () => {
  it('gives it its diameter, with the limits of its class', () => {
    const rows: readonly (readonly [thread: string, most: number, least: number])[] = [
      ['M6', 5.974, 5.794],
      ['M8', 7.972, 7.76],
      ['M8x1 6g', 7.974, 7.794],
      ['M10', 9.968, 9.732],
      ['M10 6h', 10, 9.764],
      ['1/4-20 UNC-2A', 6.322, 6.117],
    ];
    for (const [thread, most, least] of rows) {
      const shape = boss(`thread: ${thread}, depth: 20`).made?.shapes[0];
      assert.ok(shape?.type === 'circle', thread);
      const { mm, tolerance } = shape.diameter;
      const limits = [mm + tolerance!.upperMm!, mm + tolerance!.lowerMm!];
      for (const [i, limit] of [most, least].entries())
        assert.ok(Math.abs(limits[i]! - limit) < 0.0025, `${thread}: ${limits}`);
    }
  });

  it('ends short of the shoulder where nothing is said, and never beyond it', () => {
    // ISO 3508, from memory: run-out x1 of 2.5 pitches.
    assert.equal(boss('thread: M8, depth: 20').made?.thread?.deep.mm, 20 - 2.5 * 1.25);
    assert.equal(boss('thread: M8, depth: through').made?.thread?.deep.mm, 40);
    assert.equal(boss('thread: M8, depth: 20, thread-depth: 12').made?.thread?.deep.mm, 12);
    assert.match(boss('thread: M8, depth: 20, thread-depth: 21').said.join(), /longer than the boss/);
  });

  it('is refused in words where it is none', () => {
    assert.match(boss('thread: M8 6H, depth: 20').said.join(), /`6H` is no class of a screw thread/);
    assert.match(boss('thread: M8.5, depth: 20').said.join(), /no thread `M8.5`/);
    assert.match(boss('thread: G1/4, depth: 20').said.join(), /metric and unified threads/);
    assert.ok(boss('thread: M8, diameter: 8, depth: 20').said.length > 0);
  });
});

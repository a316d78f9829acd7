/** The tools that are drawn in a set-up: of the size the shop says, at the depth of the cut, and never inside the finished part. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { add } from '../../../server/src/geometry/vector';
import type { PictureCutter } from '../../../server/src/service/view/protocol';
import { pictureOfText } from './support';

const EXAMPLES = resolve(__dirname, '../../../examples/gimbal');
const SHOP = readFileSync(join(EXAMPLES, 'campus.shop.yaml'), 'utf8');

const PART = `part: a
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  well: { kind: pocket, face: top, at: { x: 22, y: 20 }, size: { x: 24, y: 24 }, corner-radius: 5, depth: 8 }
  screw: { kind: hole, face: top, at: { x: 48, y: 20 }, diameter: 5.5, depth: 9 }
  seat: { kind: hole, face: top, at: { x: 48, y: 32 }, diameter: 7, depth: 4, bottom: flat }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, zero: { x: left, y: back, z: top }, cuts: [well, screw, seat] }
`;

const KINDS = `part: b
material: aluminium-6061-t6
body: { x: 100, y: 60, z: 30 }
features:
  well: { kind: pocket, face: top, at: { x: 25, y: 20 }, size: { x: 24, y: 20 }, corner-radius: 5, depth: 8, islands: { post: { diameter: 5, at: { x: 25, y: 20 } } } }
  way: { kind: slot, face: top, ends: [{ x: 50, y: 15 }, { x: 80, y: 15 }], width: 10, depth: 6 }
  shoulder: { kind: step, face: top, along: right, width: 10, depth: 5 }
  screws: { kind: hole, face: top, at: { x: 50, y: 45 }, pattern: { line: { x: 40, count: 3 } }, thread: M5, depth: 14, thread-depth: 9 }
  seat: { kind: hole, face: top, at: { x: 78, y: 35 }, diameter: 5.5, depth: through, counterbore: { diameter: 10, depth: 5 } }
  back-well: { kind: pocket, face: bottom, at: { x: 30, y: 30 }, size: { x: 30, y: 30 }, corner-radius: 6, depth: 9 }
  drain: { kind: hole, face: bottom, at: { x: 60, y: 30 }, diameter: 3.4, depth: 10 }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, zero: { x: left, y: front, z: top }, cuts: [shoulder, well, way, seat, screws] }
  second: { up: bottom, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, zero: { x: left, y: front, z: bottom }, cuts: [back-well, drain] }
`;

const FORMS = `part: c
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: block, extra: { top: 1 } }
features:
  bore: { kind: hole, face: top, at: { x: 40, y: 20 }, diameter: 16, depth: through }
  front-edge: { kind: chamfer, edges: [[top, front]], size: 1 }
  back-edge: { kind: edge-round, edges: [[top, back]], radius: 3 }
  rim: { kind: chamfer, edges: [{ rim: bore }], size: 0.5 }
  mark: { kind: engraving, face: top, at: { x: 15, y: 20 }, text: A1, height: 8, depth: 0.3, stroke: 0.5 }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [left, right], grip: 8 }, zero: { x: left, y: back, z: top }, cuts: [top, bore, rim, front-edge, back-edge, mark] }
`;

describe('cutters in a picture', () => {
  it('stand in their cut, at its depth, as thick as the shop says', async () => {
    const { picture, snapshot } = (await pictureOfText(PART, { setup: 0, when: 'after' }, SHOP))!;
    const cutters = picture.setups[0]!.cutters!;
    const tool = (c: PictureCutter) => snapshot.checked.shop.tools.find((t) => t.name === c.tool)!;
    const well = cutters.find((c) => c.feature === 'well')!;
    assert.equal(well.tip[2], 12);
    assert.deepEqual(
      well.towards.map((x) => x + 0),
      [0, 0, 1],
    );
    const radius = well.parts[0]!.radiusMm;
    assert.equal(2 * radius, (tool(well) as { diameterMm: number }).diameterMm);
    assert.ok(radius <= 5, 'the corner is no rounder than the cutter');
    // Its own radius off a wall, inside the pocket from 10 to 34 and 8 to 32.
    const gaps = [well.tip[0] - 10, 34 - well.tip[0], well.tip[1] - 8, 32 - well.tip[1]];
    assert.ok(Math.abs(Math.min(...gaps) - radius) < 1e-6, `${gaps}`);
    const screw = cutters.find((c) => c.feature === 'screw')!;
    assert.deepEqual(screw.tip.slice(0, 2), [48, 20]);
    // Blind by a drill: its point of 118° goes r / tan 59° below the 9 of full width.
    const pointMm = 2.75 / Math.tan((59 * Math.PI) / 180);
    assert.ok(Math.abs(screw.tip[2] - (20 - 9 - pointMm)) < 0.02, String(screw.tip[2]));
    assert.equal(2 * screw.parts[0]!.radiusMm, 5.5);
    // A flat floor is milled: the cutter circles, its own radius off the wall.
    const seat = cutters.find((c) => c.feature === 'seat')!;
    assert.equal(seat.tip[2], 16);
    const off = Math.hypot(seat.tip[0] - 48, seat.tip[1] - 32);
    assert.ok(Math.abs(off - (3.5 - seat.parts[0]!.radiusMm)) < 1e-6, `${off} off the axis`);
    for (const { parts } of cutters) {
      assert.equal(parts[0]!.fromMm, 0);
      for (let i = 1; i < parts.length; i++) assert.equal(parts[i]!.fromMm, parts[i - 1]!.toMm, 'a gap in the tool');
      assert.ok(parts.every((p) => p.radiusMm > 0 && p.toMm > p.fromMm));
    }
  });

  it('stand along edges, round rims, in marks and on faces, with the shape that they have there', async () => {
    const { picture } = (await pictureOfText(FORMS, { setup: 0, when: 'after' }, SHOP))!;
    const cutters = new Map(picture.setups[0]!.cutters!.map((c) => [c.feature, c]));
    const near = (a: readonly number[], b: readonly number[]) =>
      assert.ok(
        a.every((x, i) => Math.abs(x - b[i]!) < 1e-6),
        `${a} is not ${b}`,
      );
    // A pointed 90° cone: half a millimetre below a chamfer of 1 it is as far out of the side.
    const edge = cutters.get('front-edge')!;
    assert.equal(edge.tool, 'chamfer-90');
    near(edge.tip, [30, -0.5, 20 - 1 - 0.5]);
    const [cone, above] = edge.parts;
    assert.equal(cone!.tipRadiusMm, 0);
    assert.equal(cone!.radiusMm, 5);
    assert.ok(Math.abs(cone!.toMm - 5) < 1e-9 && above!.fromMm === cone!.toMm);
    // Round the rim of a bore of 16: its flank on the edge, half a millimetre inside the bore's wall.
    const rim = cutters.get('rim')!;
    assert.ok(Math.abs(Math.hypot(rim.tip[0] - 40, rim.tip[1] - 20) - 7.5) < 1e-6, `${rim.tip}`);
    assert.ok(Math.abs(rim.tip[2] - (20 - 0.5 - 0.5)) < 1e-6);
    // A rounder of 3 on 10 mm: 2 mm of thin end beside the edge, its foot where the round ends.
    const round = cutters.get('back-edge')!;
    assert.equal(round.tool, 'rounder-3');
    near(round.tip, [30, 42, 17]);
    assert.deepEqual([round.parts[0]!.radiusMm, round.parts[1]!.radiusMm], [2, 5]);
    // In the middle of a stroke, as deep as the letters.
    const mark = cutters.get('mark')!;
    assert.equal(mark.tool, 'engraver-05');
    assert.ok(Math.abs(mark.tip[2] - 19.7) < 1e-6);
    // The top is faced down to the body by the face mill.
    const top = cutters.get('top')!;
    assert.equal(top.tool, 'face-50');
    assert.ok(Math.abs(top.tip[2] - 20) < 1e-6);
    for (const { parts } of cutters.values())
      for (let i = 1; i < parts.length; i++) assert.equal(parts[i]!.fromMm, parts[i - 1]!.toMm, 'a gap in the tool');
  });

  it('are told of the set-up that is shown, and of no other', async () => {
    const { picture } = (await pictureOfText(PART, undefined, SHOP))!;
    assert.equal(picture.setups[0]!.cutters, undefined);
  });

  for (const [name, text, least] of [
    ['the bearing block', readFileSync(join(EXAMPLES, 'parts/bearing-block.part.yaml'), 'utf8'), 4],
    ['one of every kind', KINDS, 7],
    ['edges, marks and faces', FORMS, 6],
  ] as const)
    it(`never stand in the finished part: ${name}`, async () => {
      const { picture, snapshot } = (await pictureOfText(text, undefined, SHOP))!;
      const { solid } = snapshot.checked;
      let seen = 0;
      for (let setup = 0; setup < picture.setups.length; setup++) {
        const taken = await pictureOfText(text, { setup, when: 'after' }, SHOP);
        for (const c of taken!.picture.setups[setup]!.cutters ?? []) {
          seen++;
          for (const p of samples(c)) assert.ok(!solid.isMaterial(p), `${c.tool} of ${c.feature} at ${p}`);
        }
      }
      assert.ok(seen >= least, `only ${seen} cutters`);
    });
});

/** On the cutter's surface, a little inside it, above where a drill's point narrows. */
function samples({ tip, towards, parts }: PictureCutter) {
  const { radiusMm, tipRadiusMm, toMm } = parts[0]!;
  const [a, b] = [0, 1, 2].filter((i) => Math.abs(towards[i]!) < 0.5) as [number, number];
  return Array.from({ length: 24 }, (_, k) => {
    const angle = (k * Math.PI) / 12;
    const share = 0.1 + (k % 5) / 6;
    const height = tipRadiusMm === undefined ? radiusMm + ((k % 5) / 5) * Math.max(0, toMm - radiusMm) : share * toMm;
    const wide = tipRadiusMm === undefined ? radiusMm : tipRadiusMm + share * (radiusMm - tipRadiusMm);
    const p = [...add(tip, towards, height)] as [number, number, number];
    p[a] = p[a]! + 0.98 * wide * Math.cos(angle);
    p[b] = p[b]! + 0.98 * wide * Math.sin(angle);
    return p;
  });
}

describe('cutters over work held at an angle', () => {
  const LEANING = `part: d
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  jet: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5.5, depth: 18, bottom: flat, tilt: { about: y, angle: 20 } }
  slope: { kind: slope, face: top, along: right, angle: 20, width: 15 }
setups:
  first: { up: top, hold: { angle: 20, about: y, vise: mill-vise-100, jaws: [back, front], grip: 12 }, zero: { x: left, y: back, z: top }, cuts: [slope, jet] }
`;
  it('stand along the lean, a drill at its depth along its own axis, a mill on the slope', async () => {
    const { picture } = (await pictureOfText(LEANING, { setup: 0, when: 'after' }, SHOP))!;
    const [slope, jet] = ['slope', 'jet'].map((n) => picture.setups[0]!.cutters!.find((c) => c.feature === n)!);
    const [sin, cos] = [Math.sin(Math.PI / 9), Math.cos(Math.PI / 9)];
    const near = (a: readonly number[], b: readonly number[]) =>
      assert.ok(
        a.every((x, i) => Math.abs(x - b[i]!) < 1e-6),
        `${a} for ${b}`,
      );
    near(jet!.towards, [sin, 0, cos]);
    near(jet!.tip, [30 - 18 * sin, 20, 30 - 18 * cos]);
    // On the plane through (45, ·, 30) that falls by 20°.
    near([(slope!.tip[0] - 45) * sin + (slope!.tip[2] - 30) * cos], [0]);
  });
});

/** From the server's picture to what is drawn: arrays, faces of a feature, marks, steps. */
import assert from 'node:assert/strict';
import { arraysOf, boundsOf, surfaceOfVertices, surfacesOf } from '../../../client/view/decode';
import { marksOf } from '../../../client/view/marks';
import { stepped, stepText } from '../../../client/view/steps';
import type { Moment } from '../../../server/src/service/view/protocol';
import { pictureOfText } from '../../service/view/support';

const PART = `part: a
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  a: { kind: pocket, face: top, at: { x: 20, y: 20 }, size: { x: 16, y: 20 }, corner-radius: 3, depth: 8 }
  b: { kind: pocket, face: top, at: { x: 36.5, y: 20 }, size: { x: 16, y: 20 }, corner-radius: 3, depth: 8 }
  m: { kind: hole, face: top, at: { x: 52, y: 20 }, pattern: { line: { y: 24, count: 2 } }, diameter: 5.5, depth: through }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, zero: { x: left, y: back, z: top }, cuts: [a, b, m] }
`;

describe('a picture as the panel takes it', () => {
  it('its arrays are whole: triangles name vertices and surfaces that are there, the box is the body', async () => {
    const { picture } = (await pictureOfText(PART))!;
    const arrays = arraysOf(picture.mesh);
    assert.equal(arrays.positions.length, arrays.normals.length);
    assert.equal(arrays.triangles.length, 3 * arrays.surfaceOf.length);
    assert.equal(arrays.edges.length % 6, 0);
    assert.ok(arrays.triangles.every((v) => v < arrays.positions.length / 3));
    assert.ok(arrays.surfaceOf.every((s) => s < picture.surfaces.length));
    assert.deepEqual(boundsOf(arrays), { min: [0, 0, 0], max: [60, 40, 20] });
    const of = surfaceOfVertices(arrays);
    arrays.surfaceOf.forEach((s, t) => {
      for (let k = 0; k < 3; k++) assert.equal(of[arrays.triangles[3 * t + k]!], s, 'a vertex belongs to two surfaces');
    });
    // Every vertex of a plane face lies in that plane, as the server describes it.
    of.forEach((s, v) => {
      const { shape } = picture.surfaces[s]!;
      if (shape.type !== 'plane') return;
      const at = [0, 1, 2].reduce((sum, i) => sum + shape.normal[i]! * arrays.positions[3 * v + i]!, 0);
      assert.ok(Math.abs(at - shape.offsetMm) < 1e-4);
    });
  });

  it('finds the faces of a feature, of one member, and of a side of the body', async () => {
    const { picture } = (await pictureOfText(PART))!;
    const named = (name: string) => [...surfacesOf(picture.surfaces, name)].map((s) => picture.surfaces[s]!.name);
    assert.ok(named('a').includes('floor of a'));
    assert.ok(named('a').every((n) => n.endsWith(' of a')));
    assert.deepEqual(named('m').sort(), ['wall of m[1]', 'wall of m[2]']);
    assert.deepEqual(named('m[2]'), ['wall of m[2]']);
    assert.deepEqual(named('front'), ['front']);
    assert.deepEqual(named('nothing'), []);
  });

  it('marks a thin wall as a line with its thickness, places as places, the weightiest first', async () => {
    const { picture } = (await pictureOfText(PART))!;
    const marks = marksOf(picture, undefined);
    const wall = marks.find((m) => m.about?.startsWith('wall/slender'));
    assert.ok(wall?.line);
    assert.match(wall.text, /^0\.5 mm/);
    const [p, q] = [wall.at[0]!, wall.at[1]!];
    assert.ok(Math.abs(Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]) - 0.5) < 1e-6);
    const weights = marks.map((m) => ['error', 'warning', 'hint'].indexOf(m.kind));
    assert.deepEqual(
      weights,
      [...weights].sort((a, b) => a - b),
    );
    for (const m of marks) assert.equal(picture.findings[m.finding!]!.severity, m.kind);
    assert.equal(marks.filter((m) => m.kind === 'zero').length, 0, 'zero belongs to a set-up');
  });

  it('marks zero with its axes in a set-up, and the measure that was taken', async () => {
    const { picture } = (await pictureOfText(PART, { setup: 0, when: 'before' }))!;
    const marks = marksOf(picture, {
      text: '22 mm',
      at: [
        [0, 0, 0],
        [22, 0, 0],
      ],
    });
    assert.deepEqual(marks[0], {
      at: [
        [0, 0, 0],
        [22, 0, 0],
      ],
      line: true,
      text: '22 mm',
      kind: 'measure',
    });
    const zero = marks.find((m) => m.kind === 'zero');
    // Left, back, top of the body.
    assert.deepEqual(zero?.at, [[0, 40, 20]]);
    const axes = marks.filter((m) => m.kind === 'axis');
    assert.deepEqual(
      axes.map((m) => m.text),
      ['X', 'Y', 'Z'],
    );
    axes.forEach((m, i) => {
      assert.deepEqual(
        m.at[1]!.map((c, k) => Math.sign(c - m.at[0]![k]!) + 0),
        picture.setups[0]!.frame![i]!.map((c) => c + 0),
      );
    });
    // What stands round the work is told once for each kind.
    const around = marks.filter((m) => m.kind === 'around').map((m) => m.text);
    assert.deepEqual(around, [...new Set(picture.setups[0]!.around!.map((a) => a.what))]);
    assert.ok(around.includes('fixed jaw'));
    assert.deepEqual(marksOf(undefined, null), []);
  });

  it('in a set-up only what is said of its own cuts is marked, and nothing of what is not cut yet', async () => {
    const { picture } = (await pictureOfText(PART, { setup: 0, when: 'after' }))!;
    const walls = (cuts: readonly string[], more: object = {}) =>
      marksOf({ ...picture, ...more, setups: [{ ...picture.setups[0]!, cuts }] }, undefined).filter((m) =>
        m.about?.startsWith('wall/'),
      ).length;
    assert.ok(walls(['b', 'm']) > 0);
    assert.equal(walls(['m']), 0);
    assert.equal(walls(['b', 'm'], { uncut: ['b'] }), 0);
    const before = (await pictureOfText(PART, { setup: 0, when: 'before' }))!.picture;
    assert.deepEqual([...before.uncut!].sort(), before.features.map((f) => f.name).sort());
    assert.equal(marksOf(before, undefined).filter((m) => m.finding !== undefined && m.at.length > 0).length, 0);
  });

  it('in a set-up names the tool of the feature that is chosen, where its cutting ends', async () => {
    const { picture } = (await pictureOfText(PART, { setup: 0, when: 'after' }))!;
    const cutter = picture.setups[0]!.cutters!.find((c) => c.feature === 'a')!;
    const named = (...of: string[]) => marksOf(picture, undefined, new Set(of)).filter((m) => m.text === cutter.tool);
    assert.equal(named().length, 0);
    const [mark] = named('a');
    const top = cutter.parts.find((p) => p.what === 'cut')!.toMm;
    assert.deepEqual(mark?.at, [[cutter.tip[0], cutter.tip[1], cutter.tip[2] + top]]);
  });

  it('steps from the finished part to the first set-up, pass by pass, and round again; backwards the same way', async () => {
    const { picture: whole } = (await pictureOfText(PART))!;
    let picture = whole;
    const seen: string[] = [];
    const moments: (Moment | undefined)[] = [];
    do {
      moments.push(picture.moment);
      seen.push(stepText(picture));
      const next = stepped(picture, 1);
      picture = (await pictureOfText(PART, next))!.picture;
    } while (picture.moment);
    assert.equal(seen[0], 'finished part');
    assert.equal(seen[1], 'as it is put in');
    assert.equal(seen.at(-1), 'as it is taken out');
    const passes = seen.slice(2, -1);
    assert.ok(passes.length > 3);
    passes.forEach((text, i) => {
      assert.ok(text.startsWith(`${i + 1} of ${passes.length}: `), text);
    });
    for (let i = moments.length - 1; i >= 0; i--) {
      picture = (await pictureOfText(PART, moments[(i + 1) % moments.length]))!.picture;
      assert.deepEqual(stepped(picture, -1), moments[i]);
    }
    assert.equal(stepped({ setups: [] }, 1), undefined);
  });
});

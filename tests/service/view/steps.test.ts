/** A set-up on the machine, step by step: which way it lies, what is gone after each pass, where the tool stands, what holds it. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { cross } from '../../../server/src/geometry/vector';
import { planFor } from '../../../server/src/planning/plan-cache';
import { passesOfPart } from '../../../server/src/process/passes';
import { pictureOfText, shownVolume } from './support';

const EXAMPLES = resolve(__dirname, '../../../examples/gimbal');
const SHOP = readFileSync(join(EXAMPLES, 'campus.shop.yaml'), 'utf8');
const BLOCK = readFileSync(join(EXAMPLES, 'parts/bearing-block.part.yaml'), 'utf8');
const near = (a: number, b: number, by = 1e-6) => Math.abs(a - b) < by;

describe('a set-up on the machine', () => {
  it('lies right-handed, the face that is up to the spindle and the fixed jaw at the back', async () => {
    for (const [setup, back, up] of [
      [0, [0, 1, 0], [0, 0, 1]],
      [1, [0, 1, 0], [0, 0, -1]],
      [2, [0, 0, -1], [0, -1, 0]],
    ] as const) {
      const { picture } = (await pictureOfText(BLOCK, { setup, when: 'before' }, SHOP))!;
      const frame = picture.setups[setup]!.frame!;
      const plain = (v: readonly number[]) => v.map((c) => c + 0);
      assert.deepEqual(plain(frame[1]), back);
      assert.deepEqual(plain(frame[2]), up);
      assert.deepEqual(plain(frame[0]), plain(cross(frame[1], frame[2])));
    }
  });

  it('leans with the spindle upright where the work is held at an angle', async () => {
    const text = `part: d
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  slope: { kind: slope, face: top, along: right, angle: 20, width: 15 }
setups:
  first: { up: top, hold: { angle: 20, about: y, vise: mill-vise-100, jaws: [back, front], grip: 12 }, cuts: [slope] }
`;
    const { picture } = (await pictureOfText(text, { setup: 0, when: 'before' }, SHOP))!;
    const [right, back, up] = picture.setups[0]!.frame!;
    const a = Math.PI / 9;
    assert.ok(near(up[0], Math.sin(a)) && near(up[2], Math.cos(a)), `${up}`);
    assert.ok(near(back[1], 1) && near(right[0], Math.cos(a)) && near(right[2], -Math.sin(a)), `${right} ${back}`);
  });

  it('has the passes of the sheet, each tool as far out as there, its tip at the last depth over its first place', async () => {
    const { picture, snapshot } = (await pictureOfText(BLOCK, { setup: 2, when: 'after', pass: 2 }, SHOP))!;
    const passes = passesOfPart(snapshot.checked)[2]!;
    const rows = passes.rows.filter((r) => r.kind === 'pass');
    const shown = picture.setups[2]!.passes!;
    assert.deepEqual(
      shown.map((p) => [p.number, p.of, p.cutter?.tool]),
      rows.map((r) => [r.number, r.of, r.tool.name]),
    );
    const [drill, row] = [shown[1]!.cutter!, rows[1]!];
    // Set-up third: front up, so that X counts from right to left, Y from top to bottom, Z from back to front of 60, 40, 16.
    assert.ok(row.where.type === 'at');
    const [x, y] = row.where.places[0]!;
    assert.deepEqual(
      drill.tip.map((c) => +c.toFixed(6)),
      [60 - x, 40 - row.tipsZ.at(-1)!, 16 - y].map((c) => +c.toFixed(6)),
    );
    assert.deepEqual(
      drill.towards.map((c) => c + 0),
      [0, -1, 0],
    );
    const stands = drill.parts.filter((p) => p.what !== 'holder').at(-1)!.toMm;
    assert.ok(near(stands, row.stickoutMm), `${stands} out, not ${row.stickoutMm}`);
    const [point] = drill.parts;
    // A point of 118°: r / tan 59° high.
    assert.equal(point!.tipRadiusMm, 0);
    assert.ok(near(point!.toMm, 2.1 / Math.tan((59 * Math.PI) / 180), 1e-3), `${point!.toMm}`);
  });

  it('loses with each pass what that pass makes, and after the last what the set-up does', async () => {
    const { picture } = (await pictureOfText(BLOCK, { setup: 0, when: 'before' }, SHOP))!;
    const volume = async (pass?: number) =>
      shownVolume((await pictureOfText(BLOCK, { setup: 0, when: 'after', ...(pass && { pass }) }, SHOP))!.picture);
    const n = picture.setups[0]!.passes!.length;
    let last = shownVolume(picture);
    for (let pass = 1; pass <= n; pass++) {
      const now = await volume(pass);
      const { text } = picture.setups[0]!.passes![pass - 1]!;
      assert.ok(now <= last + 1e-6, `${text} adds metal`);
      // A centre mark and the drill before a wider bore make nothing yet.
      if (/^spot |^drill bearing-seat/.test(text)) assert.ok(near(now, last), text);
      if (/^rough bearing-seat/.test(text)) assert.ok(near(last - now, Math.PI * 121 * 7, 12), `${last - now}`);
      last = now;
    }
    assert.ok(near(last, await volume(), 1e-6));
    assert.equal(await pictureOfText(BLOCK, { setup: 0, when: 'after', pass: n + 1 }, SHOP), undefined);
  });

  it('tells how much is held and what stands out, and where zero was touched', async () => {
    const { picture } = (await pictureOfText(BLOCK, { setup: 0, when: 'before' }, SHOP))!;
    const { lengths, zero, around } = picture.setups[0]!;
    for (const { at, text } of lengths!) {
      const long = Math.hypot(...at[0].map((c, i) => c - at[1][i]!));
      assert.ok(near(long, Number.parseFloat(text)), `${text} is ${long}`);
    }
    assert.ok(lengths!.some((l) => l.text === '6 mm in the jaws'));
    assert.ok(lengths!.some((l) => l.text === '10 mm above them'));
    // Right is milled in this set-up and touched then; the fixed jaw is at 40; the parallels are under it.
    assert.deepEqual(zero, [60, 40, 0]);
    assert.ok(around!.some((a) => a.what === 'stop'));
  });

  it('stands in soft jaws, on a plate, against an angle plate, each as large as what it carries asks', async () => {
    const head = `part: e
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 20, y: 16 }, corner-radius: 5, depth: 6 }
  ears: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 48, count: 2 } }, diameter: 5.5, depth: through }
setups:
  first: { up: top, hold: `;
    const things = async (hold: string) => {
      const { picture } = (await pictureOfText(
        `${head}${hold}, cuts: [well] }\n`,
        { setup: 0, when: 'before' },
        SHOP,
      ))!;
      return picture.setups[0]!.around ?? [];
    };
    const soft = (await things('{ soft-jaws: mill-vise-100, jaws: [back, front], grip: 8 }')).filter(
      (t) => t.what === 'soft jaw',
    );
    assert.equal(soft.length, 2);
    for (const t of soft) assert.ok(near(t.max[2], 8), `${t.max}`);
    // Between them they reach from behind the work to behind it.
    assert.deepEqual([Math.min(...soft.map((t) => t.min[1])), Math.max(...soft.map((t) => t.max[1]))], [-15, 55]);
    const plate = (await things('{ clamps: [{ x: 6, y: 20 }, { x: 54, y: 20 }], on: plate }')).filter(
      (t) => t.what === 'plate',
    );
    assert.equal(plate.length, 1);
    assert.ok(near(plate[0]!.max[2], 0));
    assert.ok(plate[0]!.min[0] < 0 && plate[0]!.max[0] > 60);
  });

  it('has V-blocks with their V and nuts that are round, to size', async () => {
    const text = `part: r
material: aluminium-6061-t6
body: { diameter: 30, length: 80, axis: x }
stock: { form: round-bar, diameter: 30 }
features:
  spot: { kind: hole, face: top, at: { x: 40, y: center }, diameter: 6, depth: 10 }
setups:
  first: { up: top, hold: { v-block: vees, clamps: [{ x: 12, y: 15 }, { x: 68, y: 15 }] }, cuts: [spot] }
`;
    const shop = 'shop: s\nunits: mm\nv-blocks: { vees: { width: 32, height: 35, length: 45 } }\n';
    const { picture } = (await pictureOfText(text, { setup: 0, when: 'before' }, shop))!;
    const around = picture.setups[0]!.around!;
    const vees = around.filter((t) => t.what === 'V-block');
    assert.equal(vees.length, 2);
    for (const { outline, along, min, max } of vees) {
      assert.equal(along, 0);
      assert.ok(near(max[0] - min[0], 45) && near(max[2] - min[2], 35));
      // The bar's axis at y = z = 15, of radius 15, touches both sides of the V: as far from each as it is thick.
      const v = outline!.reduce((a, b) => (Math.abs(b[0] - 15) < Math.abs(a[0] - 15) ? b : a));
      for (const edge of outline!.filter(([y]) => near(Math.abs(y - 15), 16))) {
        const [dy, dz] = [edge[0] - v[0], edge[1] - v[1]];
        const off = Math.abs((15 - v[0]) * dz - (15 - v[1]) * dy) / Math.hypot(dy, dz);
        assert.ok(near(off, 15), `${off}`);
      }
    }
    const nuts = around.filter((t) => t.what === 'nut');
    assert.equal(nuts.length, 2);
    const [u, w] = [(nuts[0]!.min[0] + nuts[0]!.max[0]) / 2, (nuts[0]!.min[1] + nuts[0]!.max[1]) / 2];
    const radii = nuts[0]!.outline!.map(([x, y]) => Math.hypot(x - u, y - w));
    assert.equal(radii.length, 16);
    for (const r of radii) assert.ok(near(r, 12 / Math.cos(Math.PI / 16), 1e-6), `${r}`);
    assert.ok(around.some((t) => t.what === 'table' && near(t.max[2], vees[0]!.min[2])));
  });

  it('steps through a plan that is not written', async () => {
    const bare = BLOCK.slice(0, BLOCK.indexOf('setups:'));
    const taken = (await pictureOfText(bare, undefined, SHOP))!;
    const plan = planFor(taken.snapshot.checked)!;
    const picture = (await taken.pictures.picture(taken.snapshot, 1, {
      planned: true,
      moment: { setup: 0, when: 'after', pass: 1 },
    }))!;
    assert.equal(picture.planned, true);
    assert.deepEqual(
      picture.setups.map((s) => [s.name, s.up]),
      plan.setups.map((s) => [s.setup.name, s.setup.up?.name]),
    );
    assert.ok(picture.setups[0]!.passes!.length > 0);
    assert.equal(taken.picture.setups.length, 0);
    assert.equal(
      await taken.pictures.picture(taken.snapshot, 1, { planned: true, moment: { setup: 9, when: 'after' } }),
      null,
    );
  });
});

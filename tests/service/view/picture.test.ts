/** What a picture says of a part: faces by name, findings where they are, set-ups, the bar, and words to be read aloud. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { RULES, ruleByName } from '../../../server/src/rules/registry';
import { labelOf, TELLING } from '../../../server/src/service/view/labels';
import type { PartPicture } from '../../../server/src/service/view/protocol';
import { pictureOfText, shownVolume } from './support';

const EXAMPLES = resolve(__dirname, '../../../examples/gimbal');
const SHOP = readFileSync(join(EXAMPLES, 'campus.shop.yaml'), 'utf8');
const parts = ['parts', 'faulty'].flatMap((folder) =>
  readdirSync(join(EXAMPLES, folder))
    .filter((file) => file.endsWith('.part.yaml'))
    .map((file) => join(EXAMPLES, folder, file)),
);
const names = (p: PartPicture) => p.surfaces.map((s) => s.name);

describe('pictures', () => {
  for (const file of parts) {
    it(`of ${file.slice(EXAMPLES.length + 1)}`, async () => {
      const taken = await pictureOfText(readFileSync(file, 'utf8'), undefined, SHOP);
      assert.ok(taken);
      const { picture: p, snapshot } = taken;
      const { part, solid } = snapshot.checked;
      assert.ok(Math.abs(shownVolume(p) - solid.measures.volumeMm3) < 2e-3 * solid.measures.volumeMm3);
      const known = new Set(part.features.map((f) => f.name));
      for (const s of p.surfaces) {
        assert.ok(s.name.length > 0);
        if (s.feature !== undefined) assert.ok(known.has(s.feature) && s.name.includes(s.feature), s.name);
      }
      assert.equal(p.findings.length, snapshot.findings.length);
      for (const f of p.findings) {
        for (const at of f.at) assert.ok(at.every(Number.isFinite));
        // whatever is about a feature that cuts anything can be found on the part
        if (f.of.some((name) => solid.voidsOf(name.replace(/\[\d+\]$/, '')).length > 0))
          assert.ok(f.at.length > 0, `${f.rule} of ${f.of} is nowhere`);
      }
      assert.ok(p.summary.includes(part.title ?? part.name));
      for (const axis of [0, 1, 2] as const) {
        assert.ok(p.stock.min[axis] <= p.body.min[axis] && p.stock.max[axis] >= p.body.max[axis]);
      }
    });
  }

  it('names faces as a machinist would', async () => {
    const taken = await pictureOfText(`part: a
body: { x: 60, y: 40, z: 20 }
features:
  cell: { kind: pocket, face: top, at: { x: 16, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 3, depth: 8, floor-radius: 1, islands: { post: { diameter: 6, at: { x: 16, y: 20 }, height: 4 } } }
  seat: { kind: hole, face: top, at: { x: 45, y: 12 }, diameter: 5.5, depth: 12, counterbore: { diameter: 10, depth: 5 } }
  sink: { kind: hole, face: top, at: { x: 45, y: 30 }, pattern: { line: { x: 8, count: 2 } }, diameter: 3.4, depth: through, countersink: { diameter: 6, angle: 90 } }
  ramp: { kind: slope, face: top, along: right, width: 4, angle: 20 }
  edge: { kind: edge-round, face: bottom, edges: [bottom], radius: 1 }
`);
    const found = new Set(names(taken!.picture));
    for (const name of [
      'top',
      'bottom',
      'left',
      'wall of cell',
      'floor of cell',
      'floor fillet of cell',
      'island top of cell',
      'counterbore of seat',
      'seat of seat',
      'wall of seat',
      'point of seat',
      'countersink of sink[1]',
      'wall of sink[2]',
      'slope of ramp',
      'round of edge',
    ])
      assert.ok(found.has(name), `${name} is not among ${[...found].join(', ')}`);
  });

  it('marks a thin wall with both its ends and its thickness, in the document’s units', async () => {
    const text = (units: string, k: number) => `part: a
units: ${units}
material: aluminium-6061-t6
body: { x: ${60 / k}, y: ${40 / k}, z: ${20 / k} }
features:
  a: { kind: pocket, face: top, at: { x: ${20 / k}, y: ${20 / k} }, size: { x: ${16 / k}, y: ${20 / k} }, corner-radius: ${3 / k}, depth: ${8 / k} }
  b: { kind: pocket, face: top, at: { x: ${36.5 / k}, y: ${20 / k} }, size: { x: ${16 / k}, y: ${20 / k} }, corner-radius: ${3 / k}, depth: ${8 / k} }
`;
    for (const [units, k, label] of [
      ['mm', 1, '0.5 mm'],
      ['in', 25.4, '0.02 in'],
    ] as const) {
      const taken = await pictureOfText(text(units, k));
      const wall = taken!.picture.findings.find((f) => f.rule === 'wall/slender');
      assert.ok(wall);
      assert.equal(wall.at.length, 2);
      assert.equal(wall.gap, true);
      const [p, q] = wall.at as unknown as readonly [readonly number[], readonly number[]];
      assert.ok(Math.abs(Math.hypot(...p.map((x, i) => x - q[i]!)) - 0.5) < 1e-9);
      assert.ok(Math.abs(Math.min(p[0]!, q[0]!) - 28) < 1e-9);
      assert.match(wall.label!, new RegExp(`^${label.slice(0, 4)}`));
    }
  });

  it('tells of every rule it has a number for the number that the rule gives', () => {
    for (const [name, key] of Object.entries(TELLING)) {
      const rule = ruleByName(name);
      assert.ok(rule, name);
      const finding = checkPart(rule.bad, builtinShop()).findings.find((f) => f.rule === name);
      assert.ok(finding, name);
      assert.equal(typeof finding.facts[key], 'number', `${name} has ${Object.keys(finding.facts)}, not ${key}`);
      assert.match(labelOf(finding, (mm) => `${mm} mm`)!, /^-?[\d.]+( mm|°)$/);
    }
    assert.ok(RULES.length > Object.keys(TELLING).length);
  });

  it('is null without a body, and for a set-up that is not there', async () => {
    assert.equal(await pictureOfText('part: a\n'), undefined);
    assert.equal(await pictureOfText('part: a\nbody: { x: 9, y: 9, z: 9 }\n', { setup: 0, when: 'after' }), undefined);
  });

  const TWO_SETUPS = `part: a
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 3, top: 1 } }
features:
  cell: { kind: pocket, face: top, at: { x: 20, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 4, depth: 6 }
  bore: { kind: hole, face: bottom, at: { x: 45, y: 20 }, diameter: 8, depth: 10, bottom: flat }
setups:
  one: { up: top, hold: { vise: small-vise, jaws: [front, back], grip: 6 }, zero: { x: left, y: front, z: parallels }, cuts: [top, left, right, cell] }
  two: { up: bottom, hold: { vise: small-vise, jaws: [front, back], grip: 6 }, cuts: [bore] }
`;
  const VISE = `shop: s
vises:
  small-vise: { jaw: { width: 50, height: 28 }, opens: 80 }
`;

  it('follows the workpiece through its set-ups', async () => {
    const whole = 65 * 40 * 17;
    const faced = 60 * 40 * 16 - (20 * 20 - (4 - Math.PI) * 16) * 6;
    const volumes = await Promise.all(
      (
        [
          [0, 'before', whole],
          [0, 'after', faced],
          [1, 'before', faced],
          [1, 'after', faced - Math.PI * 16 * 10],
        ] as const
      ).map(async ([setup, when, expected]) => {
        const taken = await pictureOfText(TWO_SETUPS, { setup, when }, VISE);
        assert.deepEqual(taken!.picture.moment, { setup, when });
        return [shownVolume(taken!.picture), expected] as const;
      }),
    );
    for (const [shown, expected] of volumes)
      assert.ok(Math.abs(shown - expected) < 1e-3 * expected, `${shown} ${expected}`);
    const after = (await pictureOfText(TWO_SETUPS, { setup: 0, when: 'after' }, VISE))!.picture;
    assert.ok(names(after).includes('top') && names(after).includes('floor of cell'));
    assert.ok(after.surfaces.every((s) => s.feature === undefined || s.feature === 'cell'));
  });

  it('shows what holds the work, and where zero is', async () => {
    const { setups, stock } = (await pictureOfText(TWO_SETUPS, undefined, VISE))!.picture;
    assert.deepEqual(
      setups.map((s) => [s.name, s.up, s.cuts]),
      [
        ['one', 'top', ['top', 'left', 'right', 'cell']],
        ['two', 'bottom', ['bore']],
      ],
    );
    const fixed = setups[0]!.around!.find((a) => a.what === 'fixed jaw')!;
    assert.equal(fixed.max[1], 0);
    assert.equal(fixed.max[2], 6);
    const moving = setups[0]!.around!.find((a) => a.what === 'moving jaw')!;
    assert.equal(moving.min[1], 40);
    // left is still the saw's when it is touched
    assert.deepEqual(setups[0]!.zero, [-2, 0, 0]);
    assert.equal(setups[1]!.zero, undefined);
    assert.deepEqual(stock, { min: [-2, 0, 0], max: [63, 40, 17] });
  });

  it('draws a round bar as one', async () => {
    const { stock, summary } = (await pictureOfText(
      'part: shaft\nbody: { diameter: 20, length: 30, axis: x }\nmaterial: aluminium-6061-t6\nstock: { form: round-bar, diameter: 22, axis: x, extra: { left: 1 } }\n',
    ))!.picture;
    assert.deepEqual(stock, { min: [-1, -1, -1], max: [30, 21, 21], radiusMm: 11, axis: 0 });
    assert.match(summary, /^shaft: 20 mm in diameter and 30 mm long, aluminium-6061-t6, 25\.4 g\. Nothing is cut/);
  });

  it('draws a section with what it lacks', async () => {
    const stockOf = async (body: string, stock: string) =>
      (await pictureOfText(`part: p\nbody: ${body}\nmaterial: aluminium-6061-t6\nstock: { ${stock} }\n`))!.picture
        .stock;
    const angle = await stockOf('{ x: 30, y: 60, z: 40 }', 'form: angle, axis: y, wall: 5, open: [right, top]');
    // Along y an outline counts in x and z.
    const corners = ['0,0', '0,40', '5,40', '5,5', '30,5', '30,0'];
    assert.deepEqual(angle.outline?.map((p) => p.join()).sort(), corners.sort());
    assert.deepEqual([angle.along, angle.holes], [1, []]);
    const tube = await stockOf('{ diameter: 20, length: 30, axis: z }', 'form: tube, wall: 4');
    const radii = [tube.outline!, ...tube.holes!].map((line) => line.map(([x, y]) => Math.hypot(x - 10, y - 10)));
    assert.deepEqual(
      radii.map((r) => [Math.min(...r), Math.max(...r)].map((mm) => Number(mm.toFixed(6)))),
      [
        [10, 10],
        [6, 6],
      ],
    );
  });
});

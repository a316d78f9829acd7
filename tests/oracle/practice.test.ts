/**
 * Speeds, feeds, torque and minutes against practice. Each band says where it is from: a published table, or machinists'
 * practice from memory; none is worked out with the project's own tables.
 */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { toothFeed } from '../../server/src/process/cutting/chip-load';
import { tappingTorqueNm } from '../../server/src/process/cutting/force';
import { operationsOf } from '../../server/src/process/operations';
import { priceOf } from '../../server/src/process/operations/priced';
import type { Operation, Priced } from '../../server/src/process/operations/types';
import { readPart } from '../../server/src/rules/check';
import { cuttingOf, holeRowOf } from '../../server/src/tables/cutting';
import { findMaterial } from '../../server/src/tables/materials';
import { TAP_FORCE } from '../../server/src/tables/plunging.data';

const MEMORY = 'machinists’ practice, from memory';
const NAVY = 'US Navy training course 14345, high-speed steel twist drills (80 to 110 ft/min, 200 to 300 ft/min)';
type Band = readonly [low: number, high: number];

interface Row {
  readonly cut: string;
  readonly material: string;
  readonly feature: string;
  readonly does: Operation['does'];
  readonly rpm?: Band;
  readonly mPerMin?: Band;
  readonly mmPerMin?: Band;
  readonly mmPerTurn?: Band;
  readonly mmPerTooth?: Band;
  readonly passes?: Band;
  readonly torqueNm?: Band;
  readonly newtons?: Band;
  /** What is told must overlap it. */
  readonly minutes?: Band;
  readonly source: string;
}

const AL = 'aluminium-6061-t6';
const hole = (more: string) => `{ kind: hole, face: top, at: { x: 40, y: 30 }, depth: through, ${more} }`;
const dovetail =
  '{ kind: slot, face: top, ends: [{ x: -10, y: center }, { x: 90, y: center }], width: 22, depth: 6, dovetail: { angle: 60 } }';
const tee =
  '{ kind: slot, face: top, ends: [{ x: -10, y: center }, { x: 90, y: center }], width: 8, depth: 14, tee: { width: 16, height: 8 } }';

/** Boring heads of a small mill: 300 to 1,000 rpm. */
const bored = (size: string, material: string, rpm: Band): Row => ({
  cut: `boring head ${size}`,
  material,
  feature: hole(`diameter: ${size}`),
  does: 'bore',
  rpm,
  minutes: [10, 20],
  source: MEMORY,
});

const ROWS: readonly Row[] = [
  bored('11 H7', AL, [300, 1000]),
  bored('16 H7', AL, [500, 1000]),
  bored('20 H7', AL, [500, 1000]),
  bored('25 H7', AL, [500, 1000]),
  bored('35 H7', AL, [500, 1000]),
  bored('16 H7', 'steel-c45', [400, 600]),
  bored('20 H8', 'steel-s235jr', [400, 600]),
  {
    cut: 'tap M4',
    material: AL,
    feature: hole('thread: M4, thread-depth: 8'),
    does: 'tap',
    minutes: [1, 2],
    source: MEMORY,
  },
  {
    cut: 'tap M8',
    material: 'steel-s235jr',
    feature: hole('thread: M8'),
    does: 'tap',
    minutes: [2, 3],
    source: MEMORY,
  },
  {
    cut: 'drill 10',
    material: 'steel-s235jr',
    feature: hole('diameter: 10'),
    does: 'drill',
    rpm: [860, 955],
    mPerMin: [24.4, 33.5],
    source: NAVY,
  },
  {
    cut: 'drill 10',
    material: 'brass-cw614n',
    feature: hole('diameter: 10'),
    does: 'drill',
    mPerMin: [61, 91.4],
    source: NAVY,
  },
  {
    cut: 'drill 3',
    material: 'stainless-304',
    feature: hole('diameter: 3'),
    does: 'drill',
    mPerMin: [12, 18],
    mmPerTurn: [0.05, 0.08],
    source: MEMORY,
  },
  {
    cut: 'drill 13.5',
    material: 'steel-s235jr',
    feature: hole('diameter: 13.5'),
    does: 'drill',
    torqueNm: [9, 14],
    source: `${MEMORY}: 10 to 12 N·m at the gentlest feed`,
  },
  {
    cut: 'ream 5 H7',
    material: AL,
    feature: hole('diameter: 5 H7'),
    does: 'ream',
    mmPerTurn: [0.15, 0.25],
    source: MEMORY,
  },
  {
    cut: 'dovetail',
    material: AL,
    feature: dovetail,
    does: 'undercut',
    rpm: [600, 900],
    mmPerMin: [80, 150],
    mmPerTooth: [0.02, 0.05],
    passes: [2, 3],
    source: MEMORY,
  },
  {
    cut: 'dovetail',
    material: 'steel-c45',
    feature: dovetail,
    does: 'undercut',
    mmPerTooth: [0.01, 0.03],
    passes: [2, 3],
    source: MEMORY,
  },
  {
    cut: 'ring groove',
    material: AL,
    feature: '{ kind: groove, face: top, at: { x: 40, y: 30 }, diameter: 30, width: 3, depth: 2 }',
    does: 'rough',
    mmPerTooth: [0.005, 0.05],
    source: MEMORY,
  },
  { cut: 'T-slot', material: 'steel-c45', feature: tee, does: 'undercut', mmPerTooth: [0.005, 0.05], source: MEMORY },
  {
    cut: 'chamfer 0.5',
    material: AL,
    feature: '{ kind: chamfer, edges: [top], size: 0.5 }',
    does: 'chamfer',
    mmPerTooth: [0.03, 0.06],
    mmPerMin: [600, 1000],
    source: MEMORY,
  },
  {
    cut: 'chamfer 3',
    material: AL,
    feature: '{ kind: chamfer, edges: [top], size: 3 }',
    does: 'chamfer',
    passes: [2, 3],
    newtons: [80, 160],
    source: MEMORY,
  },
  {
    cut: 'counterbore for M5',
    material: AL,
    feature: hole('diameter: 5.5, counterbore: { diameter: 10, depth: 5.5 }'),
    does: 'counterbore',
    rpm: [800, 1250],
    source: MEMORY,
  },
];

function cutOf({ material, feature, does }: Row): Priced {
  const { part, solid, shop } = readPart(
    `part: p\nmaterial: ${material}\nbody: { x: 80, y: 60, z: 24 }\nfeatures: { f: ${feature} }\n`,
    builtinShop(),
  );
  const operation = operationsOf(part.features[0]!, { part, solid, shop }).find((o) => o.does === does);
  assert.ok(operation, does);
  return priceOf(operation, findMaterial(material)!, shop.machines[0]!);
}

const within = (what: string, value: number | undefined, band: Band | undefined) =>
  assert.ok(!band || (value !== undefined && value >= band[0] && value <= band[1]), `${what} ${value}, not ${band}`);

describe('practice', () => {
  for (const row of ROWS)
    it(`${row.cut} in ${row.material} (${row.source.slice(0, 40)})`, () => {
      const { conditions: c, milling, passes = 1, torqueNm, minutes } = cutOf(row);
      within('rpm', c?.rpm, row.rpm);
      within('m/min', c?.speedMPerMin, row.mPerMin);
      within('mm/min', c?.feedMmPerMin, row.mmPerMin);
      within('mm a turn', c && c.feedMmPerMin / c.rpm, row.mmPerTurn);
      within('mm a tooth', milling?.feedPerToothMm, row.mmPerTooth);
      within('passes', passes, row.passes);
      within('N·m', torqueNm, row.torqueNm);
      within('N', milling?.load.resultantN, row.newtons);
      const [low, high] = row.minutes ?? minutes;
      assert.ok(minutes[0] <= high && minutes[1] >= low, `${minutes} min, not ${row.minutes}`);
    });

  it('an end mill of 10 mm and more is fed 0.05 to 0.15 mm a tooth in aluminium, an insert of a face mill 0.1 to 0.3', () => {
    for (const d of [10, 12, 16, 20]) {
      const feature = `{ kind: pocket, face: top, at: { x: 40, y: 30 }, size: { x: 60, y: 40 }, corner-radius: ${d}, depth: 6 }`;
      const [low, high] = cutOf({ cut: '', material: AL, feature, does: 'rough', source: MEMORY }).milling!.chipRangeMm;
      within('mm a tooth', (low + high) / 2, [0.05, 0.15]);
    }
    const face = { kind: 'face-mill', diameterMm: 50, material: 'carbide' } as const;
    const [low, high] = toothFeed(cuttingOf(findMaterial(AL)!), face).rangeMm;
    within('mm a tooth', (low + high) / 2, [0.1, 0.3]);
  });

  it('mild steel asks for no more torque than C45', () => {
    const torque = (material: string) =>
      cutOf({ cut: '', material, feature: hole('diameter: 8'), does: 'drill', source: '' }).torqueNm!;
    assert.ok(torque('steel-s235jr') < torque('steel-c45'));
  });

  it('a deep hole is fed as a shallow one: pecks clear chips, they do not thin them', () => {
    const feed = (depth: string) => {
      const feature = `{ kind: hole, face: top, at: { x: 40, y: 30 }, depth: ${depth}, diameter: 3 }`;
      const { conditions, pecks } = cutOf({ cut: '', material: 'stainless-304', feature, does: 'drill', source: '' });
      return [conditions!.feedMmPerMin / conditions!.rpm, pecks ?? 1] as const;
    };
    const [[shallow, once], [deep, often]] = [feed('6'), feed('22')];
    assert.ok(Math.abs(shallow - deep) < 1e-9 && once === 1 && often > 1);
  });
});

/**
 * A second tap maker's formula (general catalogue 2016, tapping torque of cutting taps), read on docs.steelcam.org:
 * M = tan θ · kc · K (D − Do)² (D + 2 Do) / 24000 N·m, with its own kc and, for a hand tap (plug), K.
 */
const SECOND = [
  { material: 'steel-c45', kc: 3900, k: 1.35 },
  { material: 'steel-s235jr', kc: 3700, k: 1.35 },
  { material: 'stainless-304', kc: 4200, k: 1.35 },
  { material: AL, kc: 1300, k: 1.25 },
] as const;

describe('tapping torque', () => {
  for (const { material, kc, k } of SECOND)
    for (const [d, p, drill] of [
      [6, 1, 5],
      [8, 1.25, 6.8],
      [10, 1.5, 8.5],
      [12, 1.75, 10.2],
    ] as const)
      it(`M${d} in ${material} is within a third of another maker’s formula`, () => {
        const theirs = (Math.tan(Math.PI / 6) * kc * k * (d - drill) ** 2 * (d + 2 * drill)) / 24_000;
        const ours = tappingTorqueNm(TAP_FORCE[holeRowOf(findMaterial(material)!)].kc, d, p);
        assert.ok(ours / theirs > 0.67 && ours / theirs < 1.5, `${ours} N·m against ${theirs}`);
      });
});

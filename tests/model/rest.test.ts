/** Datums, tolerances, setups, accepted findings: what stands on the features. */
import assert from 'node:assert/strict';
import { block, marked, partOf } from './read';

const HOLES = `
  mount: { kind: hole, face: front, at: { x: 30, z: 8 }, pattern: { line: { x: 36, count: 2 } }, thread: M5, depth: 14 }
  seat: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 22 H7, depth: 7 }
  odd: { kind: hole, face: tpo, at: { x: 30, y: 20 }, diameter: 22, depth: 7 }
`;
/** The block with the two holes and a broken one, whose own fault is left out of what is told. */
const withHoles = (rest: string) => block(HOLES.replace('tpo', '«tpo»')) + rest;
const part = (rest: string) => partOf(withHoles(rest).replace(/[«»]/g, ''));
const messages = (rest: string) =>
  marked(withHoles(rest))
    .map((p) => p.message)
    .filter((m) => !m.startsWith('`face` cannot be'));

describe('tolerances', () => {
  it('of every characteristic are read', () => {
    const words = [
      'position',
      'flatness',
      'parallelism',
      'perpendicularity',
      'angularity',
      'concentricity',
      'symmetry',
      'profile',
      'runout',
    ];
    const rest = `datums: { A: bottom }\ntolerances:\n${words.map((w) => `  - { ${w}: 0.05, of: mount, datums: [A] }`).join('\n')}\n`;
    assert.deepEqual(messages(rest), []);
    assert.deepEqual(
      part(rest).tolerances.map((t) => t.characteristic),
      words,
    );
  });

  it('may be a distance, and at maximum material', () => {
    const found = part(
      `datums: { A: seat }\ntolerances:\n  - { distance: 36 ±0.02, of: ['mount[1]', 'mount[2]'], axis: x }\n  - { position: 0.2, of: [mount, seat], datums: [A], material-condition: maximum-material }\n`,
    ).tolerances;
    const [distance, position] = found;
    assert.deepEqual(
      [
        distance?.characteristic,
        distance?.value.mm,
        distance?.value.tolerance?.upperMm,
        distance?.of.map((o) => o.name),
        distance?.axis,
      ],
      ['distance', 36, 0.02, ['mount[1]', 'mount[2]'], 'x'],
    );
    assert.deepEqual([position?.maximumMaterial, position?.of.length, position?.datums[0]?.name], [true, 2, 'A']);
    assert.equal(distance?.maximumMaterial, false);
  });

  it('tell names and fields that are not there', () => {
    assert.deepEqual(
      messages(`datums: { A: «nothing», «b»: bottom, C: «[1]» }
tolerances:
  - { position: 0.1, of: «mont», datums: [A, «D»] }
  - { position: 0.1, of: odd }
  - { position: 0.1, of: «'mount[3]'» }
  - { position: 0.1, of: «'seat[1]'» }
  - «{ of: top }»
  - { flatness: 0.1, «runout»: 1, of: top }
  - { distance: «36», of: [left, right] }
  - { distance: 36 ±0.1, of: «left» }
  - { flatness: «0», of: top }
  - «flat»
`).map((m) => m.replace(/[.;:] .*/, '')),
      [
        'There is no feature or face `nothing`',
        '`b` is not a datum letter',
        'Datum C needs a face or a feature',
        'There is no feature or face `mont`',
        'There is no datum `D`',
        'There is no `mount[3]`',
        'There is no `seat[1]`',
        'A tolerance needs `position`, `straightness`, `flatness`, `circularity`, `cylindricity` or another of 14',
        'A tolerance can have only one of `position`, `straightness`, `flatness`, `circularity`, `cylindricity` and another of 14',
        'A distance here needs its tolerance',
        'A distance is between two things',
        '`flatness` is 0 mm',
        'A tolerance is `flat`',
      ],
    );
  });
});

describe('setups', () => {
  const setup = (hold: string, more = '') =>
    part(`setups:\n  one:\n    up: top\n    hold: ${hold}\n    cuts: [seat]\n${more}`).setups![0]!;

  it('hold work in every way there is', () => {
    const vise = setup('{ vise: v, jaws: [front, back], grip: 6, parallels: 26, stop: left }').hold!;
    assert.deepEqual([vise.type, vise.grip?.mm, vise.parallels?.mm, vise.stop?.name], ['vise', 6, 26, 'left']);
    const clamps = setup('{ clamps: [{ left: 6, y: center }, { right: 6, y: center }], on: plate }').hold!;
    assert.deepEqual(
      [clamps.type, clamps.on, clamps.clamps?.map((c) => [c.u, c.v])],
      [
        'clamps',
        'plate',
        [
          [6, 20],
          [54, 20],
        ],
      ],
    );
    const screws = setup('{ screws: [seat, mount], to: plate }').hold!;
    assert.deepEqual([screws.type, screws.screws?.map((s) => s.name)], ['screws', ['seat', 'mount']]);
    const tabs = setup('{ tabs: { count: 4, width: 5, height: 1 } }').hold!;
    assert.deepEqual([tabs.type, tabs.tabs?.count, tabs.tabs?.width.mm, tabs.tabs?.height.mm], ['tabs', 4, 5, 1]);
    const soft = setup('{ soft-jaws: v, jaws: [front, back], grip: 4 }').hold!;
    assert.deepEqual([soft.type, soft.vise?.name, soft.grip?.mm], ['soft-jaws', 'v', 4]);
    assert.deepEqual(
      [setup('{ soft-jaws: true }').hold?.type, setup('{ soft-jaws: true }').hold?.vise],
      ['soft-jaws', undefined],
    );
    const angle = setup('{ angle: 30, about: x, vise: v, jaws: [left, right], grip: 8 }').hold!;
    assert.deepEqual([angle.type, angle.tilt?.angle.deg, angle.tilt?.about, angle.vise?.name], ['angle', 30, 'x', 'v']);
  });

  it('say zero, method, machine and tools', () => {
    const one = part(
      'setups:\n  one:\n    up: top\n    zero: { x: left, y: seat, z: parallels }\n    method: edge-finder\n    machine: m\n    cuts: [seat, right]\n    tools: { seat: em-10 }\n',
    ).setups![0]!;
    assert.deepEqual([one.zero.x?.name, one.zero.y?.name, one.zero.z?.name], ['left', 'seat', 'parallels']);
    assert.deepEqual([one.method?.name, one.machine?.name], ['edge-finder', 'm']);
    assert.deepEqual(
      one.tools.map((t) => [t.of.name, t.tool.name]),
      [['seat', 'em-10']],
    );
    assert.equal(
      part('setups:\n  one: { up: top, zero: { x: left, method: probe }, cuts: [] }\n').setups![0]!.method?.name,
      'probe',
    );
    assert.equal(part('').setups, undefined);
    assert.deepEqual(part('setups: {}\n').setups, []);
  });

  it('tell what cannot be', () => {
    assert.deepEqual(
      messages(`setups:
  one:
    up: top
    hold: { «vize»: v, jaws: [front, back], grip: 5 }
    cuts: [seat]
  two:
    up: top
    hold: { vise: v, jaws: [left, «front»], grip: «0» }
    zero: { x: «lft» }
    cuts: [odd, «set», right]
    tools: { «set»: em-10 }
  three: { up: top, hold: { vise: v, «jaws»: [top, bottom], grip: 5 }, cuts: [] }
  four: { up: top, hold: { vise: v, jaws: «[left]», grip: 5 }, cuts: [] }
  five: { up: top, cuts: «left» }
  six: { up: «upper», cuts: [] }
  «seven»: { cuts: [] }
`).map((m) => m.replace(/[.;:] .*/, '')),
      [
        '`hold` has no field `vize`',
        'Jaws grip two opposite faces',
        '`grip` is 0 mm',
        'There is no feature or face `lft`',
        'There is no feature or face `set`',
        'There is no feature or face `set`',
        'top is up, so no jaw can be on it or on the face below',
        'A vise has two jaws, fixed and moving',
        '`cuts` is a list',
        '`up` cannot be `upper`',
        'A setup needs `up`',
      ],
    );
  });

  it('stand with what is left when a name is wrong', () => {
    const [one] = part('setups:\n  one: { up: top, cuts: [seat, nothing, right] }\n').setups!;
    assert.deepEqual(
      one?.cuts.map((c) => c.name),
      ['seat', 'right'],
    );
  });
});

describe('accepted findings', () => {
  it('need a rule and may name a feature', () => {
    const rest = "accept:\n  - { rule: wall/thin }\n  - { rule: hole/depth-ratio, of: 'mount[2]', because: 12 }\n";
    assert.deepEqual(
      part(rest).accept.map((a) => [a.rule.name, a.of?.name, a.because]),
      [
        ['wall/thin', undefined, undefined],
        ['hole/depth-ratio', 'mount[2]', '12'],
      ],
    );
    assert.deepEqual(
      messages('accept:\n  - «{ of: seat }»\n  - { rule: wall/thin, of: «set» }\n').map((m) =>
        m.replace(/[.;:] .*/, ''),
      ),
      ['An accepted finding needs `rule`', 'There is no feature or face `set`'],
    );
  });
});

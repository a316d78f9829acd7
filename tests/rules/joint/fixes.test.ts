/** What is offered where a joint does not meet: tried, in the job or in a part, and what it was offered for is gone when it is taken. */
import assert from 'node:assert/strict';
import { jobFindings } from '../../../server/src/planning/job';
import { checkJob, readPart } from '../../../server/src/rules/check';
import { allSafeOfJob, jointFixes } from '../../../server/src/rules/joint-fixes';
import type { Fix } from '../../../server/src/rules/kit/rule';
import { applyEdits, locateEdits } from '../../../server/src/text/edit';
import { hole, jobOf, plate } from './job';

const FOUR = [
  [10, 10],
  [90, 10],
  [90, 50],
  [14, 50],
] as const;
const NEAR = [
  [10, 10],
  [36, 10],
  [36, 36],
  [10, 36],
] as const;
const THICK = { size: '{ x: 100, y: 60, z: 30 }' };
const THROUGH = 'clearance: M5, depth: through';
const INTO = 'thread: M5, depth: 25, thread-depth: 18';
const lid = (fields = THROUGH, places: readonly (readonly [number, number])[] = FOUR) =>
  plate(hole('screws', places, fields));
const tub = (fields = INTO, places: readonly (readonly [number, number])[] = FOUR) =>
  plate(hole('screws', places, fields), THICK);
const screwed = (screw: string, more = '') => `  j: { screw: ${screw}, through: lid.screws, into: tub.screws${more} }`;

const NUT_AT = [[20, 20]] as const;
const NUT = '  j: { screw: M5x40, through: [lid.screws, tub.screws], nut: ISO 4032, nut-in: tub.nest }';
const nest = (pocket: string, corner = 1.5) =>
  plate(`${hole('screws', NUT_AT, THROUGH)}  nest: { kind: pocket, ${pocket}, corner-radius: ${corner} }\n`, THICK);

type Parts = Readonly<Record<string, string>>;

/** The texts with the fix made, judged again. */
function taken(parts: Parts, joints: string, fix: Fix) {
  const { checked, pieces } = jobOf(parts, joints);
  const text = applyEdits(checked.tree.text, locateEdits(checked.tree, fix.edits));
  const now = pieces.map((p) => {
    const other = fix.elsewhere?.filter((e) => e.file === p.entry.spec.name).flatMap((e) => e.edits) ?? [];
    const changed = applyEdits(p.checked.tree.text, locateEdits(p.checked.tree, other));
    return { ...p, checked: readPart(changed, p.checked.shop) };
  });
  const job = checkJob(text);
  return {
    text,
    parts: now.map((p) => p.checked.tree.text),
    findings: [...job.findings, ...jobFindings(job.job, now, false)],
    problems: now.flatMap((p) => p.checked.part.problems.map((f) => f.message)),
  };
}

/** Every fix of the first finding of a rule, each taken: it is gone. Answers their titles. */
function titlesOf(parts: Parts, joints: string, rule: string): readonly string[] {
  const { checked, pieces } = jobOf(parts, joints);
  const found = [...checked.findings, ...jobFindings(checked.job, pieces, false)];
  const finding = found.find((f) => f.rule === rule);
  assert.ok(finding, `${rule} of ${found.map((f) => f.rule).join()}`);
  const fixes = jointFixes(checked, pieces, finding);
  for (const fix of fixes) {
    const after = taken(parts, joints, fix);
    const still = after.findings.filter((f) => f.rule === rule);
    assert.ok(still.length < found.filter((f) => f.rule === rule).length, `${fix.title}: ${still[0]?.message}`);
    assert.deepEqual(after.problems, [], fix.title);
    const errors = (all: typeof found) => all.filter((f) => f.severity === 'error').length;
    assert.ok(errors(after.findings) <= errors(found), fix.title);
  }
  return fixes.map((f) => `${f.safe ? 'safe: ' : ''}${f.title}`);
}

const dowels = (a: string, b: string, deep = 'through') => ({
  a: plate(
    hole(
      'd',
      [
        [20, 20],
        [80, 40],
      ],
      `diameter: ${a}, depth: ${deep}`,
    ),
  ),
  b: plate(
    hole(
      'd',
      [
        [20, 20],
        [80, 40],
      ],
      `diameter: ${b}, depth: 9`,
    ),
  ),
});
const seat = (size: string) => ({
  block: plate(hole('seat', [[50, 30]], `diameter: ${size}, depth: 7, bottom: flat`)),
});
const row = (pitch: string, fields: string, size = '{ x: 100, y: 60, z: 10 }') =>
  plate(`  screws: { kind: hole, face: top, at: { x: 50, y: 30 }, pattern: { ${pitch} }, ${fields} }\n`, { size });
const moved = [
  [10, 10],
  [90, 10],
  [90.8, 50],
  [14, 50],
] as const;

const CASES: Readonly<
  Record<string, readonly [parts: Parts, joints: string, rule: string, titles: readonly string[]]>
> = {
  'a screw that is stopped': [
    { lid: lid(), tub: tub() },
    screwed('M5x30'),
    'joint/length',
    ['safe: Use ISO 4762 M5 × 25', 'safe: Use ISO 4762 M5 × 20', 'Thread tub.screws 20.5 mm deep'],
  ],
  'a screw of no standard length, too short': [
    { lid: lid(), tub: tub() },
    screwed('M5x14'),
    'joint/engagement',
    ['safe: Use ISO 4762 M5 × 20', 'safe: Use ISO 4762 M5 × 25'],
  ],
  'a thread that no length suits': [
    { lid: lid(), tub: tub('thread: M5, depth: 8, thread-depth: 5') },
    screwed('M5x16'),
    'joint/length',
    [
      'Use ISO 4762 M5 × 20, and thread tub.screws 10.5 mm deep',
      'Thread tub.screws 6.4 mm deep',
      'Put a washer ISO 7089 under the head, 1 mm thick',
    ],
  ],
  'a screw in its nut that ends too early': [
    { lid: lid(), tub: plate(hole('screws', FOUR, THROUGH)) },
    '  j: { screw: M5x25, through: [lid.screws, tub.screws], nut: ISO 4032 }',
    'joint/length',
    ['safe: Use ISO 4762 M5 × 30', 'safe: Use ISO 4762 M5 × 35', 'safe: Use ISO 4762 M5 × 40'],
  ],
  'a nut that does not go into its pocket': [
    { lid: lid(THROUGH, NUT_AT), tub: nest('face: bottom, at: { x: 20, y: 20 }, size: { x: 7.6, y: 12 }, depth: 6') },
    NUT,
    'joint/nut',
    ['Make tub.nest 8.2 mm wide'],
  ],
  'a nut that can be turned in its pocket': [
    { lid: lid(THROUGH, NUT_AT), tub: nest('face: bottom, at: { x: 20, y: 20 }, size: { x: 9.4, y: 12 }, depth: 6') },
    NUT,
    'joint/nut',
    ['Make tub.nest 8.2 mm wide'],
  ],
  'a nut beside its screw': [
    { lid: lid(THROUGH, NUT_AT), tub: nest('face: bottom, at: { x: 50, y: 20 }, size: { x: 8.2, y: 12 }, depth: 6') },
    NUT,
    'joint/nut',
    ['Move tub.nest to tub.screws'],
  ],
  'a nut from the side that stops before its screw': [
    { lid: lid(THROUGH, NUT_AT), tub: nest('face: left, at: { y: 20, z: 15 }, size: { y: 8.2, z: 12 }, depth: 22', 3) },
    NUT.replace('M5x40', 'M5x50'),
    'joint/nut',
    ['Make tub.nest 24.7 mm deep'],
  ],
  'an inch screw': [
    {
      lid: lid('clearance: 10-24, depth: through'),
      tub: tub('thread: 10-24 UNC, depth: 25, thread-depth: 18'),
    },
    screwed('"10-24 x 1 1/4"'),
    'joint/length',
    [
      'safe: Use ASME B18.3 cap 10-24 UNC × 1 in',
      'safe: Use ASME B18.3 cap 10-24 UNC × 0.875 in',
      'safe: Use ASME B18.3 cap 10-24 UNC × 0.75 in',
    ],
  ],
  'a hole that the screw does not go through': [
    { lid: lid('diameter: 4.5, depth: through'), tub: tub() },
    screwed('M5x20'),
    'joint/screw',
    ['Make lid.screws a clearance hole for M5'],
  ],
  'a clearance hole for a smaller screw': [
    { lid: lid('clearance: M4, depth: through'), tub: tub() },
    screwed('M5x20'),
    'joint/screw',
    ['Make lid.screws a clearance hole for M5'],
  ],
  'a thread where the screw goes through': [
    { lid: lid('thread: M5, depth: through'), tub: tub() },
    screwed('M5x20'),
    'joint/screw',
    ['Make lid.screws a clearance hole for M5'],
  ],
  'a hole that does not come out': [
    { lid: lid('clearance: M5, depth: 8'), tub: tub() },
    screwed('M5x20'),
    'joint/screw',
    ['Drill lid.screws through', 'Make lid.screws a clearance hole for M5, drilled through'],
  ],
  'no thread': [
    { lid: lid(), tub: tub('diameter: 4.2, depth: 25') },
    screwed('M5x20'),
    'joint/screw',
    ['Thread tub.screws M5'],
  ],
  'another thread': [
    { lid: lid('diameter: 4.8, depth: through'), tub: tub('thread: M4, depth: 25, thread-depth: 18') },
    screwed('M5x20'),
    'joint/screw',
    ['Use the screw that the thread is for: M4x20', 'Make lid.screws a clearance hole for M5'],
  ],
  'a counterbore that is too narrow': [
    { lid: lid(`${THROUGH}, counterbore: { diameter: 8.2, depth: 5.5 }`), tub: tub() },
    screwed('M5x16'),
    'joint/head',
    ['Counterbore lid.screws for M5', 'Make the counterbore of lid.screws 9 mm wide'],
  ],
  'a counterbore that is too shallow': [
    { lid: lid(`${THROUGH}, counterbore: { diameter: 10, depth: 3 }`), tub: tub() },
    screwed('M5x16'),
    'joint/head',
    ['Counterbore lid.screws for M5', 'Make the counterbore of lid.screws 5 mm deep'],
  ],
  'a flat head without a cone': [
    { lid: lid(), tub: tub() },
    screwed('ISO 10642 M5x25'),
    'joint/head',
    ['Countersink lid.screws for M5', 'Use ISO 4762 M5 × 25'],
  ],
  'a cap head in a cone': [
    { lid: lid(`${THROUGH}, countersink: M5`), tub: tub() },
    screwed('ISO 4762 M5x25'),
    'joint/head',
    ['Use ISO 10642 M5 × 25'],
  ],
  'one hole that lies elsewhere': [
    { lid: lid(), tub: tub(INTO, moved) },
    screwed('M5x20'),
    'joint/pattern',
    ['Move lid.screws[3] to x 90.8, y 50', 'Move tub.screws[3] to x 90, y 50'],
  ],
  'another pitch of a row': [
    {
      lid: row('line: { x: 20, count: 3 }', THROUGH),
      tub: row('line: { y: 20.5, count: 3 }', INTO, '{ x: 100, y: 60, z: 30 }'),
    },
    screwed('M5x20'),
    'joint/pattern',
    ['Make the pitch of lid.screws 20.5 mm, as tub has it', 'Make the pitch of tub.screws 20 mm, as lid has it'],
  ],
  'one pitch of a grid': [
    {
      lid: row('grid: { x: { pitch: 40, count: 2 }, y: { pitch: 30, count: 2 } }', THROUGH),
      tub: row('grid: { x: { pitch: 41, count: 2 }, y: { pitch: 30, count: 2 } }', INTO, '{ x: 100, y: 60, z: 30 }'),
    },
    screwed('M5x20'),
    'joint/pattern',
    ['Make the pitch of lid.screws 41 mm, as tub has it', 'Make the pitch of tub.screws 40 mm, as lid has it'],
  ],
  'another circle': [
    {
      lid: row('bolt-circle: { diameter: 40, count: 4 }', THROUGH),
      tub: row('bolt-circle: { diameter: 42, count: 4 }', INTO, '{ x: 100, y: 60, z: 30 }'),
    },
    screwed('M5x20'),
    'joint/pattern',
    ['Make the circle of lid.screws 42 mm, as tub has it', 'Make the circle of tub.screws 40 mm, as lid has it'],
  ],
  'two holes farther apart': [
    {
      lid: lid(THROUGH, [
        [10, 10],
        [90, 10],
      ]),
      tub: tub(INTO, [
        [10, 10],
        [89, 10],
      ]),
    },
    screwed('M5x20'),
    'joint/pattern',
    ['Move lid.screws[2] to x 89, y 10', 'Move tub.screws[2] to x 90, y 10'],
  ],
  'zones that are too wide': [
    {
      lid: plate(hole('screws', NEAR, THROUGH), { tolerance: 'ISO 2768-m' }),
      tub: plate(hole('screws', NEAR, INTO), { ...THICK, tolerance: 'ISO 2768-m' }),
    },
    screwed('M5x20'),
    'joint/position',
    ['Make lid.screws a loose clearance hole, 5.8 mm'],
  ],
  'a bearing that rattles': [
    seat('26 H7'),
    '  j: { bearing: 608, seat: block.seat }',
    'joint/fit',
    ['Make block.seat 22 mm'],
  ],
  'another fit than is meant': [
    seat('22 H7'),
    '  j: { bearing: 608, seat: block.seat, fit: interference }',
    'joint/fit',
    ['Make block.seat 22 P7'],
  ],
  'a fit whose limits nobody knows': [
    seat('25'),
    '  j: { shaft: 25 h6, seat: block.seat, fit: clearance }',
    'joint/fit',
    ['Make block.seat 25 H7'],
  ],
  'a pin that is too large for one part': [
    dowels('6 H7', '5 H7'),
    '  j: { pin: ISO 8734 6x20, in: [a.d, b.d] }',
    'joint/fit',
    ['Make b.d 6 H7', 'Make b.d 6 N7', 'Make b.d 6 F7', 'Make b.d 6 G7'],
  ],
  'a pin longer than its holes': [
    dowels('6 H7', '6 F7', '7'),
    '  j: { pin: ISO 8734 6x22, in: [a.d, b.d] }',
    'joint/length',
    ['safe: Use ISO 8734 6 m6 × 16', 'safe: Use ISO 8734 6 m6 × 14'],
  ],
  'a sharp corner in a round one': [
    {
      tray: plate(
        '  nest: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 20.4, y: 12.4 }, corner-radius: 3, depth: 4 }\n',
      ),
    },
    '  j: { bought: sensor, size: { length: 20, width: 12 }, seat: tray.nest }',
    'joint/fit',
    ['Make tray.nest 21.8 mm by 13.8 mm'],
  ],
  'a stack whose limits are too wide': [
    { block: plate(hole('seat', [[50, 30]], 'diameter: 22 H7, depth: 7 ±0.2, bottom: flat')) },
    '  j: { stack: [block.seat, -7 +0/-0.12], leaves: [-0.1, 0.22] }',
    'joint/stack',
    ['Make block.seat 7 ±0.1'],
  ],
  'a stack that is outside as drawn': [
    { block: plate(hole('seat', [[50, 30]], 'diameter: 22 H7, depth: 7 ±0.05, bottom: flat')) },
    '  j: { stack: [block.seat, -7], leaves: [0.1, 0.3] }',
    'joint/stack',
    ['Make block.seat 7.2 mm'],
  ],
  'a name that is not there': [
    { lid: lid(), tub: tub() },
    screwed('M5x20').replace('tub.screws', 'tub.screw'),
    'form/unknown-name',
    ['safe: Write `screws`'],
  ],
};

describe('fixes of joints', function () {
  this.timeout(60_000);
  for (const [name, [parts, joints, rule, titles]] of Object.entries(CASES))
    it(name, () => {
      assert.deepEqual(titlesOf(parts, joints, rule), titles);
    });

  it('those that keep every part are made one after the other, and no other', () => {
    const joints = `${screwed('M5x30').replace('lid.screws', 'lid.screw')}\n  k: { screw: M5x14, through: lid.screws, into: tub.screws }\n  # both\n  w: { screw: M4x20, through: lid.screws, into: tub.screws }`;
    const { checked, pieces } = jobOf({ lid: lid(), tub: tub() }, joints);
    const text = applyEdits(checked.tree.text, allSafeOfJob(checked, pieces));
    assert.match(text, /j: \{ screw: M5x25, through: lid\.screws,/);
    assert.match(text, /k: \{ screw: M5x20,/);
    assert.match(text, /# both\n {2}w: \{ screw: M4x20,/);
    const after = checkJob(text);
    assert.deepEqual(allSafeOfJob(after, pieces), []);
  });

  it('a length is written as its author writes it', () => {
    const inch = {
      lid: lid('clearance: 10-24, depth: through'),
      tub: tub('thread: 10-24 UNC, depth: 25, thread-depth: 18'),
    };
    for (const [parts, screw, other] of [
      [{ lid: lid(), tub: tub() }, 'ISO 4762 M5×30 10.9', 'ISO 4762 M5×25 10.9'],
      [{ lid: lid(), tub: tub() }, 'M5 x 30', 'M5 x 25'],
      [{ lid: lid(), tub: tub() }, '"M5x30"', '"M5x25"'],
      [inch, '"10-24 x 1 1/4"', '"10-24 x 1"'],
      [inch, '10-24 x 1.5 in', '10-24 x 1 in'],
    ] as const) {
      const { checked, pieces } = jobOf(parts, screwed(screw));
      const text = applyEdits(checked.tree.text, allSafeOfJob(checked, pieces));
      assert.ok(text.includes(`screw: ${other},`), text);
    }
  });
});

/** Joints of small parts: what does not meet, by how much, and what meets and is left alone. */
import assert from 'node:assert/strict';
import { faultsOfFinding } from '../words/terms';
import { hole, judged, plate, says } from './job';

const FOUR = [
  [10, 10],
  [90, 10],
  [90, 50],
  [14, 50],
] as const;
const THROUGH = 'clearance: M5, depth: through';
const INTO = 'thread: M5, depth: 25, thread-depth: 18';
const THICK = { size: '{ x: 100, y: 60, z: 30 }' };
const lid = plate(hole('screws', FOUR, THROUGH));
const tub = plate(hole('screws', FOUR, INTO), THICK);
const SCREWED = '  j: { screw: M5x20, through: lid.screws, into: tub.screws }';

const one = (parts: Readonly<Record<string, string>>, joints: string, rule: string) => {
  const all = judged(parts, joints);
  for (const finding of all) assert.deepEqual(faultsOfFinding(finding), [], finding.message);
  const found = all.filter((f) => f.rule === rule);
  assert.equal(found.length, 1, `one ${rule}; found ${JSON.stringify(judged(parts, joints).map((f) => f.message))}`);
  return found[0]!;
};

describe('joints onto included features', () => {
  const PATTERN = FOUR.map(([x, y]) => [x, y] as const);
  const others = (text: string) => new Map([['face.part.yaml', { path: '/face', text, others: new Map() }]]);
  /** A plate that takes its screws from the file, at this place. */
  const taking = (place: string, size: string) =>
    `part: plate\nunits: mm\nmaterial: aluminium-6061-t6\nbody: ${size}\ninclude:\n  face: { from: face.part.yaml, prefix: f-, place: ${place} }\n`;
  const MIDDLE = '{ at: { x: center, y: center } }';
  const THIN = '{ x: 100, y: 60, z: 10 }';
  const DEEP = '{ x: 100, y: 60, z: 30 }';

  it('say what they say of the same written out, in whichever part the file comes in', () => {
    for (const [into, face] of [
      [plate(hole('f-screws', PATTERN, INTO), THICK), plate(hole('screws', PATTERN, THROUGH))],
      [plate(hole('f-screws', PATTERN, 'thread: M4, depth: 20'), THICK), plate(hole('screws', PATTERN, THROUGH))],
      [plate(hole('f-screws', PATTERN.slice(1), INTO), THICK), plate(hole('screws', PATTERN, THROUGH))],
    ] as const) {
      const joint = '  j: { screw: M5x20, through: lid.f-screws, into: tub.f-screws }';
      const written = judged({ lid: face.replace('screws:', 'f-screws:'), tub: into }, joint);
      const lid = judged({ lid: taking(MIDDLE, THIN), tub: into }, joint, '', others(face));
      assert.deepEqual(
        lid.map((f) => f.message),
        written.map((f) => f.message),
      );
      const tub = judged(
        { lid: face.replace('screws:', 'f-screws:'), tub: taking(MIDDLE, DEEP) },
        joint,
        '',
        others(into.replace('f-screws', 'screws')),
      );
      assert.deepEqual(
        tub.map((f) => f.message),
        written.map((f) => f.message),
      );
    }
  });

  it('find a group that lies 0.8 beside its other half, and turned by 180 degrees one that has no such turn', () => {
    const joint = '  j: { screw: M5x20, through: lid.screws, into: tub.f-screws }';
    const face = others(plate(hole('screws', PATTERN, INTO), THICK));
    assert.deepEqual(judged({ lid, tub: taking(MIDDLE, DEEP) }, joint, '', face), []);
    for (const place of ['{ at: { x: 50.8, y: center } }', '{ at: { x: center, y: center }, rotate: 180 }']) {
      const found = judged(
        {
          lid: `${lid}  pin: { kind: hole, face: top, at: { x: 40, y: 30 }, diameter: 4 H7, depth: through }\n`,
          tub: `${taking(place, DEEP)}features:\n  pin: { kind: hole, face: top, at: { x: 40, y: 30 }, diameter: 4 H7, depth: 8 }\n`,
        },
        `${joint}\n  p: { pin: ISO 8734 4x16, in: [lid.pin, tub.pin], with: j }`,
        '',
        face,
      );
      assert.ok(
        found.some((f) => f.rule === 'joint/pattern' || f.rule === 'joint/clearance'),
        `${place}: ${says(found).join()}`,
      );
    }
  });
});

describe('joints by screws', () => {
  it('that are right raise nothing', () => assert.deepEqual(judged({ lid, tub }, SCREWED), []));

  it('agree when one part is drawn from below, which mirrors it', () => {
    const under = plate(
      hole(
        'screws',
        FOUR.map(([x, y]) => [100 - x, y] as const),
        INTO,
        'bottom',
      ),
      THICK,
    );
    assert.deepEqual(judged({ lid, tub: under }, SCREWED), []);
  });

  it('mirrored, where neither part can be turned over, are told', () => {
    const sunk = plate(hole('screws', FOUR, `${THROUGH}, counterbore: M5`));
    const mirrored = plate(
      hole(
        'screws',
        FOUR.map(([x, y]) => [100 - x, y] as const),
        INTO,
      ),
      THICK,
    );
    const found = one({ lid: sunk, tub: mirrored }, SCREWED, 'joint/pattern');
    assert.match(found.message, /as in a mirror/);
    assert.deepEqual(judged({ lid, tub: mirrored }, SCREWED), [], 'a plain lid is turned over');
  });

  it('one hole moved by 0.8 is told with 0.8, in the job and at both parts', () => {
    const off = plate(
      hole(
        'screws',
        [
          [10, 10],
          [90, 10],
          [90.8, 50],
          [14, 50],
        ],
        INTO,
      ),
      THICK,
    );
    const found = one({ lid, tub: off }, SCREWED, 'joint/pattern');
    assert.equal(found.facts.off_mm, 0.8);
    assert.equal(found.severity, 'error');
    assert.match(found.message, /screws\[3\]/);
    assert.deepEqual(
      found.related.map((r) => r.elsewhere?.file),
      ['tub.part.yaml', 'lid.part.yaml'],
    );
  });

  it('what the play takes up is a warning', () => {
    const off = plate(
      hole(
        'screws',
        [
          [10, 10],
          [90, 10],
          [90.3, 50],
          [14, 50],
        ],
        INTO,
      ),
      THICK,
    );
    const found = one({ lid, tub: off }, SCREWED, 'joint/pattern');
    assert.deepEqual([found.severity, found.facts.off_mm, found.facts.play_mm], ['warning', 0.3, 0.5]);
  });

  it('counts must come out even', () => {
    const three = plate(hole('screws', FOUR.slice(0, 3), INTO), THICK);
    assert.match(one({ lid, tub: three }, SCREWED, 'joint/pattern').message, /do not come out even/);
    const single = plate(hole('screws', [[50, 30]], THROUGH));
    assert.deepEqual(judged({ lid: single, tub }, SCREWED.replace(' }', ', times: 4 }')), []);
  });

  it('the thread is the screw’s', () => {
    assert.deepEqual(says(judged({ lid, tub }, SCREWED.replace('M5x20', 'M4x20'))), [
      'warning joint/screw',
      'error joint/screw',
    ]);
    assert.match(
      judged({ lid, tub }, SCREWED.replace('M5x20', 'M6x20'))
        .map((f) => f.message)
        .join(),
      /does not go through/,
    );
    const plain = plate(hole('screws', FOUR, 'diameter: 4.2, depth: 25'), THICK);
    assert.match(one({ lid, tub: plain }, SCREWED, 'joint/screw').message, /has no thread/);
  });

  it('a screw comes out of what it goes through', () => {
    const blind = plate(hole('screws', FOUR, 'clearance: M5, depth: 8'));
    assert.match(one({ lid: blind, tub }, SCREWED, 'joint/screw').message, /does not come out/);
  });

  it('lengths: 10 of grip, 18 of thread: 20 does, 30 is stopped by 2, 14 is too short and no standard', () => {
    const long = one({ lid, tub }, SCREWED.replace('x20', 'x30'), 'joint/length');
    assert.deepEqual([long.severity, long.facts.past_mm, long.facts.does_mm], ['error', 2, 20]);
    const short = judged({ lid, tub }, SCREWED.replace('x20', 'x14'));
    assert.deepEqual(says(short), ['hint joint/length', 'warning joint/engagement']);
    assert.match(short[1]!.message, /Use ISO 4762 M5 × 20/);
    assert.deepEqual(judged({ lid, tub }, SCREWED.replace('x20', '')), [], 'left out: one that does is there');
  });

  it('a washer and what lies between are gripped too', () => {
    const found = judged({ lid, tub }, SCREWED.replace('x20', 'x16').replace(' }', ', washer: ISO 7089, between: 1 }'));
    assert.deepEqual(
      found.map((f) => f.facts.grip_mm),
      [12],
    );
  });

  it('by the limits of parts and screw it may be stopped: a warning', () => {
    const parts = {
      lid: plate(hole('screws', FOUR, THROUGH), { tolerance: 'ISO 2768-c' }),
      tub: plate(hole('screws', FOUR, 'thread: M5, depth: 25, thread-depth: 10.1'), {
        ...THICK,
        tolerance: 'ISO 2768-c',
      }),
    };
    const found = one(parts, SCREWED, 'joint/length');
    // Grip 10 ± 0.5 (ISO 2768-c, 6 to 30), screw 20 ± 0.42 (IT15 of 18 to 30: 0.84), 0.1 to spare.
    assert.deepEqual([found.severity, found.facts.worst_mm], ['warning', 0.82]);
  });

  it('nuts: the screw ends a pitch behind', () => {
    const other = plate(hole('screws', FOUR, THROUGH));
    const nut = '  j: { screw: M5x25, through: [lid.screws, other.screws], nut: ISO 4032 }';
    assert.match(one({ lid, other }, nut, 'joint/length').message, /Use ISO 4762 M5 × 30/);
    assert.deepEqual(judged({ lid, other }, nut.replace('x25', 'x30')), []);
  });

  it('heads: counterbores, cones and walls', () => {
    const sunk = plate(hole('screws', FOUR, `${THROUGH}, counterbore: { diameter: 8.2, depth: 5.5 }`));
    assert.match(one({ lid: sunk, tub }, SCREWED.replace('x20', 'x16'), 'joint/head').message, /diameter of 8.5 mm/);
    const shallow = plate(hole('screws', FOUR, `${THROUGH}, counterbore: { diameter: 10, depth: 3 }`));
    assert.equal(one({ lid: shallow, tub }, SCREWED.replace('x20', 'x16'), 'joint/head').facts.proud_mm, 2);
    const washer = plate(hole('screws', FOUR, `${THROUGH}, counterbore: { diameter: 9.5, depth: 6.5 }`));
    assert.match(
      one({ lid: washer, tub }, SCREWED.replace('x20', 'x16').replace(' }', ', washer: ISO 7089 }'), 'joint/head')
        .message,
      /washer has a diameter of 10 mm/,
    );
    assert.match(one({ lid, tub }, SCREWED.replace('M5x20', 'ISO 10642 M5x25'), 'joint/head').message, /needs a cone/);
    const pocket = plate(
      `${hole('screws', FOUR, THROUGH)}  low: { kind: pocket, face: top, at: { x: 10, y: 10 }, size: { x: 12, y: 7 }, corner-radius: 2, depth: 3 }\n`,
    );
    assert.match(one({ lid: pocket, tub }, SCREWED, 'joint/head').message, /meets a wall/);
  });

  it('positions: fixed, T₁ + T₂ against H − F', () => {
    const zone = (mm: number, more = '') => ({
      more: `datums: { A: bottom, B: front, C: left }\ntolerances:\n  - { position: ${mm}, of: screws, datums: [A, B, C]${more} }\n`,
    });
    const parts = (a: number, b: number, more = '') => ({
      lid: plate(hole('screws', FOUR, THROUGH), zone(a)),
      tub: plate(hole('screws', FOUR, INTO), { ...THICK, ...zone(b, more) }),
    });
    assert.deepEqual(judged(parts(0.25, 0.25, ', projected: 10'), SCREWED), []);
    const leans = one(parts(0.25, 0.25), SCREWED, 'joint/position');
    assert.equal(leans.severity, 'hint');
    assert.match(leans.message, /not projected, so that screws may stand tilted\. Write `projected: 10 mm`/);
    const found = one(parts(0.3, 0.25), SCREWED, 'joint/position');
    assert.deepEqual(
      [found.facts.zones_mm, found.facts.play_mm, found.facts.each_mm, found.severity],
      [0.55, 0.5, 0.25, 'warning'],
    );
    // 0.3 + 0.25 (1 + 2 · 10 / 18)
    assert.equal(found.facts.unprojected_mm, 0.828);
  });

  it('positions: floating, both holes leave play', () => {
    const zone = (mm: number) => ({
      more: `datums: { A: bottom, B: front, C: left }\ntolerances:\n  - { position: ${mm}, of: screws, datums: [A, B, C] }\n`,
    });
    const parts = (a: number, b: number) => ({
      lid: plate(hole('screws', FOUR, THROUGH), zone(a)),
      other: plate(hole('screws', FOUR, THROUGH), zone(b)),
    });
    const nut = '  j: { screw: M5x30, through: [lid.screws, other.screws], nut: ISO 4032 }';
    assert.deepEqual(judged(parts(0.5, 0.5), nut), []);
    assert.equal(one(parts(0.6, 0.5), nut, 'joint/position').facts.play_mm, 1);
  });

  it('with dowels: both patterns as they lie together', () => {
    const both = (dx: number, fields: readonly [string, string]) =>
      plate(
        hole('screws', FOUR, fields[0]) +
          hole(
            'dowels',
            [
              [30 + dx, 30],
              [70 + dx, 30],
            ],
            fields[1],
          ),
        THICK,
      );
    const parts = (dx: number) => ({
      lid: both(0, [THROUGH, 'diameter: 6 H7, depth: through']),
      tub: both(dx, [INTO, 'diameter: 6 H7, depth: 10']),
    });
    const joints =
      '  j: { screw: M5x45, through: lid.screws, into: tub.screws, with: d }\n  d: { pin: 6x40, in: [lid.dowels, tub.dowels] }';
    assert.deepEqual(says(judged(parts(0), joints)), []);
    assert.ok(says(judged(parts(2), joints)).includes('error joint/pattern'));
    assert.ok(!says(judged(parts(2), joints.replace(', with: d', ''))).includes('error joint/pattern'));
  });
});

describe('pins, shafts, bearings and bought things', () => {
  const dowels = (a: string, b: string) => ({
    a: plate(
      hole(
        'd',
        [
          [20, 20],
          [80, 40],
        ],
        `diameter: ${a}, depth: through`,
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
  const PIN = '  j: { pin: ISO 8734 6x20, in: [a.d, b.d] }';

  it('a pin sits in one and slides in the other', () => {
    // m6 at 6 mm: +4 to +12 µm; H7 0 to +12; F7 +10 to +22: play from −2 to +18.
    assert.deepEqual(judged(dowels('6 H7', '6 F7'), PIN), []);
    assert.match(
      one(dowels('6 F8', '6.02 +0.01/-0'), PIN.replace('8734', '2338').replace('6x20', '6 h8 x 20'), 'joint/fit')
        .message,
      /play in every part/,
    );
    assert.match(one(dowels('6 P7', '6 S7'), PIN, 'joint/fit').message, /pressed into every part/);
    assert.match(one(dowels('6 H7', '5 H7'), PIN, 'joint/fit').message, /too large to go in/);
  });

  it('a pin is no longer than its holes', () => {
    const blind = {
      ...dowels('6 H7', '6 F7'),
      a: plate(
        hole(
          'd',
          [
            [20, 20],
            [80, 40],
          ],
          'diameter: 6 H7, depth: 7',
        ),
      ),
    };
    assert.match(one(blind, PIN.replace('6x20', '6x22'), 'joint/length').message, /parts stay apart/);
    assert.match(
      one(dowels('6 H7', '6 F7'), PIN.replace('6x20', '6x21'), 'joint/length').message,
      /no standard length/,
    );
  });

  const seat = (size: string) => ({
    block: plate(hole('seat', [[50, 30]], `diameter: ${size}, depth: 7, bottom: flat`)),
  });
  it('a bearing: 608 in 22 H7 has 0 to 0.03 of play, by ISO 286 and ISO 492', () => {
    const found = one(seat('22 H7'), '  j: { bearing: 608, seat: block.seat, fit: interference }', 'joint/fit');
    assert.deepEqual([found.facts.least_mm, found.facts.most_mm], [0, 0.03]);
    assert.match(found.message, /is a clearance fit/);
    assert.match(found.message, /22 P7/);
    assert.deepEqual(judged(seat('22 P7'), '  j: { bearing: 608, seat: block.seat, fit: interference }'), []);
    assert.equal(one(seat('26 H7'), '  j: { bearing: 608, seat: block.seat }', 'joint/fit').severity, 'warning');
    assert.equal(one(seat('19 H7'), '  j: { bearing: 608, seat: block.seat }', 'joint/fit').severity, 'error');
  });

  it('published fits: H7/g6, H7/k6, H7/p6 at 25 mm (ISO 286 tables: +7 to +41, −15 to +19, −35 to −1 µm)', () => {
    const facts = (shaft: string, not: string) => {
      const { facts: f } = one(
        seat('25 H7'),
        `  j: { shaft: 25 ${shaft}, seat: block.seat, fit: ${not} }`,
        'joint/fit',
      );
      return [f.least_mm, f.most_mm];
    };
    assert.deepEqual(facts('g6', 'interference'), [0.007, 0.041]);
    assert.deepEqual(facts('k6', 'clearance'), [-0.015, 0.019]);
    assert.deepEqual(facts('p6', 'clearance'), [-0.035, -0.001]);
  });

  it('a fit whose limits nobody knows is a hint', () =>
    assert.equal(
      one(seat('25'), '  j: { shaft: 25 h6, seat: block.seat, fit: clearance }', 'joint/fit').severity,
      'hint',
    ));

  it('a boss of one part in a bore of another', () => {
    const boss = plate('  boss: { kind: contour, face: top, at: { x: 50, y: 30 }, diameter: 25 h6, depth: 5 }\n');
    assert.deepEqual(
      judged({ ...seat('25 H7'), flange: boss }, '  j: { shaft: flange.boss, seat: block.seat, fit: clearance }'),
      [],
    );
    assert.match(
      one({ ...seat('24 H7'), flange: boss }, '  j: { shaft: flange.boss, seat: block.seat }', 'joint/fit').message,
      /too large/,
    );
  });

  it('a sharp corner in a round one', () => {
    const tray = plate(
      '  nest: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 20.4, y: 12.4 }, corner-radius: 3, depth: 4 }\n',
    );
    const bought = (more: string) => `  j: { bought: sensor, size: { length: 20, width: 12${more} }, seat: tray.nest }`;
    // Inset 3 − 0.2 along both sides: 2.8 √2 − 3 = 0.9598 past the arc.
    assert.equal(one({ tray }, bought(''), 'joint/fit').facts.corner_mm, 0.96);
    assert.deepEqual(judged({ tray }, bought(', corner-radius: 3')), []);
  });

  it('a stack: worst, likely and as drawn', () => {
    const parts = { block: plate(hole('seat', [[50, 30]], 'diameter: 22 H7, depth: 7 ±0.1, bottom: flat')) };
    const stack = (from: string) => `  j: { stack: [block.seat, -7 +0/-0.12], leaves: [${from}] }`;
    const found = one(parts, stack('-0.1, 0.2'), 'joint/stack');
    // 7 ± 0.1 less 6.94 ± 0.06: 0.06 ± 0.16, likely ± 0.117.
    assert.deepEqual(
      [found.facts.least_mm, found.facts.most_mm, found.facts.likely_mm, found.severity],
      [-0.1, 0.22, 0.117, 'hint'],
    );
    assert.deepEqual(judged(parts, stack('-0.1, 0.22')), []);
    assert.equal(one(parts, stack('0.1, 0.3'), 'joint/stack').severity, 'error');
  });
});

describe('joints that name what is not there', () => {
  const messages = (joints: string) =>
    judged({ lid, tub }, joints)
      .map((f) => `${f.rule}: ${f.message}`)
      .join('\n');
  it('parts, features, places and kinds', () => {
    assert.match(messages(SCREWED.replace('tub.screws', 'tup.screws')), /unknown-name.*`tub`/);
    assert.match(messages(SCREWED.replace('tub.screws', 'tub.screw')), /Did you mean `screws`/);
    assert.match(messages(SCREWED.replace('tub.screws', '"tub.screws[7]"')), /from 1 to 4/);
    assert.match(messages(SCREWED.replace('tub.screws', 'screws')), /part\.feature/);
    assert.match(messages('  j: { shaft: lid.screws, seat: tub.screws }'), /a shaft is a contour/);
    assert.match(
      messages('  j: { bought: x, size: { length: 3, width: 2 }, seat: tub.screws }'),
      /a rectangular opening/,
    );
  });
  it('screws, pins, bearings and keys', () => {
    assert.match(messages(SCREWED.replace('M5x20', 'bolt')), /is not a screw/);
    assert.match(messages(SCREWED.replace('M5x20', 'ISO 4763 M5x20')), /ISO 4762/);
    assert.match(messages('  j: { bearing: 60800, seat: tub.screws }'), /no bearing `60800`/);
    assert.match(messages('  j: { scrw: M5, through: lid.screws, into: tub.screws }'), /Did you mean `screw`/);
    assert.match(messages('  j: { screw: M5, through: lid.screws }'), /into/);
    assert.match(messages('  j:'), /needs what it is made with/);
    assert.match(messages(SCREWED.replace(' }', ', with: k }')), /no other joint/);
    assert.match(messages('  j: { screw: M5, through: [], into: tub.screws }'), /is empty/);
  });
});

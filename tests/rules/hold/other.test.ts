/** What the rules say of work that is squeezed, slips, comes loose, or is held by clamps, screws and tabs. */
import assert from 'node:assert/strict';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

describe('hold/squeeze', () => {
  const ring = (tolerance: string, y = 44) => `${ALUMINIUM}body: { x: 60, y: ${y}, z: 20 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 40${tolerance}, depth: through }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [seat] }
`;
  it('a seat with thin walls is cut oval; a tighter class allows less', () => {
    const wide = onlyFinding('hold/squeeze', ring(''));
    const tight = onlyFinding('hold/squeeze', ring(' H7'));
    assert.equal(wide.facts.wall_mm, 2);
    assert.equal(wide.facts.allowed_mm, 0.05);
    // H7 at 40 mm: 25 µm (ISO 286-2).
    assert.equal(tight.facts.allowed_mm, 0.025);
    assert.ok(Number(tight.facts.most_n) <= Number(wide.facts.most_n));
  });
  it('thick walls are not', () => {
    assert.deepEqual(findingsOf('hold/squeeze', ring(' H7', 90)), []);
  });
  it('what an earlier set-up cut springs back: only stress counts', () => {
    const text = ring('', 52)
      .replace(
        '  first:',
        '  before: { up: bottom, hold: { vise: mill-vise-100, jaws: [left, right], grip: 10 }, cuts: [seat] }\n  first:',
      )
      .replace(/cuts: \[seat] }\n$/, 'cuts: [top] }\n');
    for (const f of findingsOf('hold/squeeze', text)) assert.notEqual(f.facts.set_up, 'first');
  });
});

describe('hold/slips', () => {
  const tabs = (width: number) => `${ALUMINIUM}body: { x: 60, y: 60, z: 12 }
features:
  outline: { kind: contour, face: top, path: [{ x: 5, y: 5 }, { x: 55, y: 5 }, { x: 55, y: 55 }, { x: 5, y: 55 }], depth: through }
setups:
  first: { up: top, hold: { tabs: { count: 2, width: ${width}, height: 0.5 } }, cuts: [outline] }
`;
  it('tabs shear at 0.577 of the yield strength over their section', () => {
    const f = onlyFinding('hold/slips', tabs(1));
    // 6061-T6 yields at 276 MPa: 2 tabs of 1 × 0.5 mm hold 2 · 0.5 · 276 / √3.
    assert.equal(f.facts.tabs_mm2, 1);
    assert.ok(Math.abs(Number(f.facts.holds_n) - 276 / Math.sqrt(3)) < 0.1);
    assert.deepEqual(findingsOf('hold/slips', mended('hold/slips', tabs(1))), []);
    assert.deepEqual(findingsOf('hold/slips', tabs(12)), []);
  });
});

describe('hold/cut-free', () => {
  const outline = (hold: string, stock = '') => `${ALUMINIUM}body: { x: 60, y: 60, z: 12 }
${stock}features:
  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }
  outline: { kind: contour, face: top, path: [{ x: 8, y: 8, round: 6 }, { x: 52, y: 8, round: 6 }, { x: 52, y: 52, round: 6 }, { x: 8, y: 52, round: 6 }], depth: through }
${hold && `setups:\n  first: { up: top, hold: ${hold}, cuts: [tie, outline] }\n`}`;
  it('clamps on what is cut off hold nothing; on what stays they do', () => {
    assert.equal(
      onlyFinding('hold/cut-free', outline('{ clamps: [{ x: 3, y: 30 }, { x: 57, y: 30 }] }')).facts.held_by,
      'clamps',
    );
    assert.deepEqual(findingsOf('hold/cut-free', outline('{ clamps: [{ x: 30, y: 44 }] }')), []);
  });
  it('stock below the outline goes on holding it', () => {
    const vise = '{ vise: mill-vise-100, jaws: [left, right], grip: 6 }';
    assert.equal(findingsOf('hold/cut-free', outline(vise)).length, 1);
    assert.deepEqual(findingsOf('hold/cut-free', outline(vise, 'stock: { form: plate, extra: { bottom: 8 } }\n')), []);
  });
  it('without set-ups a hint, unless a screw can go through or two sides stay', () => {
    assert.deepEqual(findingsOf('hold/cut-free', outline('')), []);
    const bare = outline('').replace(/ {2}tie: .*\n/, '');
    assert.equal(onlyFinding('hold/cut-free', bare).severity, 'hint');
    assert.deepEqual(findingsOf('hold/cut-free', bare.replaceAll('x: 8,', 'x: 0,').replaceAll('x: 52,', 'x: 60,')), []);
  });
});

describe('hold/clamps and hold/screws', () => {
  const clamped = (at: string, more = '', cuts = 'seat') => `${ALUMINIUM}body: { x: 120, y: 80, z: 12 }
features:
  seat: { kind: pocket, face: top, at: { x: 60, y: 40 }, size: { x: 30, y: 20 }, corner-radius: 5, depth: 4 }
${more}setups:
  first: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6 }, cuts: [${more ? 'hollow' : 'bottom'}] }
  second: { up: top, hold: { clamps: [${at}] }, cuts: [${cuts}] }
`;
  it('on solid work nothing is said', () => {
    assert.deepEqual(findingsOf('hold/clamps', clamped('{ x: 10, y: 10 }, { x: 110, y: 70 }')), []);
  });
  it('over a hollow cut from below it bends', () => {
    const hollow =
      '  hollow: { kind: pocket, face: bottom, at: { x: 100, y: 40 }, size: { x: 30, y: 40 }, corner-radius: 5, depth: 9 }\n';
    const f = onlyFinding('hold/clamps', clamped('{ x: 100, y: 40 }', hollow));
    assert.equal(f.severity, 'warning');
    assert.ok(Math.abs(Number(f.facts.hollow_mm) - 9) <= 0.26);
  });
  it('on what is cut away it is an error, told once', () => {
    const all = findingsOf('hold/clamps', clamped('{ x: 60, y: 40 }'));
    assert.equal(all.length, 1);
    assert.equal(all[0]!.severity, 'error');
  });
  it('one alone lets the work turn, unless a stop is in its way', () => {
    const f = onlyFinding('hold/clamps', clamped('{ x: 10, y: 40 }'));
    assert.deepEqual([f.severity, f.facts.clamps], ['warning', 1]);
    assert.equal(findingsOf('hold/clamps', mended('hold/clamps', clamped('{ x: 10, y: 40 }'))).length, 0);
    const stopped = clamped('{ x: 10, y: 40 }').replace('clamps: [{ x: 10, y: 40 }]', '$&, stop: right');
    assert.deepEqual(findingsOf('hold/clamps', stopped), []);
  });

  const screwed = (screws: string) => `${ALUMINIUM}body: { x: 60, y: 40, z: 12 }
features:
  a: { kind: hole, face: top, at: { x: 8, y: 20 }, diameter: 5, depth: through }
  blind: { kind: hole, face: top, at: { x: 52, y: 20 }, diameter: 5, depth: 6 }
  tapped: { kind: hole, face: bottom, at: { x: 52, y: 8 }, thread: M5, depth: 9, thread-depth: 6 }
  cross: { kind: hole, face: front, at: { x: 30, z: 6 }, diameter: 4, depth: through }
  seat: { kind: pocket, face: top, at: { x: 30, y: 26 }, size: { x: 14, y: 12 }, corner-radius: 4, depth: 2 }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6 }, cuts: [a, blind] }
  under: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6 }, cuts: [tapped] }
  side: { up: front, hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 10 }, cuts: [cross] }
  last: { up: top, hold: { screws: [${screws}] }, cuts: [seat] }
`;
  it('through holes and tapped ones hold; blind and crosswise ones, and other things, do not', () => {
    assert.deepEqual(findingsOf('hold/screws', screwed('a, tapped')), []);
    const alone = onlyFinding('hold/screws', screwed('a'));
    assert.deepEqual([alone.severity, alone.facts.trouble], ['warning', 'alone']);
    const found = findingsOf('hold/screws', screwed('a, blind, cross, seat'));
    assert.deepEqual(
      found.map((f) => [f.of[0], f.facts.trouble]),
      [
        ['blind', 'blind'],
        ['cross', 'crosswise'],
        ['seat', 'no-hole'],
      ],
    );
  });
});

describe('hold/on-sawn', () => {
  const part = (value: string, datum: string, cuts = 'tie') => `${ALUMINIUM}body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 1, right: 1 } }
features:
  tie: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 6, depth: 12 }
datums: { A: ${datum} }
tolerances:
  - { position: ${value}, of: tie, datums: [A] }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: right }
    zero: { x: left, y: back, z: parallels }
    cuts: [${cuts}]
`;
  it('only where the tolerance is measured along it, and is tighter than a saw', () => {
    assert.equal(findingsOf('hold/on-sawn', part('0.2', 'left')).length, 2, 'the stop and zero');
    assert.deepEqual(findingsOf('hold/on-sawn', part('0.2', 'back')), []);
    assert.deepEqual(findingsOf('hold/on-sawn', part('1.2', 'left')), []);
  });
  it('a face is square to one that was milled before where that lies on the fixed jaw, and not the sawn one across from it', () => {
    const squared = (
      jaws: string,
      first = 'top',
      datum = 'top',
      of = 'front',
    ) => `${ALUMINIUM}body: { x: 60, y: 40, z: 30 }
stock: { form: block, sawn: [left, right, front, back, top, bottom], extra: { left: 2, right: 2, front: 2, back: 2, top: 2, bottom: 2 } }
features: {}
datums: { A: ${datum} }
tolerances:
  - { perpendicularity: 0.05, of: ${of}, datums: [A] }
setups:
  one: { up: ${first}, hold: { vise: mill-vise-100, jaws: ${first === 'top' ? '[back, front]' : '[bottom, top]'}, grip: 12 }, cuts: [${first}] }
  two: { up: ${first === 'top' ? 'front' : 'top'}, hold: { vise: mill-vise-100, jaws: ${jaws}, grip: 12 }, cuts: [${first === 'top' ? 'front' : 'top'}] }
`;
    const said = (text: string) =>
      findingsOf('hold/on-sawn', text).map((f) => `${f.facts.set_up} ${f.facts.as} ${f.facts.face}`);
    assert.deepEqual(said(squared('[top, bottom]')), []);
    assert.deepEqual(said(squared('[bottom, top]')), ['two fixed jaw bottom']);
    // The same where the datum is milled after the face that is held to it.
    assert.deepEqual(said(squared('[front, back]', 'front')), []);
    assert.deepEqual(said(squared('[back, front]', 'front')), ['two fixed jaw back']);
    assert.deepEqual(said(squared('[back, front]', 'front', 'front', 'top')), ['two fixed jaw back']);
  });
  it('an end that is milled before is sawn no more', () => {
    const f = findingsOf('hold/on-sawn', part('0.2', 'left', 'left, tie'));
    assert.ok(
      f.every((x) => x.facts.face === 'right'),
      f.map((x) => x.message).join('\n'),
    );
  });
});

describe('tabs lead to a frame', () => {
  const ring = (extra: number, cuts: string) => `${ALUMINIUM}body: { x: 60, y: 60, z: 8 }
stock: { form: plate, extra: { left: ${extra}, right: ${extra}, front: ${extra}, back: ${extra} } }
features:
  outline: { kind: contour, face: top, path: [{ x: 0, y: 0, round: 25 }, { x: 60, y: 0, round: 25 }, { x: 60, y: 60, round: 25 }, { x: 0, y: 60, round: 25 }], depth: through }
setups:
  first: { up: top, hold: { tabs: { count: 4, width: 5, height: 1 } }, cuts: [${cuts}] }
`;
  it('that stands outside the outline when it is cut, and was not milled off before', () => {
    assert.deepEqual(findingsOf('hold/cut-free', ring(27, 'outline')), []);
    // 6 mm beyond the cutter outside the four straight sides, 10 mm of 60 each, nothing is left; at the corners there is.
    const off = onlyFinding('hold/cut-free', ring(10, 'left, right, front, back, outline'));
    assert.equal(off.facts.held_by, 'tabs');
    assert.ok(Number(off.facts.frame_share) < 0.5);
    assert.equal(onlyFinding('hold/cut-free', ring(3, 'outline')).severity, 'error');
  });

  it('that the cutter has not eaten: its width and the frame, an error where the set-up asks for it', () => {
    const square = (extra: number) => ring(extra, 'outline').replaceAll('round: 25', 'round: 3');
    const asked = (extra: number, tool: string) =>
      square(extra).replace('cuts: [outline] }', `cuts: [outline], tools: { outline: ${tool} } }`);
    // 20 and 6 mm; 8 and 6.
    for (const [tool, mm] of [
      ['em-20', 26],
      ['em-8', 14],
    ] as const) {
      assert.deepEqual(findingsOf('hold/cut-free', asked(mm + 0.1, tool)), []);
      const f = onlyFinding('hold/cut-free', asked(mm - 0.1, tool));
      assert.deepEqual([f.severity, f.facts.tool, f.facts.needed_mm], ['error', tool, mm]);
    }
    const open = onlyFinding('hold/cut-free', square(15));
    assert.deepEqual([open.severity, open.facts.would_do], ['warning', 'em-8']);
    const cured = mended('hold/cut-free', square(15), /with em-8/);
    assert.deepEqual(findingsOf('hold/cut-free', cured), []);
  });

  it('and may stand: what is left for it is no stock to be milled away', () => {
    const sawn = (extra: number, more = '') =>
      ring(extra, 'outline').replace('form: plate,', `form: plate, sawn: [left],${more}`);
    assert.deepEqual(findingsOf('stock/extra', sawn(27)), []);
    assert.equal(onlyFinding('stock/extra', sawn(40)).severity, 'hint');
    // No tabs, no frame.
    const held = sawn(27).replace(
      '{ tabs: { count: 4, width: 5, height: 1 } }',
      '{ vise: mill-vise-100, jaws: [back, front], grip: 6 }',
    );
    assert.equal(onlyFinding('stock/extra', held).severity, 'hint');
  });
});

describe('an outline that takes off a sawn end', () => {
  const arm = (depth: string) => `${ALUMINIUM}body: { x: 90, y: 25, z: 12 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }
features:
  pivot: { kind: hole, face: top, at: { x: 12.5, y: center }, diameter: 10, depth: through }
  outline: { kind: contour, face: top, path: [{ x: 0, y: 0, round: 6 }, { x: 90, y: 0, round: 6 }, { x: 90, y: 25, round: 6 }, { x: 0, y: 25, round: 6 }], depth: ${depth} }
tolerances: [{ distance: 77.5 ±0.05, of: [pivot, right], axis: x }]
setups:
  first: { up: top, hold: { clamps: [{ x: 45, y: 4 }, { x: 45, y: 21 }], on: plate }, zero: { x: left, y: front, z: bottom }, cuts: [pivot, outline] }
`;
  it('makes it and the hole in one holding: the saw has no part in their distance', () => {
    assert.deepEqual(findingsOf('hold/on-sawn', arm('through')), []);
    // Half way down the saw's end still stands below.
    assert.equal(onlyFinding('hold/on-sawn', arm('6')).facts.face, 'left');
  });
});

describe('two clamps want the same place', () => {
  const pin = (long: number, wide: number, clamps: string) => `${ALUMINIUM}body: { x: ${long}, y: ${wide}, z: 6 }
features:
  pivot: { kind: hole, face: top, at: { x: 5, y: center }, diameter: 2, depth: 4 }
setups:
  first: { up: top, hold: { clamps: ${clamps}, on: table }, cuts: [pivot] }
`;
  it('from opposite sides of a bar that is narrower than two noses: an error', () => {
    const across = (wide: number) =>
      findingsOf('hold/clamps', pin(60, wide, `[{ x: 40, y: 1 }, { x: 40, y: ${wide - 1} }]`));
    // 5 mm of nose each, beyond where they press 1 mm in from the edge.
    assert.deepEqual(
      across(11.9).map((f) => [f.severity, f.facts.apart_mm]),
      [['error', 9.9]],
    );
    assert.deepEqual(across(12.1), []);
  });

  it('side by side they need their width', () => {
    const beside = (apart: number) =>
      findingsOf('hold/clamps', pin(120, 60, `[{ x: 50, y: 6 }, { x: ${50 + apart}, y: 6 }]`)).length;
    assert.equal(beside(14), 1);
    assert.equal(beside(26), 0);
  });
});

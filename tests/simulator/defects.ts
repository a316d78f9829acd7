/** Parts that come out right, and each again with one fault planted that a rule names. */
interface Planted {
  /** The rule that names it. */
  readonly rule: string;
  readonly what: string;
  readonly good: string;
  readonly bad: string;
}

export const SHOP = `shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW, torque: 14 N·m }, feed: 3000 mm/min, coolant: flood } }
vises: { vise: { jaw: { width: 60, height: 32 }, opens: 90, force: 15 kN } }
parallels: [10, 14, 18, 22, 26]
holders: { collet: { diameter: 30, length: 50 } }
tools:
  em-3: { kind: end-mill, diameter: 3, flutes: 3, flute-length: 9, reach: 12, shank: 6, material: carbide, holder: collet, stickout: 20 }
  em-6: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 18, reach: 22, shank: 6, material: carbide, holder: collet, stickout: 26 }
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 26, reach: 34, shank: 10, material: carbide, holder: collet, stickout: 40 }
  ball-6: { kind: end-mill, diameter: 6, flutes: 2, flute-length: 12, reach: 22, shank: 6, corner-radius: 3, material: carbide, holder: collet, stickout: 26 }
  dr-5: { kind: drill, diameter: 5, flute-length: 40, material: hss, holder: collet, stickout: 60 }
  dr-4.2: { kind: drill, diameter: 4.2, flute-length: 40, material: hss, holder: collet, stickout: 60 }
  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 22 }
  chamfer-90: { kind: chamfer-mill, diameter: 10, angle: 90, reach: 20, material: carbide, holder: collet, stickout: 30 }
  tee-14: { kind: tee-cutter, diameter: 14, neck: 6, thickness: 4, reach: 16, material: hss, holder: collet, stickout: 24 }
  tm-12: { kind: thread-mill, diameter: 12, smallest-pitch: 1, pitch: 3, flutes: 4, reach: 22, shank: 12, holder: collet, stickout: 30 }
  saw-40: { kind: slitting-saw, diameter: 40, thickness: 1, flange: 14, below: 3, reach: 20, shank: 12, material: hss }
`;

const block = (features: string, setups: string, body = '{ x: 60, y: 40, z: 24 }', stock = '') =>
  `part: piece\nmaterial: aluminium-6061-t6\nbody: ${body}\n${stock}features:\n${features}setups:\n${setups}`;
const setup = (cuts: string, o: { up?: string; jaws?: string; grip?: number; name?: string; more?: string } = {}) =>
  `  ${o.name ?? 'first'}: { up: ${o.up ?? 'top'}, hold: { vise: vise, jaws: ${o.jaws ?? '[back, front]'}, grip: ${o.grip ?? 10}${o.more ?? ''} }, cuts: [${cuts}] }\n`;
const pocket = (corner: number, depth = 6, more = '') =>
  `  p: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 18 }, corner-radius: ${corner}, depth: ${depth}${more} }\n`;
const hole = (y: number, depth: string | number, more = '') =>
  `  h: { kind: hole, face: top, at: { x: center, y: ${y} }, diameter: 5, depth: ${depth}${more} }\n`;
const step = (width: number, depth: number) =>
  `  s: { kind: step, face: top, along: front, width: ${width}, depth: ${depth} }\n`;
const slot = (width: number, depth: number, more = '') =>
  `  s: { kind: slot, face: top, ends: [{ x: -10, y: center }, { x: 70, y: center }], width: ${width}, depth: ${depth}${more} }\n`;
const outline = (depth: string | number) =>
  `  c: { kind: contour, face: top, path: [{ x: 9, y: 9, round: 6 }, { x: 51, y: 9, round: 6 }, { x: 51, y: 31, round: 6 }, { x: 9, y: 31, round: 6 }], depth: ${depth} }\n`;
const ENDS = 'stock: { form: flat-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }\n';

const ANGLE = 'stock: { form: angle, axis: x, wall: 6, open: [back, top] }\n';
const leg = (along: string) =>
  `  b: { kind: hole, face: bottom, at: { x: ${along}, y: 26 }, diameter: 5, depth: through }\n`;
const TUBE = 'stock: { form: tube, axis: x, wall: 4 }\n';
const port = (x: number, deep: number, more = '') =>
  `  h: { kind: hole, face: top${more}, at: { x: ${x}, y: center }, thread: M20, thread-depth: ${deep}, depth: ${deep + 4} }\n`;
const boss = (deep: number, height: number) =>
  `  b: { kind: contour, face: top, at: { x: center, y: center }, thread: M16, thread-depth: ${deep}, depth: ${height} }\n`;
const necked = (width: number, diameter: number) =>
  `  b: { kind: contour, face: top, at: { x: center, y: center }, thread: M16, undercut: { width: ${width}, diameter: ${diameter} }, depth: 13 }\n`;
const TALL = '{ x: 60, y: 40, z: 50 }';

export const PLANTED: readonly Planted[] = [
  {
    rule: 'access/reach',
    what: 'an angle: its near leg is drilled from outside with the same drill that does not reach past the far one',
    good: block(
      '  h: { kind: hole, face: front, at: { x: center, z: 26 }, diameter: 5, depth: through }\n',
      setup('h', { up: 'front', jaws: '[bottom, top]' }),
      '{ x: 60, y: 60, z: 40 }',
      ANGLE,
    ),
    bad: block(
      '  h: { kind: hole, face: front, at: { x: center, z: 3 }, diameter: 5, depth: through }\n',
      setup('h', { up: 'front', jaws: '[bottom, top]' }),
      '{ x: 60, y: 60, z: 40 }',
      ANGLE,
    ),
  },
  {
    rule: 'access/jaw',
    what: 'an angle: its leg is drilled beside the jaw, or where the jaw is',
    good: block(leg('20'), setup('b'), '{ x: 60, y: 40, z: 40 }', ANGLE),
    bad: block(
      '  s: { kind: step, face: top, along: front, width: 3, depth: 34 }\n',
      setup('s'),
      '{ x: 60, y: 40, z: 40 }',
      ANGLE,
    ),
  },
  {
    rule: 'corner/square',
    what: 'a tube: a window through its upper wall',
    good: block(pocket(4, 5), setup('p'), '{ x: 60, y: 40, z: 30 }', TUBE),
    bad: block(pocket(0, 5), setup('p'), '{ x: 60, y: 40, z: 30 }', TUBE),
  },
  {
    rule: 'corner/square',
    what: 'square inside corners',
    good: block(pocket(4), setup('p')),
    bad: block(pocket(0), setup('p')),
  },
  {
    rule: 'corner/inside-radius',
    what: 'a corner tighter than the cutter that reaches the floor',
    good: block(pocket(3.5, 15), setup('p', { grip: 6, more: ', parallels: 26' })),
    bad: block(pocket(1.6, 15), setup('p', { grip: 6, more: ', parallels: 26' })),
  },
  {
    rule: 'corner/floor-radius',
    what: 'a fillet at the floor that no cutter has',
    good: block(pocket(4, 8, ', floor-radius: 3'), setup('p')),
    bad: block(pocket(4, 8, ', floor-radius: 1.5'), setup('p')),
  },
  {
    rule: 'hole/odd-diameter',
    what: 'a hole too small to mill and of no drill',
    good: block(hole(20, 12), setup('h')),
    bad: block(hole(20, 12).replace('diameter: 5', 'diameter: 2.5'), setup('h')),
  },
  {
    rule: 'access/reach',
    what: 'a hole deeper than its drill',
    good: block(hole(20, 30), setup('h'), '{ x: 60, y: 40, z: 55 }'),
    bad: block(hole(20, 48), setup('h'), '{ x: 60, y: 40, z: 55 }'),
  },
  {
    rule: 'hole/flat-bottom',
    what: 'a flat bottom in a hole too small for a mill',
    good: block(hole(20, 12), setup('h')),
    bad: block(hole(20, 14, ', bottom: flat').replace('diameter: 5', 'diameter: 2.5'), setup('h')),
  },
  {
    rule: 'access/reach',
    what: 'a slot deeper than any cutter as thin reaches',
    good: block(slot(7, 20), setup('s', { grip: 10 }), '{ x: 60, y: 40, z: 45 }'),
    bad: block(slot(7, 32), setup('s', { grip: 10 }), '{ x: 60, y: 40, z: 45 }'),
  },
  {
    rule: 'access/holder',
    what: 'a holder against the wall beside a deep pocket',
    good: block(pocket(3.5, 20), setup('p'), '{ x: 60, y: 40, z: 40 }'),
    bad: block(
      `  s: { kind: step, face: top, along: left, width: 30, depth: 16 }\n  p: { kind: pocket, face: top, from: s, at: { x: 16, y: center }, size: { x: 20, y: 18 }, corner-radius: 3.5, depth: 14 }\n`,
      setup('s, p'),
      '{ x: 60, y: 40, z: 50 }',
    ),
  },
  {
    rule: 'access/jaw',
    what: 'a step cut below the tops of the jaws',
    good: block(step(5, 12), setup('s')),
    bad: block(step(5, 18), setup('s')),
  },
  {
    rule: 'access/no-setup',
    what: 'a hole that no set-up looks at',
    good: block(hole(20, 12), setup('h')),
    bad: block('  h: { kind: hole, face: front, at: { x: center, z: 12 }, diameter: 5, depth: 12 }\n', setup('h')),
  },
  {
    rule: 'setup/unassigned',
    what: 'a pocket that no set-up cuts',
    good: block(hole(8, 12) + pocket(4), setup('h, p')),
    bad: block(hole(8, 12) + pocket(4), setup('h')),
  },
  {
    rule: 'access/jaw',
    what: 'a stop against the end that is faced',
    good: block(
      hole(20, 12),
      setup('h, left', { more: ', stop: right' }) + setup('right', { name: 'second', more: ', stop: left' }),
      undefined,
      ENDS,
    ),
    bad: block(
      hole(20, 12),
      setup('h, left', { more: ', stop: left' }) + setup('right', { name: 'second', more: ', stop: left' }),
      undefined,
      ENDS,
    ),
  },
  {
    rule: 'hold/drills-the-parallels',
    what: 'a through hole over a parallel',
    good: block(hole(20, 'through'), setup('h')),
    bad: block(hole(4, 'through'), setup('h')),
  },
  {
    rule: 'hold/drills-the-parallels',
    what: 'a through hole on the bed of the vise',
    good: block(hole(20, 'through'), setup('h', { grip: 18 }), '{ x: 60, y: 40, z: 38 }'),
    bad: block(hole(20, 'through'), setup('h', { grip: 32, more: ', parallels: 0' }), '{ x: 60, y: 40, z: 38 }'),
  },
  {
    rule: 'hold/opening',
    what: 'a workpiece wider than the vise opens',
    good: block(hole(20, 12), setup('h'), '{ x: 95, y: 40, z: 24 }'),
    bad: block(hole(20, 12), setup('h', { jaws: '[left, right]' }), '{ x: 95, y: 40, z: 24 }'),
  },
  {
    rule: 'hold/parallels',
    what: 'a grip that no parallels on hand make',
    good: block(hole(20, 12), setup('h', { grip: 10 })),
    bad: block(hole(20, 12), setup('h', { grip: 12 })),
  },
  {
    rule: 'hold/in-the-cut',
    what: 'a cut through what the jaw presses on',
    good: block(step(12, 12), setup('s')),
    bad: block(step(12, 18), setup('s')),
  },
  {
    rule: 'hold/cut-free',
    what: 'an outline cut through all that the jaws hold',
    good: block(outline(12), setup('c')),
    bad: block(outline('through'), setup('c')),
  },
  {
    rule: 'access/undercut',
    what: 'a tee wider than the cutter’s neck lets it be',
    good: block(slot(8, 12, ', tee: { width: 14, height: 4 }'), setup('s')),
    bad: block(slot(8, 12, ', tee: { width: 20, height: 4 }'), setup('s')),
  },
  {
    rule: 'access/undercut',
    what: 'an undercut round a boss, deeper than the cutter cuts beside its neck',
    good: block(necked(4.5, 10), setup('b')),
    bad: block(necked(4.5, 7), setup('b')),
  },
  {
    rule: 'access/undercut',
    what: 'an undercut round a boss, narrower than the cutter is thick',
    good: block(necked(5, 13), setup('b')),
    bad: block(necked(3, 13), setup('b')),
  },
  {
    rule: 'access/reach',
    what: 'a slot narrower than its cutters',
    good: block(slot(6, 5), setup('s')),
    bad: block(slot(2.5, 5), setup('s')),
  },
  {
    rule: 'access/reach',
    what: 'a thread deeper than the thread mill’s neck lets it',
    good: block(port(30, 21), setup('h'), TALL),
    bad: block(port(30, 26), setup('h'), TALL),
  },
  {
    rule: 'thread/no-tap',
    what: 'a thread in a hole too narrow for the thread mill',
    good: block(port(30, 14), setup('h'), TALL),
    bad: block(port(30, 14).replace('M20', 'M12'), setup('h'), TALL),
  },
  {
    rule: 'access/holder',
    what: 'a thread milled beside a wall that the holder meets',
    good: block(port(30, 14), setup('h'), TALL),
    bad: block(
      `  s: { kind: step, face: top, along: left, width: 45, depth: 20 }\n${port(32, 14).replace('face: top', 'from: s')}`,
      setup('s, h'),
      TALL,
    ),
  },
  {
    rule: 'thread/shoulder',
    what: 'a thread milled on a boss down to its shoulder',
    good: block(boss(15, 18), setup('b'), TALL),
    bad: block(boss(17.5, 18), setup('b'), TALL),
  },
  {
    rule: 'thread/no-die',
    what: 'a boss longer than the thread mill reaches down',
    good: block(boss(18, 22), setup('b'), TALL),
    bad: block(boss(23, 26), setup('b'), TALL),
  },
];

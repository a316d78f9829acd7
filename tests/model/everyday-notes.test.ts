/**
 * What people type from drawings and habit: each is told by what it means, keeps its size, and is one key away. Marks by ISO
 * 129-1, ISO 1302 and ASME Y14.5 (from memory); the words are common practice, no source.
 */
import assert from 'node:assert/strict';
import { onlyOne, read } from './everyday-read';

const HEAD = 'part: a\nunits: mm\nmaterial: aluminium-6061-t6\n';
const BODY = 'body: { x: 80, y: 50, z: 20 }\n';
const F = 'features:\n  f:\n';
const feature = (lines: string) => `${HEAD}${BODY}${F}${lines.replace(/^/gm, '    ')}\n`;
const hole = (lines: string) => feature(`kind: hole\nface: top\nat: { x: 20, y: 20 }\n${lines}`);
const clear = (lines: string) => hole(`diameter: 5\ndepth: through\n${lines}`);
const pocket = (lines: string) => feature(`kind: pocket\nface: top\nat: { x: 40, y: 25 }\ndepth: 5\n${lines}`);
const head = (line: string) => `${HEAD}${BODY}${line}\n`;
const VISE = '{ vise: mill-vise-100, jaws: [front, back], grip: 6 }';
const setup = (lines: string) =>
  clear(`note: x\nX`).replace(/ {4}note: x\n {4}X\n/, `setups:\n  one:\n${lines.replace(/^/gm, '    ')}\n`);

/** [text, the new lines by each way]. */
const NOTES: readonly (readonly [text: string, ...ways: (string | readonly string[])[]])[] = [
  // How many, and how well.
  ...['2x', '2 pcs', '2 off', 'x2', 'two', '2 Stück'].map((n) => [head(`quantity: ${n}`), 'quantity: 2'] as const),
  ...['±0.1', '+/- 0.1', '0.1', '0,1'].map((t) => [head(`tolerance: ${t}`), 'tolerance: ISO 22081 ±0.1'] as const),
  [head('revision: [A]'), 'revision: A'],
  [head('deburr: 0.2'), 'deburr: { outside: 0.2, inside: 0.2 }', 'deburr: { outside: 0.2 }'],
  // Bodies and stock.
  [`${HEAD}x: 80\ny: 50\nz: 20\n`, 'body: { x: 80, y: 50, z: 20 }'],
  [`${HEAD}body: { size: [80, 50, 20] }\n`, 'body: { x: 80, y: 50, z: 20 }'],
  ...['{ l: 80, w: 50, h: 20 }', '{ width: 80, depth: 50, height: 20 }', '{ Länge: 80, Breite: 50, Höhe: 20 }'].map(
    (b) => [`${HEAD}body: ${b}\n`, 'body: { x: 80, y: 50, z: 20 }', 'body: { y: 80, x: 50, z: 20 }'] as const,
  ),
  [
    head('stock: { form: plate, extra: 2 }'),
    'stock: { form: plate, extra: { left: 2, right: 2, front: 2, back: 2, bottom: 2, top: 2 } }',
    'stock: { form: plate, extra: { left: 2, right: 2 } }',
  ],
  [head('stock: { form: Flachmaterial }'), 'stock: { form: flat-bar }'],
  [head('stock: { form: Vierkant }'), 'stock: { form: square-bar }'],
  [head('stock: Blech'), 'stock: { form: plate }'],
  [
    head('stock: 90x50x25'),
    'stock: { form: flat-bar, extra: { left: 5, right: 5, bottom: 2.5, top: 2.5 } }',
    'stock: { form: block, extra: { left: 5, right: 5, bottom: 2.5, top: 2.5 } }',
  ],
  [head('stock: flat bar 60 x 20'), 'stock: { form: flat-bar, extra: { front: 5, back: 5 } }'],
  [head('stock: Ø100'), 'stock: { form: round-bar, diameter: 100 }'],
  // A hole's sizes.
  [hole('diameter: 5\ndepth: -10'), 'depth: 10'],
  [hole('diameter: 5\nz: -10'), 'depth: 10'],
  [hole('diameter: 5\nblind: 10'), 'depth: 10'],
  [hole('diameter: 5\ndepth: half'), 'depth: body.z / 2'],
  [hole('diameter: 5\ndepth: 25%'), 'depth: 0.25 * body.z'],
  [hole('diameter: 5\ndepth: through\nthrough: true'), []],
  [hole('diameter: H7 10\ndepth: 5'), 'diameter: 10 H7'],
  [hole('diameter: 10 (H7)\ndepth: 5'), 'diameter: 10 H7'],
  [hole('diameter: 9.98 - 10.02\ndepth: 5'), 'diameter: 10 ±0.02'],
  [hole('diameter: ~10\ndepth: 5'), 'diameter: 10'],
  [hole('drill: 5\ndepth: 5'), 'diameter: 5'],
  [hole('reamed: 8 H7\ndepth: 5'), 'diameter: 8 H7'],
  ...['5 thru', 'Ø5 THRU', '2x Ø5 thru all', '5 durchgehend'].map(
    (d) => [hole(`diameter: ${d}`), ['diameter: 5', 'depth: through']] as const,
  ),
  ...['Ø5 x 10', '5 x 10 deep', 'ø5 ↧10', '5, 10 tief', '5 tief 10'].map(
    (d) => [hole(`diameter: ${d}`), ['diameter: 5', 'depth: 10']] as const,
  ),
  ...['M5 x 12', 'M5 tief 12', 'M5 12 deep', 'M5 ↧12'].map(
    (t) => [hole(`thread: ${t}\ndepth: 18`), ['thread: M5', 'thread-depth: 12']] as const,
  ),
  [hole('thread: M5 left\ndepth: through'), 'thread: M5-LH'],
  [hole('thread: 5\ndepth: through'), 'thread: M5'],
  [hole('thread: { size: M5, pitch: 0.8 }\ndepth: through'), 'thread: M5x0.8'],
  [feature('hole: Ø5 thru\nface: top\nat: { x: 9, y: 9 }'), ['kind: hole', 'diameter: 5', 'depth: through']],
  [feature('kind: M5 x 12\nface: top\nat: { x: 9, y: 9 }'), ['kind: hole', 'thread: M5', 'depth: 12']],
  [feature('face: top\nat: { x: 9, y: 9 }\nthread: M5\ndepth: 10'), 'kind: hole', 'kind: contour'],
  [
    `${HEAD}${BODY}features:\n  f: Ø5 thru\n`,
    'f: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5, depth: through }',
  ],
  // Its screw, and the recess of its head.
  ...['M5 SHCS', 'M5 socket head', 'ISO 4762 M5', 'DIN 912 M5x20'].flatMap((s) => [
    [hole(`clearance: ${s}\ndepth: through`), 'clearance: M5'] as const,
    [clear(`counterbore: ${s}`), 'counterbore: M5'] as const,
  ]),
  [hole('clearance: 5\ndepth: through'), 'clearance: M5'],
  [hole('for: M5 SHCS\ndepth: through'), 'thread: M5', 'clearance: M5'],
  // DIN 974-1 series 1 (from memory): 10 wide, 5.4 deep, is that of M5.
  [clear('counterbore: 10'), 'counterbore: { diameter: 10, depth: 5.4 }', 'counterbore: M5'],
  [clear('counterbore: [10, 5]'), 'counterbore: { diameter: 10, depth: 5 }'],
  [clear('countersink: 90°'), 'countersink: { diameter: 10, angle: 90 }'],
  [clear('countersink: M5 flat head'), 'countersink: M5'],
  [clear('spotface: 10 x 1'), 'counterbore: { diameter: 10, depth: 1 }'],
  [clear('chamfer: 0.5 x 45°'), 'countersink: { diameter: 6, angle: 90 }'],
  // Finish: Rz about four times Ra; 63 µin is 1.6 µm (ASME B46.1, from memory).
  ...['finish: Rz 6,3', 'surface: Rz6.3', 'finish: 63 µin', 'roughness: N7'].map(
    (s) => [clear(s), 'finish: 1.6'] as const,
  ),
  [clear('finish: polished'), 'finish: 0.2', 'finish: 0.4'],
  // Several.
  [
    clear('count: 4'),
    'pattern: { line: { x: 15, count: 4 } }',
    'pattern: { line: { y: 15, count: 4 } }',
    'pattern: { bolt-circle: { diameter: 30, count: 4 } }',
  ],
  [clear('qty: 3x\nspacing: 8'), 'pattern: { line: { x: 8, count: 3 } }', 'pattern: { line: { y: 8, count: 3 } }'],
  ...['pcd: 30\ncount: 4', 'pattern: 4x Ø30', 'pattern: 4 on 30 PCD', 'bolt-circle: 30'].map(
    (p) => [clear(p), 'pattern: { bolt-circle: { diameter: 30, count: 4 } }'] as const,
  ),
  [clear('pattern: { x: 10, count: 3 }'), 'pattern: { line: { x: 10, count: 3 } }'],
  [clear('pattern: { line: { x: 10, count: 3x } }'), 'pattern: { line: { x: 10, count: 3 } }'],
  [
    clear('pattern: 2x3'),
    'pattern: { grid: { x: { pitch: 15, count: 2 }, y: { pitch: 15, count: 3 } } }',
    'pattern: { grid: { x: { pitch: 15, count: 3 }, y: { pitch: 15, count: 2 } } }',
  ],
  [
    clear('pattern: { grid: { x: 2, y: 3, pitch: 10 } }'),
    'pattern: { grid: { x: { pitch: 10, count: 2 }, y: { pitch: 10, count: 3 } } }',
  ],
  [
    clear('note: y').replace('at: { x: 20, y: 20 }', 'at: [[10, 20], [30, 20]]'),
    'pattern: { places: [{ x: 10, y: 20 }, { x: 30, y: 20 }] }',
  ],
  [clear('note: y').replace('at: { x: 20, y: 20 }', 'at: { x: 20, y: 20, z: 20 }'), 'at: { x: 20, y: 20 }'],
  // Other features.
  [pocket('x: 20\ny: 10'), 'size: { x: 20, y: 10 }'],
  [pocket('size: { length: 20, width: 10 }'), 'size: { x: 20, y: 10 }', 'size: { x: 10, y: 20 }'],
  [pocket('size: { x: 20, y: 10 }\nfillets: R3'), 'corner-radius: 3'],
  [feature('kind: chamfer\nedges: top, bottom\nsize: 0.5'), 'edges: [top, bottom]'],
  [feature('kind: chamfer\nface: top\nsize: 0.5'), 'edges: top'],
  [feature('kind: chamfer\nedges: top\nsize: 0.5 x 0.5'), 'size: 0.5'],
  ...['[10, 20, 40, 20]', '10,20 to 40,20'].map(
    (ends) =>
      [
        feature(`kind: slot\nface: top\nends: ${ends}\nwidth: 6\ndepth: 5`),
        'ends: [{ x: 10, y: 20 }, { x: 40, y: 20 }]',
      ] as const,
  ),
  [
    `${HEAD}${BODY}features:\n  - name: Cable Hole\n    kind: hole # of the cable\n    face: top\n    at: { x: 9, y: 9 }\n    diameter: 5\n    depth: 5\n`,
    ['cable-hole:'],
  ],
  // A face that was changed, its place and size left as they were.
  [clear('note: y').replace('face: top', 'face: front'), 'at: { x: 20, z: 20 }'],
  [
    feature('kind: pocket\nface: right\nat: { y: 25, z: 10 }\nsize: { x: 20, y: 10 }\ndepth: 5'),
    'size: { z: 20, y: 10 }',
  ],
  // Drills by number and letter (ASME B94.11M, from memory): #7 is 0.201 in, F is 0.257 in. A screw's number may be meant: #10, normal fit, ASME B18.2.8.
  ...['"#7"', 'no. 7', '"#7 drill"'].map((d) => [hole(`diameter: ${d}\ndepth: 5`), 'diameter: 0.201 in'] as const),
  ...['F', 'letter f', 'F drill'].map((d) => [hole(`diameter: ${d}\ndepth: 5`), 'diameter: 0.257 in'] as const),
  [hole('diameter: "#10"\ndepth: 5'), 'diameter: 0.1935 in', 'diameter: 0.221 in'],
  // Set-ups.
  [
    setup(`up: top\nhold: ${VISE}\nzero: top left corner\ncuts: [f]`),
    'zero: { x: left, y: front, z: top }',
    'zero: { x: left, y: back, z: top }',
  ],
  ...['center', 'middle', 'G54'].map(
    (zero) =>
      [
        setup(`up: top\nhold: ${VISE}\nzero: ${zero}\ncuts: [f]`),
        'zero: { x: left, y: front, z: top }',
        'zero: { x: left, y: back, z: top }',
      ] as const,
  ),
  [setup(`up: top\nhold: ${VISE}\nzero: left front\ncuts: [f]`), 'zero: { x: left, y: front, z: top }'],
  [setup(`up: top\nvise: mill-vise-100\njaws: [front, back]\ngrip: 6\ncuts: [f]`), `hold: ${VISE}`],
  [setup(`up: top\nhold: ${VISE.replace('[front, back]', 'y')}\ncuts: [f]`), `hold: ${VISE}`],
  [
    setup(`up: top\nhold: ${VISE}\nzero: { x: links, y: back, z: top }\ncuts: [f]`),
    'zero: { x: left, y: back, z: top }',
  ],
  // Other languages, where one meaning is plain.
  [hole('diamètre: 5\ndepth: 5'), 'diameter: 5'],
  [hole('diameter: 5\nprofundidad: 5'), 'depth: 5'],
  [hole('diameter: 5\nprofondità: 5'), 'depth: 5'],
  [clear('note: y').replace('face: top', 'face: dessus'), 'face: top'],
];

describe('what is typed from drawings and habit', () => {
  it('is told by what it means, its size kept, each way one key away', () => {
    for (const [text, ...ways] of NOTES) {
      const told = onlyOne(text);
      assert.deepEqual(
        told.ways,
        ways.map((way) => (typeof way === 'string' ? [way] : way)),
        `${text}\n${told.message}`,
      );
    }
  });

  it('leaves what it does not know alone', () => {
    for (const text of [clear('banana: x'), hole('diameter: banana\ndepth: 5'), head('quantity: many')])
      assert.deepEqual(
        read(text).flatMap((t) => t.ways),
        [],
      );
    for (const word of ['hole: 5', 'kind: mill'])
      assert.ok(read(feature(`${word}\nface: top\nat: { x: 9, y: 9 }`)).length > 0);
  });
});

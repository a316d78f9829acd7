/**
 * Amounts, materials and set-ups as they are said in a workshop: each is told by what it means, keeps its size, and is one
 * key away; where it may mean two things both are offered, none first.
 */
import assert from 'node:assert/strict';
import { onlyOne, read } from './everyday-read';

const HEAD = 'part: a\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 50, z: 20 }\n';
const feature = (lines: string) => `${HEAD}features:\n  f:\n${lines.replace(/^/gm, '    ')}\n`;
const HOLE = 'kind: hole\nface: top\nat: { x: center, y: center }\n';
const POCKET = 'kind: pocket\nface: top\nat: { x: center, y: center }\ncorner-radius: 3\n';
const SETUP = (hold: string, cuts: string) =>
  `${feature(`${HOLE}diameter: 5\ndepth: through`)}setups:\n  one:\n    up: top\n    hold: ${hold}\n    zero: { x: left, y: front, z: top }\n    cuts: ${cuts}\n`;
const HELD = '{ vise: mill-vise-100, jaws: [front, back], grip: 6 }';

const cured = (text: string) => onlyOne(text).ways;

// Marks by ISO 129-1 and ASME Y14.5 (from memory); the words are common practice, no source.
const ONE: readonly (readonly [text: string, ...becomes: string[]])[] = [
  ...['20 × 10 × 5', '20x10x5', '[20, 10, 5]', '20 x 10 x 5'].map(
    (size) => [feature(`${POCKET}size: ${size}`), 'size: { x: 20, y: 10 }', 'depth: 5'] as const,
  ),
  [feature(`${POCKET}size: 20,5 x 10 x 5`), 'size: { x: 20.5, y: 10 }', 'depth: 5'],
  [
    feature(`${HOLE}thread: M5\ndepth: through\npattern: { bolt-circle: 4 x 30 }`),
    'pattern: { bolt-circle: { diameter: 30, count: 4 } }',
  ],
  [
    feature(`${HOLE}diameter: 5\ndepth: through\npattern: { pcd: 30, count: 4 }`),
    'pattern: { bolt-circle: { diameter: 30, count: 4 } }',
  ],
  [
    feature(`${HOLE}diameter: 5\ndepth: through\npattern: { grid: { x: 20.5, y: { pitch: 10, count: 2 } } }`),
    'pattern: { grid: { x: { pitch: 20.5, count: 2 }, y: { pitch: 10, count: 2 } } }',
  ],
  [feature(`${HOLE}diameter: 5\ndepth: through\nfinish: Ra 1.6`), 'finish: 1.6'],
  [feature(`${HOLE}diameter: 5\ndepth: through\nfinish: N7`), 'finish: 1.6'],
  [feature(`${HOLE}diameter: 5\ndepth: through\nfinish: 3,2 µm`), 'finish: 3.2'],
  [feature(`${HOLE}diameter: 5\ndepth: through\ncounterbore: ⌴10↧5`), 'counterbore: { diameter: 10, depth: 5 }'],
  [feature(`${HOLE}diameter: 5\ndepth: through\ncountersink: ⌵ ⌀10`), 'countersink: { diameter: 10, angle: 90 }'],
  [feature(`${HOLE}diameter: 250 thou\ndepth: through`), 'diameter: 0.25 in'],
  [feature('kind: hole\nface: top\nat: X35 Y27.5\ndiameter: 5\ndepth: through'), 'at: { x: 35, y: 27.5 }'],
  [SETUP(HELD, 'all'), 'cuts: [f]'],
  [SETUP(HELD, 'alles'), 'cuts: [f]'],
  [SETUP('vise', '[f]'), `hold: ${HELD}`],
  [SETUP('Schraubstock', '[f]'), `hold: ${HELD}`],
  [SETUP('toolmakers-vise-70', '[f]'), `hold: { vise: toolmakers-vise-70, jaws: [front, back], grip: 6 }`],
];
const SEVERAL: readonly (readonly [text: string, ...ways: string[]])[] = [
  [
    feature(`${HOLE}diameter: 5\ndepth: through\npattern: 4 x 10`),
    'pattern: { line: { x: 10, count: 4 } }',
    'pattern: { line: { y: 10, count: 4 } }',
  ],
  [
    feature(`${HOLE}diameter: 5\ndepth: through\npattern: { grid: { x: 3, y: { pitch: 10, count: 2 } } }`),
    'pattern: { grid: { x: { pitch: 3, count: 2 }, y: { pitch: 10, count: 2 } } }',
    'pattern: { grid: { x: { pitch: 15, count: 3 }, y: { pitch: 10, count: 2 } } }',
  ],
  [
    feature('kind: slot\nface: top\nat: { x: 40, y: 25 }\nwidth: 8\nlength: 30\ndepth: 5'),
    'ends: [{ x: 29, y: 25 }, { x: 51, y: 25 }]',
    'ends: [{ x: 40, y: 14 }, { x: 40, y: 36 }]',
  ],
  [
    feature('kind: slot\nface: top\nwidth: 8\nlength: 30\ndepth: 5'),
    'ends: [{ x: body.x / 2 - 11, y: body.y / 2 }, { x: body.x / 2 + 11, y: body.y / 2 }]',
    'ends: [{ x: body.x / 2, y: body.y / 2 - 11 }, { x: body.x / 2, y: body.y / 2 + 11 }]',
  ],
  [feature(`${HOLE}diameter: 22 +0.021 -0\ndepth: through`), 'diameter: 22 +0.021/-0', 'diameter: 22 + 0.021 - 0'],
  [
    feature(`${HOLE}diameter: 1-1/2"\ndepth: 5`).replace('units: mm', 'units: in'),
    'diameter: 1 1/2"',
    'diameter: 1 - 1/2"',
  ],
  ...['aluminium', 'aluminum', 'Alu', 'Aluminium'].map(
    (word) =>
      [
        feature(`${HOLE}diameter: 5\ndepth: through`).replace('aluminium-6061-t6', word),
        ...['aluminium-6061-t6', 'aluminium-6082-t6', 'aluminium-7075-t6', 'aluminium-2017a-t4'].map(
          (m) => `material: ${m}`,
        ),
      ] as const,
  ),
  [
    feature(`${HOLE}diameter: 5\ndepth: through`).replace('aluminium-6061-t6', 'Messing'),
    'material: brass-c36000',
    'material: brass-cw614n',
  ],
];

describe('amounts as they are said in a workshop', function () {
  this.timeout(20_000);
  for (const [text, ...becomes] of ONE) it(`${becomes.join(', ')}`, () => assert.deepEqual(cured(text), [becomes]));
  for (const [text, ...ways] of SEVERAL)
    it(`either ${ways.join(' or ')}`, () =>
      assert.deepEqual(
        cured(text),
        ways.map((way) => [way]),
      ));
  it('what is read already is read as ever', () => {
    for (const lines of ['size: { x: 20, y: 10 }\ndepth: 5', 'size: { x: 20, y: 10 }\ndepth: 5\nfinish: 1.6'])
      assert.deepEqual(read(feature(POCKET + lines)), []);
  });
});

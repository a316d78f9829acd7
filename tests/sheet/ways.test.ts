/** Every way of holding in full, on hand wheels with dials in millimetres and in inches: what hands read, and nothing overlaps. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { markdownSheet } from '../../server/src/sheet/markdown';
import { sheetOf } from '../../server/src/sheet/sheet';
import { clashesOn } from './clashes';

const EVERYDAY = readFileSync(resolve(__dirname, '../../schemas/everyday.shop.yaml'), 'utf8');

function shopWith(dials: string): Shop {
  return checkShop(EVERYDAY.replace(/(machines:\n {2}\S+:\n)/, `$1    control: hand\n    dials: ${dials}\n`)).shop;
}
// The shop file counts in millimetres: 0.1 in is 2.54 mm, and the dial's hundred marks are thousandths of an inch.
const MM = shopWith('{ turn: 4, divisions: 80 }');
const INCH = shopWith('{ turn: 0.1 in, divisions: 100, unit: in }');

const BLOCK = '{ x: 80, y: 40, z: 16 }';
const BAR = '{ diameter: 30, axis: x, length: 90 }';

function partHeld(body: string, hold: string, more = ''): string {
  const across = body === BAR ? 'center' : '20 ±0.05';
  return `part: held
material: aluminium-6061-t6
quantity: 7
body: ${body}
features:
  seat: { kind: hole, face: top, at: { x: 40, y: ${across} }, diameter: 10 H7, depth: 6 }
  fix: { kind: hole, face: top, at: { x: 20, y: center }, thread: M5, depth: through }
tolerances:
  - { distance: 20 ±0.1, of: [seat, fix], axis: x }
setups:
  first:
    up: top
    hold: ${hold}
${more}    zero: { x: left, y: back, z: top }
    cuts: [fix, seat]
`;
}

async function told(text: string, shop: Shop): Promise<string> {
  const checked = checkPart(text, shop);
  const request = { checked, file: 'held.part.yaml', mark: '0', creator: 'test', when: new Date(2026, 10, 30) };
  const { bytes } = await markdownSheet('en').write(request);
  for (const language of ['en', 'de'] as const) {
    const sheet = sheetOf(request, { language });
    assert.deepEqual(
      sheet.pages.flatMap((p) => clashesOn(p).map((c) => `${p.number}: ${c}`)),
      [],
    );
  }
  return new TextDecoder().decode(bytes).replace(/\\/g, '');
}

const WAYS: readonly (readonly [way: string, text: string, says: readonly string[]])[] = [
  [
    'clamps',
    partHeld(
      BLOCK,
      '{ clamps: [{ x: 8, y: 20 }, { x: 72, y: 20 }], on: plate, stop: left }',
      '    clock: { indicator: back }\n',
    ),
    [
      'BOTTOM (as supplied) down on the plate',
      'LEFT to the stop',
      'turned till an indicator runs true along BACK',
      '2 clamps, pressing at X 8.00 Y 20.00; X 72.00 Y 20.00',
    ],
  ],
  ['screws', partHeld(BLOCK, '{ screws: [fix], to: plate }'), ['screws through fix, at X 20.00 Y 20.00']],
  [
    'tabs',
    partHeld(BLOCK, '{ tabs: { count: 4, width: 5, height: 1 } }'),
    ['the frame of stock clamped to the table', '4 tabs stay, 5 wide, 1 high: cut and filed off afterwards'],
  ],
  [
    'an angle plate',
    partHeld(
      BLOCK,
      '{ angle-plate: angle-plate-100, against: back, out: 5, clamps: [{ x: 20, z: 8 }, { x: 60, z: 8 }] }',
    ),
    ['BACK against angle-plate-100', '5 out above the plate', '2 clamps, pressing at X 20.00 Z 8.00; X 60.00 Z 8.00'],
  ],
  [
    'two vises',
    partHeld(
      '{ x: 260, y: 40, z: 16 }',
      '{ vise: mill-vise-100, jaws: [back, front], grip: 8, apart: 200, stop: left }',
    ),
    ['a second such vise in line, 200 from middle to middle', 'LEFT (as supplied) to the stop'],
  ],
  [
    'two pieces in a vise',
    partHeld(BLOCK, '{ vise: mill-vise-100, jaws: [back, front], grip: 8, stop: left, pieces: 2, gap: 5, pad: 3 }'),
    [
      'a second piece to the right of the first, a spacer of',
      'at the moving jaw over both',
      'second piece: zero X touched on it, about',
      'a last piece alone: an offcut as wide',
    ],
  ],
  [
    'a bar end',
    partHeld(BLOCK, '{ vise: mill-vise-100, jaws: [back, front], grip: 8, overhang: { right: 12 } }'),
    ['RIGHT end 12 out of the jaws'],
  ],
  [
    'an angle',
    partHeld(BLOCK, '{ angle: 20, about: x, vise: mill-vise-100, jaws: [back, front], grip: 8 }'),
    ['tilted 20° about x, angle checked'],
  ],
  [
    'V-blocks',
    partHeld(
      BAR,
      '{ v-block: v-block-45, clamps: [{ x: 20, y: center }, { x: 70, y: center }] }',
      '    clock: { square: seat }\n',
    ),
    [
      'round, in v-block-45 on the table, one under each outer clamp',
      'turned till a square lies against seat',
      '2 clamps, pressing at X 20.00 Y 15.00; X 70.00 Y 15.00',
    ],
  ],
  [
    'a V-block in a vise',
    partHeld(
      BAR,
      '{ vise: mill-vise-100, jaws: [back, front], grip: 20, v-block: v-block-45 }',
      '    clock: { pin: fix }\n',
    ),
    ['v-block-45 between FRONT and the moving jaw', 'turned by a pin in fix, set level'],
  ],
];

describe('ways of holding, on paper', function () {
  this.timeout(120_000);
  for (const [i, [way, text, says]] of WAYS.entries())
    it(`${way}: each thing that hands do, places in turns and marks, what is measured`, async () => {
      const inches = i % 2 === 1;
      const paper = await told(text, inches ? INCH : MM);
      for (const words of says) assert.ok(paper.includes(words), `${words}\n${paper}`);
      // nothing is said of a read-out where there is none
      assert.doesNotMatch(paper, /read-out/);
      assert.match(paper, /set the dial to X -5\.00/);
      // half an edge finder of 10 mm beside the left face: 5 mm are 1.25 turns of 4 mm, 1.97 of 0.1 in
      const five = inches ? 'back 1 turn 97 marks' : 'back 1 turn 20 marks';
      assert.ok(paper.includes(`X -5.00 (${five})`), paper);
      // 20 mm: five turns of 4 mm; 0.7874 in are 7 turns and 87 marks
      // (what is held at an angle is told as drawn)
      if (way !== 'an angle') assert.ok(paper.includes(inches ? 'X 7 turns 87 marks' : 'X 5 turns 0 marks'), paper);
      assert.match(paper, /Dials count (mm: 4 mm a turn, 0\.05 mm a mark|in: 0\.1 in a turn, 0\.001 in a mark)/);
      for (const size of ['M5: go, no-go with a thread gauge', 'seat to fix, distance: 19.900 … 20.100 with a caliper'])
        assert.ok(paper.includes(size), size);
    });
});

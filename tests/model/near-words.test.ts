/** Words that are near to those of sections, ribs, drafts and cutters: each has its rename. Common practice, no source. */
import assert from 'node:assert/strict';
import { onlyOne } from './everyday-read';
import { mended, shopOf } from './shop-said';

const HEAD = 'part: a\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 40, z: 40 }\n';
const POCKET =
  'kind: pocket, face: top, at: { x: center, y: center }, size: { x: 60, y: 30 }, corner-radius: 4, depth: 10';
const ENDS = 'ends: [{ x: 10, y: 20 }, { x: 70, y: 20 }]';
const rib = (fields: string) => `features:\n  p: { ${POCKET}, islands: { r: { ${fields} } } }`;

/** The words that stand in the place of `right`, and the text round them. */
const PARTS: readonly (readonly [right: string, words: readonly string[], text: (line: string) => string])[] = [
  ...(['tube', 'angle', 'channel', 'tee'] as const).map((form) => {
    const open = { tube: '', angle: ', open: [back, top]', channel: ', open: [top]', tee: ', open: [top]' }[form];
    const words = ['thickness', 'wall-thickness', 't', 's', 'thick', 'gauge', 'Wandstärke', 'Wand'];
    return ['wall: 3', words, (line: string) => `stock: { form: ${form}, ${line}${open} }`] as const;
  }),
  ['wall: 3', ['leg', 'legs', 'leg-thickness'], (line) => `stock: { form: angle, ${line}, open: [back, top] }`],
  ['wall: 3', ['web', 'web-thickness'], (line) => `stock: { form: channel, ${line}, open: [top] }`],
  ['flange: 4', ['flanges', 'flange-thickness'], (line) => `stock: { form: tee, wall: 3, ${line}, open: [top] }`],
  [
    'root: 3',
    ['inside-radius', 'inner-radius', 'root-radius', 'fillet', 'radius', 'r'],
    (line) => `stock: { form: channel, wall: 3, ${line}, open: [top] }`,
  ],
  ['open: [top]', ['opening', 'open-side', 'open-to'], (line) => `stock: { form: channel, wall: 3, ${line} }`],
  ['diameter: 40', ['od', 'outer-diameter', 'outside-diameter'], (line) => `stock: { form: tube, wall: 3, ${line} }`],
  ['axis: x', ['along', 'direction'], (line) => `stock: { form: tube, wall: 3, ${line} }`],
  ['thickness: 40', ['thick', 'thk', 't', 'wall-thickness'], (line) => `stock: { form: flat-bar, ${line} }`],
  ['thickness: 3', ['width', 'thick', 't', 'w', 'wall', 'wall-thickness'], (line) => rib(`${ENDS}, ${line}`)],
  [ENDS, ['centerline', 'centreline', 'line', 'from-to', 'endpoints'], (line) => rib(`${line}, thickness: 3`)],
  [
    'root: 3',
    ['root-radius', 'fillet', 'radius', 'r', 'corner-radius'],
    (line) => rib(`${ENDS}, thickness: 3, ${line}`),
  ],
  ['height: 4', ['tall', 'h', 'depth'], (line) => rib(`${ENDS}, thickness: 3, ${line}`)],
  [
    'draft: 3',
    ['taper', 'draft-angle', 'draught', 'wall-angle', 'Entformschräge', 'dépouille', 'sformo'],
    (line) => `features:\n  p: { ${POCKET}, ${line} }`,
  ],
];

const THREADS = 'kind: thread-mill, diameter: 16';
const MILL = 'kind: end-mill, diameter: 6';
const TOOLS: readonly (readonly [right: string, words: readonly string[], beside: string])[] = [
  [
    'angle: 55',
    ['flank-angle', 'thread-angle', 'included-angle', 'profile-angle', 'Flankenwinkel'],
    `${THREADS}, pitch: 3`,
  ],
  ['tapered: yes', ['taper', 'conical', 'cone'], `${THREADS}, pitch: 3`],
  ['cuts: inside', ['where'], `${THREADS}, pitch: 3`],
  ['smallest-pitch: 1', ['min-pitch', 'minimum-pitch'], `${THREADS}, pitch: 3`],
  ['pitch: 3', ['max-pitch', 'largest-pitch'], THREADS],
  ['flute-length: 20', ['loc', 'cutting-length', 'length-of-cut'], `${THREADS}, pitch: 3`],
  ['flutes: 4', ['teeth', 'z', 'Zähne'], `${THREADS}, pitch: 3`],
  ['taper: 3', ['taper-angle', 'half-angle', 'side-angle', 'draft', 'draft-angle', 'cone', 'tapered'], MILL],
  ['corner-radius: 1', ['radius', 'r', 'inside-radius'], MILL],
  ['stickout: 30', ['stick-out', 'overhang'], MILL],
  ['feed-per-tooth: 0.02', ['fz', 'chipload'], MILL],
  ['largest-speed: 4000', ['rpm', 'max-rpm'], MILL],
  ['neck: 3', ['neck-diameter', 'neck-dia'], 'kind: ball-undercutter, diameter: 6, reach: 20'],
  ['reach: 20', ['neck-length', 'usable-length'], 'kind: ball-undercutter, diameter: 6, neck: 3'],
  ['diameter: 6', ['ball', 'ball-diameter', 'head-diameter'], 'kind: ball-undercutter, neck: 3, reach: 20'],
  ['thickness: 6', ['width', 'height', 'head-height', 't'], 'kind: tee-cutter, diameter: 14, neck: 8, reach: 18'],
];

const under = (word: string, line: string) => line.replace(/^[^:]*/, word);

describe('near words', () => {
  for (const [right, words, text] of PARTS)
    it(`of a part: ${right} ${text('…').trim().slice(0, 40)}`, () => {
      for (const word of words) {
        const { texts } = onlyOne(`${HEAD}${text(under(word, right))}\n`);
        assert.deepEqual(texts, [`${HEAD}${text(right)}\n`], word);
      }
    });

  for (const [right, words, beside] of TOOLS)
    it(`of a tool: ${right} (${beside})`, () => {
      for (const word of words) {
        const { shop, tree, said } = shopOf(`shop: s\nunits: mm\ntools:\n  t: { ${beside}, ${under(word, right)} }\n`);
        assert.equal(said.length, 1, `${word}: ${said.join(' | ')}`);
        const after = mended(shop.problems[0]!, tree);
        assert.match(after, new RegExp(`, ${right} }`), `${word}: ${said[0]}`);
        assert.deepEqual(shopOf(after).said, [], word);
      }
    });
});

/** How a cutter comes into what is closed all round, on both papers: a roughing mill said as such, its helix or ramp with its angle. */
import assert from 'node:assert/strict';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { markdownSheet } from '../../server/src/sheet/markdown';
import { sheetOf } from '../../server/src/sheet/sheet';
import { clashesOn } from './clashes';

const shopOf = (rough: string) =>
  checkShop(`shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW } } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN } }
parallels: [10, 14, 18, 22]
tools:
  ${rough}
  dr-10: { kind: drill, diameter: 10, flute-length: 60 }
  em-8: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 22, reach: 26 }
`).shop;
const pocket = (size: string, tool: string) => `part: tray
material: aluminium-6061-t6
body: { x: 90, y: 60, z: 30 }
features:
  well: { kind: pocket, face: top, at: { x: center, y: center }, size: ${size}, corner-radius: 5, depth: 14 }
setups:
  first:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 14, parallels: 18 }
    zero: { x: left, y: back, z: top }
    cuts: [well]
    tools: { well: ${tool} }
`;

async function told(rough: string, size: string, language: 'en' | 'de'): Promise<string> {
  const checked = checkPart(pocket(size, rough.slice(0, rough.indexOf(':'))), shopOf(rough));
  const request = { checked, file: 'tray.part.yaml', mark: '0', creator: 'test', when: new Date(2026, 10, 30) };
  const { pages } = sheetOf(request, { language });
  assert.deepEqual(
    pages.flatMap((p) => clashesOn(p)),
    [],
  );
  const printed = JSON.stringify(pages);
  const { bytes } = await markdownSheet(language).write(request);
  const text = new TextDecoder().decode(bytes).replace(/\\/g, '');
  // What is said on one paper is said on the other.
  for (const words of ['helix of', 'ramp of', 'straight down', 'drilled hole'])
    assert.equal(printed.includes(words.split(' ')[0]!), text.includes(words.split(' ')[0]!), words);
  return text;
}

describe('a set-up sheet tells how a cutter comes in', () => {
  const ROUGH =
    'rough-16: { kind: end-mill, diameter: 16, flutes: 4, flute-length: 32, reach: 40, roughing: yes, ramp: 2 }';
  it('a roughing mill as such, by its helix, no steeper than it bears', async () => {
    const text = await told(ROUGH, '{ x: 60, y: 40 }', 'en');
    assert.match(text, /rough-16 \(roughing mill\)[^\n]*rough well[^\n]*in by a helix of 2°/);
    assert.match(await told(ROUGH, '{ x: 60, y: 40 }', 'de'), /rough-16 \(Schruppfräser\)[^\n]*Spirale hinein, 2°/);
  });

  it('by a ramp of the usual angle where a slot is too narrow for a helix', async () => {
    assert.match(await told(ROUGH, '{ x: 60, y: 17.5 }', 'en'), /in by a ramp of 2°/);
    assert.match(await told(ROUGH.replace(', ramp: 2', ''), '{ x: 60, y: 17.5 }', 'en'), /in by a ramp of 3°/);
  });

  it('straight down, or by a hole that is drilled before, where there is no room for either', async () => {
    const only = (centre: string) =>
      `em-16: { kind: end-mill, diameter: 16, flutes: 4, flute-length: 32, reach: 40, centre-cutting: ${centre} }`;
    const narrow = (centre: string) => told(only(centre), '{ x: 17, y: 17 }', 'en');
    assert.match(await narrow('yes'), /straight down, slowly/);
    assert.match(await narrow('no'), /dr-10[^\n]*drill well[\s\S]*in by the drilled hole/);
  });
});

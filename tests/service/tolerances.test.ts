/** Hovers on toleranced dimensions: the chain link by link, general tolerances, positions, roughness. */
import assert from 'node:assert/strict';
import { hoverAt } from '../../server/src/service/hover';
import { factsText } from '../report/told';
import { snapshotOf } from './alone';

const TEXT = `part: a
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-mK
body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar }
features:
  pin: { kind: hole, face: top, at: { left: 20 ±0.05, y: center }, clearance: M6, depth: through }
  tray: { kind: pocket, face: top, at: { x: 45, y: 20 }, size: { x: 20, y: 14 }, corner-radius: 4, depth: 5, finish: 0.8 }
  slope: { kind: slope, face: top, along: left, angle: 30, width: 4 }
  edge: { kind: chamfer, edges: [top], size: 0.75 }
datums: { A: bottom, B: front, C: left }
tolerances:
  - { position: 0.4, of: pin, datums: [A, B, C] }
setups:
  only:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: right, y: back, z: parallels }
    method: edge-finder
    cuts: [pin, tray, slope, edge]
`;

const snapshot = () => snapshotOf(TEXT);
async function hover(needle: string): Promise<string> {
  const s = await snapshot();
  const at = s.text.indexOf(needle);
  assert.ok(at >= 0, needle);
  const found = hoverAt(s, at + needle.length - 1);
  return ((found?.contents as { value: string } | undefined)?.value ?? '').replace(/\\/g, '');
}

describe('hovers on tolerances', () => {
  it('the chain between the two ends, each link with its source, and both sums', async () => {
    const text = await hover('left: 20 ±0.05');
    assert.match(text, /Chain.* left to pin along x, 20 ±0\.05/);
    assert.match(text, /as set up: zero of only from right ±0\.02 mm \(edge-finder, by the shop\)/);
    assert.match(text, /as set up: the bar from left to right ±0\.6 mm \(EN 755-5 alloy group I, from public tables\)/);
    assert.match(text, /likely ±0\.602 mm, over the ±0\.05 mm allowed; at worst ±0\.68 mm, over/);
  });

  // ISO 2768-1 m: ±0.3 from 30 to 120 mm, ±0.2 for a broken edge to 3 mm, ±1° for an angle whose shorter leg is to 10 mm.
  it('what the general tolerance gives a dimension without one of its own', async () => {
    assert.match(await hover('x: 60'), /ISO 2768-mK gives ±0\.3 mm: 59\.7 mm to 60\.3 mm \(ISO 2768-1:1989 Table 1/);
    assert.match(await hover('size: 0.75'), /gives ±0\.2 mm: 0\.55 mm to 0\.95 mm \(ISO 2768-1:1989 Table 2/);
    assert.match(await hover('angle: 30'), /gives ±1° \(ISO 2768-1:1989 Table 3/);
    assert.doesNotMatch(await hover('left: 20 ±0.05'), /No tolerance of its own/);
  });

  it('a position as ± along the axes, and what the screw allows: M6 through 6.6', async () => {
    const text = await hover('position: 0.4');
    assert.match(text, /a zone of 0\.4 mm is ±0\.141 mm along two axes/);
    assert.match(text, /H − F = 6\.6 mm − 6 mm = 0\.6 mm with clearance holes in every part, 0\.3 mm each/);
  });

  it('a roughness by surface, with the feed that reaches it', async () => {
    const text = await hover('finish: 0.8');
    assert.match(text, /floor by em-\S+ at [\d.]+ mm a tooth: ridges of [\d.]+ µm \(f · tan 1\.5°, a sharp corner\)/);
    assert.match(text, /[\d.]+ mm reaches Ra 0\.8/);
  });

  it('--facts has all of it, and ISO 2768-2 for the faces', async () => {
    const s = await snapshot();
    assert.ok(s.kind === 'part');
    const text = factsText('a.part.yaml', s.checked);
    assert.match(text, /dimension chains[\s\S]*left to pin along x[\s\S]*positions:[\s\S]*position 0\.4 of pin/);
    // ISO 2768-2 K, longer side 60: 0.2; perpendicularity, shorter leg 20: 0.4.
    assert.match(text, /flatness of bottom and top +0\.2 mm +ISO 2768-2/);
    assert.match(text, /perpendicularity of left to bottom +0\.4 mm +ISO 2768-2/);
    assert.match(text, /slope\.angle +±1°/);
  });
});

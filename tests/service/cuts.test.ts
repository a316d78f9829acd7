/** What cuts a feature, as its hover, its inlay hint and `--facts` tell it: each number with its formula and source. */
import assert from 'node:assert/strict';
import { hoverAt } from '../../server/src/service/hover';
import { inlaysOf } from '../../server/src/service/inlays';
import type { PartSnapshot } from '../../server/src/service/snapshot';
import { factsText } from '../report/told';
import { snapshotOf } from './alone';

const TEXT = `part: a
units: mm
material: steel-c45
body: { x: 80, y: 60, z: 20 }
features:
  well: { kind: pocket, face: top, at: { x: 28, y: 30 }, size: { x: 40, y: 40 }, corner-radius: 3, depth: 8 }
  mount: { kind: hole, face: top, at: { x: 66, y: 15 }, thread: M5, depth: 16, thread-depth: 9 }
  seat: { kind: hole, face: top, at: { x: 66, y: 45 }, diameter: 10 H7, depth: through }
  slope: { kind: slope, face: top, along: left, angle: 45, width: 3 }
  odd: { kind: hole, face: top, at: { x: 66, y: 30 }, thread: M7, depth: 14, thread-depth: 8 }
`;

const snapshot = async (text = TEXT) => (await snapshotOf(text)) as PartSnapshot;
async function hover(feature: string): Promise<string> {
  const s = await snapshot();
  const found = hoverAt(s, s.text.indexOf(`  ${feature}:`) + 3);
  return ((found?.contents as { value: string } | undefined)?.value ?? '').replace(/\\/g, '');
}

describe('what cuts a feature', () => {
  it('hover: cutters, speed, feed, force, bending, time, each with its formula', async () => {
    const text = await hover('well');
    assert.match(
      text,
      /rough with \S+, in by a helix · \d+ rpm \(\d+ m\/min of 80 to 160\), feed \d+ mm\/min · .* wide and .* deep, \d+ N, bends [\d.]+ mm/,
    );
    assert.match(text, /finish with em-6/);
    assert.match(
      text,
      /speed\* n = 1000 v \/ \(π D\) = 1000 · [\d.]+ \/ \(π · [\d.]+\) = \d+ rpm; v is 60 % up its range .*ISO 513 group P, carbide, flood/,
    );
    assert.match(text, /feed\* vf = fz · z · n = [\d.]+ · 3 · \d+ = \d+ mm\/min/);
    assert.match(
      text,
      /force\* at most [\d.]+ mm of edge cut at once, .*kc · h · b = 2220 · [\d.]+\^-0\.14 · 1\.1 = \d+ N\/mm² .*Kienzle/,
    );
    assert.match(text, /bending\* Σ F \(b³ − a³\) \/ \(3 E I\) .*core of 0\.8 D.* and holder/);
    assert.match(text, /time\* \d+ mm³ \/ \(ae · ap · vf/);
    assert.match(text, /Sources:[\s\S]*force\* C45: Kienzle and Victor/);
    assert.match(text, /trained staff/);
  });

  it('the formulae come to the numbers that are told', async () => {
    const text = await hover('well');
    const feed = /vf = fz · z · n = ([\d.]+) · (\d+) · (\d+) = (\d+) mm/.exec(text)!.slice(1).map(Number);
    assert.ok(Math.abs(feed[0]! * feed[1]! * feed[2]! - feed[3]!) < 0.01 * feed[3]!);
    const kc =
      /kc · h · b = (\d+) · ([\d.]+)\^-([\d.]+) · ([\d.]+) = (\d+) N\/mm² · ([\d.]+) · ([\d.]+) = (\d+) N around/
        .exec(text)!
        .slice(1)
        .map(Number);
    const [kc11, h, mc, worn, pressure, chip, edge, around] = kc as [number, ...number[]];
    assert.ok(Math.abs(kc11 * h! ** -mc! * worn! - pressure!) < 0.01 * pressure!);
    assert.ok(Math.abs(pressure! * chip! * edge! - around!) < 0.015 * around!);
    const speed = /1000 · ([\d.]+) \/ \(π · ([\d.]+)\) = (\d+) rpm/.exec(text)!.slice(1).map(Number);
    assert.ok(Math.abs((1000 * speed[0]!) / (Math.PI * speed[1]!) - speed[2]!) < 0.01 * speed[2]!);
  });

  it('hover: why others in the shop do not cut it', async () => {
    assert.match(await hover('well'), /not .*em-8.*: too thick for a corner of 3 mm/);
    const seat = await hover('seat');
    assert.match(seat, /drill with dr-9\.8[\s\S]*ream with rm-10/);
    assert.match(seat, /not dr-10: .*a drill holds IT12, and IT7 is asked for/);
    assert.match(await hover('mount'), /not tap-m5-bottoming: bottoming: another in the shop comes first/);
    assert.match(await hover('slope'), /chamfer with cm-\d+, from top/);
  });

  it('hover: a drill’s helix, torque and thrust; a tap’s pitch', async () => {
    const text = await hover('mount');
    assert.match(text, /torque\* M = kc · f · D² \/ 8.*a drill of type N, helix 25 to 30°, suits \(DIN 1414\)/);
    assert.match(text, /drill with dr-4\.2 .* \d+ N down, [\d.]+ N·m/);
    assert.match(
      text,
      /tap with tap-m5 · by hand: .*[\s\S]*torque\* M = kc · P² · D \/ 8000 = 2500 · 0\.8² · 5 \/ 8000 = 1 N·m[\s\S]*time\* each hole: put in and started square, then 11\.3 turns/,
    );
  });

  it('inlay hints: the tool that decides with the time of all cuts, or what is lacking', async () => {
    const s = await snapshot();
    const end = { line: s.lines.count, character: 0 };
    const labels = inlaysOf(s, { start: { line: 0, character: 0 }, end }).map((h) => String(h.label));
    assert.ok(
      labels.some((l) => /^em-6, [\d.]+ to [\d.]+ min$/.test(l)),
      labels.join(' | '),
    );
    assert.ok(labels.some((l) => /^rm-10, /.test(l)));
    assert.ok(labels.some((l) => /^tap-m5, /.test(l)));
    assert.ok(labels.some((l) => /^lacks .*M7/.test(l)));
  });

  it('facts: every cut, why not others, and where the numbers are from', async () => {
    const text = factsText('a.part.yaml', (await snapshot()).checked);
    for (const line of [
      /well +rough with/,
      /well +not .*em-8/,
      /mount +tap with tap-m5/,
      /odd +nothing in the shop: M7/,
      /^ {4}force +C45: Kienzle/m,
      /^ {4}bending +beam theory/m,
    ])
      assert.match(text, line);
  });

  it('a material that is not in the tables: the tools alone, and why no speeds', async () => {
    const s = await snapshot(TEXT.replace('steel-c45', 'unobtainium'));
    const found = hoverAt(s, s.text.indexOf('  well:') + 3);
    const text = ((found?.contents as { value: string } | undefined)?.value ?? '').replace(/\\/g, '');
    assert.match(text, /rough with \S+, in by a helix · no speeds: the material is not in the tables/);
    assert.match(factsText('a', s.checked), /mount +tap with tap-m5 · no speeds/);
  });

  it('a document in inches says so of what tools lack', async () => {
    const inches = TEXT.replace('units: mm', 'units: in').replace(/(-?\d+(?:\.\d+)?)(?=[,\s}])(?! mm)/g, (n) =>
      String(Number(n) / 20),
    );
    const s = await snapshot(inches.replace('10 H7', '0.5').replace('0.5 H7', '0.5'));
    const lines = factsText('a', s.checked);
    assert.match(lines, /well +not .* in\b/);
    assert.doesNotMatch(/cut with:([\s\S]*)by \(formulae/.exec(lines)?.[1] ?? '', /\d mm\b/);
  });

  it('a face is a cut like every other: its lines in --facts, and in the hover of a set-up’s cuts', async () => {
    const faced = TEXT.replace('body:', 'stock: { form: block, extra: { top: 1, left: 1.5 } }\nbody:').concat(
      'setups:\n  first: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, cuts: [top, left, well] }\n',
    );
    const s = await snapshot(faced);
    const lines = factsText('a.part.yaml', s.checked);
    assert.match(lines, /^ {4}top +face with fm-50 · \d+ rpm .*feed \d+ mm\/min .* N, .*, in first$/m);
    assert.match(lines, /^ {4}left +finish with \S+ · \d+ rpm .*, in first$/m);
    const at = faced.indexOf('[top, left') + 2;
    const told = (offset: number) => (hoverAt(s, offset)!.contents as { value: string }).value.replace(/\\/g, '');
    const found = told(at);
    assert.match(found, /Cut with\*\*\n\n- face with fm-50 · \d+ rpm/);
    assert.match(found, /force\* at most/);
    assert.doesNotMatch(told(faced.indexOf('well]') + 1), /face with/);
  });

  it('of a feature that several set-ups cut, what each of them does', async () => {
    const twice = TEXT.concat(`  break: { kind: chamfer, edges: [top, bottom], size: 0.5 }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, cuts: [well, seat, break] }
  second: { up: bottom, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, cuts: [break] }
`);
    const s = await snapshot(twice);
    const told = (name: string) =>
      (hoverAt(s, s.text.indexOf(`  ${name}:`) + 3)!.contents as { value: string }).value.replace(/\\/g, '');
    const found = told('break');
    const [, first, second] = found.split('**Cut in ');
    assert.match(first!, /^first, top up, with\*\*\n\n- chamfer with \S+ · \d+ rpm/);
    assert.match(second!, /^second, bottom up, with\*\*\n\n- chamfer with \S+ · \d+ rpm/);
    assert.equal(found.match(/trained staff/g)!.length, 1);
    assert.doesNotMatch(told('seat'), /Cut in /);
  });
});

/**
 * SVG drawings read back: well-formed XML by `fast-xml-parser`, and the outlines' paths by an integration of our own that
 * follows SVG's arcs by the endpoint formulae (SVG 1.1, F.6.5): their area is the closed form, their bounds are the body.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { svgWriter } from '../../server/src/export/svg';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Face } from '../../server/src/model/faces';
import { checkPart } from '../../server/src/rules/check';

type Point = readonly [number, number];
interface Read {
  readonly area: number;
  readonly low: Point;
  readonly high: Point;
}

/** Follows M, L, A (radii alike) and Z; arcs in many small chords. */
function follow(d: string): Read {
  let area = 0;
  let here: Point = [0, 0];
  let start: Point = here;
  const low: [number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: [number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const to = (p: Point) => {
    area += (here[0] * p[1] - p[0] * here[1]) / 2;
    for (const i of [0, 1] as const) {
      low[i] = Math.min(low[i], here[i], p[i]);
      high[i] = Math.max(high[i], here[i], p[i]);
    }
    here = p;
  };
  for (const [, letter, rest] of d.matchAll(/([MLAZ])([^MLAZ]*)/g)) {
    const x = rest!.trim().split(/[ ,]+/).map(Number);
    assert.ok(letter === 'Z' || x.every(Number.isFinite), d);
    if (letter === 'M') {
      here = [x[0]!, x[1]!];
      start = here;
    } else if (letter === 'L') to([x[0]!, x[1]!]);
    else if (letter === 'Z') to(start);
    else {
      const [r, , , large, sweep, ex, ey] = x as [number, number, number, number, number, number, number];
      const [hx, hy] = [(here[0] - ex) / 2, (here[1] - ey) / 2];
      const out = Math.sqrt(Math.max(0, (r * r) / (hx * hx + hy * hy) - 1)) * (large === sweep ? -1 : 1);
      const [cx, cy] = [(here[0] + ex) / 2 + out * hy, (here[1] + ey) / 2 - out * hx];
      const from = Math.atan2(here[1] - cy, here[0] - cx);
      let turn = Math.atan2(ey - cy, ex - cx) - from;
      if (sweep && turn < 0) turn += 2 * Math.PI;
      if (!sweep && turn > 0) turn -= 2 * Math.PI;
      const steps = 2000;
      for (let i = 1; i <= steps; i++) {
        const a = from + (turn * i) / steps;
        to([cx + r * Math.cos(a), cy + r * Math.sin(a)]);
      }
    }
  }
  return { area: Math.abs(area), low, high };
}

interface Node {
  readonly [key: string]: unknown;
}

async function drawn(text: string, face?: Face) {
  const request = { checked: checkPart(text, builtinShop()), creator: 'test', when: new Date(0) };
  const { bytes, notes } = await svgWriter.write(face ? { ...request, face } : request);
  const source = new TextDecoder().decode(bytes);
  assert.equal(XMLValidator.validate(source), true);
  const read = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '',
    isArray: (n) => n === 'g' || n === 'path',
  });
  const { svg } = read.parse(source) as { svg: Node & { g: Node[] } };
  const view = (name: string) => {
    const g = svg.g.find((x) => x.id === name);
    assert.ok(g, name);
    const path = (of: string) => (g.path as Node[]).find((p) => p.class === of)?.d as string | undefined;
    return { body: follow(path('body')!), visible: path('visible')!, hidden: path('hidden') ?? '', path };
  };
  return { source, svg, view, notes };
}
const near = (a: number, b: number, within: number) => assert.ok(Math.abs(a - b) < within, `${a}, expected ${b}`);

const BLOCK = `part: block
title: '<b>&" ]]> ''x'''
revision: '<'
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40 ±0.1, z: 16 }
features:
  through: { kind: hole, face: top, at: { x: 20, y: 15 }, diameter: 10, depth: through, counterbore: { diameter: 16, depth: 4 } }
  dish: { kind: pocket, face: top, at: { x: 42, y: 20 }, size: { x: 20, y: 12 }, corner-radius: 3, depth: 5 }
  ledge: { kind: step, face: top, along: back, width: 6, depth: 5 }
  cross: { kind: hole, face: left, at: { y: 20, z: 5 }, diameter: 4, depth: 8 }
`;

describe('exchange: SVG', () => {
  it('draws six faces in first angle, each as large as the body, to the closed-form area', async () => {
    const { view, source, notes } = await drawn(BLOCK);
    assert.deepEqual(notes, []);
    assert.match(source, /first angle \(ISO 5456-2\)/);
    const holes: Partial<Record<Face, number>> = { top: Math.PI * 25, bottom: Math.PI * 25 };
    const sizes = { front: [60, 16], back: [60, 16], left: [40, 16], right: [40, 16], top: [60, 40], bottom: [60, 40] };
    const at: Record<string, Read> = {};
    for (const [face, [w, h]] of Object.entries(sizes)) {
      const { body } = view(face);
      near(body.high[0] - body.low[0], w!, 1e-6);
      near(body.high[1] - body.low[1], h!, 1e-6);
      const ledge = face === 'left' || face === 'right' ? 30 : 0;
      near(body.area, w! * h! - (holes[face as Face] ?? 0) - ledge, 1e-3);
      at[face] = body;
    }
    // ISO 5456-2, first angle: from above below the front view, from the left to its right, from the right to its left
    assert.ok(at.top!.low[1] > at.front!.high[1] && at.bottom!.high[1] < at.front!.low[1]);
    assert.ok(at.left!.low[0] > at.front!.high[0] && at.right!.high[0] < at.front!.low[0]);
    assert.ok(at.back!.low[0] > at.left!.high[0]);
    assert.equal(at.top!.low[0], at.front!.low[0]);
    assert.equal(at.left!.low[1], at.front!.low[1]);
  });

  it('shows what is seen and dashes what is not', async () => {
    const { view } = await drawn(BLOCK);
    const arcs = (d: string, r: number) => [...d.matchAll(/A([\d.]+)/g)].filter((m) => Number(m[1]) === r).length;
    const [top, bottom] = [view('top'), view('bottom')];
    assert.deepEqual([arcs(top.visible, 5), arcs(top.visible, 8), arcs(top.visible, 3)], [2, 2, 4]);
    assert.deepEqual([arcs(bottom.visible, 5), arcs(bottom.visible, 8), arcs(bottom.visible, 3)], [2, 0, 0]);
    assert.deepEqual([arcs(bottom.hidden, 8), arcs(bottom.hidden, 3)], [2, 4]);
    assert.deepEqual([arcs(view('left').visible, 2), arcs(view('right').visible, 2)], [2, 0]);
    assert.deepEqual([arcs(view('right').hidden, 2)], [2]);
    // the edge of the ledge, seen from above: across the whole width at its place
    const { low } = top.body;
    const edge = [...top.visible.matchAll(/M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/g)].map((m) => m.slice(1).map(Number));
    assert.ok(edge.some((e) => Math.abs(e[1]! - low[1] - 6) < 1e-6 && Math.abs(Math.abs(e[0]! - e[2]!) - 60) < 1e-6));
  });

  it('says the sizes with their tolerances, and what the text says of the part', async () => {
    const { svg, source } = await drawn(BLOCK);
    const words = [...source.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((m) => m[1]);
    for (const w of ['60', '16', '40 ±0.1', 'block', 'EN AW-6061 T6', '1:1, lengths in mm'])
      assert.ok(words.includes(w), w);
    assert.equal(svg.title, `<b>&" ]]> 'x'`);
    assert.ok(!source.includes('<b>'));
    assert.match(source, /width="[\d.]+mm" height="[\d.]+mm"/);
    assert.doesNotMatch(source, /href|@import|url\(|<script/);
  });

  it('draws one face alone; a round body is as wide as its diameter from every side', async () => {
    const one = await drawn(BLOCK, 'left');
    assert.equal(one.svg.g.filter((g) => typeof g.id === 'string').length, 1);
    assert.doesNotMatch(one.source, /first angle/);
    const text = 'part: rod\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { diameter: 30, length: 50, axis: AXIS }\n';
    for (const axis of ['x', 'y', 'z']) {
      const { view } = await drawn(text.replace('AXIS', axis));
      for (const face of ['front', 'back', 'left', 'right', 'top', 'bottom']) {
        const { body } = view(face);
        const end = (axis === 'x' ? ['left', 'right'] : axis === 'y' ? ['front', 'back'] : ['top', 'bottom']).includes(
          face,
        );
        near(body.area, end ? Math.PI * 225 : 1500, 2e-3);
      }
    }
  });

  it('draws every part of the example in full', async function () {
    this.timeout(60_000);
    const folder = resolve(__dirname, '../../examples/gimbal/parts');
    for (const file of readdirSync(folder).filter((f) => f.endsWith('.part.yaml'))) {
      const { notes } = await drawn(readFileSync(join(folder, file), 'utf8'));
      assert.deepEqual(notes, [], file);
    }
  });
});

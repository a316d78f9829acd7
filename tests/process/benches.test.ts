/**
 * Holes made beside the mill. Speeds: n = 1000 v / (π D), with v of high-speed-steel drills in plain steel about 20 to 30 m/min,
 * as handbooks have it, from memory; errors of marking out and hand tapping are common practice, no source.
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../server/src/model/shop';
import { handWork } from '../../server/src/planning/hand-work';
import { itemsOf } from '../../server/src/planning/items';
import { benchWork } from '../../server/src/process/benches';
import { operationsOf } from '../../server/src/process/operations';
import { setUpChains } from '../../server/src/process/stackup/as-set-up';
import { checkPart } from '../../server/src/rules/check';
import { benchLists } from '../../server/src/sheet/bench';
import { wordsOf } from '../../server/src/sheet/language';
import { readText } from '../../server/src/text/read';

const PRESS =
  'largest: 13, throat: 60, opening: 250, stroke: 60, rpm: [500, 850, 1400, 2600], place-error: 0.25, lean: 0.3';
const shopOf = (press = PRESS, bench = 'bench: { largest-tap: 8, largest-reamer: 10 }') => {
  const shop = resolveShop(
    readText(`shop: club
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW } } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, bed: 65, force: 15 kN } }
parallels: [10, 18]
drill-presses: { pillar: { ${press} } }
${bench}
tools:
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 45, reach: 50 }
  dr-5: { kind: drill, diameter: 5, flute-length: 60 }
  dr-5.8: { kind: drill, diameter: 5.8, flute-length: 60 }
  dr-10: { kind: drill, diameter: 10, flute-length: 80 }
  dr-14: { kind: drill, diameter: 14, flute-length: 80 }
  rm-6: { kind: reamer, diameter: 6, reach: 40 }
  tap-6: { kind: tap, thread: M6, reach: 30 }
  tap-10: { kind: tap, thread: M10, reach: 40 }
`),
  );
  assert.deepEqual(shop.problems, []);
  return shop;
};
const SHOP = shopOf();
const partOf = (it: string, more = '') => `part: foot
material: steel-c45
body: { x: 100, y: 80, z: 30 }
features:
  rest: { kind: step, face: top, along: front, width: 12, depth: 6 }
  it: { kind: hole, face: top, ${it} }
${more}setups:
  first:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 14, parallels: 18 }
    zero: { x: left, y: back, z: top }
    cuts: [rest]
`;
const AT = 'at: { x: 40, y: 40 }';
function of(it: string, o: { shop?: typeof SHOP; more?: string; cuts?: string } = {}) {
  const text = partOf(it, o.more).replace('[rest]', o.cuts ?? '[rest]');
  const shop = o.shop ?? SHOP;
  const { tree, part, solid, findings } = checkPart(text, shop);
  const said = (rule: string) => findings.filter((f) => f.rule === rule).map((f) => `${f.severity} ${f.message}`);
  return { tree, part, solid, shop, findings, said };
}

describe('a hole on a drill press', () => {
  it('is in no set-up and in no plan, has its own list, and its minutes', () => {
    const read = of(`${AT}, pattern: { line: { x: 20, count: 2 } }, diameter: 10, depth: through, made-on: pillar`);
    assert.deepEqual(
      read.findings.map((f) => f.message),
      [],
    );
    assert.deepEqual(
      itemsOf(read).map((i) => i.name),
      ['rest'],
    );
    const [work] = benchWork(read);
    assert.ok(work?.on.type === 'press' && work.on.press.name === 'pillar');
    // 1000 · 25 / (π · 10) is about 800 rpm: of its speeds 500 or 850.
    assert.deepEqual(
      work.steps.map((s) => ['tool' in s.operation && s.operation.tool.name, [500, 850].includes(s.rpm ?? 0)]),
      [['dr-10', true]],
    );
    assert.ok(work.minutes[0] >= 2 * 1.5 && work.minutes[1] < 30);
    assert.deepEqual(handWork(read).benching, work.minutes);
    const [list] = benchLists(read, wordsOf('en'));
    assert.match(list!.title, /^2× it on pillar/);
    assert.match(
      list!.lines.join('\n'),
      /X 30 Y 40; X 50 Y 40[\s\S]*dr-10 · drill, (500|850) rpm, right through 30; ease off/,
    );
    // On the mill the same part has an open hole.
    const milled = of(`${AT}, diameter: 10, depth: through`);
    assert.match(milled.said('setup/unassigned').join(), /it is in no set-up/);
    assert.deepEqual(benchWork(milled), []);
  });

  it('must fit: chuck, column, table, length of the drill; stroke and speed are for care', () => {
    const said = (it: string, press = PRESS, cuts = '[rest]') =>
      of(`${it}, made-on: pillar`, { shop: shopOf(press), cuts })
        .said('hole/drill-press')
        .join();
    const hole = `${AT}, diameter: 10, depth: through`;
    assert.equal(said(hole), '');
    assert.match(said(`${AT}, diameter: 14, depth: through`), /^error .*drill of 14 mm.*takes 13 mm/);
    assert.equal(said(`${AT}, diameter: 14, depth: through`, PRESS.replace('largest: 13', 'largest: 14')), '');
    // 40 from the left, the front and the back: the nearest side.
    assert.match(said(hole, PRESS.replace('throat: 60', 'throat: 39.9')), /^error .*40 mm from the nearest side/);
    assert.equal(said(hole, PRESS.replace('throat: 60', 'throat: 40')), '');
    // 30 high and 80 of flutes.
    assert.match(said(hole, PRESS.replace('opening: 250', 'opening: 109')), /^error .*110 mm between table and chuck/);
    assert.equal(said(hole, PRESS.replace('opening: 250', 'opening: 110')), '');
    assert.match(said(hole, PRESS.replace('stroke: 60', 'stroke: 29')), /^warning .*raise the table/);
    assert.match(said(hole, PRESS.replace('[500, 850, 1400, 2600]', '[1400, 2600]')), /^warning .*1400 at its slowest/);
    assert.match(said(`${AT}, diameter: 17, depth: 8, bottom: flat`), /^error .*takes no mills/);
    assert.match(said(hole, PRESS, '[rest, it]'), /^warning .*set-up first cuts it too/);
    assert.match(of(`${hole}, made-on: piller`).said('hole/drill-press').join(), /^error .*Did you mean pillar\?/);
    assert.match(
      said(`${AT}, tilt: { about: y, angle: 10 }, diameter: 10, depth: through`),
      /^error .*was not checked/,
    );
  });

  it('is as far off as it is marked out: position, drawing, chain, squareness, seats', () => {
    const said = (more: string, it = `${AT}, diameter: 10, depth: through, made-on: pillar`) =>
      of(it, { more: `datums: { A: bottom, B: left, C: front }\n${more}` })
        .said('hole/marked-out')
        .join();
    const position = (mm: number) => said(`tolerances: [{ position: ${mm}, of: it, datums: [A, B, C] }]\n`);
    assert.match(position(0.4), /may be 0\.2 mm off its place.*may be 0\.25 mm off/);
    assert.equal(position(0.5), '');
    // ISO 2768-m allows 0.3 for over 30 to 120 mm, f 0.15.
    assert.equal(said('tolerance: ISO 2768-m\n'), '');
    assert.match(said('tolerance: ISO 2768-f\n'), /may be 0\.15 mm off by the drawing/);
    // 30 mm at 0.3°: 0.157 mm.
    const square = (mm: number) => said(`tolerances: [{ perpendicularity: ${mm}, of: it, datums: [A] }]\n`);
    assert.match(square(0.15), /is off by 0\.157 mm/);
    assert.equal(square(0.16), '');
    assert.match(said('', `${AT}, pin: ISO 8734 6x20, depth: 20, made-on: pillar`), /together with its mate/);
    assert.match(
      of('at: { x: 40 ±0.1, y: 40 }, diameter: 10, depth: through, made-on: pillar').said('hole/marked-out').join(),
      /0\.1 mm off by the drawing/,
    );
    const read = of(`${AT}, diameter: 10, depth: through, made-on: pillar`);
    const links = setUpChains(read)!(['left', 'it'], 'x')!;
    assert.deepEqual(
      links.map((l) => l.halfMm),
      [0.25],
    );
    const own = 'tolerances: [{ distance: 40 ±0.2, of: [left, it], axis: x }]\n';
    assert.match(
      of(`${AT}, diameter: 10, depth: through, made-on: pillar`, { more: own }).said('tol/as-set-up').join(),
      /it/,
    );
  });
});

describe('a hole at the bench', () => {
  const M6 = `${AT}, thread: M6, depth: 20, thread-depth: 14`;
  it('is drilled in its set-up, and tapped or reamed by hand after', () => {
    const read = of(`${M6}, made-on: bench`, { cuts: '[rest, it]' });
    assert.deepEqual(
      read.findings.map((f) => f.message),
      [],
    );
    const it = read.part.featureByName.get('it')!;
    assert.deepEqual(
      operationsOf(it, read).map((o) => o.does),
      ['drill'],
    );
    const [work] = benchWork(read);
    assert.deepEqual(
      work!.steps.map((s) => s.operation.does),
      ['tap'],
    );
    // Half a minute to start, 14 turns of three seconds.
    assert.ok(Math.abs(work!.minutes[0] - (0.5 + (14 * 3) / 60)) < 1e-9);
    const reamed = of(`${AT}, diameter: 6 H7, depth: through, made-on: bench`, { cuts: '[rest, it]' });
    assert.deepEqual(
      operationsOf(reamed.part.featureByName.get('it')!, reamed).map((o) => o.does),
      ['drill'],
    );
    assert.match(benchLists(reamed, wordsOf('de'))[0]!.lines.join(), /von Hand reiben/);
    // Left out of the set-ups it is not drilled.
    assert.match(of(`${M6}, made-on: bench`).said('setup/unassigned').join(), /it is in no set-up/);
  });

  it('needs a bench, a tap and a reamer that are there; leans as hands do', () => {
    const said = (it: string, bench: string) =>
      of(`${it}, made-on: bench`, { shop: shopOf(PRESS, bench), cuts: '[rest, it]' })
        .said('hole/drill-press')
        .join();
    assert.match(said(M6, ''), /^error .*has no `bench`/);
    assert.equal(said(M6, 'bench: {}'), '');
    assert.match(said(M6.replace('M6', 'M10'), 'bench: { largest-tap: 8 }'), /^error .*tap of 10 mm.*to 8 mm/);
    assert.match(
      said(`${AT}, diameter: 6 H7, depth: through`, 'bench: {}'),
      /^error .*hand reamer of 6 mm; `bench` has none/,
    );
    assert.match(said(`${AT}, diameter: 10, depth: through`, 'bench: {}'), /^warning .*nothing of it is tapped/);
    const more = 'datums: { A: bottom }\ntolerances: [{ perpendicularity: 0.2, of: it, datums: [A] }]\n';
    // 14 mm at 1°: 0.244 mm.
    assert.match(
      of(`${M6}, made-on: bench`, { more, cuts: '[rest, it]' }).said('hole/marked-out').join(),
      /is off by 0\.244 mm/,
    );
  });
});

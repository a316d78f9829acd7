/**
 * Undercuts between the thread of a boss and its shoulder. Sizes: ISO 4755 as GB/T 3-1997, table 2, has it; two rows beside that
 * from a second public table of ISO 4755, read in 2026. Widths of DIN 76-1 form B from memory. The volume is that of the ring,
 * worked out beside the check, and the exact kernel (Open CASCADE) cuts the same.
 */
import assert from 'node:assert/strict';
import { solidOf } from '../../server/src/geometry/part-solid';
import { approachesOf } from '../../server/src/process/approach';
import { operationsOf } from '../../server/src/process/operations';
import { passesOfPart } from '../../server/src/process/passes';
import { bossThreadLines } from '../../server/src/report/screws';
import { checkPart } from '../../server/src/rules/check';
import { findThread } from '../../server/src/tables/thread-names';
import { threadUndercut } from '../../server/src/tables/thread-undercuts';
import { assertClosed, assertOnSurfaces, meshOf } from '../geometry/mesh/proof';
import { exactKernel, exactPart } from '../oracle/exact';
import { partOf, shopOf } from '../simulator/parts';
import { simulate } from '../simulator/simulate';

const GROOVER = 'gr-3: { kind: tee-cutter, diameter: 20, thickness: 3, neck: 10, reach: 26, shank: 10 }';
const shop = (tools = GROOVER, control = 'program') =>
  shopOf(`shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW }, control: ${control} } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN } }
parallels: [10, 18]
dies: [M16, M16x1.5, 1/2-20 UNF]
tools:
  em-12: { kind: end-mill, diameter: 12, flutes: 3, flute-length: 30, reach: 40 }
  ${tools}
`);
const text = (fields: string) => `part: stud
material: aluminium-6061-t6
body: { x: 80, y: 40, z: 45 }
features:
  it: { kind: contour, face: top, at: { x: center, y: center }, depth: 20, ${fields} }
setups:
  first: { up: top, hold: { vise: vise, jaws: [back, front], grip: 14, parallels: 18 }, zero: { x: left, y: back, z: top }, cuts: [it] }
`;

function of(fields: string, o: { shop?: ReturnType<typeof shop> } = {}) {
  const checked = checkPart(text(fields), o.shop ?? shop());
  const it = checked.part.featureByName.get('it')!;
  const said = (rule: string) =>
    checked.findings.filter((f) => f.rule === rule).map((f) => `${f.severity} ${f.message}`);
  return { ...checked, it, said, all: [...checked.findings, ...checked.part.problems].map((f) => f.message) };
}

describe('the undercut of a thread', () => {
  it('has the sizes of its standard', () => {
    const sizes = (thread: string, series: 'regular' | 'short') => {
      const { diameterMm, leastMm, mostMm, radiusMm } = threadUndercut(findThread(thread)!, series)!;
      return [diameterMm, leastMm, mostMm, radiusMm].map((x) => Number(x.toFixed(3)));
    };
    // The second table: pitch 1, d − 1.6, 1.6, 3, R 0.6; pitch 4.5, d − 6.4, 8, 13.5, R 2.5.
    assert.deepEqual(sizes('M6', 'regular'), [4.4, 1.6, 3, 0.6]);
    assert.deepEqual(sizes('M42', 'regular'), [35.6, 8, 13.5, 2.5]);
    // DIN 76-1 form B, from memory: M8 at d − 2, 1.5 to 3.2 mm.
    assert.deepEqual(sizes('M8', 'short'), [6, 1.5, 3.2, 0.6]);
    assert.equal(threadUndercut(findThread('1/4-20 UNC')!, 'regular'), undefined);
    // Below the root (d3 of ISO 724) in every row, and as wide as a die's run-out x1 of ISO 3508, from memory.
    for (const thread of ['M2', 'M3', 'M4', 'M5', 'M6', 'M8', 'M10', 'M12', 'M16', 'M20', 'M24', 'M30', 'M36']) {
      const { diameterMm: d, pitchMm: p } = findThread(thread)!;
      for (const series of ['regular', 'short'] as const) {
        const cut = threadUndercut(findThread(thread)!, series)!;
        assert.ok(cut.diameterMm < d - 1.22687 * p && cut.leastMm < cut.mostMm, thread);
        assert.ok(cut.mostMm >= (series === 'short' ? 2.45 : 3) * p - 1e-9, thread);
      }
    }
  });

  it('is a ring at the foot of the boss: volume, mesh, exact solid', async function () {
    this.timeout(120_000);
    const { solid, part, all } = of('thread: M16x1.5, undercut: regular');
    assert.deepEqual(all, []);
    const own = (Math.PI / 4) * (16 ** 2 * 20 - (16 ** 2 - 13.7 ** 2) * 4.5);
    const whole = 80 * 40 * 25 + own;
    assert.ok(Math.abs(solid.measures.volumeMm3 - whole) < 1e-6 * whole, `${solid.measures.volumeMm3} ${whole}`);
    await exactKernel();
    const exact = await exactPart(solidOf(part));
    try {
      assert.ok(Math.abs(whole - exact.volumeMm3) < 1e-6 * whole);
    } finally {
      exact.release();
    }
    const { shown } = await meshOf(part, 0.02);
    assertClosed(shown);
    assertOnSurfaces(shown, 0.02);
  });

  it('lets the thread come up to it, and never over it', () => {
    const deep = (fields: string) => {
      const { it, all } = of(fields);
      return it && 'thread' in it && it.thread && 'deep' in it.thread ? it.thread.deep.mm : all.join();
    };
    assert.equal(deep('thread: M16, undercut: regular'), 14);
    assert.equal(deep('thread: M16, undercut: short'), 15);
    assert.equal(deep('thread: M16, undercut: short, thread-depth: 10'), 10);
    assert.equal(deep('thread: 1/2-20 UNF, undercut: { width: 4, diameter: 10.6 }'), 16);
    for (const [fields, why] of [
      ['thread: M16, undercut: short, thread-depth: 15.5', /runs over its undercut.*`15`/],
      ['thread: M16, undercut: { width: 4, diameter: 14 }', /outside the root of the thread, 13\.55 mm/],
      ['thread: M16, undercut: { width: 20, diameter: 12 }', /as wide as the boss is high/],
      ['thread: M16, undercut: wide', /`undercut` cannot be `wide`/],
      ['thread: 1/2-20 UNF, undercut: regular', /metric threads/],
      ['thread: M16, undercut: regular, floor-radius: 1', /Delete `floor-radius` or `undercut`/],
      ['diameter: 16, undercut: regular', /foot of a `thread`/],
    ] as const)
      assert.match(of(fields).all.join(), why, fields);
  });

  it('is cut after the boss and before its thread, in layers as thick as the cutter', () => {
    const { it, part, solid, ...checked } = of('thread: M16x1.5, undercut: regular');
    const made = operationsOf(it, { part, solid, shop: shop() });
    assert.deepEqual(
      made.map((o) => o.does),
      ['rough', 'finish', 'undercut'],
    );
    assert.deepEqual(approachesOf(it, part, solid), ['top']);
    const rows = passesOfPart({ ...checked, part, solid, shop: shop() }).flatMap((s) =>
      s.rows.flatMap((r) => (r.kind === 'pass' && r.operation.does === 'undercut' ? [r] : [])),
    );
    assert.equal(rows.length, 1);
    const [{ where, tipsZ, needsProgram }] = rows as [(typeof rows)[0]];
    // The shoulder is at 25; 4.5 wide by a head of 3: its top at 29.5, then its underside on the shoulder.
    assert.deepEqual(tipsZ, [26.5, 25]);
    assert.ok(needsProgram && where.type === 'along' && where.ways.length === 1);
    const [way] = where.ways;
    const round = way!.moves.find((m) => m.type === 'arc');
    assert.ok(round?.type === 'arc');
    assert.deepEqual(round.centre, [40, 20]);
    assert.ok(Math.abs(Math.hypot(round.to[0] - 40, round.to[1] - 20) - (13.7 + 20) / 2) < 1e-9);
    assert.ok(Math.hypot(way!.start[0] - 40, way!.start[1] - 20) > 8 + 10);
    assert.match(bossThreadLines(it, { part, shop: shop() }).join('\n'), /4\.5 mm wide.*2\.5 mm to 4\.5 mm.*R0\.8/);
  });

  it('needs a cutter that thin, that far beside its neck, that long, and a control', () => {
    const why = (tools: string, control = 'program') =>
      of('thread: M16x1.5, undercut: regular', { shop: shop(tools, control) })
        .said('access/undercut')
        .join();
    assert.equal(why(GROOVER), '');
    assert.match(why(''), /^error .*up to 4\.5 mm thick, 1\.15 mm beside its neck, reach 20 mm\. The shop has none/);
    assert.match(why(GROOVER.replace('thickness: 3', 'thickness: 4.6')), /it is 4\.6 mm thick/);
    assert.equal(why(GROOVER.replace('thickness: 3', 'thickness: 4.5')), '');
    assert.match(why(GROOVER.replace('neck: 10', 'neck: 18')), /it cuts 1 mm beside its neck/);
    assert.match(why(GROOVER.replace('reach: 26', 'reach: 19')), /it reaches 19 mm/);
    assert.match(why(GROOVER, 'hand'), /moves in circles/);
  });

  it('is a fix for a thread that runs to its shoulder, and a short boss is told only to be longer', () => {
    const fixes = (fields: string, depth = 20) => {
      const checked = checkPart(text(fields).replace('depth: 20', `depth: ${depth}`), shop());
      const found = checked.findings.find((f) => f.rule === 'thread/shoulder')!;
      return { message: found.message, facts: found.facts };
    };
    assert.match(
      fixes('thread: M16, thread-depth: 19').message,
      /Make the thread 15 mm long, or the boss longer, or give it an undercut\.$/,
    );
    const short = fixes('thread: M16, thread-depth: 5', 6);
    assert.match(short.message, /Make the boss longer\.$/);
    assert.equal(short.facts.would_do_mm, undefined);
    // With one the room between thread and shoulder is its width.
    assert.deepEqual(of('thread: M16, undercut: regular').said('thread/shoulder'), []);
    assert.match(
      of('thread: M16, undercut: { width: 2, diameter: 12 }').said('thread/shoulder').join(),
      /^error .*needs 2\.5 mm/,
    );
  });

  it('comes out right on the field of cells, and not with a cutter too thick', () => {
    const run = (tools: string) =>
      simulate(partOf(text('thread: M16x1.5, undercut: { width: 4.5, diameter: 12 }')), shop(tools), { fineMm: 0.5 });
    const tool = (thick: number) =>
      `gr: { kind: tee-cutter, diameter: 20, thickness: ${thick}, neck: 10, reach: 26, shank: 10 }`;
    assert.equal(run(tool(3)).right, true);
    assert.equal(run(tool(6)).right, false);
    assert.equal(run('').right, false);
  });
});

/**
 * Planned means makeable: small parts, made up, with the plans that are written for them, come out right. Deep bores that
 * are cut half from each side and stock to hold by are drawn often. Where no rule warns of it, every tool keeps its margin from
 * what holds the work. Eight of them; more with SCRIBELINE_PLANNED=NUMBER, others with
 * SCRIBELINE_SEED=NUMBER.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { SHOP } from './defects';
import { partText } from './generate';
import { inwardFor, marginFor } from './margin';
import { simulate } from './simulate';

const WANTED = Number(process.env.SCRIBELINE_PLANNED ?? 8);
const SEED = Number(process.env.SCRIBELINE_SEED ?? 11);
/** Only warned of, as the parallel can be moved aside or a face left as it is; on the field it is met, or not cut. */
const WARNED = new Set(['hold/drills-the-parallels', 'hold/parallels', 'setup/unassigned']);

const one = <T>(...of: T[]) => fc.constantFrom(...of);

/** The parts of `generate.ts` without their set-ups, some of them taller, with a deep bore, and with other stock. */
const text = fc
  .record({
    text: partText,
    taller: one(0, 0, 32),
    deep: one('', '', ', diameter: 9', ', diameter: 12'),
    stock: one(
      '',
      '',
      '{ bottom: 8 }',
      '{ left: 1.5, right: 1.5, front: 1.5, back: 1.5, bottom: 8 }',
      '{ left: 2, bottom: 1.5 }',
    ),
  })
  .map(({ text: whole, taller, deep, stock }) => {
    const part = whole.slice(0, whole.indexOf('setups:'));
    const grown = part.replace(/(body: .*z: )(\d+)/, (_, before, z) => `${before}${Number(z) + taller}`);
    const cut = stock
      ? grown.replace(/stock: .*\n/, '').replace('features:', `stock: { form: block, extra: ${stock} }\nfeatures:`)
      : grown;
    return deep
      ? `${cut}  deep: { kind: pocket, face: top, at: { x: center, y: center }${deep}, depth: through }\n`
      : cut;
  });

describe('planned means makeable', () => {
  it(`${WANTED} parts with the plans that are written for them come out right`, function () {
    this.timeout(WANTED * 20_000);
    const { shop } = checkShop(SHOP);
    let made = 0;
    const wrong: string[] = [];
    const seen = { halves: 0, surplus: 0 };
    for (const drawn of fc.sample(text, { numRuns: WANTED * 6, seed: SEED })) {
      const checked = checkPart(drawn, shop);
      if (checked.findings.some((f) => f.severity === 'error')) continue;
      const plan = planOf(checked, { mostAttempts: 60 });
      if (!plan || plan.uncut.length > 0 || plan.setups.length === 0) continue;
      const setups = plan.setups.map((s) => s.setup);
      const written = applyEdits(drawn, locateEdits(checked.tree, writeSetups(setups, checked.part, checked.tree)));
      const again = checkPart(written, shop);
      const errors = again.findings.filter((f) => f.severity === 'error');
      if (errors.length > 0) wrong.push(`${errors.map((f) => `${f.rule}: ${f.message}`).join('\n')}\n${written}`);
      if (again.findings.some((f) => WARNED.has(f.rule) && f.severity !== 'hint')) continue;
      const marginMm = marginFor(again.findings);
      const inward = inwardFor(again.findings);
      const coarse = simulate(again.part, shop, { fineMm: 0.6, marginMm, inward });
      // A narrow gap may have none of the coarse cells in its middle.
      const report = coarse.right ? coarse : simulate(again.part, shop, { fineMm: 0.3, marginMm, inward });
      const { right, excess, gouged, setups: done } = report;
      if (!right) wrong.push(`${JSON.stringify({ excess, gouged, done }, null, 1)}\n${written}`);
      const cuts = setups.flatMap((s) =>
        s.cuts.map((c) => ({ ...c, held: s.hold?.jaws?.map((j) => j.name as string) })),
      );
      if (cuts.some((c) => c.depth === 'half')) seen.halves++;
      if (cuts.some((c) => c.held?.includes(c.name))) seen.surplus++;
      if (++made === WANTED) break;
    }
    assert.equal(wrong.length, 0, wrong.join('\n\n'));
    assert.equal(made, WANTED);
    assert.ok(seen.halves > 0 && seen.surplus > 0, JSON.stringify(seen));
  });

  // Drawn once, and blamed by the field although they come out right.
  for (const [what, written] of Object.entries({
    'a flat floor that no mill reaches, and a step opens later': `part: piece
material: aluminium-6061-t6
body: { x: 47, y: 26, z: 28 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }
features:
  f1: { kind: step, face: top, along: back, width: 10, depth: 15.5 }
  f2: { kind: hole, face: top, at: { x: 31.5, y: 13 }, diameter: 5, depth: through, counterbore: { diameter: 9, depth: 3 } }
  f3: { kind: hole, face: bottom, at: { x: 15.5, y: 18.5 }, diameter: 5, depth: 13.5, bottom: flat }
  f4: { kind: hole, face: bottom, at: { x: 37, y: 10.5 }, thread: M5, depth: 9.5, thread-depth: 4.5 }
setups:
  first:
    up: bottom
    hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 22, stop: right }
    zero: { x: left, y: back, z: parallels }
    cuts: [left, f3, f4]
  second:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [right, f1, f2]
`,
    'what stands before a step’s face goes with the step, and is not in the way beside the jaws': `part: piece
material: aluminium-6061-t6
body: { x: 26, y: 40, z: 23 }
stock: { form: block, extra: { left: 1.5, right: 1.5, front: 1.5, back: 1.5, bottom: 8 } }
features:
  f1: { kind: step, face: front, along: left, width: 12, depth: 13.5 }
setups:
  first:
    up: left
    hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 22, stop: top }
    zero: { x: parallels, y: back, z: top }
    cuts: [left, bottom, f1]
  second:
    up: right
    hold: { vise: vise, jaws: [top, bottom], grip: 10, parallels: 22, stop: front, overhang: { back: 5 } }
    zero: { x: parallels, y: front, z: top }
    cuts: [right, front, back]
`,
  }))
    it(what, () => {
      const { shop } = checkShop(SHOP);
      const report = simulate(checkPart(written, shop).part, shop, { fineMm: 0.6, marginMm: 1 });
      assert.ok(report.right, JSON.stringify(report));
    });
});

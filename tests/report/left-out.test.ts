/** What could not be read is said beside every figure: of a part, of a job, in the editor and in the view. */
import assert from 'node:assert/strict';
import { withoutText as withoutInView } from '../../client/view/without';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { jobFindings } from '../../server/src/planning/job';
import { figuresAtHand } from '../../server/src/report/at-hand';
import { factsLines } from '../../server/src/report/facts';
import { figuresOf } from '../../server/src/report/figures';
import { jobFigures, jobLine } from '../../server/src/report/job-figures';
import { leftOutText } from '../../server/src/report/left-out';
import { checkJob, checkPart } from '../../server/src/rules/check';

const PART = `part: tube
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  draw-tube: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 20, depth: through }
  tie: { kind: hole, face: top, at: { x: 50, y: center }, diameter: 5, depth: 10 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 18, parallels: 14 }
    cuts: [draw-tube, tie]
`;
const checked = (text: string) => checkPart(text, builtinShop());
const half = PART.replace('diameter: 20', 'diameter: 2O');

describe('what could not be read', () => {
  it('is named beside every figure of a part', () => {
    const broken = checked(half);
    assert.deepEqual(figuresOf(broken).left_out, { features: ['draw-tube'], setups: [] });
    assert.equal(figuresAtHand(broken).find((f) => f.name === 'without')?.value, 'draw-tube');
    assert.match(factsLines('tube.part.yaml', broken).join('\n'), /without +`draw-tube`, which could not be read/);
  });

  it('is said of no part that could be read', () => {
    const sound = checked(PART);
    assert.equal(figuresOf(sound).left_out, undefined);
    assert.ok(figuresAtHand(sound).every((f) => f.name !== 'without'));
    assert.doesNotMatch(factsLines('tube.part.yaml', sound).join('\n'), /without +`/);
  });

  it('is a set-up as well, and no more than three by name', () => {
    assert.equal(leftOutText(checked(PART.replace('jaws: [back, front]', 'jaws: [back, left]'))), 'set-up `first`');
    const many = Array.from({ length: 6 }, (_, i) => `  h${i}: { kind: hole }\n`).join('');
    assert.equal(leftOutText(checked(PART.replace('setups:', `${many}setups:`))), '`h0`, `h1`, `h2` and 3 more');
    const view = ['a', 'b', 'c', 'd'].map((name) => ({
      name,
      nameRange: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } },
    }));
    assert.equal(withoutInView({ leftOut: view }), 'Without a, b, c and 1 more');
    assert.equal(withoutInView({}), '');
  });

  const { job } = checkJob(
    'job: g\nmass-limit: 100 g\nparts:\n  tube: { spec: tube.part.yaml }\n  gone: { spec: gone.part.yaml }\n',
  );
  const [tube, gone] = job.parts;
  it('is named beside a job’s sums, and nothing is found of them', () => {
    const of = (text: string) => [{ entry: tube!, checked: checked(text), quantity: 1 }];
    const line = jobLine(jobFigures(job, of(half)));
    assert.match(line ?? '', /, without gone, draw-tube of tube$/);
    const whole = { ...job, parts: job.parts.filter((p) => p !== gone) };
    assert.equal(jobFigures(whole, of(PART)).unread, undefined);
    assert.deepEqual(
      jobFindings(whole, of(PART), true).map((f) => f.rule),
      ['cost/over-mass'],
    );
    assert.deepEqual(jobFindings(whole, of(half), true), []);
  });
});

/** Time and money as they are told: of a part, of a job; no money without rates, no sums of what cannot be read. */
import assert from 'node:assert/strict';
import { BUILTIN_SHOP_TEXT } from '../../server/generate/builtin-shop';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { JobPiece } from '../../server/src/planning/job';
import { figuresAtHand } from '../../server/src/report/at-hand';
import { barLines, costLines, moneyText, timeLines } from '../../server/src/report/costs';
import { minutesText } from '../../server/src/report/cuts';
import { spentFigures } from '../../server/src/report/figures';
import { jobFigures, jobLine } from '../../server/src/report/job-figures';
import { reportJson } from '../../server/src/report/json';
import { checkJob, checkPart, checkShop } from '../../server/src/rules/check';
import { factsText, jobFactsText, reportText } from './told';

const PAID = builtinShop();
const FREE = checkShop(BUILTIN_SHOP_TEXT.replace(/^rates:.*$/m, '')).shop;

const TEXT = `part: bracket
material: aluminium-6061-t6
quantity: 4
body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5 H12, depth: through }
`;
const job = checkJob(`job: set
parts:
  bracket: { spec: a.part.yaml, quantity: 4 }
  other: { spec: b.part.yaml }
hours: 1.5 h
mass-limit: 0.5 kg
`).job;
const pieces = (shop = PAID): readonly JobPiece[] => [
  { entry: job.parts[0]!, checked: checkPart(TEXT, shop), quantity: 4 },
];

describe('time and money in words', () => {
  it('money has as many digits as it can stand for', () => {
    assert.equal(moneyText([1.234, 5.678], 'EUR'), '1.23 to 5.68 EUR');
    assert.equal(moneyText([1.234, 56.78], 'EUR'), '1.2 to 56.8 EUR');
    assert.equal(moneyText([99.4, 567.8], 'CHF'), '99 to 568 CHF');
    assert.equal(moneyText([2, 2], 'EUR'), '2.00 EUR');
  });

  it('seconds under a minute, hours from five on, never a second for nothing', () => {
    assert.equal(minutesText([0.2, 0.5]), '12 to 30 s');
    assert.equal(minutesText([2.04, 14.6]), '2 to 15 min');
    assert.equal(minutesText([120, 600]), '2.0 to 10.0 h');
    assert.equal(minutesText([0, 0]), '0 min');
  });

  it('a part’s facts: set-ups, first and further pieces, work by hand, what takes most, whose hands', () => {
    const lines = timeLines(checkPart(TEXT, PAID)).join('\n');
    assert.match(lines, /time, in a rough order, a set-up for each face that must be up: no set-ups are written/);
    assert.match(lines, /top up +cutting .* s, setting up .* min, 3 tools put in/);
    assert.match(lines, /each further .* min at the machine/);
    assert.match(lines, /all 4 .* set up once for all/);
    assert.match(lines, /by hand, each +deburring about 0\.\d\d m of edges .*, measuring 1 size/);
    assert.match(lines, /most of the first +setting up 9\.5 to 36 min \(\d\d %\), changing tools /);
    assert.match(lines, /common practice, no source/);
  });

  it('no rates, no money; with rates the rate is told beside it', () => {
    const [free, paid] = [checkPart(TEXT, FREE), checkPart(TEXT, PAID)];
    assert.deepEqual(costLines(free), []);
    assert.doesNotMatch(factsText('a', free), /EUR/);
    assert.ok(!figuresAtHand(free).some((f) => f.name === 'cost'));
    assert.match(costLines(paid).join('\n'), /25 EUR an hour of the machine, 0 of a person/);
    assert.match(costLines(paid).join('\n'), /a piece +\d/);
    const cost = figuresAtHand(paid).find((f) => f.name === 'cost');
    assert.match(String(cost?.value), /^[\d.]+ to [\d.]+ EUR for 4$/);
    assert.match(String(figuresAtHand(paid).find((f) => f.name === 'time')?.how), /set-up.*tools put in.*each further/);
  });

  it('a job’s own facts and its line; a part that is missing is said to be left out', () => {
    const text = jobFactsText('g.job.yaml', job, pieces(), false);
    assert.match(text, /1 of 2 parts could not be read/);
    assert.match(text, /at the machine +[\d.]+ to [\d.]+ h of 1\.5 h allowed/);
    assert.match(text, /bracket +4 × in 1 set-up: .*; first .*, each further .*, in a rough order/);
    const figures = jobFigures(job, pieces());
    const { solid } = pieces()[0]!.checked;
    assert.ok(Math.abs(figures.mass_g! - (4 * solid.measures.volumeMm3 * 2.7) / 1000) < 1e-3);
    assert.deepEqual(figures.rough, ['bracket']);
    assert.match(
      jobLine(figures)!,
      /^4 pieces of 1 part: [\d.]+ g, .* h at the machine \(in a rough order: bracket\), /,
    );
    assert.equal(jobFigures(job, pieces(FREE)).cost, null);
    assert.doesNotMatch(jobFactsText('g', job, pieces(FREE), true), /EUR|could not be read/);
    assert.equal(jobLine(jobFigures(job, [])), undefined);
  });

  it('the report of a job ends with its line, and its JSON has the sums', () => {
    const reported = { path: 'g.job.yaml', findings: [], job: jobFigures(job, pieces()) };
    assert.match(
      reportText([reported]),
      /^g\.job\.yaml: 4 pieces of 1 part: .*\.\n\n1 file checked: nothing found\.\n$/,
    );
    const json = JSON.parse(reportJson([reported]));
    assert.equal(json.files[0].job.pieces, 4);
    assert.equal(json.files[0].job.machine_h.length, 2);
  });

  it('a part’s JSON has its minutes and its cost, and null where nothing can be said', () => {
    const { order, quantity, first_piece_min, machine_min, cost } = spentFigures(checkPart(TEXT, PAID));
    assert.deepEqual([order, quantity, cost?.currency, cost?.material_priced], ['rough', 4, 'EUR', false]);
    assert.ok(first_piece_min![0] < first_piece_min![1] && machine_min![0] > first_piece_min![0]);
    // 25 an hour of the machine, nothing for a person or the block
    assert.ok(Math.abs(cost!.total[1] - (machine_min![1] * 25) / 60) < 1e-2);
    const nothing = spentFigures(checkPart('part: a\n', PAID));
    assert.deepEqual([nothing.order, nothing.machine_min, nothing.cost], [null, null, null]);
  });

  it('offcuts that are alike are told once', () => {
    const bar = {
      what: 'bar',
      form: 'flat-bar' as const,
      list: { bars: [], cost: 0, bound: 0, proven: true, unplaced: [] },
      bought: [{ lengthMm: 1000, count: 4, price: 10 }],
      offcuts: [],
      cuts: [],
      pieces: 9,
      usedMm: 900,
      remnants: [
        { mm: 700, bars: 1 },
        { mm: 25, bars: 3 },
      ],
      perMetre: 10,
    };
    assert.deepEqual(barLines([bar], 'mm', 'EUR'), [
      '9 pieces from bar: 900 mm with the saw’s kerf 9.00 EUR, or 4 whole of 1000 mm 40.0 EUR (700 mm, 3 × 25 mm left; under 40 mm the saw’s vise has too little to hold: the last cut is made with the piece held)',
    ]);
    assert.doesNotMatch(barLines([bar], 'mm', undefined)[0]!, /EUR/);
    const long = {
      ...bar,
      remnants: [{ mm: 700, bars: 1 }],
      cuts: [
        { mm: 83, times: 7 },
        { mm: 62.5, times: 1 },
      ],
    };
    const [line] = barLines([long], 'mm', undefined);
    assert.match(line!, /^9 pieces from bar: sawn 7 × 83 mm, 62\.5 mm, 900 mm with/);
    assert.doesNotMatch(line!, /vise/);
    const { perMetre: _, ...whole } = { ...bar, remnants: [], offcuts: [{ lengthMm: 320, count: 2 }] };
    assert.equal(
      barLines([whole], 'mm', 'EUR')[0],
      '9 pieces from bar: from the rack 2 × 320 mm, 4 whole of 1000 mm 40.0 EUR (nothing left over)',
    );
  });
});

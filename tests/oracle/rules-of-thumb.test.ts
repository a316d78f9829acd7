/** Every rule of thumb as published or as remembered (`data/rules-of-thumb.csv`) against the limit, table or formula that we have for it. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { steppedCantilever } from '../../server/src/process/cutting/deflection';
import { ruleByName } from '../../server/src/rules/registry';
import { pointLengthMm } from '../../server/src/tables/drill-point';
import { num, type Row, rowsOf } from './csv';
import { near } from './near';

const ROWS = rowsOf('rules-of-thumb.csv');

function limit(rule: string, name: string): number {
  const found = ruleByName(rule)?.limits.find((l) => l.name === name);
  assert.ok(found, `${rule} ${name}`);
  return found.value;
}
const between = (value: number, low: number, high: number) =>
  assert.ok(value >= low && value <= high, `${value} is not from ${low} to ${high}`);

/** By how the row's topic and rule begin. Those that say nothing to compute with name the rules that hold them. */
const CHECKS: readonly (readonly [topic: string, rule: string, check: (row: Row) => void])[] = [
  ['pocket depth', 'comfortable tool reach', () => between(limit('corner/inside-radius', 'impossible'), 6, 8)],
  ['internal corner', 'corner radius slightly over', () => between(1 + limit('corner/tight', 'within') / 100, 1, 1.1)],
  [
    'internal corner',
    'useful small end mill',
    (row) => {
      const mills = builtinShop().tools.filter((t) => t.kind === 'end-mill');
      assert.ok(mills.some((t) => t.diameterMm <= num(row, 'value_or_range')));
    },
  ],
  [
    'general design',
    'holes: do not bore deep',
    () => holds('hole/depth-ratio', 'access/undercut', 'setup/more-than-needed', 'stock/not-on-rack', 'hold/squeeze'),
  ],
  [
    'hole',
    'through holes preferred',
    () => holds('hole/flat-bottom', 'hole/depth-ratio', 'hole/too-small', 'cost/tool-changes'),
  ],
  ['hole entry', 'entry surface perpendicular', () => holds('hole/sloped-start')],
  ['hole depth', 'standard twist drill', () => between(limit('hole/depth-ratio', 'jobber'), 3, 5)],
  ['hole depth', 'peck', () => between(limit('hole/depth-ratio', 'peck'), 5, 10)],
  ['hole depth', 'deep-hole', () => between(limit('hole/depth-ratio', 'peck'), 10, 10)],
  // No insert drills in the format: whoever lists one as a drill gives its flutes.
  ['hole depth', 'indexable insert drill', () => holds('hole/depth-ratio')],
  [
    'wall',
    'minimum metal',
    (row) => {
      const [metal, plastic] = row.value_or_range!.split('/').map(Number);
      assert.equal(limit('wall/thin', 'metal'), metal);
      assert.equal(limit('wall/thin', 'plastic'), plastic);
    },
  ],
  ['wall', 'height:thickness', () => between(limit('wall/slender', 'ratio'), 8, 10)],
  ['min drilled hole', 'ordinary shop', () => between(limit('hole/too-small', 'diameter'), 1, 1.5)],
  ['thread depth', 'maximum tapped', () => between(limit('thread/too-long', 'diameters'), 2, 3)],
  [
    'thread depth',
    'useful engagement',
    () => {
      between(limit('thread/too-short', 'steel'), 1, 1.5);
      between(limit('thread/too-short', 'aluminium'), 1.5, 2);
    },
  ],
  [
    'tap',
    'chamfer threads',
    () => {
      between(limit('thread/no-room', 'plug'), 3, 5);
      between(limit('thread/no-room', 'bottoming'), 1, 2);
    },
  ],
  // M6 × 1: 3 to 5 mm and 1 to 2 mm, a thread of margin more at most.
  ['tap', 'blind hole bottom clearance', () => between(limit('thread/no-room', 'plug') * 1, 3, 6)],
  [
    'tap',
    'percent thread',
    () => {
      // 83 is called the maximum; drills of the series jump over it by a little.
      between(limit('thread/percent', 'least'), 50, 75);
      between(limit('thread/percent', 'most'), 83, 85);
    },
  ],
  [
    'drill point',
    'length 0.5 D',
    (row) => {
      for (const [, share, deg] of row.value_or_range!.matchAll(/([\d.]+)(?: D)? at (\d+)/g))
        near(pointLengthMm(1, Number(deg)), Number(share), 5e-4);
    },
  ],
  // The handbook's range is what is comfortable; a hint is told from half of its low end down, where everyday parts end.
  ['edge distance', 'hole edge to part edge', () => assert.equal(limit('hole/near-edge', 'web'), 1 / 2)],
  ['inclined entry', 'above 5', () => between(limit('hole/sloped-start', 'slope'), 5, 10)],
  ['crossing holes', 'centre offset', () => assert.equal(limit('hole/crosses', 'offset'), 0.25)],
  ['outside edges', 'chamfer 45', () => holds('corner/outside-round')],
  ['undercut', 'T-slot', () => holds('access/undercut')],
  [
    'engraving',
    'cut in',
    () => assert.ok(builtinShop().tools.some((t) => t.kind === 'engraver' && t.diameterMm <= 0.5)),
  ],
  [
    'deflection',
    'overhang x2',
    () => {
      const at = (diameterMm: number, lengthMm: number) => steppedCantilever([{ diameterMm, lengthMm }], 1, 1000);
      near(at(10, 80) / at(10, 40), 8, 1e-9);
      near(at(5, 40) / at(10, 40), 16, 1e-9);
    },
  ],
];

function holds(...rules: readonly string[]): void {
  for (const rule of rules) assert.ok(ruleByName(rule), rule);
}

describe('rules of thumb', () => {
  for (const row of ROWS)
    it(`${row.topic}: ${row.rule!.slice(0, 70)} (${row.status})`, () => {
      const check = CHECKS.find(([topic, rule]) => row.topic === topic && row.rule!.startsWith(rule));
      assert.ok(check, 'no check for it');
      check[2](row);
    });

  it('every check has its row', () => assert.equal(CHECKS.length, ROWS.length));
});

/** One ± for all sizes, and tolerances by decimals: what each size gets, and what is refused. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { generalsOf } from '../../server/src/process/tolerances/general';
import { checkPart } from '../../server/src/rules/check';
import { generalLinear, parseGeneralTolerance } from '../../server/src/tables/general-tolerances';

const DECIMALS = '.X ±0.1, .XX ±0.01, .XXX ±0.005';
const read = (tolerance: string, units: string, width: string) =>
  checkPart(
    `part: p\nunits: ${units}\ntolerance: ${tolerance}\nmaterial: aluminium-6061-t6\nparameters: { w: 1.5 }\nbody: { x: ${width}, y: 2, z: 1.0 }\n`,
    builtinShop(),
  );
const rows = (tolerance: string, units: string, width: string) => {
  const { part } = read(tolerance, units, width);
  return generalsOf(part.body!, part).map((g) => [g.what, Number((g.value / (units === 'in' ? 25.4 : 1)).toFixed(6))]);
};
const said = (tolerance: string, units: string) =>
  read(tolerance, units, '2').findings.flatMap((f) => (f.rule === 'form/schema' ? [f.message] : []));

describe('general tolerances as the part says them', () => {
  it('are one ± for every size (ISO 22081), in whatever unit', () => {
    assert.deepEqual(rows('ISO 22081 ±0.1', 'mm', '40'), [
      ['body.x', 0.1],
      ['body.y', 0.1],
      ['body.z', 0.1],
    ]);
    assert.deepEqual(rows('ISO 22081 +/-0.005 in', 'in', '2')[0], ['body.x', 0.005]);
  });

  it('go by the decimals of a size as it is written; what is worked out, or has fewer, gets the loosest', () => {
    for (const [written, half] of [
      ['1.5', 0.1],
      ['1.50', 0.01],
      ['1.500', 0.005],
      ['1.5000', 0.005],
      ['2', 0.1],
      ['1 1/2 in', 0.1],
      ['w', 0.1],
      ['.75 in', 0.01],
    ] as const)
      assert.deepEqual(rows(DECIMALS, 'in', written)[0], ['body.x', half], written);
  });

  it('say so of small sizes too, and leave the classes as they were', () => {
    assert.equal(generalLinear(0.2, parseGeneralTolerance('ISO 22081 ±0.05')!.linear)?.value, 0.05);
    assert.equal(generalLinear(0.2, 'm'), undefined);
    assert.deepEqual(parseGeneralTolerance('ISO 2768-mK'), { linear: 'm', geometric: 'K' });
  });

  it('are refused where their unit is not known', () => {
    assert.deepEqual(said('ISO 22081 ±0.005', 'in'), [
      '`ISO 22081 ±0.005` has no unit. Write it like `ISO 22081 ±0.005 in`.',
    ]);
    assert.deepEqual(said(DECIMALS, 'mm'), [
      'Tolerances by decimals are for sizes in inches. Write `units: in`, or `ISO 22081 ±0.1`.',
    ]);
    assert.equal(said('.X 0.1', 'in').length, 1);
  });
});

import assert from 'node:assert/strict';
import fc from 'fast-check';
import { resolveJob } from '../../server/src/model/job';
import { readText } from '../../server/src/text/read';
import { mended, says } from './shop-said';

function jobOf(text: string) {
  const tree = readText(text);
  const job = resolveJob(tree);
  return { job, tree, said: job.problems.map((p) => says(p, tree)) };
}

/** The example of the format page. */
const FLIGHT = `job: gimbal flight set
shop: campus.shop.yaml
parts:
  yoke: { spec: parts/yoke.part.yaml, quantity: 2 }
  bearing-block: { spec: parts/bearing-block.part.yaml, quantity: 4 }
mass-limit: 900 g
hours: 12
saw-kerf: 2
`;

describe('spec: a job from its text', () => {
  it('reads the example of the format page whole', () => {
    const { job, said } = jobOf(FLIGHT);
    assert.deepEqual(said, []);
    assert.equal(job.name, 'gimbal flight set');
    assert.equal(job.shopPath?.name, 'campus.shop.yaml');
    assert.deepEqual(
      job.parts.map((p) => [p.name, p.spec.name, p.quantity?.value]),
      [
        ['yoke', 'parts/yoke.part.yaml', 2],
        ['bearing-block', 'parts/bearing-block.part.yaml', 4],
      ],
    );
    assert.equal(job.massLimitG?.value, 900);
    assert.equal(job.hours?.value, 12);
    assert.equal(job.saw.kerfMm, 2);
    assert.deepEqual(job.assumed, []);
  });

  it('places are those of the values', () => {
    const { job, tree } = jobOf(FLIGHT);
    const at = (span: { block: string; from: number; to: number }) => {
      const { start, end } = tree.locate(span);
      return FLIGHT.slice(start, end);
    };
    assert.equal(at(job.parts[1]!.spec.span), 'parts/bearing-block.part.yaml');
    assert.equal(at(job.parts[1]!.span), 'bearing-block');
    assert.equal(at(job.parts[0]!.quantity!.span), '2');
    assert.equal(at(job.massLimitG!.span), '900 g');
    assert.equal(at(job.hours!.span), '12');
  });

  it('masses, hours and kerfs in other units', () => {
    const { job, said } = jobOf(
      'job: j\nunits: in\nparts: { a: { spec: a.part.yaml } }\nmass-limit: 2 lb\nhours: 90 min\nsaw-kerf: 1/16\n',
    );
    assert.deepEqual(said, []);
    assert.ok(Math.abs(job.massLimitG!.value - 907.18474) < 1e-6);
    assert.equal(job.hours?.value, 1.5);
    assert.equal(job.saw.kerfMm, 1.5875);
    assert.equal(job.parts[0]?.quantity, undefined);
  });

  it('a kerf that nobody wrote is noted; paths get forward slashes', () => {
    const { job } = jobOf('job: j\nparts: { a: { spec: parts\\a.part.yaml } }\n');
    assert.equal(job.saw.kerfMm, 2);
    assert.deepEqual(
      job.assumed.map((a) => [a.field, a.text]),
      [['saw-kerf', '2 mm']],
    );
    assert.equal(job.parts[0]?.spec.name, 'parts/a.part.yaml');
  });

  const told: Readonly<Record<string, readonly [text: string, wanted: RegExp]>> = {
    'no name': ['parts: { a: { spec: a.part.yaml } }\n', /→ form\/schema: A job needs a name/],
    'no parts': ['job: j\n', /^j → form\/schema: A job needs `parts`/],
    'parts that are a list': ['job: j\nparts: [a]\n', /^\[a\] → form\/schema: `parts` needs a name/],
    'a part without a file': ['job: j\nparts: { a: { quantity: 2 } }\n', /^a → form\/schema: Part `a` needs `spec`/],
    'a part with nothing in it': ['job: j\nparts:\n  a:\n', /^a → form\/schema: Part `a` has nothing in it yet/],
    'none of a part': [
      'job: j\nparts: { a: { spec: a.part.yaml, quantity: 0 } }\n',
      /^0 → form\/schema: `quantity` is 0. Make it a whole number, 1 or more/,
    ],
    'half a part': [
      'job: j\nparts: { a: { spec: a.part.yaml, quantity: 1.5 } }\n',
      /^1\.5 → form\/schema: `quantity` is 1.5. Make it a whole number/,
    ],
    'the same file twice': [
      'job: j\nparts: { a: { spec: a.part.yaml }, b: { spec: a.part.yaml } }\n',
      /^a\.part\.yaml → form\/schema: Part `b` is the same file as `a`/,
    ],
    'a mass without a unit': ['job: j\nparts: {}\nmass-limit: 900\n', /^900 → form\/unit: `mass-limit` has no unit/],
    'a mass in litres': ['job: j\nparts: {}\nmass-limit: 2 l\n', /^2 l → form\/unit: `l` is not a unit of mass/],
    'no hours': ['job: j\nparts: {}\nhours: 0\n', /^0 → form\/schema: `hours` is 0. Make it more/],
    'a misspelt field': [
      'job: j\nparts: {}\nmass-limt: 900 g\n',
      /^mass-limt → form\/schema: .*Did you mean `mass-limit`/,
    ],
    'a shop that is a map': ['job: j\nparts: {}\nshop: { a: b }\n', /→ form\/schema: `shop` needs the path of a file/],
  };
  for (const [what, [text, wanted]] of Object.entries(told)) {
    it(`tells of ${what}, once`, () => {
      const { said } = jobOf(text);
      assert.equal(said.length, 1, said.join('\n'));
      assert.match(said[0]!, wanted);
    });
  }

  it('its fixes cure what they are offered for', () => {
    for (const [text] of Object.values(told)) {
      const { job, tree } = jobOf(text);
      for (const p of job.problems) if (p.fixes) assert.deepEqual(jobOf(mended(p, tree)).said, [], p.message);
    }
  });

  it('never throws when a good job loses a piece anywhere', () => {
    fc.assert(
      fc.property(fc.nat(FLIGHT.length), fc.nat(30), (from, length) => {
        resolveJob(readText(FLIGHT.slice(0, from) + FLIGHT.slice(from + length)));
        return true;
      }),
      { seed: 6, numRuns: 100 },
    );
    assert.deepEqual(resolveJob(readText('')).parts, []);
  });
});

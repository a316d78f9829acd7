/** A part as a STEP file: what the file says of it besides its shape, and that others read the same solid from it. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import init from 'replicad-opencascadejs';
import { type ExactMeasures, exactMeasures } from '../../server/src/export/exact/measures';
import { exactSolid } from '../../server/src/export/exact/solid';
import { stepText } from '../../server/src/export/exact/step';
import { type ExactMaker, stepWriter } from '../../server/src/export/step';
import { ExportError, unwritable, writerFor } from '../../server/src/export/writer';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { exactKernel } from '../oracle/exact';
import { boundaryOf, Step } from './step-reader';

const GIMBAL = resolve(__dirname, '../../examples/gimbal/parts');
const WHEN = new Date('2026-05-04T03:02:01.500Z');

/** Makes the solid on this thread. */
const here: ExactMaker = {
  async step(cuttings) {
    const oc = await exactKernel();
    const shape = exactSolid(oc, cuttings);
    try {
      return { text: stepText(oc, shape), measures: exactMeasures(oc, shape, true) };
    } finally {
      shape.delete();
    }
  },
};

async function written(text: string, maker = here) {
  const checked = checkPart(text, builtinShop());
  const { bytes, notes } = await stepWriter(maker).write({ checked, creator: 'Scribeline 0.0.0', when: WHEN });
  const file = new TextDecoder().decode(bytes);
  return { checked, notes, file, step: new Step(file) };
}

/** Read by the kernel again, in an instance that has never seen the part. */
async function readAgain(file: string): Promise<ExactMeasures> {
  const oc = await init({ print: () => {}, printErr: () => {} });
  oc.FS.writeFile('/again.step', file);
  const reader = new oc.STEPControl_Reader();
  assert.equal(reader.ReadFile('/again.step'), 'IFSelect_RetDone');
  const progress = new oc.Message_ProgressRange();
  assert.equal(reader.TransferRoots(progress), 1);
  const shape = reader.OneShape();
  try {
    return exactMeasures(oc, shape);
  } finally {
    for (const handle of [shape, progress, reader]) handle.delete();
  }
}

const BRACKET = `part: bracket
title: Bracket, 5 µm “fine”, for Tomáš's mount \\ left
revision: C
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-m
body: { x: 60, y: 40, z: 16 }
features:
  seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 H7
    depth: 7 ±0.05
    bottom: flat
  mount:
    kind: hole
    face: front
    at: { x: center, z: 8 }
    pattern: { line: { x: 36, count: 2 } }
    thread: M5
    depth: 12
  recess:
    kind: pocket
    face: bottom
    at: { x: center, y: center }
    size: { x: 30, y: 20 }
    corner-radius: 4
    floor-radius: 1
    depth: 4
datums: { A: bottom, B: front }
tolerances:
  - { position: 0.1, of: mount, datums: [A, B] }
`;

type Written = Awaited<ReturnType<typeof written>>;
let bracketMade: Promise<Written> | undefined;
/** The bracket, written once. */
function bracket(): Promise<Written> {
  bracketMade ??= written(BRACKET);
  return bracketMade;
}

describe('STEP', function () {
  this.timeout(60_000);
  before(async function () {
    this.timeout(60_000);
    await exactKernel();
  });

  it('says what the part is: schema, product, revision, units, who wrote it and when', async () => {
    const { step, file } = await bracket();
    assert.match(file, /FILE_SCHEMA\(\('AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF \{ ?1 0 10303 442 /);
    const title = "Bracket, 5 µm “fine”, for Tomáš's mount \\ left";
    assert.deepEqual(step.file.header.get('FILE_DESCRIPTION')![0], [title]);
    const [name, time, , , preprocessor, creator] = step.file.header.get('FILE_NAME')!;
    assert.deepEqual([name, time, creator], ['bracket.step', '2026-05-04T03:02:01', 'Scribeline 0.0.0']);
    assert.equal(preprocessor, 'Scribeline 0.0.0');
    assert.doesNotMatch(file.slice(0, file.indexOf('ENDSEC;')), /CASCADE/);
    assert.deepEqual(step.only('PRODUCT').args.slice(0, 3), ['bracket', 'bracket', title]);
    assert.equal(step.only('PRODUCT_DEFINITION_FORMATION').args[0], 'C');
    assert.equal(step.lengthUnitMm, 1);
    assert.ok(
      [...file].every((c) => c.codePointAt(0)! < 127),
      'plain ASCII, as the standard wants',
    );
  });

  it('carries material, density, general tolerance, limits and threads as properties of the product', async () => {
    const { step } = await bracket();
    assert.equal(step.described('material'), 'aluminium-6061-t6');
    assert.equal(step.described('standard'), 'ISO 2768-m');
    // ISO 286-2, table 2: H7 over 18 to 30 mm is +21/0 µm
    assert.equal(step.described('seat diameter'), '22 mm H7 (+0.021/+0 mm)');
    assert.equal(step.described('seat depth'), '7 mm +0.05/-0.05 mm');
    assert.equal(step.described('mount thread'), 'M5');
    assert.equal(step.described('mount'), 'position 0.1 mm to A, B');
    const product = step.only('PRODUCT_DEFINITION').id;
    const properties = step.all('PROPERTY_DEFINITION');
    assert.equal(properties.length, 4);
    for (const { args } of properties) assert.deepEqual(args[2], { ref: product });
    // each is tied to what it says
    const tied = step.all('PROPERTY_DEFINITION_REPRESENTATION').map((e) => (e.args[0] as { ref: number }).ref);
    assert.deepEqual(
      tied,
      properties.map((p) => p.id),
    );
    const density = step.only('MEASURE_REPRESENTATION_ITEM').args[1] as { kind: string; args: readonly number[] };
    // EN 573 / ASM Handbook vol. 2: 6061, 2.70 g/cm³
    assert.deepEqual([density.kind, density.args], ['POSITIVE_RATIO_MEASURE', [2.7]]);
  });

  it('leaves out what a part does not say', async () => {
    const { step } = await written('part: plain\nunits: mm\nbody: { x: 10, y: 10, z: 10 }\n');
    assert.equal(step.all('PROPERTY_DEFINITION').length, 0);
    assert.equal(step.only('PRODUCT_DEFINITION_FORMATION').args[0], '');
    assert.equal(boundaryOf(step).volume.toFixed(6), '1000.000000');
  });

  it('of a part in inches is in millimetres', async () => {
    const { step } = await written('part: plain\nunits: in\nbody: { x: 1, y: 1, z: 1/2 }\n');
    assert.equal(step.lengthUnitMm, 1);
    assert.equal(boundaryOf(step).volume.toFixed(4), (25.4 ** 3 / 2).toFixed(4));
  });

  it('refuses a part that is cut away, and tells of one in pieces', async () => {
    const body = 'units: mm\nbody: { x: 20, y: 10, z: 10 }\nfeatures:\n';
    const gone = `part: gone\n${body}  all:\n    kind: pocket\n    face: top\n    at: { x: 10, y: 5 }\n    size: { x: 30, y: 30 }\n    depth: through\n`;
    await assert.rejects(written(gone), (e: Error) => e instanceof ExportError && /Nothing is left/.test(e.message));
    const two = `part: two\n${body}  cut:\n    kind: slot\n    face: top\n    ends: [{ x: 10, y: -5 }, { x: 10, y: 15 }]\n    width: 4\n    depth: through\n`;
    const { notes, step } = await written(two);
    assert.match(notes.join(), /in 2 pieces/);
    assert.equal(boundaryOf(step).solids, 2);
  });

  it('tells when the file and the check disagree on the volume', async () => {
    const wrong = (times: number): ExactMaker => ({
      async step(cuttings) {
        const made = await here.step(cuttings);
        return { ...made, measures: { ...made.measures, volumeMm3: made.measures.volumeMm3 * times } };
      },
    });
    const plain = 'part: plain\nunits: mm\nbody: { x: 10, y: 10, z: 10 }\n';
    assert.match((await written(plain, wrong(1.00001))).notes.join(), /is not the one the check shows/);
    // A file that lacks something is not written at all.
    await assert.rejects(
      written(plain, wrong(1.001)),
      (e: Error) => e instanceof ExportError && /came out wrong and was not written/.test(e.message),
    );
    assert.deepEqual((await bracket()).notes, []);
  });

  it('knows formats by a name’s ending, and parts that must not be written', () => {
    const writers = [stepWriter(here)];
    for (const name of ['a.step', 'A.STP', 'step', '.step', 'v1.2/b.stp'])
      assert.equal(writerFor(name, writers), writers[0], name);
    for (const name of ['a.iges', 'step.txt', '']) assert.equal(writerFor(name, writers), undefined, name);
    const why = (text: string) => unwritable(checkPart(text, builtinShop()));
    assert.equal(why(BRACKET), undefined);
    assert.match(why(BRACKET.replace('depth: 12', 'depth: twelve'))!, /an entry that could not be understood/);
    assert.match(why('part: plain\nunits: mm\n')!, /could not be understood|no `body`/);
  });

  for (const file of readdirSync(GIMBAL).filter((f) => f.endsWith('.part.yaml'))) {
    it(`the gimbal's ${file.replace('.part.yaml', '')}: one closed solid, as large as the check says`, async () => {
      const { checked, step, notes } = await written(readFileSync(join(GIMBAL, file), 'utf8'));
      const read = boundaryOf(step);
      assert.deepEqual([read.solids, read.faults, notes], [1, [], []]);
      const { volumeMm3, exact } = checked.solid.measures;
      assert.ok(exact);
      assert.ok(Math.abs(read.volume / volumeMm3 - 1) < 1e-6, `${read.volume}, ${volumeMm3}`);
      assert.ok(Object.keys(read.faces).every((k) => /PLANE|CYLINDRICAL|CONICAL|TOROIDAL|SPHERICAL/.test(k)));
    });
  }

  it('is read by the kernel’s own reader, in a fresh instance, as the same solid', async function () {
    this.timeout(60_000);
    const { file, checked } = await bracket();
    const again = await readAgain(file);
    assert.deepEqual([again.valid, again.solids, again.faces.other], [true, 1, 0]);
    assert.ok(Math.abs(again.volumeMm3 / checked.solid.measures.volumeMm3 - 1) < 1e-9);
    for (const [i, c] of checked.solid.measures.centroid.entries()) assert.ok(Math.abs(c - again.centroid[i]!) < 1e-6);
    // seat; two tapped holes; four corners of the pocket; four straight fillets on its floor
    assert.equal(again.faces.cylinder, 1 + 2 + 4 + 4);
    assert.equal(again.faces.torus, 4);
    assert.equal(again.faces.cone, 2);
  });

  it('a floor radius past half the corner radius is a torus to the kernel’s own reader too', async function () {
    this.timeout(60_000);
    const { file, checked } = await written(`part: bowl
units: mm
body: { x: 60, y: 40, z: 20 }
features:
  leaning: { kind: pocket, face: top, at: { x: 20, y: 20 }, size: { x: 20, y: 24 }, corner-radius: 5, depth: 9, floor-radius: 4, tilt: { about: x, angle: 7 } }
  round: { kind: pocket, face: front, at: { x: 45, z: 10 }, diameter: 12, depth: 8, floor-radius: 5 }
`);
    assert.doesNotMatch(file, /SURFACE_OF_REVOLUTION/);
    const again = await readAgain(file);
    assert.deepEqual([again.valid, again.solids, again.faces.torus, again.faces.turned], [true, 1, 4 + 1, 0]);
    assert.ok(Math.abs(again.volumeMm3 / checked.solid.measures.volumeMm3 - 1) < 1e-6);
  });
});

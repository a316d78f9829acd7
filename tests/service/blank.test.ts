/** A part that is cut from another part's body: which file is read, when again, and what is said where it does not fit. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { barsNeeded } from '../../server/src/planning/bars';
import { sawn, USUAL_SAW } from '../../server/src/planning/cost';
import { handWork } from '../../server/src/planning/hand-work';
import { readyStock } from '../../server/src/planning/ready';
import { operationsOf } from '../../server/src/process/operations';
import type { Host } from '../../server/src/service/host';
import { hoverAt } from '../../server/src/service/hover';
import { definitionAt } from '../../server/src/service/names';
import { linksOf } from '../../server/src/service/navigation';
import { Workspace } from '../../server/src/service/workspace';

const WINDOW =
  '  window: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 3, depth: through }\n';
const BLANK = `part: raw\nmaterial: aluminium-6061-t6\nbody: { x: 64, y: 40, z: 22 }\nfeatures:\n${WINDOW}`;
const plate = (stock: string, features = WINDOW) =>
  `part: plate\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 20 }\nstock: { form: blank, ${stock} }\n${features && `features:\n${features}`}`;

function world(files: Record<string, string>): Workspace {
  const host: Host = {
    log: () => undefined,
    read: async (path) => files[path],
    list: async () => [],
    documents: async () => Object.keys(files),
  };
  return new Workspace(host, { roots: ['mem:///w'] });
}

async function part(workspace: Workspace, name = 'plate') {
  const snapshot = await workspace.snapshot(`mem:///w/${name}.part.yaml`);
  assert.ok(snapshot?.kind === 'part');
  return snapshot;
}

/** What is said of the plate on this stock, above a hint. */
async function said(text: string, raw = BLANK): Promise<readonly string[]> {
  const files = { 'mem:///w/plate.part.yaml': text, 'mem:///w/raw.part.yaml': raw };
  const { findings } = await part(world(files));
  return findings.filter((f) => f.severity !== 'hint').map((f) => `${f.rule}: ${f.message}`);
}

describe('a part that is cut from a blank', () => {
  it('has it as the editor holds that text, and again when it changes', async () => {
    const text = plate('from: raw.part.yaml');
    const workspace = world({ 'mem:///w/plate.part.yaml': text, 'mem:///w/raw.part.yaml': BLANK });
    const first = await part(workspace);
    assert.deepEqual(
      first.findings.map((f) => f.message),
      [],
    );
    assert.equal(await part(workspace), first);
    assert.ok(workspace.isIncluded('mem:///w/raw.part.yaml'));
    workspace.open('mem:///w/raw.part.yaml', BLANK.replace('z: 22', 'z: 19'));
    const second = await part(workspace);
    assert.match(second.findings.map((f) => f.message).join(), /0\.5 mm inside the top face/);
  });

  it('says in one sentence at the file’s name why it is not there', async () => {
    const files = {
      'mem:///w/self.part.yaml': plate('from: self.part.yaml'),
      'mem:///w/a.part.yaml': plate('from: b.part.yaml'),
      'mem:///w/b.part.yaml': plate('from: a.part.yaml'),
      'mem:///w/gone.part.yaml': plate('from: none.part.yaml'),
      'mem:///w/shop.part.yaml': plate('from: x.shop.yaml'),
      'mem:///w/out.part.yaml': plate('from: ../far/raw.part.yaml'),
      'mem:///w/broken.part.yaml': plate('from: torn.part.yaml'),
      'mem:///w/torn.part.yaml': 'part: torn\nbody: { x: 1\n',
      'mem:///w/bare.part.yaml': plate('from: bodiless.part.yaml'),
      'mem:///w/bodiless.part.yaml': 'part: bodiless\n',
      'mem:///w/lame.part.yaml': plate('from: faulty.part.yaml'),
      'mem:///w/faulty.part.yaml': BLANK.replace('depth: through', 'depth: deep'),
      'mem:///far/raw.part.yaml': BLANK,
    };
    const says: Readonly<Record<string, RegExp>> = {
      self: /is this part itself/,
      a: /in a circle/,
      gone: /There is no part file `none\.part\.yaml`/,
      shop: /is not a part file/,
      out: /lies outside the open folder/,
      broken: /cannot be read/,
      bare: /cannot be read/,
      lame: /`window` of `faulty.part.yaml` is not understood/,
    };
    for (const [name, expected] of Object.entries(says)) {
      const { findings, checked } = await part(world(files), name);
      const errors = findings.filter((f) => f.severity === 'error');
      assert.equal(errors.length, 1, `${name}: ${JSON.stringify(errors.map((f) => f.message))}`);
      assert.match(errors[0]!.message, expected);
      const { start, end } = checked.tree.locate(errors[0]!.span);
      assert.match(checked.tree.text.slice(start, end), /yaml$/);
    }
  });

  it('says where the part sticks out of it and by how much, and nothing where it fits', async () => {
    assert.deepEqual(await said(plate('from: raw.part.yaml')), []);
    assert.deepEqual(await said(plate('from: raw.part.yaml, extra: { left: 2, bottom: 2 }')), []);
    assert.match((await said(plate('from: raw.part.yaml, extra: { bottom: 3 }'))).join(), /1 mm inside the top face/);
    // 24 × 16 through 20 mm, less its four corners of 3 mm.
    const missing = Math.round((24 * 16 - (4 - Math.PI) * 9) * 20);
    const without = (await said(plate('from: raw.part.yaml', ''))).join();
    assert.match(without, new RegExp(`Window is cut from the blank, and ${missing} mm³ of this part are there`));
    const aside = await said(plate('from: raw.part.yaml, extra: { left: 1 }'));
    assert.match(aside.join(), /Window is cut from the blank/);
    const larger = WINDOW.replace('x: 24', 'x: 26');
    assert.deepEqual(await said(plate('from: raw.part.yaml', larger)), []);
    assert.match((await said(plate('from: raw.part.yaml', WINDOW.replace('x: 24', 'x: 22')))).join(), /Window is cut/);
  });

  it('lies as `turned` says, and says where that is no turn', async () => {
    const on = BLANK.replace('x: 64, y: 40, z: 22', 'x: 22, y: 40, z: 64')
      .replace('face: top', 'face: left')
      .replace('{ x: center, y', '{ z: center, y')
      .replace('{ x: 24', '{ z: 24');
    assert.deepEqual(await said(plate('from: raw.part.yaml, turned: { top: left }'), on), []);
    assert.deepEqual(await said(plate('from: raw.part.yaml, turned: { top: left, front: back }'), on), []);
    assert.match((await said(plate('from: raw.part.yaml'), on)).join(), /inside the left face/);
    assert.match((await said(plate('from: raw.part.yaml, turned: { top: bottom }'))).join(), /Name a second face/);
    assert.match(
      (await said(plate('from: raw.part.yaml, turned: { top: left, front: right }'))).join(),
      /never mirrored/,
    );
  });

  it('says what does not go together: sizes, keys, no file', async () => {
    assert.match(
      (await said(plate('from: raw.part.yaml, extra: { left: 2, right: 3 }'))).join(),
      /The blank is 64 mm along x; body and `extra` make it 65 mm/,
    );
    assert.match((await said(plate('wall: 3'))).join(), /A blank needs `from`/);
    assert.match((await said(plate('from: raw.part.yaml, diameter: 3'))).join(), /`diameter` belongs to/);
  });

  it('leaves out what is there already: cuts, tools, spots in a cored hole, time, findings on how it is made', async () => {
    const cored = (d: number) =>
      `  core: { kind: hole, face: top, at: { x: 8, y: center }, diameter: ${d}, depth: through }\n`;
    const raw = BLANK + cored(10).replace('x: 8', 'x: 10');
    const files = {
      'mem:///w/plate.part.yaml': plate('from: raw.part.yaml', WINDOW + cored(12)),
      'mem:///w/raw.part.yaml': raw,
    };
    const { checked } = await part(world(files));
    const does = (name: string, of = checked) => operationsOf(of.part.featureByName.get(name)!, of).map((o) => o.does);
    assert.deepEqual(does('window'), []);
    assert.deepEqual(does('core'), ['drill']);
    const full = await part(world({ ...files, 'mem:///w/raw.part.yaml': BLANK }));
    assert.deepEqual(does('core', full.checked), ['spot', 'drill']);
    // A square corner is judged where it is cut, and not where it comes cut.
    const square = WINDOW.replace('corner-radius: 3, ', '');
    assert.match((await said(plate('from: raw.part.yaml', square), BLANK)).join(), /corner\/square/);
    assert.deepEqual(await said(plate('from: raw.part.yaml', square), BLANK.replace('corner-radius: 3, ', '')), []);
  });

  it('is neither sawn nor bought: the job lists it with its pieces', async () => {
    const files = {
      'mem:///w/plate.part.yaml': plate('from: raw.part.yaml'),
      'mem:///w/raw.part.yaml': BLANK,
      'mem:///w/set.job.yaml': 'job: set\nparts:\n  plate: { spec: plate.part.yaml, quantity: 3 }\n',
    };
    const { checked } = await part(world(files));
    const made = [{ checked, quantity: 3 }];
    assert.deepEqual(readyStock(made), [{ form: 'blank', file: 'raw.part.yaml', pieces: 3, parts: ['plate'] }]);
    assert.deepEqual(barsNeeded(made.map(sawn), USUAL_SAW), []);
    assert.equal(handWork(checked).sawCuts, 0);
    assert.deepEqual(
      readyStock([...made, ...made]).map((r) => r.pieces),
      [6],
    );
  });

  it('tells the pointer what it is, and leads to its file', async () => {
    const text = plate('from: raw.part.yaml');
    const workspace = world({ 'mem:///w/plate.part.yaml': text, 'mem:///w/raw.part.yaml': BLANK });
    const snapshot = await part(workspace);
    const on = text.indexOf('raw.part') + 1;
    // 64 × 40 × 22 less the window of 376.27 mm².
    assert.match(
      hoverAt(snapshot, on)!.contents.value,
      /raw: 64 mm × 40 mm × 22 mm .*48\.04 cm³.*cut already: `window`/s,
    );
    assert.equal((await definitionAt(workspace, snapshot, on))?.uri, 'mem:///w/raw.part.yaml');
    assert.ok((await linksOf(workspace, snapshot)).some((l) => l.target === 'mem:///w/raw.part.yaml'));
  });

  it('is the finished part of the gimbal that is worked over', async () => {
    const folder = join(__dirname, '../../examples/gimbal');
    const file = (name: string) => readFileSync(join(folder, name), 'utf8');
    const [wired, plain] = ['reworked/base-plate-wired.part.yaml', 'parts/base-plate.part.yaml'];
    const files = Object.fromEntries([wired, plain, 'campus.shop.yaml'].map((f) => [`mem:///w/${f}`, file(f)]));
    const { findings, checked } = await part(world(files), 'reworked/base-plate-wired');
    assert.deepEqual(
      findings.map((f) => f.message),
      [],
    );
    assert.deepEqual(
      checked.part.setups?.flatMap((s) => s.cuts.map((c) => c.name)),
      ['tether-slot', 'tie-holes'],
    );
  });
});

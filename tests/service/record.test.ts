/** A record in the editor: what stands wrong in it, sizes and names to choose, what a size came out as, one to begin with. */
import assert from 'node:assert/strict';
import { completionsAt } from '../../server/src/service/completion';
import { hoverAt } from '../../server/src/service/hover';
import { starterRecord } from '../../server/src/service/record';
import type { RecordSnapshot } from '../../server/src/service/snapshot';
import { Workspace } from '../../server/src/service/workspace';

const PART = `part: block
material: aluminium-6061-t6
quantity: 2
body: { x: 60 ±0.1, y: 40, z: 16 }
features:
  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 10 H7, depth: through }
  pad: { kind: pocket, face: top, at: { x: 44, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 4, depth: 3 ±0.05 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 8, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [bore, pad]
`;

function world() {
  const workspace = new Workspace({
    log: () => undefined,
    read: async () => undefined,
    list: async () => [],
    documents: async () => [],
  });
  workspace.open('mem:///w/block.part.yaml', PART);
  return workspace;
}

async function record(text: string): Promise<RecordSnapshot> {
  const workspace = world();
  workspace.open('mem:///w/block.record.yaml', text);
  const snapshot = await workspace.snapshot('mem:///w/block.record.yaml');
  assert.ok(snapshot?.kind === 'record');
  return snapshot;
}

const HEAD = 'record: block.part.yaml\nmeasured:\n';
const labels = (s: RecordSnapshot, text: string) =>
  completionsAt(s, s.text.indexOf(text) + text.length).map((i) => i.label);

describe('a record in the editor', () => {
  it('is told what stands wrong in it, and what its part does not have', async () => {
    const fine = await record(`${HEAD}  - { piece: 1, of: bore, size: diameter, value: 10.008 }\n`);
    assert.deepEqual(fine.findings, []);
    // ISO 286-2: 10 H7 is 10.000 to 10.015
    const [out, ...more] = (await record(`${HEAD}  - { piece: 2, of: bore, size: diameter, value: 10.02 }\n`)).findings;
    assert.deepEqual([out?.rule, out?.severity, out?.facts.out_mm, more.length], ['tol/measured', 'warning', 0.005, 0]);
    assert.match(
      out!.message,
      /^Piece 2: bore diameter is 10\.02 mm, 0\.005 mm over its most; it may be 10 mm to 10\.015 mm/,
    );
    // a limit of a few micrometres is told to a tenth of a thou, and a value in the other unit is asked about
    const inches = await record(
      `record: block.part.yaml\nunits: in\nmeasured:\n  - { of: bore, size: diameter, value: 10.008 }\n`,
    );
    assert.match(
      inches.findings[0]!.message,
      /it may be 0\.3937 in to 0\.3943 in\. Write `10\.008 mm` if it was measured in millimetres\./,
    );
    const typed = await record(`${HEAD}  - { of: bore, size: diameter, value: 0.394 }\n`);
    assert.match(typed.findings[0]!.message, /Write `0\.394 in` if it was measured in inches\./);
    const messages = async (text: string) => (await record(text)).findings.map((f) => f.message).join(' | ');
    assert.match(
      await messages(`${HEAD}  - { of: bore, size: depth, value: 3 }\n`),
      /with a tolerance it has diameter/,
    );
    assert.match(await messages(`${HEAD}  - { of: bor, size: diameter, value: 3 }\n`), /no feature bor/);
    assert.match(await messages(`${HEAD}  - { of: bore, size: diameter, value: 10, tool: x }\n`), /no tool x/);
    assert.match(await messages('record: gone.part.yaml\n'), /no part file `gone.part.yaml`/);
    assert.notEqual(await messages(`${HEAD}  - { of: bore, size: diameter, value: ten }\n`), '');
    assert.notEqual(await messages(`${HEAD}  - { of: bore, size: diameter, value: , mark: a }\n`), '');
    assert.notEqual(await messages('record: [\n'), '');
  });

  it('offers keys, features, sizes with their limits, and tools', async () => {
    const text = `${HEAD}  - { of: , size: , tool: em }\n  - { of: bore, size:  }\n  - { of: pad, size:  }\n  - { size:  }\n`;
    const s = await record(text);
    assert.deepEqual(labels(s, '{ of: '), ['bore', 'pad']);
    assert.ok(labels(s, 'tool: em').some((t) => t.startsWith('em-')));
    assert.deepEqual(labels(s, 'of: bore, size: '), ['diameter']);
    assert.deepEqual(labels(s, 'of: pad, size: '), ['depth']);
    assert.deepEqual(labels(s, '- { size: '), ['x']);
    // ISO 286-2: 10 H7 is +0.015 / 0
    const [item] = completionsAt(s, s.text.indexOf('of: bore, size: ') + 16);
    assert.equal(item!.detail, '10 mm … 10.015 mm');
    assert.ok(labels(await record('record: block.part.yaml\nme'), 'me').includes('measured'));
  });

  it('says on hover what a size came out as', async () => {
    const text = `${HEAD}  - { of: bore, size: diameter, value: 10.02 }\n  - { of: bore, size: diameter, value: 10.01 }\n`;
    const s = await record(text);
    const hover = (at: string) => hoverAt(s, s.text.indexOf(at))?.contents.value ?? '';
    assert.match(hover('10.02'), /bore diameter 10\.02 mm: \*\*0\.005 mm over\*\* 10 mm … 10\.015 mm/);
    assert.match(hover('10.01 '), /bore diameter 10\.01 mm: within 10 mm … 10\.015 mm/);
  });

  it('is begun with a line for each measured size of each piece, which is a record once it is filled in', async () => {
    const part = await world().snapshot('mem:///w/block.part.yaml');
    assert.ok(part?.kind === 'part');
    const begun = starterRecord(part, 'block.part.yaml', '1a2b3c4d');
    assert.deepEqual((await record(begun)).findings, []);
    const rows = begun.split('\n').filter((l) => l.startsWith('  # - '));
    assert.equal(rows.length, 4);
    const filled = begun.replace(/^ {2}# - /gm, '  - ').replace(/value: ,/g, 'value: 10.005,');
    const s = await record(filled);
    assert.ok(s.findings.every((f) => f.rule === 'tol/measured' && f.of[0] === 'pad'));
    assert.deepEqual(
      s.judged!.sizes.map((x) => [x.measured.piece, x.name, x.outMm === 0]),
      [
        [1, 'bore diameter', true],
        [1, 'pad depth', false],
        [2, 'bore diameter', true],
        [2, 'pad depth', false],
      ],
    );
  });
});

/** What a screw's name stands for, where it is written: inlay hints, hovers and completion of threads, clearances and recesses. */
import assert from 'node:assert/strict';
import { completionsAt } from '../../server/src/service/completion';
import { hoverAt } from '../../server/src/service/hover';
import { inlaysOf } from '../../server/src/service/inlays';
import { ALL, snapshotOf } from './alone';

const part = (fields: string, units = 'mm') =>
  `part: a\nunits: ${units}\nmaterial: aluminium-6061-t6\nbody: { x: 40 mm, y: 40 mm, z: 20 mm }\nfeatures:\n  h:\n    kind: hole\n    face: top\n    at: { x: center, y: center }\n${fields
    .split('; ')
    .map((f) => `    ${f}\n`)
    .join('')}`;

async function beside(fields: string, units?: string): Promise<Readonly<Record<string, string>>> {
  const snapshot = await snapshotOf(part(fields, units));
  const lines = snapshot.text.split('\n');
  return Object.fromEntries(
    inlaysOf(snapshot, ALL).map((h) => [lines[h.position.line]!.trim().split(':')[0]!, String(h.label)]),
  );
}

async function hover(fields: string, needle: string): Promise<string> {
  const snapshot = await snapshotOf(part(fields));
  const found = hoverAt(snapshot, snapshot.text.indexOf(needle) + needle.length - 1);
  return (found?.contents as { value: string } | undefined)?.value ?? '';
}

async function offered(fields: string, key: string): Promise<ReadonlyMap<string, string>> {
  const snapshot = await snapshotOf(part(fields));
  const at = snapshot.text.indexOf(`${key}: `) + key.length + 2;
  return new Map(completionsAt(snapshot, at).map((i) => [i.label, i.detail ?? '']));
}

describe('screws beside the text', () => {
  // ISO 273, DIN 974-1, ISO 10642, ISO 2306: the numbers of an M5.
  it('a thread: its drill, its share, its length in diameters', async () => {
    const hints = await beside('thread: M5; thread-depth: 10; depth: 15');
    assert.equal(hints.thread, 'drill 4.2 mm, 77 % of thread');
    assert.equal(hints['thread-depth'], '2 × D');
    assert.equal((await beside('thread: 10-24 UNC; depth: 12', 'in')).thread, 'drill 0.149 in (#25), 75 % of thread');
    assert.equal((await beside('thread: M5; diameter: 4.3; depth: 15')).diameter, '67 % of thread');
  });

  it('a clearance hole, and its fit', async () => {
    assert.equal((await beside('clearance: M5; depth: through')).clearance, '5.5 mm, normal fit, ISO 273 medium');
    assert.equal((await beside('clearance: 1/4 close; depth: 9')).clearance, '6.747 mm, close fit, ASME B18.2.8');
  });

  it('a recess says its clearance too, where nothing else does', async () => {
    assert.equal(
      (await beside('counterbore: M5; depth: through')).counterbore,
      'diameter 10 mm, 5.4 mm deep, hole 5.5 mm',
    );
    const both = await beside('counterbore: M5; clearance: M5 loose; depth: through');
    assert.deepEqual(
      [both.counterbore, both.clearance],
      ['diameter 10 mm, 5.4 mm deep', '5.8 mm, loose fit, ISO 273 coarse'],
    );
    assert.equal((await beside('countersink: M6; depth: through')).countersink, 'diameter 13.44 mm, 90°, hole 6.6 mm');
  });

  it('hovers tell the tables, what the thread holds, and where two standards differ', async () => {
    const thread = await hover('thread: M5; thread-depth: 10; depth: 15', 'thread: M5');
    // ISO 965-1 6H of M5: 4.134 to 4.334; 14.2 mm² · 800 = 11.3 kN; 10 · 0.5 · 310 · 0.875 π 5 = 21.3 kN.
    for (const piece of [
      /pitch 0\.8 mm/,
      /77 %/,
      /4\.134 mm to 4\.334 mm/,
      /2 × D/,
      /15\.5 kN/,
      /11\.3 kN/,
      /screw breaks first/,
    ])
      assert.match(thread, piece);
    assert.match(
      await hover('clearance: M5 close; depth: 9', 'M5 close'),
      /close 5\.3 mm, normal 5\.5 mm, loose 5\.8 mm/,
    );
    const sink = await hover('countersink: M6; depth: through', 'M6');
    assert.match(sink, /13\.44 mm/);
    assert.match(sink, /DIN 74-1 form B has 13 mm/);
    assert.match(await hover('counterbore: M5; depth: through', 'counterbore: M5'), /diameter 8\.5 mm, 5 mm high/);
  });

  it('completion offers sizes of the document’s system first, each with its numbers', async () => {
    const clearances = await offered('clearance: ; depth: 9', 'clearance');
    assert.match([...clearances.keys()][0]!, /^M/);
    assert.equal(clearances.get('M5'), '5.5 mm, normal fit, ISO 273 medium');
    assert.equal(clearances.get('M5 close'), '5.3 mm, close fit, ISO 273 fine');
    assert.ok(clearances.has('"#10 loose"'), 'a bare # would begin a comment');
    assert.equal((await offered('counterbore: ; depth: 9', 'counterbore')).get('M5'), 'diameter 10 mm, 5.4 mm deep');
    assert.equal((await offered('countersink: ; depth: 9', 'countersink')).get('M5'), 'diameter 11.2 mm, 90°');
    assert.match(
      (await offered('thread: ; depth: 9', 'thread')).get('M5')!,
      /tap drill 4\.2 mm \(77 % of thread\), tap in the shop/,
    );
  });

  it('whatever is offered is understood, as it stands', async () => {
    for (const key of ['clearance', 'counterbore', 'countersink', 'thread']) {
      for (const label of (await offered(`${key}: ; depth: through`, key)).keys()) {
        const snapshot = await snapshotOf(part(`${key}: ${label}; depth: through`));
        assert.ok(snapshot.kind === 'part' && snapshot.checked.part.features.length === 1, `${key}: ${label}`);
      }
    }
  });
});

/**
 * A part said otherwise is the same part, or the turned one: told by its solid, its walls and findings (`proof/same.ts`),
 * over every example and over drawn parts; and every comment is there, told by the `yaml` library.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import type { CodeAction } from '../../server/src/service/shapes';
import type { Snapshot } from '../../server/src/service/snapshot';
import { WRITING } from '../../server/src/service/writing';
import { applyEdits } from '../../server/src/text/edit';
import { partTexts } from '../proof/parts';
import { assertSame, SAME } from '../proof/same';
import { type FaceName, TURNS, type Turn, turnedFace, turnedPoint, turnedText, withParameters } from '../proof/turn';
import { commentsIn } from '../text/comments';
import { snapshotOf } from './alone';

const SHOP = builtinShop();
const folder = resolve(__dirname, '../../examples/gimbal/parts');
/** `PROOF_RUNS` has all of them, and more drawn parts. */
const MANY = Number(process.env.PROOF_RUNS ?? 1) > 1;
const EXAMPLES = readdirSync(folder)
  .filter((name) => MANY || /yoke|camera-tray|cable-clamp/.test(name))
  .map((name) => ({ name, text: readFileSync(join(folder, name), 'utf8') }));
const check = (text: string): CheckedPart => checkPart(text, SHOP);

/** What is offered where this piece of the text begins (or `by` characters on). */
function offeredAt(snapshot: Snapshot, at: number): readonly CodeAction[] {
  const place = snapshot.lines.position(at);
  return WRITING.rewritingsOf(snapshot, { start: place, end: place }, undefined);
}

/** The text after it; or why there is none. */
function done(snapshot: Snapshot, action: CodeAction): { readonly text: string } | { readonly refused: string } {
  const edit = WRITING.rewrittenAs(snapshot, action);
  if (typeof edit === 'string') return { refused: edit };
  const edits = Object.values(edit.changes!)[0]!.map((e) => ({
    start: snapshot.lines.offset(e.range.start),
    end: snapshot.lines.offset(e.range.end),
    newText: e.newText,
  }));
  return { text: applyEdits(snapshot.text, edits) };
}

function textOf(snapshot: Snapshot, action: CodeAction): string {
  const made = done(snapshot, action);
  assert.ok('text' in made, `${action.title}: ${'refused' in made ? made.refused : ''}\n${snapshot.text}`);
  return made.text;
}

/** Of two solids: as much metal, and as it lies. */
function assertSolid(a: CheckedPart, b: CheckedPart, turn: Turn = SAME): void {
  const [p, q] = [a.solid.measures, b.solid.measures];
  // A number that is told as rough may be rough in another way.
  if (!p.exact || !q.exact) return;
  const [x, y, z] = a.part.size;
  assert.ok(Math.abs(p.volumeMm3 - q.volumeMm3) <= 1e-6 * p.volumeMm3, `${p.volumeMm3} and ${q.volumeMm3} mm³`);
  turnedPoint(turn, p.centroid, { x, y, z }).forEach((at, i) => {
    assert.ok(Math.abs(at - q.centroid[i]!) < 1e-3, `${at} and ${q.centroid[i]} mm`);
  });
}

/** First axis to first axis, second to second, and the one face to the other: one of the 48. */
function ontoFace(from: FaceName, to: FaceName): Turn {
  const plane = (face: FaceName) =>
    ({ left: 'yz', right: 'yz', front: 'xz', back: 'xz', bottom: 'xy', top: 'xy' })[face];
  return TURNS.find((t) => {
    const goes = [...plane(from)].map((axis) => t[axis as 'x' | 'y' | 'z']);
    return goes.map((g) => g.to).join('') === plane(to) && goes.every((g) => g.sign > 0) && turnedFace(t, from) === to;
  })!;
}

async function take(text: string, before: string, title: RegExp): Promise<string> {
  const snapshot = await snapshotOf(text);
  const at = text.indexOf(before);
  assert.ok(at >= 0, before);
  const action = offeredAt(snapshot, at + before.length).find((a) => title.test(a.title));
  assert.ok(action, `${title} is not among ${offeredAt(snapshot, at + before.length).map((a) => a.title)}`);
  return textOf(snapshot, action);
}

const BLOCK = `part: block
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat: # the bearing's
    kind: hole
    face: top
    at: { x: 20, y: center } # from the left
    diameter: 22 H7
    depth: 7
    bottom: flat
  mount:
    kind: hole
    face: front
    at: { right: 12, z: 8 +0.1/-0.2 }
    thread: M5
    depth: 3 * 5 mm
`;

describe('rewritings', function () {
  this.timeout(120_000);

  it('a number becomes a parameter, and is its number again', async () => {
    const named = await take(BLOCK, 'depth: 7', /^Make 7 a parameter: seat-depth$/);
    assert.equal(
      named,
      BLOCK.replace('depth: 7', 'depth: seat-depth').replace('body:', 'parameters:\n  seat-depth: 7\nbody:'),
    );
    const fit = await take(named, 'diameter: 2', /^Make 22 a parameter/);
    assert.ok(
      fit.includes('  seat-depth: 7\n  seat-diameter: 22\n') && fit.includes('diameter: seat-diameter H7'),
      fit,
    );
    const part = await take(BLOCK, 'depth: 3 * 5', /^Make 5 mm a parameter/);
    assert.ok(part.includes('mount-depth: 5 mm\n') && part.includes('depth: 3 * mount-depth\n'), part);
    const back = await take(named, 'depth: seat', /^Write 7 in place of seat-depth$/);
    assert.equal(back, BLOCK);
    const sum = named.replace('seat-depth: 7', 'seat-depth: 3 + 4').replace('3 * 5 mm', '2 * seat-depth');
    const written = await take(sum, '2 * seat', /^Write 3 \+ 4 in place/);
    assert.ok(written.includes('depth: 3 + 4\n') && written.includes('depth: 2 * (3 + 4)\n'), written);
  });

  it('a place is counted from the other face, with its limits the other way round', async () => {
    assert.ok(
      (await take(BLOCK, 'at: { x: 2', /^Count it from right: 40$/)).includes('{ right: 40, y: center } # from'),
    );
    assert.ok((await take(BLOCK, '{ right: 1', /^Count it along x: 48$/)).includes('{ x: 48, z:'));
    assert.ok((await take(BLOCK, 'z: 8', /^Count it from top: 8 \+0.2\/-0.1$/)).includes('top: 8 +0.2/-0.1 }'));
    assert.ok((await take(BLOCK, 'y: cen', /^Count it from back: 20$/)).includes('{ x: 20, back: 20 }'));
    const reckoned = BLOCK.replace('x: 20', 'x: body.x / 3');
    const other = await take(reckoned, 'x: body.x', /^Count it from right/);
    assert.ok(other.includes('{ right: body.x - (body.x / 3), y'), other);
    assert.ok(
      (await take(other, 'right: body', /^Count it from left: \(body\.x \/ 3\)$/)).includes('left: (body.x / 3)'),
    );
  });

  it('every number and place of every example, said otherwise, is the same part', async () => {
    let [made, refused] = [0, 0];
    for (const { name, text } of EXAMPLES) {
      const snapshot = await snapshotOf(text);
      const before = check(text);
      const seen = new Set<string>();
      for (let at = 0; at < text.length; at++) {
        if (!/[\d]/.test(text[at]!) && !text.startsWith('center', at)) continue;
        for (const action of offeredAt(snapshot, at)) {
          if (!/^(?:Make|Count|Write) /.test(action.title) || /mirror/.test(action.title)) continue;
          const key = `${action.title} ${text.lastIndexOf('\n', at)}`;
          if (seen.has(key)) continue;
          seen.add(key);
          const after = done(snapshot, action);
          if ('refused' in after) refused++;
          else {
            made++;
            assert.deepEqual(commentsIn(after.text), commentsIn(text));
            if (made % 25 === 0) assertSolid(before, check(after.text));
          }
        }
      }
      assert.ok(seen.size > 5, name);
    }
    assert.ok(made > 60 && refused < made / 20, `${made} made, ${refused} refused`);
  });

  const turn = (axis: 'x' | 'y' | 'z'): Turn =>
    TURNS.find((t) => (['x', 'y', 'z'] as const).every((a) => t[a].to === a && t[a].sign === (a === axis ? -1 : 1)))!;

  it('the mirror image of every example and of drawn parts is exactly that', async () => {
    const texts: string[] = EXAMPLES.map((e) => e.text);
    for (const { text } of fc.sample(partTexts(3), { numRuns: MANY ? 60 : 4, seed: 11 })) texts.push(text);
    for (const [i, text] of texts.entries()) {
      const axis = (['x', 'y', 'z'] as const)[i % 3]!;
      const snapshot = await snapshotOf(text);
      const action = offeredAt(snapshot, text.search(/^part/m)).find((a) => a.data?.id === `mirror-part-${axis}`)!;
      const image = textOf(snapshot, action);
      assert.deepEqual(commentsIn(image), commentsIn(text));
      // The oracle turns plain values and knows no parameters; letters stay letters in a mirror too.
      if (/parameters|engraving/.test(text)) continue;
      if (MANY || i === 1) assertSame(check(text), check(image), turn(axis));
      else assertSolid(check(text), check(image), turn(axis));
      assertSolid(check(turnedText(text, turn(axis))), check(image));
    }
  });

  it('a text in the other unit is the same part, and so it is when it is turned back', async () => {
    const texts = EXAMPLES.map((e) => e.text);
    for (const { text } of fc.sample(partTexts(2), { numRuns: MANY ? 60 : 1, seed: 5 }))
      texts.push(text, withParameters(text));
    for (const [i, text] of texts.entries()) {
      const there = await take(text, 'part', /^Write it in (?:inches|millimetres)/);
      assert.match(there, text.includes('units: in') ? /^units: mm/m : /^units: in/m);
      assert.deepEqual(commentsIn(there), commentsIn(text));
      const back = await take(there, 'part', /^Write it in /);
      assertSolid(check(text), check(there));
      // Whose sizes a bar is rolled to turns on the unit: where there is no bar, every finding is the same.
      if (i > 2) assertSame(check(text), check(there), SAME, false);
      if (MANY || i === 3) assertSolid(check(text), check(back));
    }
  });

  it('what is reckoned stays reckoned: numbers beside lengths get their unit, counts none', async () => {
    const text = `part: a
parameters:
  pitch: 25.4
  n: 3
  wall: 1/4 in
  tall: pitch / 2
body: { x: 4 * pitch, y: 40 ±0.1, z: tall + 12.7 }
features:
  row:
    kind: hole
    face: top
    at: { x: center, y: 10 + wall }
    pattern: { line: { x: pitch / n * 2, count: n } }
    diameter: max(5, wall) H7
    depth: sqrt(pitch * pitch) / 2
`;
    const there = await take(text, 'part', /^Write it in inches/);
    for (const line of [
      ...['part: a\nunits: in\n', 'pitch: 1\n', 'n: 3\n', 'wall: 1/4 in\n', 'tall: pitch / 2\n', 'x: 4 * pitch,'],
      ...['y: 40 mm ±0.1 mm,', 'z: tall + 0.5 }', 'y: 10 mm + wall }', 'x: pitch / n * 2, count: n'],
      ...['max(5 mm, wall) H7', 'sqrt(pitch * pitch) / 2'],
    ])
      assert.ok(there.includes(line), `${line}\n${there}`);
    assertSame(check(text), check(there), SAME, false);
  });

  it('equal features are one pattern, in rows where they stand so, and each by itself again', async () => {
    const hole = (name: string, place: string) =>
      `  ${name}:\n    kind: hole\n    face: top\n    at: ${place}\n    diameter: 5\n    depth: through\n`;
    const of = (...holes: string[]) =>
      `part: a\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n${holes.join('')}  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 9, depth: 4 }\ntolerances:\n  - { flatness: 0.1, of: top }\nsetups:\n  one: { up: top, cuts: [m-1, m-2, seat${holes.length > 2 ? ', m-3, m-4' : ''}] }\n`;
    const row = of(hole('m-1', '{ x: 10, y: 20 }'), hole('m-2', '{ x: 50, y: center }'));
    const one = await take(row, '  m-', /^Make 2 equal features one pattern: m$/);
    assert.ok(one.includes('at: { x: center, y: center }\n'), one);
    assert.ok(one.includes('pattern: { line: { x: 40, count: 2 } }\n') && one.includes('cuts: [m, seat]'), one);
    assertSame(check(row.replaceAll(/setups[\s\S]*/g, '')), check(one.replaceAll(/setups[\s\S]*/g, '')), SAME);
    const back = await take(one, '  m', /^Make 2 features of this pattern: m-1 to m-2$/);
    assert.ok(back.includes('cuts: [m-1, m-2, seat]') && back.includes('at: { x: 50, y: center }'), back);
    assertSolid(check(row), check(back));

    const four = of(
      hole('m-1', '{ x: 10, y: 8 }').replace('at:', '# the first\n    at:'),
      hole('m-2', '{ right: 10, y: 8 }'),
      hole('m-3', '{ x: 10, back: 8 }').replace('at:', '# and the third\n    at:'),
      hole('m-4', '{ right: 10, back: 8 }'),
    );
    const grid = await take(four, '  m-', /^Make 4 equal features one pattern: m$/);
    assert.ok(grid.includes('grid: { x: { pitch: 40, count: 2 }, y: { pitch: 24, count: 2 } }'), grid);
    assert.deepEqual(commentsIn(grid), commentsIn(four));
    const spoken = four.replace('of: top', 'of: m-3').replace('flatness', 'position');
    const places = await take(spoken, '  m-', /^Make 4 equal/);
    assert.ok(places.includes('{ places: [{ x: 10, y: 8 }, { right: 10, y: 8 }, '), places);
    assert.ok(places.includes('of: "m[3]" }'), places);
    const apart = four.replace(
      'one: { up: top, cuts: [m-1, m-2',
      'zero: { up: top, cuts: [m-1, m-2] }\n  one: { up: top, cuts: [',
    );
    const snapshot = await snapshotOf(apart.replace('[, seat', '[seat'));
    const refused = done(
      snapshot,
      offeredAt(snapshot, apart.indexOf('  m-1') + 3).find((a) => /one pattern/.test(a.title))!,
    );
    assert.ok('refused' in refused && /cut in different set-ups/.test(refused.refused), JSON.stringify(refused));
  });

  it('every pattern of every example and of drawn parts, each member by itself, is the same part', async () => {
    const texts = EXAMPLES.map((e) => e.text);
    for (const { text } of fc.sample(partTexts(2, ['hole', 'pocket', 'slot']), { numRuns: MANY ? 90 : 5, seed: 3 }))
      texts.push(text);
    let made = 0;
    for (const text of texts) {
      const snapshot = await snapshotOf(text);
      for (const { index } of text.matchAll(/(?<=^ {2})[a-z][a-z0-9-]*:/gm)) {
        const action = offeredAt(snapshot, index).find((a) => / of this pattern: /.test(a.title));
        const after = action && done(snapshot, action);
        if (!after || 'refused' in after) continue;
        made++;
        assertSolid(check(text), check(after.text));
        assert.deepEqual(commentsIn(after.text), commentsIn(text));
      }
    }
    assert.ok(made > 4, String(made));
  });

  it('a feature that is moved to another face, or mirrored where it is, is as it was there', async () => {
    const kinds = ['hole', 'pocket', 'slot', 'step', 'groove', 'slope'];
    const drawn = fc.sample(partTexts(1, kinds), { numRuns: MANY ? 400 : 40, seed: 8 });
    let [moved, mirrors] = [0, 0];
    for (const [i, { text }] of drawn.entries()) {
      // In a cube, every face is as large.
      const cube = text.replace(/body: \{.*\}/, 'body: { x: 40, y: 40, z: 40 }');
      if (!/^ {2}f1:/m.test(cube) || /tilt|from|round-bar|text:/.test(cube)) continue;
      const snapshot = await snapshotOf(cube);
      const actions = offeredAt(snapshot, cube.indexOf('  f1:') + 3).filter((a) => /^(?:Move|Mirror) f1/.test(a.title));
      const action = actions[i % Math.max(1, actions.length)];
      if (!action) continue;
      const after = done(snapshot, action);
      if ('refused' in after) continue;
      const [a, b] = [check(cube), check(after.text)];
      const axis = /^mirror-([xyz])$/.exec(action.data!.id)?.[1] as 'x' | 'y' | 'z' | undefined;
      if (axis) {
        mirrors++;
        assertSolid(a, b, turn(axis));
        continue;
      }
      moved++;
      const face = (c: CheckedPart) => c.part.features[0]!.face;
      assert.equal(`Move f1 to ${face(b)}`, action.title);
      assertSolid(a, b, ontoFace(face(a), face(b)));
    }
    assert.ok(moved > 8 && mirrors > 2, `${moved} moved, ${mirrors} mirrored`);
  });
});

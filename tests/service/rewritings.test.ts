/**
 * A part said otherwise is the same part, or the turned one: told by its solid, its walls and findings (`proof/same.ts`),
 * over every example and over drawn parts; and every comment is there, told by the `yaml` library.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { type CST, Parser } from 'yaml';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { rewritingsOf, rewrittenAs } from '../../server/src/service/rewritings';
import type { CodeAction } from '../../server/src/service/shapes';
import type { Snapshot } from '../../server/src/service/snapshot';
import { WRITING } from '../../server/src/service/writing';
import { applyEdits } from '../../server/src/text/edit';
import { partTexts } from '../proof/parts';
import { assertSame, SAME } from '../proof/same';
import { TURNS, type Turn, turnedPoint, turnedText } from '../proof/turn';
import { snapshotOf } from './alone';

const SHOP = builtinShop();
const folder = resolve(__dirname, '../../examples/gimbal/parts');
const EXAMPLES = readdirSync(folder).map((name) => ({ name, text: readFileSync(join(folder, name), 'utf8') }));
const check = (text: string): CheckedPart => checkPart(text, SHOP);

/** What is offered where this piece of the text begins (or `by` characters on). */
function offeredAt(snapshot: Snapshot, at: number): readonly CodeAction[] {
  const place = snapshot.lines.position(at);
  return rewritingsOf(WRITING, snapshot, { start: place, end: place }, undefined);
}

/** The text after it; or why there is none. */
function done(snapshot: Snapshot, action: CodeAction): { readonly text: string } | { readonly refused: string } {
  const edit = rewrittenAs(WRITING, snapshot, action);
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

function comments(text: string): readonly string[] {
  const found: string[] = [];
  const walk = (token: unknown): void => {
    if (Array.isArray(token)) for (const t of token) walk(t);
    else if (token && typeof token === 'object') {
      const { type, source } = token as CST.SourceToken;
      if (type === 'comment') found.push(source.trimEnd());
      for (const inner of Object.values(token)) if (typeof inner === 'object') walk(inner);
    }
  };
  walk([...new Parser().parse(text)]);
  return found.sort();
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
            assert.deepEqual(comments(after.text), comments(text));
            if (made % 25 === 0) assertSolid(before, check(after.text));
          }
        }
      }
      assert.ok(seen.size > 5, name);
    }
    assert.ok(made > 150 && refused < made / 20, `${made} made, ${refused} refused`);
  });

  const turn = (axis: 'x' | 'y' | 'z'): Turn =>
    TURNS.find((t) => (['x', 'y', 'z'] as const).every((a) => t[a].to === a && t[a].sign === (a === axis ? -1 : 1)))!;

  it('the mirror image of every example and of drawn parts is exactly that', async () => {
    const texts: string[] = EXAMPLES.map((e) => e.text);
    for (const { text } of fc.sample(partTexts(3), { numRuns: 12, seed: 11 })) texts.push(text);
    for (const [i, text] of texts.entries()) {
      const axis = (['x', 'y', 'z'] as const)[i % 3]!;
      const snapshot = await snapshotOf(text);
      const action = offeredAt(snapshot, text.search(/^part/m)).find((a) => a.data?.id === `mirror-part-${axis}`)!;
      const image = textOf(snapshot, action);
      assert.deepEqual(comments(image), comments(text));
      // The oracle turns plain values and knows no parameters; letters stay letters in a mirror too.
      if (/parameters|engraving/.test(text)) continue;
      if (i === 3 || i === 9) assertSame(check(text), check(image), turn(axis));
      else assertSolid(check(text), check(image), turn(axis));
      assertSolid(check(turnedText(text, turn(axis))), check(image));
    }
  });
});

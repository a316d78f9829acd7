/**
 * Plans written into damaged parts: either nothing is written, or everything stays that a person wrote and the plan does
 * not replace. What stood in the text is looked up by patterns over its lines, and by the `yaml` library, not by the
 * reader that the program uses.
 */

import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseDocument } from 'yaml';
import { hiddenIn, writePlan } from '../../server/src/planning/keep';
import { planOf } from '../../server/src/planning/plan';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { SHOP } from '../planning/parts';
import { patience, type Random, random, runs } from './runs';

const FOLDER = 'examples/gimbal/parts';
const TEXTS = readdirSync(FOLDER).map((file) => readFileSync(join(FOLDER, file), 'utf8'));
const FACES = new Set(['top', 'bottom', 'left', 'right', 'front', 'back']);
/** So many damaged texts that can still be read are planned for real; planning takes a second. */
const PLANNED = 1;
const SHARE = 60;

/** One small accident of typing: a character or a line gone, twice, or another. */
function damaged(text: string, chance: Random): string {
  const lines = text.split('\n');
  const line = chance.below(lines.length);
  const at = chance.below(text.length);
  const odd = chance.pick([...'x{}[]:#,-&*|"\' \n\t0']);
  switch (chance.below(7)) {
    case 0:
      return text.slice(0, at) + text.slice(at + 1);
    case 1:
      return text.slice(0, at) + text[at] + text.slice(at);
    case 2:
      return text.slice(0, at) + odd + text.slice(at + 1);
    case 3:
      return lines.toSpliced(line, 1).join('\n');
    case 4:
      return lines.toSpliced(line, 0, lines[line]!).join('\n');
    case 5:
      return lines.toSpliced(line, 1, ` ${lines[line]}`).join('\n');
    default:
      return lines.toSpliced(line, 1 + chance.below(4)).join('\n');
  }
}

/** Every name in a list of cuts, faces left out. */
function cutsIn(text: string): readonly string[] {
  const lists = [...text.matchAll(/\bcuts:\s*\[([^\]]*)\]/g)].flatMap((m) => m[1]!.split(','));
  const lines = [...text.matchAll(/\bcuts:[ \t]*\r?\n((?:[ \t]*-[^\n]*\n)+)/g)].flatMap((m) => m[1]!.split('\n'));
  const names = [...lists, ...lines.map((l) => l.replace(/^\s*-/, ''))].map((n) => n.replace(/#.*/, '').trim());
  return names.filter((n) => n !== '' && !FACES.has(n));
}

function setupsIn(text: string): readonly string[] {
  const setups: unknown = parseDocument(text, { uniqueKeys: false, logLevel: 'silent' }).toJS()?.setups;
  return setups && typeof setups === 'object' ? Object.keys(setups) : [];
}

/** Where a line says `# …` outside quotes; good enough for the examples, which quote no `#`. */
const commentsIn = (text: string) => [...text.matchAll(/(?:^|\s)(#.*)$/gm)].map((m) => m[1]!.trim());

function holds(before: string, checked: CheckedPart, written: ReturnType<typeof writePlan>): void {
  const unread = checked.findings.filter(
    (f) => f.severity === 'error' && ['form/schema', 'form/unit', 'form/unknown-name'].includes(f.rule),
  );
  if (written.kept) return;
  assert.deepEqual(unread, [], `written though it says ${unread[0]?.message}\n${before}`);
  const { text } = written;
  const cuts = new Set(cutsIn(text));
  for (const name of cutsIn(before)) assert.ok(cuts.has(name), `${name} is cut no more\n${before}\n---\n${text}`);
  const read = new Set(checked.part.setups?.map((s) => s.name));
  for (const name of setupsIn(before)) assert.ok(read.has(name), `set-up ${name} was not read, and is gone\n${before}`);
  const kept = commentsIn(text);
  for (const comment of commentsIn(before))
    assert.ok(kept.includes(comment), `${comment} is gone\n${before}\n---\n${text}`);
}

describe('a plan written into a damaged part', function () {
  this.timeout(patience(120_000));

  it('drops nothing that could not be read', () => {
    const chance = random(4111);
    // What cannot be read is refused whatever the plan is: that of one part will do for all, and saves planning.
    const small = TEXTS.reduce((a, b) => (b.length < a.length ? b : a));
    const any = planOf(checkPart(small, SHOP), { mostAttempts: 60 })!;
    let [refused, written, real] = [0, 0, 0];
    for (let i = 0; i < runs(SHARE); i++) {
      let text = chance.pick(TEXTS);
      for (let n = 1 + chance.below(2); n > 0; n--) text = damaged(text, chance);
      const checked = checkPart(text, SHOP);
      const bad = hiddenIn(checked).length > 0;
      if (!bad && (real >= runs(PLANNED) || !checked.part.body)) continue;
      if (!bad) real++;
      const plan = bad ? any : planOf(checked, { mostAttempts: 60 });
      if (!plan) continue;
      const answer = writePlan(plan, checked);
      holds(text, checked, answer);
      if (bad) assert.equal(answer.kept, 'unread');
      if (answer.kept === 'unread') refused++;
      if (!answer.kept) written++;
    }
    assert.ok(refused >= runs(SHARE) / 8, `${refused} of the texts could not be read`);
    assert.ok(written >= runs(PLANNED) / 3, `${written} of ${real} were written`);
  });
});

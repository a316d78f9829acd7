/**
 * What a message on a collision says would do, is offered; what is offered was tried; and an error is never without an
 * offer where the planner finds a plan for the part: then *Plan anew* is one. Examples, the rules' own parts, planted faults, each
 * also held and cut otherwise than it should be, and drawn parts.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { writePlan } from '../../server/src/planning/keep';
import { planFor } from '../../server/src/planning/plan-cache';
import { checkPart, checkShop, fixesFor } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/kit/rule';
import { RULES } from '../../server/src/rules/registry';
import { acceptOffered, isCollision } from '../../server/src/service/accept';
import { planOffered } from '../../server/src/service/plan/offered';
import { draws, patience, random, runs } from '../fuzz/runs';
import { shopOf } from '../rules/tester';
import { PLANTED, SHOP } from '../simulator/defects';
import { partText } from '../simulator/generate';

/** What is said, and the title that must be offered for it. */
const SAID: readonly (readonly [said: RegExp, offered: (m: RegExpMatchArray) => readonly RegExp[]])[] = [
  [/(Cut it last in \S+)\./g, (m) => [title(m[1]!)]],
  [
    /Cut it in (?!another)([^.(]+?)(?: \(\w+ up\))?\./g,
    (m) => m[1]!.split(/, | or /).map((s) => new RegExp(`^Cut it in ${s}`)),
  ],
  [/(Grip \S+ (?:mm|in) on .*?(?: parallels|the vise bed)|Grip \S+ (?:mm|in)(?=\.(?:$|\s)))/gi, (m) => [title(m[1]!)]],
  [/(Put the stop against \w+)/gi, (m) => [title(m[1]!)]],
  [/(Clamp it at .*?)\.(?= |$)/gi, (m) => [title(m[1]!)]],
  [/(Screw it to a plate through .*?)(?=\.|, or )/gi, (m) => [title(m[1]!)]],
  [/(Leave four tabs(?: and cut [\w-]+ with [\w-]+)?)/gi, (m) => [title(m[1]!)]],
  [/Put parallels under the workpiece/g, () => [/ on the .* parallels$/]],
  [/(Make it \S+ (?:mm|in) deep, within reach of [\w-]+(?:\.\d+)?)/gi, (m) => [title(m[1]!)]],
  [/(Make it \S+ (?:mm|in) wide, for [\w-]+(?:\.\d+)?)/gi, (m) => [title(m[1]!)]],
  [/(Make the thread \S+ (?:mm|in) deep)/gi, (m) => [title(m[1]!)]],
  [/Make it (\S+ (?:mm|in))(?: at most)? \((\S+)\)/g, (m) => [title(`Make it ${m[1]}, for ${m[2]}`)]],
];
/** Changes outside the part's text (in the shop, at the machine), or that only a person can choose. */
const NOT_IN_THE_TEXT =
  /Use (?:a slimmer holder, or a longer tool|a longer tool, or (?:less depth|another set-up)|a drill \S+ \S+ longer, or a slimmer holder|\S+, which cuts it [^.]*|a pair up to \S+ \S+ wide|[^.]* from its side)\.|Support it with something solid\.|Cut half from each side\.|Hold it another way(?:, or cut it in another set-up|: no pair in the shop fits)?\.|Make it wider, or add one to the shop file\.|Grip what stays, or leave tabs\.|Use another hole, or cut it before\./g;
const title = (t: string) => new RegExp(`^${t.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}$`, 'i');

function named(message: string): { readonly wanted: readonly RegExp[]; readonly rest: string } {
  let rest = message;
  const wanted: RegExp[] = [];
  for (const [said, offered] of SAID)
    rest = rest.replace(said, (...m) => {
      wanted.push(...offered(m as unknown as RegExpMatchArray));
      return '';
    });
  return { wanted, rest: rest.replace(NOT_IN_THE_TEXT, '') };
}

interface Case {
  readonly what: string;
  readonly text: string;
  readonly shop: Shop;
}
const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const campus = checkShop(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;
const bench = checkShop(SHOP).shop;
const WRITTEN: readonly Case[] = [
  ...['faulty', 'parts'].flatMap((folder) =>
    readdirSync(join(GIMBAL, folder))
      .filter((f) => f.endsWith('.part.yaml'))
      .map((f) => ({ what: f, text: readFileSync(join(GIMBAL, folder, f), 'utf8'), shop: campus })),
  ),
  ...RULES.filter((r) => r.when !== 'job').map((r) => ({ what: r.name, text: r.bad, shop: shopOf(r) })),
  ...PLANTED.map((p) => ({ what: `planted: ${p.what}`, text: p.bad, shop: bench })),
];

/** The same part with one number changed: held deeper or less deep, cut deeper. */
function* changed({ what, text, shop }: Case): Generator<Case> {
  const put = (m: RegExpMatchArray, key: string, to: string) => ({
    what: `${what}, ${m[0]} → ${to}`,
    text: `${text.slice(0, m.index)}${key}: ${to}${text.slice(m.index! + m[0].length)}`,
    shop,
  });
  for (const m of text.matchAll(/grip: (\d+)/g)) for (const to of ['3', '16', '24']) yield put(m, 'grip', to);
  for (const m of text.matchAll(/depth: (\d+(?:\.\d+)?)\b/g)) yield put(m, 'depth', (Number(m[1]) * 1.8).toFixed(1));
}
const CHANGED = WRITTEN.flatMap((c) => [...changed(c)]);

const told = (f: Finding) => `${f.rule} ${f.of}: ${f.message}`;
const count = { found: 0, named: 0, offered: 0, planned: 0 };

function agrees({ what, text, shop }: Case, plans: boolean): void {
  const checked = checkPart(text, shop);
  for (const finding of checked.findings.filter(isCollision).slice(0, 4)) {
    const titles = fixesFor(checked, finding).map((f) => f.title);
    const { wanted, rest } = named(finding.message);
    const where = `${what}\n${told(finding)}\noffered: ${titles.join(' | ')}\n${text}`;
    for (const w of wanted)
      assert.ok(
        titles.some((t) => w.test(t)),
        `${w} is said and not offered: ${where}`,
      );
    assert.doesNotMatch(
      rest,
      /\b(?:Grip|Make|Put|Clamp|Cut|Hold|Screw|Leave|Support|Move|Use) [a-z\d]/,
      `a change that nobody knows: ${where}`,
    );
    count.found++;
    if (wanted.length > 0) count.named++;
    if (titles.length > 0) count.offered++;
    if (!plans) continue;
    const plan = planFor(checked);
    const planned = planOffered(checked, finding);
    if (plan && finding.severity === 'error' && !writePlan(plan, checked).kept) {
      count.planned++;
      assert.ok(planned || titles.length > 0, `there is a plan, and nothing is offered: ${where}`);
    }
    if (titles.length === 0 && !planned) assert.equal(acceptOffered(checked, finding, 0), undefined, where);
  }
}

describe('cures of a collision', function () {
  this.timeout(patience(300_000));

  it('are those that the message names: examples, the rules’ parts, planted faults', () => {
    const roll = random(20261129);
    for (const c of WRITTEN.filter((w) => /^setups:/m.test(w.text))) agrees(c, roll.next() < runs(1) / 4);
    for (const c of CHANGED) if (roll.next() < runs(1) / 25) agrees(c, roll.next() < runs(1) / 5);
    assert.ok(count.found > 25 && count.named > 12 && count.offered > 15 && count.planned > 0, JSON.stringify(count));
  });

  it('are those that the message names: drawn parts', () => {
    const grips = fc.constantFrom('3', '6', '12', '20');
    fc.assert(
      fc.property(partText, grips, fc.boolean(), (text, grip, held) => {
        agrees(
          { what: 'drawn', text: held ? text.replace(/grip: [\d.]+/g, `grip: ${grip}`) : text, shop: builtinShop() },
          false,
        );
      }),
      draws(11, 20),
    );
  });
});

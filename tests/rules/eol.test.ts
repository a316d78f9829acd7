/** Line ends of the author's text: what a fix writes ends its lines as the document does. CRLF in, CRLF out. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import { RULES } from '../../server/src/rules/registry';
import { ALUMINIUM } from './parts';
import { fixed, shopOf } from './tester';

/** `cuts: [a, b]` as lines of their own, as many authors write them. */
function inLines(text: string): string {
  return text.replace(/^( +)cuts: \[([^\]]*)\]$/gm, (_, indent: string, names: string) =>
    [`${indent}cuts:`, ...names.split(', ').map((n) => `${indent}  - ${n}`)].join('\n'),
  );
}

function crlf(text: string): string {
  return text.replace(/\n/g, '\r\n');
}

/** Answers how many fixes were tried. */
function keepsLineEnds(text: string, rule: string, shop: Shop): number {
  const checked = checkPart(text, shop);
  const found = checked.findings.find((f) => f.rule === rule);
  const fixes = found ? fixesFor(checked, found) : [];
  for (const fix of fixes) {
    const out = fixed(checked, fix);
    assert.doesNotMatch(out, /(^|[^\r])\n|\r(?!\n)/, `${rule}: '${fix.title}' mixes line ends`);
  }
  return fixes.length;
}

describe('fixes keep the line ends of the document', () => {
  for (const topic of ['access', 'hold', 'setup', 'form', 'thread', 'stock', 'tol', 'hole'])
    it(`of every rule on ${topic}`, function () {
      this.timeout(60_000);
      let tried = 0;
      for (const rule of RULES) {
        if (!rule.name.startsWith(`${topic}/`) || !rule.mend || rule.when === 'job' || rule.when === 'plan') continue;
        tried += keepsLineEnds(crlf(rule.bad), rule.name, shopOf(rule));
        const lines = inLines(rule.bad);
        if (lines !== rule.bad) tried += keepsLineEnds(crlf(lines), rule.name, shopOf(rule));
      }
      assert.ok(tried > 2, `${tried}`);
    });

  it('a cut moved to the end of a list in lines, before another, and to a set-up whose list ends the text', () => {
    const text = (end: string) =>
      crlf(`${ALUMINIUM}body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
  bore: { kind: hole, face: top, from: seat, at: { x: center, y: center }, diameter: 8, depth: 10 }
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 6, depth: 10 }
  rest: { kind: hole, face: top, at: { x: 50, y: center }, diameter: 6, depth: 10 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    cuts:
      - bore # first
      - tie
  second:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    cuts:
      - rest
      - seat # last${end}`);
    const tried = ['', '\n'].map((end) => keepsLineEnds(text(end), 'setup/order', builtinShop()));
    assert.deepEqual(tried, [2, 2]);
  });
});

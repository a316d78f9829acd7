/**
 * Fixtures that carry their expectations in the text: `# ! wall/thin` at the end of a line says that a finding of
 * that rule starts on that line; several are joined by commas. Every finding must be marked, and every mark found.
 * Hints need no mark unless a hint's rule is marked somewhere in the text.
 */

import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import type { Finding } from '../../server/src/rules/kit/rule';
import type { TextTree } from '../../server/src/text/tree';

interface MarkedOptions {
  readonly shop?: Shop;
  /** Only these topics are looked at: `['wall', 'hole']`. All where left out. */
  readonly topics?: readonly string[];
  /** Hints must be marked too. */
  readonly hints?: boolean;
}

/** Checks the text against its own marks; answers what was checked, for more. */
export function checkMarked(text: string, options: MarkedOptions = {}): CheckedPart {
  const checked = checkPart(text, options.shop ?? builtinShop());
  agreeWithMarks(checked.tree, checked.findings, options);
  return checked;
}

/** What was found of a document of any kind against the marks in its text. */
export function agreeWithMarks(
  { text, locate }: Pick<TextTree, 'text' | 'locate'>,
  findings: readonly Finding[],
  options: Omit<MarkedOptions, 'shop'> = {},
): void {
  const expected = marksOf(text);
  const marked = new Set(expected.map((m) => m.rule));
  const found = findings
    .filter((f) => !options.topics || options.topics.includes(f.rule.split('/')[0]!))
    .filter((f) => options.hints || f.severity !== 'hint' || marked.has(f.rule))
    .map((f) => ({ line: lineOf(text, locate(f.span).start), rule: f.rule, message: f.message }));
  const say = (m: { line: number; rule: string }) => `${m.line}: ${m.rule}`;
  const wanted = expected.map(say).sort();
  const got = [...new Set(found.map(say))].sort();
  const detail = found.map((f) => `  ${say(f)} – ${f.message}`).join('\n');
  assert.deepEqual(got, wanted, `findings and marks differ; found:\n${detail}`);
}

/** The marks of a text: line numbers from 1. */
export function marksOf(text: string): readonly { line: number; rule: string }[] {
  return text.split('\n').flatMap((line, i) => {
    const mark = /# ! ?([a-z/, -]+?)\s*$/.exec(line);
    return mark ? mark[1]!.split(',').map((rule) => ({ line: i + 1, rule: rule.trim() })) : [];
  });
}

function lineOf(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

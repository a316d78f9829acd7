/** What the rules say of setups that stand in no text yet: only the rules on reaching, holding and order, and only of the last setup. */

import type { Solid } from '../geometry/types';
import { featureNameOf } from '../model/member-name';
import type { Part, Setup } from '../model/model';
import type { Shop } from '../model/shop-model';
import type { ReadPart } from '../rules/judging';
import type { Finding } from '../rules/kit/rule';
import { RULES } from '../rules/registry';
import { runOne } from '../rules/run';
import type { TextTree } from '../text/tree';

/** Not of one setup, but of the whole plan, or of what is not in it yet. */
const OF_THE_WHOLE: ReadonlySet<string> = new Set([
  'access/no-setup',
  'setup/unassigned',
  'setup/twice',
  'setup/craft',
  'setup/more-than-needed',
  'setup/across',
  'setup/opposite-zero',
]);
/** Of a whole plan by which two are compared: what is off between two set-ups, or measured from what is cut later. */
const COMPARED: ReadonlySet<string> = new Set(['setup/across', 'setup/opposite-zero', 'setup/order', 'machine/travel']);
/** What no tool makes in any set-up is no fault of one; a face may have a tool from another side. */
const NO_TOOL = 'access/no-tool';

const HOLDING = RULES.filter((r) => /^(hold|setup)\//.test(r.name) && !OF_THE_WHOLE.has(r.name));
const REACHING = RULES.filter((r) => r.name.startsWith('access/') && !OF_THE_WHOLE.has(r.name));

/**
 * Findings about the last of these setups, those before it taken as they are. Holding is judged first: it costs little,
 * and what cannot be held need not be reached.
 */
export function judgeLast(
  part: Part,
  shop: Shop,
  solid: Solid,
  tree: TextTree,
  setups: readonly Setup[],
): readonly Finding[] {
  const last = setups[setups.length - 1]!;
  const cut = new Set(last.cuts.map((c) => c.name));
  // What the earlier ones cut is history: it made the workpiece, and was judged when it was planned.
  const features = part.features.filter((f) => cut.has(f.name));
  const planned: Part = { ...part, features, setups, settled: setups.length - 1 };
  const run = (rules: typeof RULES) =>
    rules
      .flatMap((rule) => runOne(rule, { part: planned, shop, solid, tree }, { counting: true }))
      .filter((f) => f.span.block === last.span.block || f.of.some((name) => cut.has(featureNameOf(name))))
      .filter((f) => f.rule !== NO_TOOL || f.span.block === last.span.block);
  const held = run(HOLDING);
  return held.some((f) => f.severity === 'error') ? held : [...held, ...run(REACHING)];
}

const WHOLE = RULES.filter((r) => COMPARED.has(r.name));

/**
 * How many warnings a plan has besides those of its set-ups one by one, and how many hints; `setups`: with the warnings that
 * each has by itself.
 */
export function ofWhole(
  { part, shop, solid, tree }: ReadPart,
  setups: readonly { readonly setup: Setup; readonly warnings: readonly Finding[] }[],
): { readonly warnings: number; readonly hints: number } {
  const planned: Part = { ...part, setups: setups.map((s) => s.setup) };
  const all = WHOLE.flatMap((rule) => runOne(rule, { part: planned, shop, solid, tree }, { counting: true }));
  const known = setups.flatMap((s) => s.warnings).filter((f) => COMPARED.has(f.rule));
  const hints = all.filter((f) => f.severity === 'hint').length;
  return { warnings: all.length - hints - known.length, hints };
}

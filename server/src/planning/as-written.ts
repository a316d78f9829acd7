/**
 * What `check` says of a text with a plan written into it: the plan is told with just that, set-up by set-up, so that the two
 * never differ. Left out is what is said of the part without any set-ups as well.
 */
import { memo } from '../memo';
import { featureNameOf } from '../model/member-name';
import { checkPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { applyEdits, locateEdits, removeEntry } from '../text/edit';
import { entry } from '../text/tree';
import type { Plan } from './plan';
import { writeSetups } from './write';

/** They judge set-ups; where a text has none they judge the part as if it were held in some way. */
export const OF_SETUPS = /^(access|hold|setup|machine)\//;

interface SaidOfPlan {
  /** For each set-up of the plan, in its order. */
  readonly bySetup: readonly (readonly Finding[])[];
  /** Of no set-up alone. */
  readonly besides: readonly Finding[];
}

/** In the order of the text. A plan that could not be written is told with what was said of its set-ups one by one. */
export const saidOfPlan = memo(
  (plan: Plan, checked: CheckedPart): SaidOfPlan => {
    const written = withPlan(plan, checked);
    if (!written) return { bySetup: plan.setups.map((s) => s.warnings), besides: [] };
    const bare = withoutSetups(checked);
    const before = new Set(bare.findings.map(keyOf));
    const said = written.findings.filter((f) => OF_SETUPS.test(f.rule) || !before.has(keyOf(f)));
    const left = new Set(plan.uncut.map((l) => l.item.name));
    const bySetup: Finding[][] = plan.setups.map(() => []);
    const besides: Finding[] = [];
    for (const finding of said) {
      const names = finding.of.map((name) => featureNameOf(name));
      // What the plan does not cut is told as that, and why.
      if (names.some((name) => left.has(name))) continue;
      const at = plan.setups.findIndex(({ setup }) => finding.span.block === `setups/${setup.name}`);
      const cut = at >= 0 ? at : plan.setups.findLastIndex((s) => s.items.some((i) => names.includes(i.name)));
      (bySetup[cut] ?? besides).push(finding);
    }
    return { bySetup, besides };
  },
  { size: 4 },
);

/** The text with the plan in it, judged; undefined where it is one that set-ups are not written into. */
function withPlan(plan: Plan, checked: CheckedPart): CheckedPart | undefined {
  const { part, tree, shop } = checked;
  if (plan.setups.length === 0) return undefined;
  const setups = plan.setups.map((s) => s.setup);
  const edits = writeSetups(setups, part, tree);
  if (edits.length === 0) return undefined;
  const text = applyEdits(tree.text, locateEdits(tree, edits));
  return checkPart(text, shop, checked);
}

function withoutSetups(checked: CheckedPart): CheckedPart {
  const { tree, shop } = checked;
  const setups = entry(tree.root, 'setups');
  if (!setups || tree.root?.type !== 'map') return checked;
  return checkPart(applyEdits(tree.text, locateEdits(tree, removeEntry(tree, tree.root, setups))), shop, checked);
}

function keyOf({ rule, span, message }: Finding): string {
  return `${rule} ${span.block} ${span.from} ${message}`;
}

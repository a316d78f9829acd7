/** What is found of a part's variants, each checked as a part of its own, told at its place in the text as written. */
import { memo } from '../memo';
import { placeIn, variantText } from '../model/variants';
import { samePlace } from '../text/tree';
import { readPart } from './check';
import type { CheckedPart } from './checked-part';
import { unneededAccept } from './form/unneeded-accept';
import { speaksOf } from './kit/accepting';
import { list } from './kit/message';
import type { Finding } from './kit/rule';
import { inTextOrder } from './order';

/** More rows than anyone looks at in turn are worked out anew. */
const MOST_KEPT = 50;

/** A row of the table as a part of its own; undefined where there is none of that name. */
export const variantOf = memo(
  (checked: CheckedPart, name: string): CheckedPart | undefined => {
    const text = variantText(checked.tree, name);
    return text === undefined ? undefined : readPart(text, checked.shop, checked);
  },
  { size: MOST_KEPT },
);

/** What one variant has, whatever the others have. */
export function findingsOfVariant(checked: CheckedPart, name: string): readonly Finding[] {
  return inTextOrder(
    raisedIn(checked, name).map((finding) => inVariants(finding, [name])),
    checked.tree,
  );
}

/** What the part as its parameters say does not have: each finding once, with the variants that have it. */
export function variantFindings(checked: CheckedPart): readonly Finding[] {
  const { variants } = checked.part;
  const known = new Set(checked.findings.map(keyOf));
  const found = new Map<string, { readonly finding: Finding; readonly names: string[] }>();
  for (const { name } of variants)
    for (const finding of raisedIn(checked, name)) {
      const key = keyOf(finding);
      const before = found.get(key);
      if (before) before.names.push(name);
      else if (!known.has(key)) found.set(key, { finding, names: [name] });
    }
  const all = [...found.values()].filter(({ finding, names }) => {
    // An entry of `accept` that one size needs is needed.
    return finding.rule !== unneededAccept.name || (names.length === variants.length && isIdle(checked, finding));
  });
  return inTextOrder(
    all.map(({ finding, names }) => inVariants(finding, names)),
    checked.tree,
  );
}

/** Whether the entry of `accept` that this is about speaks of nothing in the part as its parameters say. */
function isIdle({ judging, part }: CheckedPart, { span }: Finding): boolean {
  const accept = part.accept.find((a) => samePlace(a.span, span));
  return !accept || ![...judging.raised.values()].flat().some((finding) => speaksOf(accept, finding));
}

const raisedIn = memo(
  (checked: CheckedPart, name: string): readonly Finding[] => {
    const variant = variantOf(checked, name);
    if (!variant) return [];
    const place = placeIn(checked.tree, name, variant.tree);
    return variant.findings.map((finding) => ({
      ...finding,
      span: place(finding.span),
      related: finding.related.map((r) => (r.elsewhere ? r : { ...r, span: place(r.span) })),
    }));
  },
  { size: MOST_KEPT },
);

/** Without what would mend it: a change of the text changes every size. */
function inVariants({ data: _, fixes: __, ...finding }: Finding, names: readonly string[]): Finding {
  return { ...finding, message: `In ${list(names)}: ${finding.message}`, variants: names };
}

function keyOf({ rule, span, message }: Finding): string {
  return JSON.stringify([rule, span.block, span.from, message]);
}

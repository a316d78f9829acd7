/** What the rules' findings come to for one setup that is tried: which cuts they blame, and what is wrong with the hold itself. */

import { featureNameOf } from '../model/member-name';
import type { Setup } from '../model/model';
import type { Finding } from '../rules/kit/rule';
import { withCovered } from './covered';
import type { Item } from './item';

export interface Judged {
  readonly setup: Setup;
  /** Items that errors name, and small edges that warnings name. */
  readonly blamed: ReadonlyMap<Item, Finding>;
  /** Errors that name none. */
  readonly against: readonly Finding[];
  readonly warnings: readonly Finding[];
  readonly hints: number;
  /** For choosing among ways to hold one lot: the less the better. */
  readonly cost: number;
  /** Jaws milled to its shape would hold it better than plain ones. */
  readonly softer: boolean;
}

export function judgedBy(setup: Setup, findings: readonly Finding[], cut: readonly Item[]): Judged {
  const blamed = new Map<Item, Finding>();
  const against: Finding[] = [];
  for (const finding of findings) {
    const isError = finding.severity === 'error';
    if (!isError && finding.severity !== 'warning') continue;
    const names = new Set(finding.of.map((name) => featureNameOf(name)));
    // What a file does as well is not worth a warning.
    const guilty = cut.filter((item) => names.has(item.name) && (isError || item.byHand));
    for (const item of guilty) if (!blamed.has(item)) blamed.set(item, finding);
    if (isError && guilty.length === 0) against.push(finding);
  }
  const warnings = findings.filter((f) => f.severity === 'warning');
  const hints = findings.filter((f) => f.severity === 'hint').length;
  // Nothing held is worse than anything left out; a warning weighs less than a feature that must wait.
  const cost = against.length * 1e6 + blamed.size * 1e3 + warnings.length * 10 + hints * 0.01;
  const softer = setup.hold?.type === 'vise' && findings.some(isOfPlainJaws);
  return { setup, blamed, against, warnings, hints, cost, softer };
}

/**
 * The jaws touch a round side along a line or meet no flat; or a drill would go into the parallels, which jaws with a seat
 * milled into them do without.
 */
function isOfPlainJaws({ rule, severity }: Finding): boolean {
  return rule === 'hold/parallel' || (rule === 'hold/drills-the-parallels' && severity === 'warning');
}

/** Without these, and without what must come after them. */
export function leaving(cut: readonly Item[], gone: ReadonlySet<number>, done: ReadonlySet<number>): readonly Item[] {
  let here = cut.filter((i) => !gone.has(i.index));
  for (;;) {
    const indices = withCovered(here);
    const next = here.filter((i) => i.after.every((a) => done.has(a) || indices.has(a)));
    if (next.length === here.length) return next;
    here = next;
  }
}

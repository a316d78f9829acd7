/** What is found in one revision and not in the other, what is in both, and what a text accepts, with its reason. */
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';

export interface FindingChanges {
  readonly raised: readonly Finding[];
  readonly cured: readonly Finding[];
  /** As the new text has them. */
  readonly kept: readonly Finding[];
  /** Entries of `accept` that are new, and that are gone. */
  readonly accepted: readonly Accepted[];
  readonly takenBack: readonly Accepted[];
}

interface Accepted {
  readonly rule: string;
  readonly of?: string;
  readonly because?: string;
}

/** A finding is the same where it is by the same rule, about the same features: its figures may differ. */
export function findingChanges(
  before: CheckedPart,
  after: CheckedPart,
  nameOf: (name: string) => string,
): FindingChanges {
  const [old, now] = [accepts(before, nameOf), accepts(after, (name) => name)];
  return {
    ...sorted(before.findings, after.findings, nameOf),
    accepted: now.filter((a) => !old.some((b) => isSame(a, b))),
    takenBack: old.filter((a) => !now.some((b) => isSame(a, b))),
  };
}

/** Which of them are new, gone and in both. */
export function sorted(
  before: readonly Finding[],
  after: readonly Finding[],
  nameOf: (name: string) => string = (name) => name,
): Pick<FindingChanges, 'raised' | 'cured' | 'kept'> {
  const open = before.map((finding) => ({ finding, key: keyOf(finding, nameOf) }));
  const raised: Finding[] = [];
  const kept: Finding[] = [];
  for (const finding of after) {
    const at = open.findIndex((o) => o.key === keyOf(finding, (name) => name));
    if (at < 0) raised.push(finding);
    else {
      kept.push(finding);
      open.splice(at, 1);
    }
  }
  return { raised, cured: open.map((o) => o.finding), kept };
}

function keyOf({ rule, of }: Finding, nameOf: (name: string) => string): string {
  return `${rule} ${of.map(nameOf).sort().join(' ')}`;
}

function accepts({ part }: CheckedPart, nameOf: (name: string) => string): readonly Accepted[] {
  return part.accept.map(({ rule, of, because }) => ({
    rule: rule.name,
    ...(of && { of: nameOf(of.name) }),
    ...(because !== undefined && { because }),
  }));
}

function isSame(a: Accepted, b: Accepted): boolean {
  return a.rule === b.rule && a.of === b.of && a.because === b.because;
}

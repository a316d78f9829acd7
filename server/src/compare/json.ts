/** A comparison for other programs, format 1. */
import type { Finding } from '../rules/kit/rule';
import { json } from '../text/shown';
import type { FindingChanges } from './findings';
import type { PartChange } from './part';

/** One file of a comparison: a part that is in both, or only in one. */
export type Compared = ComparedPart | { readonly path: string; readonly only: 'old' | 'new' };

export interface ComparedPart {
  readonly path: string;
  readonly change: PartChange;
  /** By the shop as it is now, of the new part: what its own shop did not say, and what it did. Absent where they agree. */
  readonly today?: Pick<FindingChanges, 'raised' | 'cured'>;
}

export function compareJson(compared: readonly Compared[]): string {
  return `${json({ format: 1, files: compared.map(fileJson) })}\n`;
}

function fileJson(one: Compared): unknown {
  if ('only' in one) return { path: one.path, status: one.only === 'old' ? 'gone' : 'new' };
  const { path, change, today } = one;
  const { name, same, textDiffers, part, features, setups, figures, findings } = change;
  return {
    path,
    part: name,
    status: same ? 'same' : 'changed',
    text_differs: textDiffers,
    changes: part,
    features: features.map((f) => ({
      change: f.kinds,
      kind: f.kind,
      name: f.name,
      ...(f.wasName !== undefined && { was: f.wasName }),
      ...(f.is !== undefined && { is: f.is }),
      differences: f.differences,
    })),
    setups,
    figures,
    findings: {
      new: findings.raised.map(findingJson),
      cured: findings.cured.map(findingJson),
      kept: findings.kept.map(findingJson),
      accepted: findings.accepted,
      no_longer_accepted: findings.takenBack,
    },
    ...(today && { by_todays_shop: { new: today.raised.map(findingJson), cured: today.cured.map(findingJson) } }),
  };
}

function findingJson({ rule, severity, message, of }: Finding): unknown {
  return { rule, severity, message, of };
}

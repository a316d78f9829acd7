/** A comparison for other programs, format 1. */

import { ruleJson } from '../report/json';
import type { Finding } from '../rules/kit/rule';
import { firstKind } from '../text/renamed';
import { json } from '../text/shown';
import type { FindingChanges } from './findings';
import type { JobChange } from './job';
import type { PartChange } from './part';
import type { Touched } from './touches';
import { unreadJson } from './unread';

/** One file of a comparison: a part or a job that is in both, or only in one. */
export type Compared = ComparedPart | ComparedJob | { readonly path: string; readonly only: 'old' | 'new' };

export interface ComparedJob {
  readonly path: string;
  readonly jobChange: JobChange;
}

export interface ComparedPart {
  readonly path: string;
  readonly change: PartChange;
  /** By the shop as it is now, of the new part: what its own shop did not say, and what it did. Absent where they agree. */
  readonly today?: Pick<FindingChanges, 'raised' | 'cured'>;
  /** Joints of its jobs that the change reaches. Absent where there are none. */
  readonly touches?: readonly Touched[];
}

export function compareJson(compared: readonly Compared[]): string {
  // Parts first: who took the first entry for a part goes on finding one.
  const isJob = (one: Compared) => Number('jobChange' in one);
  return `${json({ format: 1, files: compared.toSorted((a, b) => isJob(a) - isJob(b)).map(fileJson) })}\n`;
}

function fileJson(one: Compared): unknown {
  if ('only' in one) return { path: one.path, status: one.only === 'old' ? 'gone' : 'new' };
  if ('jobChange' in one) return jobJson(one);
  const { path, change, today, touches } = one;
  const { name, same, textDiffers, part, features, setups, figures, findings } = change;
  return {
    path,
    part: name,
    status: same ? 'same' : 'changed',
    text_differs: textDiffers,
    ...(change.unread && { unread: unreadJson(change.unread) }),
    changes: part,
    features: features.map((f) => ({
      change: f.kinds,
      ...kindJson(f.kind),
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
      accepted: findings.accepted.map(acceptedJson),
      no_longer_accepted: findings.takenBack.map(acceptedJson),
    },
    ...(touches && {
      touches: touches.map(({ job, joint, features: of, meets, says }) => ({
        job,
        joint,
        features: of,
        meets: meets.map(({ what, isChanged }) => ({ what, changed: isChanged ?? null })),
        findings: says,
      })),
    }),
    ...(today && { by_todays_shop: { new: today.raised.map(findingJson), cured: today.cured.map(findingJson) } }),
  };
}

function jobJson({ path, jobChange }: ComparedJob) {
  const { name, same, textDiffers, job, parts, joints, figures, findings } = jobChange;
  const named = ({ kinds, name: now, wasName, is, differences }: JobChange['parts'][number]) => ({
    change: kinds,
    name: now,
    ...(wasName !== undefined && { was: wasName }),
    ...(is !== undefined && { is }),
    differences,
  });
  return {
    path,
    job: name,
    status: same ? 'same' : 'changed',
    text_differs: textDiffers,
    ...(jobChange.unread && { unread: unreadJson(jobChange.unread) }),
    changes: job,
    parts: parts.map(named),
    joints: joints.map((joint) => ({ kind: joint.kind, ...named(joint) })),
    figures,
    findings: {
      new: findings.raised.map(findingJson),
      cured: findings.cured.map(findingJson),
      kept: findings.kept.map(findingJson),
    },
  };
}

function findingJson({ rule, severity, message, of }: Finding): unknown {
  return { ...ruleJson(rule), severity, message, of };
}

function acceptedJson({ rule, ...more }: FindingChanges['accepted'][number]): unknown {
  return { ...ruleJson(rule), ...more };
}

/** As with rules: the first name of a kind, and beside it the one that it has now. */
function kindJson(now: string): { readonly kind: string; readonly kind_now?: string } {
  const kind = firstKind(now);
  return kind === now ? { kind } : { kind, kind_now: now };
}

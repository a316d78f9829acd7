/** What a changed part touches outside: the joints of its jobs, the parts it meets there, and whether they were changed with it. */
import type { Job } from '../model/job-model';
import { readMemberName } from '../model/member-name';
import type { JobPiece } from '../planning/job';
import { meetingsIn } from '../report/joints';
import { jointFindings } from '../rules/joints';
import type { PartChange } from './part';

export interface Touched {
  readonly job: string;
  readonly joint: string;
  /** What of the part changed, as far as the joint names it. */
  readonly features: readonly string[];
  readonly meets: readonly {
    readonly what: string;
    /** Undefined where the other part was not compared. */
    readonly isChanged: boolean | undefined;
  }[];
  /** What is found of the joint as it is now. */
  readonly says: readonly string[];
}

interface Made {
  readonly job: Job;
  readonly pieces: readonly JobPiece[];
  /** The names that the job gives the changed part. */
  readonly as: readonly string[];
}

/** `isChanged`: of another part of the job, by its name there. */
export function touchedBy(
  change: PartChange,
  { job, pieces, as }: Made,
  isChanged: (piece: string) => boolean | undefined,
): readonly Touched[] {
  const changed = new Set(
    change.features
      .filter((f) => !f.kinds.includes('rewritten'))
      .flatMap((f) => [f.name, ...(f.wasName === undefined ? [] : [f.wasName])].flatMap((n) => n.split(', '))),
  );
  // The body's own sizes are in every thickness.
  const all = change.part.some((d) => /^(body|general tolerance)\b/.test(d.what));
  const found = [...jointFindings(job, pieces)];
  return job.joints.flatMap((joint) => {
    const meetings = meetingsIn(joint);
    const own = meetings.filter((m) => as.includes(m.piece.name));
    const named = own.filter((m) => all || changed.has(readMemberName(m.feature.name).feature));
    if (named.length === 0) return [];
    const others = meetings.filter((m) => !as.includes(m.piece.name));
    return [
      {
        job: job.name,
        joint: joint.name,
        features: [...new Set(named.map((m) => m.feature.name))],
        meets: others.map((m) => ({ what: m.text, isChanged: isChanged(m.piece.name) })),
        says: found.filter((f) => f.of.includes(joint.name)).map((f) => `${f.severity} ${f.rule}: ${f.message}`),
      },
    ];
  });
}

/** A line a joint, then what is found of it. */
export function touchedLines(touched: readonly Touched[]): readonly string[] {
  return touched.flatMap(({ joint, features, meets, says }) => {
    const still = meets.filter((m) => m.isChanged === false).map((m) => m.what);
    const open = meets.filter((m) => m.isChanged === undefined).map((m) => m.what);
    const words = [
      ...(still.length > 0 ? [`${still.join(', ')} ${still.length === 1 ? 'was' : 'were'} not changed with it`] : []),
      ...(open.length > 0 ? [`${open.join(', ')} ${open.length === 1 ? 'was' : 'were'} not compared`] : []),
      ...(still.length + open.length === 0 && meets.length > 0 ? ['what it meets was changed too'] : []),
    ];
    return [
      `touches joint ${joint} (${features.join(', ')})${words.length > 0 ? `: ${words.join('; ')}` : ''}`,
      ...says.map((s) => `  ${s}`),
    ];
  });
}

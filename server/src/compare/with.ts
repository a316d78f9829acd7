/** What changed from another revision to this one, of a part and of a job: the whole of a comparison that takes long. */
import type { Shop } from '../model/shop-model';
import { checkJob, checkPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import type { Others } from '../text/tree';
import { findingChanges } from './findings';
import { type JobChange, jobChange } from './job';
import type { Renames } from './joints';
import type { ComparedPart } from './json';
import { partChange } from './part';

export interface ComparedTold {
  readonly before: {
    readonly path: string;
    readonly text: string;
    readonly shop: Shop;
    readonly others?: Others;
  };
  /** The shop as it is now, where the part is one of an old revision. */
  readonly today?: Shop;
}

export function comparedWith(
  after: CheckedPart,
  { before, today }: ComparedTold,
): Pick<ComparedPart, 'change' | 'today'> {
  const change = partChange(checkPart(before.text, before.shop, undefined, before.others), after);
  if (!today) return { change };
  const { raised, cured } = findingChanges(
    after,
    checkPart(after.tree.text, today, undefined, after.tree.others),
    (name) => name,
  );
  return raised.length + cured.length > 0 ? { change, today: { raised, cured } } : { change };
}

/** One side of a job, as it goes to another thread. */
interface JobTold {
  readonly text: string;
  readonly findings: readonly Finding[];
  /** Its parts that can be read, in the sizes that it makes, by its names. */
  readonly pieces: readonly {
    readonly name: string;
    readonly text: string;
    readonly shop: Shop;
    readonly others?: Others;
    readonly quantity: number;
  }[];
}
export interface ComparedJobsTold {
  readonly before: JobTold;
  readonly after: JobTold;
  /** Features of its parts, by the names that the new job gives the parts. */
  readonly renamed: Renames;
}

export function comparedJobs({ before, after, renamed }: ComparedJobsTold): JobChange {
  const side = ({ text, findings, pieces }: JobTold) => {
    const { job, tree } = checkJob(text);
    const read = pieces.flatMap(({ name, quantity, ...piece }) => {
      const entry = job.parts.find((p) => p.name === name);
      return entry ? [{ entry, quantity, checked: checkPart(piece.text, piece.shop, undefined, piece.others) }] : [];
    });
    return { text, tree, job, findings, pieces: read };
  };
  return jobChange(side(before), side(after), renamed);
}

/**
 * Offers a change that may cure a finding on a joint only after trying it: the texts are edited and read anew, all joints of
 * the job are judged again. It is kept where its finding is gone, and no error came, in the joints or in a part.
 */
import { type Budget, spend, unlessStopped, within } from '../effort';
import { memo } from '../memo';
import type { Job } from '../model/job-model';
import { applyEdits, locateEdits } from '../text/edit';
import { lineEdits } from '../text/line-edits';
import { linesOf } from '../text/lines';
import type { TextEdit, TextTree } from '../text/tree';
import { type CheckedJob, checkJob, readPart } from './check';
import type { CheckedPart } from './checked-part';
import { placed } from './fixes';
import { type Mend, type MendContext, mendsOf } from './joint/mend';
import { jointContext, jointFindings } from './joints';
import type { Finding, Fix, Rule } from './kit/rule';

interface JobPiece {
  readonly entry: Job['parts'][number];
  readonly checked: CheckedPart;
}
/** A job with those of its parts that could be read. */
interface JobAsRead {
  readonly checked: Pick<CheckedJob, 'tree' | 'job'>;
  readonly pieces: readonly JobPiece[];
}

/** More candidates than a menu holds are not tried. */
const MOST_TRIED = 10;
/** What trying them for one finding may cost: about a second. */
const MOST_WORK = 3e6;
/** More findings on one job than are looked at one after the other are not kept. */
const MOST_KEPT = 50;
/** Safe fixes applied one after the other, at most. */
const MOST_ROUNDS = 40;

/** The changes that cure it, likeliest first: the joint's own before those that change a part. */
export const jointFixes = memo(
  (checked: JobAsRead['checked'], pieces: readonly JobPiece[], finding: Finding): readonly Fix[] => {
    const budget: Budget = { remaining: MOST_WORK };
    const of = { checked, pieces };
    const mends = candidates(of, finding, budget);
    const was = mends.length > 0 ? found(of) : [];
    const cured: { readonly fix: Fix; readonly remaining: number }[] = [];
    for (const mend of mends) {
      if (cured.some(({ fix }) => fix.title === mend.title)) continue;
      const left = within<number | undefined>(
        budget,
        () => leftBy(mend, of, { finding, was }),
        () => undefined,
      );
      if (left !== undefined) cured.push({ fix: fixOf(mend, pieces), remaining: left });
    }
    // Those first that leave the least behind: a screw that is not stopped and holds, before one that is not stopped.
    cured.sort((a, b) => a.remaining - b.remaining);
    return [...(finding.fixes ?? []), ...cured.map((c) => c.fix)];
  },
  { size: MOST_KEPT, by: (_, pieces, finding) => [...pieces.map((p) => p.checked), JSON.stringify(finding)] },
);

function contextOf({ checked: { job, tree }, pieces }: JobAsRead): MendContext {
  return { ...jointContext(job, pieces), tree };
}

function candidates(of: JobAsRead, finding: Finding, budget: Budget): readonly Mend[] {
  const joint = of.checked.job.joints.find((j) => finding.of.includes(j.name));
  if (!joint || !finding.rule.startsWith('joint/')) return [];
  const found: Mend[] = [];
  const look = () => {
    try {
      for (const mend of mendsOf(joint, finding, contextOf(of))) if (found.push(mend) >= MOST_TRIED) break;
    } catch (failure) {
      unlessStopped(failure);
      // A fix that cannot be worked out is a fix less; the finding itself stands.
    }
  };
  within(budget, look, () => undefined);
  return found;
}

/** The job and its parts as they would be. Undefined where an edit cannot be made. */
function tried({ job, parts }: Mend, { checked, pieces }: JobAsRead): JobAsRead | undefined {
  const text = editedText(checked.tree, job);
  if (text === undefined) return undefined;
  const now: JobPiece[] = [];
  for (const { entry, checked: was } of pieces) {
    const edits = parts.filter(({ piece }) => piece.tree === was.tree).flatMap((p) => p.edits);
    const changed = editedText(was.tree, edits);
    if (changed === undefined) return undefined;
    now.push({ entry, checked: changed === was.tree.text ? was : readPart(changed, was.shop, was) });
  }
  return { checked: text === checked.tree.text ? checked : checkJob(text), pieces: now };
}

function editedText(tree: TextTree, edits: Mend['job']): string | undefined {
  if (edits.length === 0) return tree.text;
  const located = placed(edits, tree);
  if (!located) return undefined;
  // To read and judge a text costs about so much, however simple the part.
  spend(10_000 + 6 * tree.text.length);
  return applyEdits(tree.text, located);
}

const RANK = { error: 2, warning: 1, hint: 0 } as const;

/** How many errors and warnings of joints are left by a change that cures; undefined for one that does not. */
function leftBy(
  mend: Mend,
  before: JobAsRead,
  { finding, was }: { readonly finding: Finding; readonly was: readonly Finding[] },
): number | undefined {
  const after = tried(mend, before);
  if (!after) return undefined;
  const is = found(after);
  const same = (all: readonly Finding[]) => all.filter((f) => f.rule === finding.rule && f.of[0] === finding.of[0]);
  const still = same(is);
  if (still.length >= same(was).length || still.some((f) => RANK[f.severity] > RANK[finding.severity]))
    return undefined;
  // One that keeps every part raises nothing new; of others no graver thing than what they cure.
  const grave = mend.safe ? 0 : Math.max(1, RANK[finding.severity]);
  if (count(is, grave) > count(was, grave) || count(is, RANK.error) > count(was, RANK.error)) return undefined;
  const isSound = after.pieces.every(({ checked }, i) => noNewError(before.pieces[i]!.checked, checked));
  return isSound ? count(is, RANK.warning) : undefined;
}

function found({ checked: { job }, pieces }: JobAsRead): readonly Finding[] {
  return [...jointFindings(job, pieces)];
}

function count(all: readonly Finding[], least: number): number {
  return all.filter((f) => RANK[f.severity] >= least).length;
}

function noNewError(before: CheckedPart, after: CheckedPart): boolean {
  if (before === after) return true;
  const grave = ({ severity, mayBeError }: Rule) => severity === 'error' || mayBeError === true;
  const errors = ({ judging, part }: CheckedPart) =>
    part.problems.length + judging.only(grave).filter((f) => f.severity === 'error').length;
  return errors(after) <= errors(before);
}

function fixOf({ title, safe, job, parts }: Mend, pieces: readonly JobPiece[]): Fix {
  const elsewhere = parts.flatMap(({ piece, edits }) => {
    const entry = pieces.find((p) => p.entry.name === piece.name)?.entry;
    if (!entry) return [];
    const lines = linesOf(piece.tree.text);
    const ranged = locateEdits(piece.tree, edits).map(({ start, end, newText }, i) => ({
      ...{ span: edits[i]!.span, newText },
      range: { start: lines.position(start), end: lines.position(end) },
    }));
    return [{ file: entry.spec.name, edits: ranged }];
  });
  return { title, safe, edits: job, ...(elsewhere.length > 0 && { elsewhere }) };
}

/** The edits of a job's text that apply every fix after which all parts are what they are, until none is left. */
export function allSafeOfJob(checked: CheckedJob, pieces: readonly JobPiece[]): readonly TextEdit[] {
  let now = checked;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = firstSafe(now, pieces);
    if (!next) break;
    now = next;
  }
  return lineEdits(checked.tree.text, now.tree.text);
}

function firstSafe(now: CheckedJob, pieces: readonly JobPiece[]): CheckedJob | undefined {
  const all = (of: CheckedJob) => [...of.findings, ...jointFindings(of.job, pieces)];
  const was = all(now);
  for (const finding of was)
    for (const { safe, elsewhere, edits } of jointFixes(now, pieces, finding)) {
      const located = safe && !elsewhere ? placed(edits, now.tree) : undefined;
      const text = located && applyEdits(now.tree.text, located);
      if (text === undefined || text === now.tree.text) continue;
      const next = checkJob(text);
      const is = all(next);
      // A name that is put right lets its joint be judged for the first time.
      const isFewer = finding.fixes ? !is.some((f) => f.message === finding.message) : is.length < was.length;
      if (isFewer && count(is, RANK.error) <= count(was, RANK.error)) return next;
    }
  return undefined;
}

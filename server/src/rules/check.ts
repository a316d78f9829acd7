/**
 * From text to findings: the one way that the command line, the language service and the tests all take.
 */
import { atOnce, type Budget, type Steps, steps, unlessStopped } from '../effort';
import { makingSolid, solidOf } from '../geometry/part-solid';
import type { Solid } from '../geometry/types';
import { resolveJob } from '../model/job';
import type { Job } from '../model/job-model';
import type { Part, SpecProblem } from '../model/model';
import { resolvePart, resolvingPart } from '../model/part';
import { type PartRecord, resolveRecord } from '../model/record';
import { resolveShop } from '../model/shop';
import type { Shop } from '../model/shop-model';
import { readingText, readText } from '../text/read';
import type { Others, Span, TextEdit, TextTree } from '../text/tree';
import { CheckedPart, type Reading } from './checked-part';
import { allSafe, isCure, type Tried, tryFixes, tryFixesOn, tryWithin } from './fixes';
import { hiddenCharacters } from './form/hidden-character';
import { oldNames } from './form/old-name';
import type { Finding, Fix } from './kit/rule';
import { inTextOrder } from './order';
import { failed, fromSpecProblem, fromTextProblem } from './run';
import { kitFindings } from './shop-kit';
import { shopFindings } from './shop-names';

/** Reads, resolves and judges a part. Never throws. `before` lends what did not change, and the documents beside it. */
export function checkPart(text: string, shop: Shop, before?: CheckedPart, others?: Others): CheckedPart {
  const checked = readPart(text, shop, before, others);
  checked.judging.finish();
  return checked;
}

/** Reads and resolves a part; it is judged when its findings are asked for. */
export function readPart(text: string, shop: Shop, before?: CheckedPart, others?: Others): CheckedPart {
  return atOnce(readingPart(text, shop, before, others));
}

/** The same, a step at a time. */
export function* readingPart(
  text: string,
  shop: Shop,
  before?: CheckedPart,
  others = before?.tree.others,
): Steps<CheckedPart> {
  if (before && before.shop === shop && before.tree.text === text && before.tree.others === others) return before;
  const reading = yield* workingOut(text, before?.against(text), others);
  return before ? before.next(reading, shop) : new CheckedPart(reading, shop);
}

/** Reads and resolves a part, a step at a time, without asking for a shop. */
export function* workingOut(text: string, before?: Reading, others?: Others): Steps<Reading> {
  const tree = yield* readingText(text, before?.tree, others);
  if (tree === before?.tree) return before;
  const broken: Finding[] = [];
  const part = yield* fenced('Working out the part', resolvingPart(tree, before?.part), broken, tree);
  const solid = part && (yield* fenced('The geometry', makingSolid(part, before?.solid), broken, tree));
  if (!part || !solid) return { tree, part: part ?? nothing(), solid: hollow(), problems: broken, lost: true };
  return { tree, part, solid, problems: problemsOf(tree, part.problems), lost: false };
}

export interface CheckedShop {
  readonly tree: TextTree;
  readonly shop: Shop;
  readonly findings: readonly Finding[];
}

/** Reads and resolves a shop, and checks the names under `limits:` against the rules. Never throws. */
export function checkShop(text: string, uri?: string, before?: CheckedShop): CheckedShop {
  if (before && before.tree.text === text && before.shop.uri === uri) return before;
  const tree = readText(text, before?.tree);
  const broken: Finding[] = [];
  const shop = atOnce(
    fenced(
      'Working out the shop',
      steps(() => resolveShop(tree, uri)),
      broken,
      tree,
    ),
  );
  if (!shop) return { tree, shop: before?.shop ?? resolveShop(readText('shop: none\n'), uri), findings: broken };
  const problems = problemsOf(tree, shop.problems);
  return {
    tree,
    shop,
    findings: inTextOrder(
      [...problems, ...hiddenCharacters(tree), ...oldNames(tree), ...shopFindings(tree), ...kitFindings(shop)],
      tree,
    ),
  };
}

export interface CheckedJob {
  readonly tree: TextTree;
  readonly job: Job;
  readonly findings: readonly Finding[];
}

/** Reads and resolves a job. Never throws. What its parts come to is judged where their files can be read. */
export function checkJob(text: string, before?: CheckedJob): CheckedJob {
  if (before && before.tree.text === text) return before;
  const tree = readText(text, before?.tree);
  const broken: Finding[] = [];
  const job = atOnce(
    fenced(
      'Working out the job',
      steps(() => resolveJob(tree)),
      broken,
      tree,
    ),
  );
  if (!job) return { tree, job: before?.job ?? resolveJob(readText('job: none\n')), findings: broken };
  return {
    tree,
    job,
    findings: inTextOrder([...problemsOf(tree, job.problems), ...hiddenCharacters(tree), ...oldNames(tree)], tree),
  };
}

export interface CheckedRecord {
  readonly tree: TextTree;
  readonly record: PartRecord;
  readonly findings: readonly Finding[];
}

/** Reads and resolves a record. Never throws. What its names mean is judged where its part can be read. */
export function checkRecord(text: string, before?: CheckedRecord): CheckedRecord {
  if (before && before.tree.text === text) return before;
  const tree = readText(text, before?.tree);
  const record = resolveRecord(tree);
  return {
    tree,
    record,
    findings: inTextOrder([...problemsOf(tree, record.problems), ...hiddenCharacters(tree)], tree),
  };
}

/** What stands wrong in the text. A value that a comment has swallowed is told once, not also as missing. */
function problemsOf(tree: TextTree, problems: readonly SpecProblem[]): readonly Finding[] {
  const line = (span: Span) => tree.text.lastIndexOf('\n', tree.locate(span).start - 1);
  const swallowed = new Set(tree.problems.filter((p) => p.code === 'swallowed-comment').map((p) => line(p.span)));
  const others =
    swallowed.size === 0 ? problems : problems.filter((p) => p.rule !== 'form/schema' || !swallowed.has(line(p.span)));
  return [...tree.problems.map((p) => fromTextProblem(p, tree)), ...others.map((p) => fromSpecProblem(p, tree))];
}

/**
 * The fixes of one finding that were tried on the text and found to cure it, raise no new error and keep every comment.
 */
export function fixesFor(checked: CheckedPart, finding: Finding): readonly Fix[] {
  return tryFixes(checked, finding, readPart);
}

/** Work that trying fixes for the report on one document may cost: about a second. */
const MOST_TRIALS = 3e6;

/** Answers the fixes of one finding after the other, as long as the work allowed reaches; undefined after that. */
export function fixesInTurn(checked: CheckedPart): (finding: Finding) => readonly Fix[] | undefined {
  const budget = { remaining: MOST_TRIALS };
  return (finding) => (budget.remaining > 0 ? tryFixesOn(budget, checked, finding, readPart) : undefined);
}

/** Work that one request for what would do may cost, every finding under the cursor together: some seconds. */
const MOST_OFFERED = 1e7;

interface Offering {
  readonly budget: Budget;
  fixesOf(finding: Finding): Tried;
}

/** The fixes of one finding after the other, as far as the work allowed for all of them reaches. */
export function offering(checked: CheckedPart): Offering {
  const budget = { remaining: MOST_OFFERED };
  return { budget, fixesOf: (finding) => tryWithin(budget, checked, finding, readPart) };
}

/** Whether this change, tried on the text, takes the finding away and brings no error. */
export function wouldCure(checked: CheckedPart, finding: Finding, fix: Fix): boolean {
  return isCure(fix, finding, checked, readPart);
}

/** The edits that apply every safe fix, one after the other, until none is left. None where nothing can be mended safely. */
export function fixAllSafe(checked: CheckedPart): readonly TextEdit[] {
  return allSafe(checked, readPart);
}

function* fenced<T>(what: string, work: Steps<T>, broken: Finding[], tree: TextTree): Steps<T | undefined> {
  try {
    return yield* work;
  } catch (failure) {
    unlessStopped(failure);
    broken.push(failed(what, failure, tree.root?.span ?? { block: '', from: 0, to: 0 }));
    return undefined;
  }
}

/** A part of which nothing is known. */
function nothing(): Part {
  return resolvePart(readText(''));
}
function hollow(): Solid {
  return solidOf(nothing());
}

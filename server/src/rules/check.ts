/**
 * From text to findings: the one way that the command line, the language service and the tests all take.
 */
import { unlessCutShort } from '../effort';
import { solidOf } from '../geometry/solid';
import type { Solid } from '../geometry/types';
import { resolveJob } from '../spec/job';
import type { Job } from '../spec/job-model';
import type { Part, SpecProblem } from '../spec/model';
import { resolvePart } from '../spec/part';
import { resolveShop } from '../spec/shop';
import type { Shop } from '../spec/shop-model';
import { readText } from '../text/read';
import type { Span, TextEdit, TextTree } from '../text/tree';
import { accepts } from './accept';
import { allSafe, tryFixes } from './fixes';
import type { Finding, Fix } from './rule';
import { failed, fromSpecProblem, fromTextProblem, runLast, runRules } from './run';
import { kitFindings } from './shop-kit';
import { shopFindings } from './shop-names';

export interface CheckedPart {
  readonly tree: TextTree;
  readonly part: Part;
  readonly shop: Shop;
  readonly solid: Solid;
  /** In text order; accepted ones left out. */
  readonly findings: readonly Finding[];
}

/** Reads, resolves and judges a part. Never throws. `before` lends what did not change. */
export function checkPart(text: string, shop: Shop, before?: CheckedPart): CheckedPart {
  if (before && before.shop === shop && before.tree.text === text) return before;
  const tree = readText(text, before?.tree);
  const broken: Finding[] = [];
  const part = fenced('Working out the part', () => resolvePart(tree, before?.part), broken, tree);
  const solid = fenced('The geometry', () => solidOf(part ?? nothing(), before?.solid), broken, tree);
  if (!part || !solid) return { tree, part: part ?? nothing(), shop, solid: solid ?? hollow(), findings: broken };

  const problems = problemsOf(tree, part.problems);
  const raised = runRules(part, shop, solid, tree);
  const last = runLast(part, shop, solid, tree, raised);
  const kept = raised.filter((f) => !part.accept.some((a) => accepts(a, f)));
  return { tree, part, shop, solid, findings: inTextOrder([...problems, ...kept, ...last], tree) };
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
  const shop = fenced('Working out the shop', () => resolveShop(tree, uri), broken, tree);
  if (!shop) return { tree, shop: before?.shop ?? resolveShop(readText('shop: none\n'), uri), findings: broken };
  const problems = problemsOf(tree, shop.problems);
  return { tree, shop, findings: inTextOrder([...problems, ...shopFindings(tree), ...kitFindings(shop)], tree) };
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
  const job = fenced('Working out the job', () => resolveJob(tree), broken, tree);
  if (!job) return { tree, job: before?.job ?? resolveJob(readText('job: none\n')), findings: broken };
  return { tree, job, findings: inTextOrder(problemsOf(tree, job.problems), tree) };
}

/** What stands wrong in the text. A value that a comment has swallowed is told once, not also as missing. */
function problemsOf(tree: TextTree, problems: readonly SpecProblem[]): readonly Finding[] {
  const line = (span: Span) => tree.text.lastIndexOf('\n', tree.locate(span).start - 1);
  const swallowed = new Set(tree.problems.filter((p) => p.code === 'swallowed-comment').map((p) => line(p.span)));
  const others =
    swallowed.size === 0 ? problems : problems.filter((p) => p.rule !== 'form/schema' || !swallowed.has(line(p.span)));
  return [...tree.problems.map(fromTextProblem), ...others.map(fromSpecProblem)];
}

/**
 * The fixes of one finding that were tried on the text and found to cure it, raise no new error and keep every comment.
 */
export function fixesFor(checked: CheckedPart, finding: Finding): readonly Fix[] {
  return tryFixes(checked, finding, checkPart);
}

/** The edits that apply every safe fix, one after the other, until none is left. None where nothing can be mended safely. */
export function fixAllSafe(checked: CheckedPart): readonly TextEdit[] {
  return allSafe(checked, checkPart);
}

/** Findings by place, then by rule: a stable order for reading and for comparing. */
export function inTextOrder(findings: readonly Finding[], tree: TextTree): readonly Finding[] {
  return findings
    .map((finding, index) => ({ finding, index, start: tree.locate(finding.span).start }))
    .sort((a, b) => a.start - b.start || a.index - b.index)
    .map((f) => f.finding);
}

function fenced<T>(what: string, work: () => T, broken: Finding[], tree: TextTree): T | undefined {
  try {
    return work();
  } catch (failure) {
    unlessCutShort(failure);
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

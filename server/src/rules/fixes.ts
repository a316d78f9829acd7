/**
 * Offers a fix only after trying it: the text is edited, checked anew, and the fix is kept when its finding is gone,
 * no new error came and every comment is still there. Asked of the edited text are the rule that is to be mended, and
 * where it is silent those that may raise an error: what the others would find does not decide.
 */

import { type Budget, spend, unlessStopped, within } from '../effort';
import { memo } from '../memo';
import { featureNameOf } from '../model/member-name';
import type { Shop } from '../model/shop-model';
import { commentsOf } from '../text/comments';
import { applyEdits, locateEdits } from '../text/edit';
import { lineEdits } from '../text/line-edits';
import { withoutHidden } from '../text/shown';
import type { TextEdit, TextTree } from '../text/tree';
import { HAIR } from '../tolerance';
import { noSetup } from './access/no-setup';
import type { CheckedPart } from './checked-part';
import { lossesOf, mayFollow } from './follows';
import { notJudged } from './form/not-judged';
import type { Finding, Fix, Rule, SpanEdit } from './kit/rule';
import { ruleByName } from './registry';
import { contextOf } from './run';

/** Reads and works out a text; what is asked of it is judged then. */
type Read = (text: string, shop: Shop, before?: CheckedPart) => CheckedPart;

/** More candidates than a menu holds are not tried. */
const MOST_TRIED = 12;
/** Safe fixes applied one after the other, at most. */
const MOST_ROUNDS = 40;

/**
 * The fixes of one finding that cure it. With a budget: those that could be tried on it; undefined where it did not reach
 * for all of them.
 */
export function tryFixesOn(budget: Budget, checked: CheckedPart, finding: Finding, read: Read) {
  return within<readonly Fix[] | undefined>(
    budget,
    () => tryFixes(checked, finding, read),
    () => undefined,
  );
}

/** More trials on one part than a menu asks for are not kept. */
const MOST_KEPT = 200;

/** The fixes of one finding that cure it, of all there are. */
export const tryFixes = memo(
  (checked: CheckedPart, finding: Finding, read: Read): readonly Fix[] => {
    const cured = new Map<Fix, CheckedPart>();
    for (const fix of candidates(checked, finding)) {
      if ([...cured.keys()].some((f) => f.title === fix.title)) continue;
      const after = curedBy(fix, finding, checked, read);
      if (after) cured.set(fix, after);
    }
    return bestFirst([...cured.keys()], (fix) => raisedIn(cured.get(fix)!, checked));
  },
  { size: MOST_KEPT, by: (_, finding, read) => [JSON.stringify(finding), read] },
);

/** The fixes that cure a finding, of those that could be tried. */
export interface Tried {
  readonly fixes: readonly Fix[];
  /** Not all could be: it would have taken too long. */
  readonly isCut: boolean;
}

/** Each on its own, as far as the budget reaches. What was tried before costs it as much as if it had not been. */
export function tryWithin(budget: Budget, checked: CheckedPart, finding: Finding, read: Read): Tried {
  const cut = () => undefined;
  const all = within<readonly Fix[] | undefined>(budget, () => candidates(checked, finding), cut);
  if (!all) return { fixes: [], isCut: true };
  const fixes: Fix[] = [];
  let isCut = false;
  for (const fix of all) {
    if (fixes.some((f) => f.title === fix.title)) continue;
    const does = within<boolean | undefined>(budget, () => curesOf(checked, finding, fix, read), cut);
    if (does) fixes.push(fix);
    isCut ||= does === undefined;
  }
  const ranked = within<readonly Fix[] | undefined>(
    budget,
    () => bestFirst(fixes, (fix) => raisedBy(checked, fix, read)),
    cut,
  );
  return { fixes: ranked ?? fixes, isCut };
}

/** What a fix raises of warnings weighs more than any number of hints. */
const WARNING = 1000;

/**
 * Those first that cure without raising the next: a wall that is thick enough and bends all the same comes after one that
 * does not. Of two that raise as much, as the rule has them; where the author's meaning is open, as they are. To judge a
 * whole part is dear, so the last is not asked where all before it raise nothing: it is the last whatever it raises.
 */
function bestFirst(fixes: readonly Fix[], raises: (fix: Fix) => number): readonly Fix[] {
  if (fixes.length < 2 || fixes[0]?.equal) return fixes;
  const ranked = fixes.slice(0, -1).map((fix) => ({ fix, raised: raises(fix) }));
  if (ranked.every(({ raised }) => raised === 0)) return fixes;
  const last = fixes.at(-1)!;
  ranked.push({ fix: last, raised: raises(last) });
  return ranked.sort((a, b) => a.raised - b.raised).map(({ fix }) => fix);
}

const raisedBy = memo(
  (checked: CheckedPart, fix: Fix, read: Read): number => {
    const edits = placed(fix.edits, checked.tree);
    if (!edits) return 0;
    const text = applyEdits(checked.tree.text, edits);
    spend(10_000 + 6 * text.length);
    return raisedIn(read(text, checked.shop, checked), checked);
  },
  { size: MOST_KEPT, by: (_, fix, read) => [JSON.stringify(fix), read] },
);

function raisedIn(after: CheckedPart, before: CheckedPart): number {
  const had = tally(before.findings);
  let raised = 0;
  for (const [key, { count, sample }] of tally(after.findings))
    raised += Math.max(0, count - (had.get(key)?.count ?? 0)) * (sample.severity === 'hint' ? 1 : WARNING);
  return raised;
}

const curesOf = memo(
  (checked: CheckedPart, finding: Finding, fix: Fix, read: Read): boolean => cures(fix, finding, checked, read),
  { size: MOST_KEPT, by: (_, finding, fix, read) => [JSON.stringify(finding), JSON.stringify(fix), read] },
);

/** Whether a fix made elsewhere takes its finding away and brings no error. */
export function isCure(fix: Fix, finding: Finding, checked: CheckedPart, read: Read): boolean {
  try {
    return cures(fix, finding, checked, read);
  } catch (failure) {
    unlessStopped(failure);
    return false;
  }
}

function candidates(checked: CheckedPart, finding: Finding): readonly Fix[] {
  if (finding.variants) return [];
  const rule = ruleByName(finding.rule);
  const found: Fix[] = [...(finding.fixes ?? [])];
  try {
    if (rule?.mend) {
      const context = contextOf(rule, checked, {
        raised: checked.findings,
      });
      for (const fix of rule.mend(finding, context)) {
        found.push(fix);
        if (found.length >= MOST_TRIED) break;
      }
    }
  } catch (failure) {
    unlessStopped(failure);
    // A fix that cannot be worked out is a fix less; the finding itself stands.
  }
  return found;
}

/** In the order of the text; undefined where two overlap. */
export function placed(edits: readonly SpanEdit[], tree: TextTree): readonly TextEdit[] | undefined {
  const sorted = locateEdits(tree, edits).sort((a, b) => a.start - b.start || a.end - b.end);
  for (let i = 1; i < sorted.length; i++) if (sorted[i]!.start < sorted[i - 1]!.end) return undefined;
  return sorted;
}

function cures(fix: Fix, finding: Finding, checked: CheckedPart, read: Read): boolean {
  return curedBy(fix, finding, checked, read) !== undefined;
}

/** The part with the fix in it, judged as far as was asked, where that is a cure. */
function curedBy(fix: Fix, finding: Finding, checked: CheckedPart, read: Read): CheckedPart | undefined {
  const edits = placed(fix.edits, checked.tree);
  if (!edits || edits.length === 0) return undefined;
  const text = applyEdits(checked.tree.text, edits);
  if (text === checked.tree.text || !sameComments(checked.tree.text, text, edits)) return undefined;
  // To read and judge a text costs about so much, however simple the part.
  spend(10_000 + 6 * text.length);
  const after = read(text, checked.shop, checked);
  const own = after.judging.only((rule) => isAsked(rule, finding));
  const was = moved(checked.tree.locate(finding.span).start, edits);
  const same = own.filter((f) => sameSubject(f, finding));
  const fewer = same.length < checked.findings.filter((f) => sameSubject(f, finding)).length;
  const still =
    !fewer &&
    same.some((f) => f.message === finding.message || after.tree.locate(f.span).start === was || hasMoved(f, finding));
  if (still || !lacksNoMore(checked, own, finding)) return undefined;
  const grave = after.judging.only((rule) => isAsked(rule, finding) || mayRaiseErrors(rule, checked.shop));
  return noneWorse(checked, grave, finding.rule) ? after : undefined;
}

/** The rule itself, and the one beside whose findings others' are not told. Of a rule that failed or was stopped: every one. */
function isAsked({ name }: Rule, { rule, facts }: Finding): boolean {
  return name === rule || name === noSetup.name || rule === notJudged.name || facts.failed_rule !== undefined;
}

function mayRaiseErrors({ severity, mayBeError, mildByBuiltIn }: Rule, shop: Shop): boolean {
  return (severity === 'error' || mayBeError === true) && !(mildByBuiltIn && shop.builtIn);
}

/**
 * What the other findings of the same rule lack is not more than before: a pattern that is moved off one face is not
 * to come nearer to the opposite one.
 */
function lacksNoMore(before: CheckedPart, after: readonly Finding[], cured: Finding): boolean {
  const lack = (f: Finding) => (f.rule === cured.rule ? Number(f.facts.missing_mm ?? 0) : 0);
  const sum = (findings: readonly Finding[]) => findings.reduce((total, f) => total + lack(f), 0);
  return sum(after) <= sum(before.findings) - lack(cured) + HAIR;
}

/** The same fault of the same feature, in another set-up now. */
const hasMoved = (now: Finding, was: Finding) =>
  was.facts.set_up !== undefined && now.facts.set_up !== undefined && now.facts.set_up !== was.facts.set_up;

const subject = (f: Finding) => `${f.rule} ${f.of.join(' ')}`;
const sameSubject = (a: Finding, b: Finding) => subject(a) === subject(b);

/** Where an offset of the old text is in the new one. */
function moved(offset: number, edits: readonly TextEdit[]): number {
  let by = 0;
  for (const e of edits) {
    if (e.end <= offset && e.start < offset) by += e.newText.length - (e.end - e.start);
    else if (e.start < offset) return e.start + by;
  }
  return offset + by;
}

/**
 * No error more than before, feature by feature, and nothing more of the rule that is mended. What could not be
 * judged before (a feature that was not understood) may show what is wrong with it now.
 */
function noneWorse(before: CheckedPart, after: readonly Finding[], rule: string): boolean {
  const had = tally(before.findings);
  const lost = lossesOf(before.part, before.tree);
  const hidden = (f: Finding) =>
    !f.rule.startsWith('form/') &&
    (!before.part.body ||
      f.of.some((name) => before.part.broken.has(featureNameOf(name))) ||
      (lost !== undefined && mayFollow(f, lost)));
  for (const [key, now] of tally(after)) {
    const counts = now.sample.severity === 'error' || now.sample.rule === rule;
    if (counts && now.count > (had.get(key)?.count ?? 0) && !hidden(now.sample)) return false;
  }
  return true;
}

function tally(findings: readonly Finding[]): Map<string, { count: number; sample: Finding }> {
  const counts = new Map<string, { count: number; sample: Finding }>();
  for (const f of findings) {
    const key = `${f.severity} ${subject(f)}`;
    const entry = counts.get(key);
    if (entry) entry.count++;
    else counts.set(key, { count: 1, sample: f });
  }
  return counts;
}

/** Every comment is still there, be it without what does not show in it, or is taken up as the value that it was meant to be. */
function sameComments(before: string, after: string, edits: readonly TextEdit[]): boolean {
  const is = commentsOf(after);
  return commentsOf(before).every(
    (c) => is.includes(c) || is.includes(withoutHidden(c)) || edits.some((e) => e.newText.includes(c)),
  );
}

/** The edits that apply every safe fix until none is left. */
export function allSafe(checked: CheckedPart, read: Read): readonly TextEdit[] {
  let now = checked;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = firstSafe(now, read);
    if (!next) break;
    now = read(next, now.shop, now);
  }
  return lineEdits(checked.tree.text, now.tree.text);
}

function firstSafe(checked: CheckedPart, read: Read): string | undefined {
  for (const finding of checked.findings) {
    const fix = candidates(checked, finding).find((f) => f.safe && cures(f, finding, checked, read));
    const edits = fix && placed(fix.edits, checked.tree);
    if (edits) return applyEdits(checked.tree.text, edits);
  }
  return undefined;
}

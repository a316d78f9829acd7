/**
 * What a small change to the part would save: each is made in the text, the changed part is worked out and priced in the
 * same set-ups, and what it then takes less is the saving. Told as `cost/tool-changes` where a tool need not be put in at
 * all, as `cost/slow-feature` where a feature that takes long takes less. Nothing here is guessed, and nothing is told
 * that would raise an error. It takes longer than a keystroke allows: the editor asks after a quiet moment.
 */

import { solidOf } from '../geometry/part-solid';
import { memo } from '../memo';
import { inShop } from '../model/material-of';
import type { Setup } from '../model/model';
import { resolvePart } from '../model/part';
import { checkPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import { slowFeature } from '../rules/cost/slow-feature';
import { toolChanges } from '../rules/cost/tool-changes';
import { placed } from '../rules/fixes';
import { said } from '../rules/kit/define';
import type { Finding } from '../rules/kit/rule';
import { limitOf } from '../rules/run';
import { applyEdits } from '../text/edit';
import { readText } from '../text/read';
import { ROUNDING, SAME } from '../tolerance';
import { type Change, changesOf, commonSizes } from './changes';
import { orderOf, pieceTime } from './piece-time';
import { type Range, saved, sum } from './ranges';
import { type PlanTime, timeOf } from './times';

interface Saving {
  readonly change: Change;
  /** Minutes of the first piece. */
  readonly minutes: Range;
  readonly before: PlanTime;
  readonly after: PlanTime;
  /** Names of tools that are not put in any more. */
  readonly spared: readonly string[];
}

/** Changes priced for one part, those to the slowest features first: each works the part out again. */
const MOST_TRIED = 80;

/** `cost/tool-changes` and `cost/slow-feature`; worked out again when a plan has been found. */
export function costFindings(checked: CheckedPart): readonly Finding[] {
  const time = checked.part.broken.size > 0 ? undefined : pieceTime(checked);
  return time ? dearIn(checked, orderOf(checked).setups, time.machine) : [];
}

const dearIn = memo((checked: CheckedPart, setups: readonly Setup[], before: PlanTime): readonly Finding[] => {
  const { part, shop } = checked;
  const limit = (rule: typeof toolChanges, name: string) => limitOf(rule, name, shop, part);
  const sparing = limit(toolChanges, 'saves');
  const slow = Math.max(limit(slowFeature, 'saves'), (limit(slowFeature, 'share') / 100) * before.firstPiece[0]);
  const source = { ...checked, alikeMm: limit(toolChanges, 'alike') };
  let left = MOST_TRIED;
  const priced = (changes: Iterable<Change>) =>
    [...changes].flatMap((c) => (left-- > 0 ? (savingOf(c, checked, setups, before) ?? []) : []));

  const told: Saving[] = [];
  const lesser = new Map<Saving, Saving>();
  const taken = new Set<string>();
  const tell = (s: Saving) => {
    told.push(s);
    for (const name of s.change.of) taken.add(name);
  };
  // Where the cutting itself becomes so much quicker, the tool that is spared is not what to tell.
  const spares = (s: Saving) => s.spared.length > 0 && s.minutes[0] >= sparing - ROUNDING && cuttingSaved(s) < slow;
  for (const s of cheapestFirst(priced(commonSizes(source)).filter(spares)))
    if (s.change.of.every((n) => !taken.has(n)) && isSound(s, checked)) tell(s);

  const most = mostSaved(before);
  const slowest = part.features
    .map((feature) => ({ feature, most: most.get(feature.name) ?? NOTHING }))
    .sort((a, b) => b.most.cutting - a.most.cutting);
  for (const { feature, most } of slowest) {
    if (taken.has(feature.name)) continue;
    if (most.cutting < slow && most.tools.length === 0) continue;
    // Too quick to gain much: a tool can be spared only for one that is put in anyway.
    const mills = most.cutting < slow ? { mills: before.setups.flatMap((t) => t.tools) } : {};
    const all = priced(changesOf(feature, { ...source, ...mills }));
    const good = all.filter((s) => spares(s) || cuttingSaved(s) >= slow);
    const best = leastThatDoes(good, Math.min(sparing, slow), checked);
    if (!best) continue;
    tell(best);
    const already = smallerThatHelps(good, best);
    if (already) lesser.set(best, already);
  }
  return told.map((s) => findingOf(s, checked, spares(s), lesser.get(s)));
});

interface Most {
  readonly cutting: number;
  readonly tools: readonly string[];
}
const NOTHING: Most = { cutting: 0, tools: [] };

/** What no change to a feature can save more than, by its name: what it takes, and the tools that nothing else needs. */
function mostSaved({ setups }: PlanTime): ReadonlyMap<string, Most> {
  const most = new Map<string, Most>();
  for (const s of setups) {
    const users = new Map<string, Set<string>>();
    for (const { name, tools } of s.cuts) for (const t of tools) users.set(t, (users.get(t) ?? new Set()).add(name));
    for (const { name, minutes, tools } of s.cuts) {
      const { cutting, tools: before } = most.get(name) ?? NOTHING;
      const alone = tools.filter((t) => users.get(t)!.size === 1);
      most.set(name, { cutting: cutting + minutes[0], tools: alone.length > 0 ? [...before, ...alone] : before });
    }
  }
  return most;
}

/** Of the cutting alone, the less of the two ends. */
function cuttingSaved({ before, after }: Saving): number {
  return saved(cuttingOf(before), cuttingOf(after))[0];
}

function cuttingOf({ setups }: PlanTime): Range {
  return sum(setups.map((s) => s.cutting));
}

const middle = (s: Saving) => (s.minutes[0] + s.minutes[1]) / 2;

function cheapestFirst(savings: readonly Saving[]): readonly Saving[] {
  return savings.toSorted((a, b) => middle(b) - middle(a) || a.change.byMm - b.change.byMm);
}

/** The smallest change after which no larger one would save much more. */
function leastThatDoes(savings: readonly Saving[], muchMin: number, checked: CheckedPart): Saving | undefined {
  const sound = cheapestFirst(savings).filter((s) => isSound(s, checked));
  const [best] = sound;
  if (!best) return undefined;
  const enough = sound.filter((s) => s.minutes[0] > best.minutes[0] - muchMin && middle(s) > middle(best) - muchMin);
  return enough.toSorted((a, b) => a.change.byMm - b.change.byMm)[0];
}

/** Of the same kind and smaller, the smallest that saves half as much. */
function smallerThatHelps(savings: readonly Saving[], best: Saving): Saving | undefined {
  return savings
    .filter((s) => s.change.byMm < best.change.byMm - SAME && s.change.span === best.change.span)
    .filter((s) => s.minutes[0] >= best.minutes[0] / 2)
    .toSorted((a, b) => a.change.byMm - b.change.byMm)[0];
}

/** Undefined where the change cannot be made, or something would then lack a tool. */
function savingOf(
  change: Change,
  checked: CheckedPart,
  setups: readonly Setup[],
  before: PlanTime,
): Saving | undefined {
  const text = textWith(change, checked);
  if (text === undefined) return undefined;
  const tree = readText(text, checked.tree);
  const part = inShop(resolvePart(tree, checked.reading.part), checked.shop);
  if (!part.body || part.broken.size > 0 || part.problems.length > checked.part.problems.length) return undefined;
  const solid = solidOf(part, checked.solid);
  const same = checked.part.setups ? (part.setups ?? []) : setups;
  const after = timeOf(same, { ...checked, tree, part: { ...part, setups: same }, solid });
  const missing = (time: PlanTime) => time.setups.reduce((n, s) => n + s.missing.length, 0);
  if (missing(after) > missing(before)) return undefined;
  const minutes = saved(before.firstPiece, after.firstPiece);
  if (minutes[0] <= 0) return undefined;
  return { change, minutes, before, after, spared: sparedBy(before, after) };
}

/** Tools that a set-up does not need any more, where it needs no other for them. */
function sparedBy(before: PlanTime, after: PlanTime): readonly string[] {
  if (after.toolChanges >= before.toolChanges) return [];
  return before.setups.flatMap((s, i) => {
    const now = new Set(after.setups[i]?.tools.map((t) => t.name));
    return s.tools.map((t) => t.name).filter((name) => !now.has(name));
  });
}

function textWith({ edits }: Change, { tree }: CheckedPart): string | undefined {
  const sorted = placed(edits, tree);
  return sorted && applyEdits(tree.text, sorted);
}

/** No error that was not there before, and no warning more. */
function isSound({ change }: Saving, checked: CheckedPart): boolean {
  const text = textWith(change, checked);
  if (text === undefined) return false;
  const after = checkPart(text, checked.shop, checked);
  return (['error', 'warning'] as const).every((severity) => {
    const count = (findings: readonly Finding[]) => findings.filter((f) => f.severity === severity).length;
    return count(after.findings) <= count(checked.findings);
  });
}

function findingOf(s: Saving, checked: CheckedPart, spares: boolean, lesser: Saving | undefined): Finding {
  const { change, minutes, before, spared } = s;
  const first = checked.part.quantity > 1 ? ' of the first piece' : '';
  const range = rangeText(minutes);
  const takes = timeTaken(change.of, before);
  const names = change.of.join(', ');
  const already = lesser ? `. Or use ${lesser.change.words}: saves ${rangeText(lesser.minutes)}` : '';
  const less = before.toolChanges - s.after.toolChanges;
  const fewer = less > 0 ? ` and ${less} tool change${less === 1 ? '' : 's'}` : '';
  const all = cuttingOf(before);
  const share = takes[1] > 0.99 * all[1] ? 'all of the cutting' : `of ${rangeText(all)} of cutting`;
  const message = spares
    ? `Tool ${spared.join(', ')} ${spared.length === 1 ? 'is' : 'are'} used for ${names} only. Use ${change.words}: saves ${range}${first}${already}.`
    : `Feature ${names} needs ${rangeText(takes)}${share.startsWith('all') ? ', ' : ' '}${share}. Use ${change.words}: saves ${range}${first}${fewer}${already}.`;
  const told = said(spares ? toolChanges : slowFeature, {
    message,
    of: change.of,
    span: change.span,
    facts: {
      saved_low_min: minutes[0],
      saved_high_min: minutes[1],
      ...(spares
        ? { tools: before.toolChanges, needed: s.after.toolChanges, spared: spared.join(', ') }
        : { takes_low_min: takes[0], takes_high_min: takes[1] }),
    },
  });
  return { ...told, fixes: [{ title: `${change.title} (saves ${range})`, safe: false, edits: change.edits }] };
}

function timeTaken(names: readonly string[], { setups }: PlanTime): Range {
  const cuts = setups.flatMap((s) => s.cuts).filter((c) => names.includes(c.name));
  return sum(cuts.map((c) => c.minutes));
}

/** `1.9 to 4.1 min`, whole minutes from ten on. */
function rangeText([low, high]: Range): string {
  const digits = high < 10 ? 1 : 0;
  const [a, b] = [low.toFixed(digits), high.toFixed(digits)];
  return `${a === b ? a : `${a} to ${b}`} min`;
}

/**
 * The judging of one part, rule by rule. What a rule finds depends on the part and the shop alone, so the rules can be
 * asked one at a time, here or in another thread, and what they found is put together the same way whoever asked.
 */

import { limited } from '../effort';
import type { Solid } from '../geometry/types';
import { featureNameOf } from '../model/member-name';
import type { Part } from '../model/model';
import type { Shop } from '../model/shop-model';
import type { TextTree } from '../text/tree';
import { accepts } from './accept';
import { withoutOutranked } from './dominance';
import { lossesOf, mayFollow, withoutConsequences } from './follows';
import { notJudged } from './form/not-judged';
import { withHomes } from './kit/included';
import { notJudgedFinding } from './kit/not-judged';
import type { Finding, Rule } from './kit/rule';
import { inTextOrder } from './order';
import { RULES, ruleByName } from './registry';
import { limitOf, runOne } from './run';
import { judgesBy } from './without-shop';

/** A part read and worked out. */
export interface ReadPart {
  readonly tree: TextTree;
  readonly part: Part;
  readonly shop: Shop;
  readonly solid: Solid;
}

/** Those that must know of others after them. */
const JUDGING = RULES.filter((r) => r.when !== 'last').sort(
  (a, b) => Number(a.when === 'after') - Number(b.when === 'after'),
);
/** They judge what the others found. */
const LAST = RULES.filter((r) => r.when === 'last');
const IN_TURN: readonly Rule[] = [...JUDGING, ...LAST];
const NAMES: ReadonlySet<string> = new Set(IN_TURN.map((r) => r.name));

export function isLast(rule: string): boolean {
  return ruleByName(rule)?.when === 'last';
}

export class Judging {
  readonly #of: ReadPart;
  /** What was found while the text was read. */
  readonly #problems: readonly Finding[];
  readonly #raised = new Map<string, readonly Finding[]>();
  readonly #rules: readonly Rule[];
  readonly #names: ReadonlySet<string>;
  /** Units that each rule may take. */
  readonly #most: number;
  /** What those that judge last are handed. */
  #before: readonly Finding[] | undefined;
  #all: readonly Finding[] | undefined;

  /** `lost`: the part could not be worked out, and there is nothing to judge. */
  constructor(of: ReadPart, problems: readonly Finding[], lost = false) {
    this.#of = of;
    this.#problems = problems;
    const all = !lost && of.shop.unread === undefined;
    this.#rules = all ? IN_TURN : lost ? [] : IN_TURN.filter((rule) => judgesBy(rule, of.shop));
    this.#names = all ? NAMES : new Set(this.#rules.map((r) => r.name));
    this.#most = limitOf(notJudged, 'work', of.shop) * 1e6;
  }

  /** Names of the rules that have not judged yet, in the order in which they should. */
  get open(): readonly string[] {
    return this.#all ? [] : this.#rules.filter((r) => !this.#raised.has(r.name)).map((r) => r.name);
  }

  /** What each rule raised that has judged, accepted or not. */
  get raised(): ReadonlyMap<string, readonly Finding[]> {
    return this.#raised;
  }

  /** What a rule raises. Throws `CutShort` where a meter says so, and then knows as much as before. */
  judge(name: string): readonly Finding[] {
    const known = this.#raised.get(name);
    if (known) return known;
    const rule = ruleByName(name)!;
    const found = rule.when === 'last' ? this.#judgeLast(rule) : this.#judge(rule);
    this.#raised.set(name, found);
    return found;
  }

  /** Takes what the rule raised elsewhere, over the same text. */
  take(name: string, found: readonly Finding[]): void {
    if (!this.#raised.has(name)) this.#raised.set(name, found);
  }

  /** Judges what is left to judge, and answers everything: in text order, accepted findings left out. */
  finish(): readonly Finding[] {
    if (!this.#all) {
      for (const name of this.open) this.judge(name);
      this.#all = this.#together((name) => this.#raised.get(name) ?? []);
    }
    return this.#all;
  }

  /** What these rules found, and the text's own problems: what the others would find is not asked. */
  only(wanted: (rule: Rule) => boolean): readonly Finding[] {
    if (this.#all) return this.#all;
    // What a rule finds stands only beside what is said above it.
    const names = this.#rules.filter(wanted).flatMap((r) => [r.name, ...(r.under ?? [])]);
    const asked = new Set(names.filter((name) => this.#judges(name)));
    for (const name of asked) this.judge(name);
    return this.#together((name) => (asked.has(name) ? this.judge(name) : []));
  }

  /** What is known by now. For rules that are still to judge, `before` says what they found in the text before. */
  soFar(before: (rule: string) => readonly Finding[]): readonly Finding[] {
    return this.#all ?? this.#together((name) => this.#raised.get(name) ?? before(name).filter((f) => this.#stands(f)));
  }

  /** What was found, over the same part read anew. */
  over(of: ReadPart): Judging {
    const same = new Judging(of, this.#problems, this.#rules.length === 0);
    for (const [name, found] of this.#raised) same.take(name, found);
    same.#all = this.#all;
    return same;
  }

  #judge(rule: Rule): readonly Finding[] {
    const { part, shop } = this.#of;
    const above = rule.when === 'after' ? rule.under : undefined;
    const raised = above?.flatMap((name) => (this.#judges(name) ? this.judge(name) : []));
    return limited(
      this.#most,
      () => runOne(rule, this.#of, raised && { raised }),
      () => [notJudgedFinding(rule.name, part, limitOf(notJudged, 'work', shop))],
    );
  }

  #judges(name: string): boolean {
    return this.#names.has(name);
  }

  #judgeLast(rule: Rule): readonly Finding[] {
    this.#before ??= this.#beforeLast();
    return runOne(rule, this.#of, { raised: this.#before });
  }

  #beforeLast(): readonly Finding[] {
    const all = JUDGING.filter((r) => this.#judges(r.name)).flatMap((r) => this.judge(r.name));
    const accepted = all.filter((f) => this.#isAccepted(f));
    const open = all.filter((f) => !this.#isAccepted(f));
    return [...accepted, ...withoutOutranked(open, accepted)];
  }

  #together(raised: (rule: string) => readonly Finding[]): readonly Finding[] {
    const { part, tree } = this.#of;
    const of = (rules: readonly Rule[]) => (this.#rules.length === 0 ? [] : rules.flatMap((r) => raised(r.name)));
    const lost = lossesOf(part, tree);
    const own = (f: Finding) => !lost || !mayFollow(f, lost);
    const all = of(JUDGING);
    const open = all.filter((f) => !this.#isAccepted(f));
    // What may follow from a fault is not told, but still it is what a lesser finding of the same would say.
    const accepted = open.length < all.length ? all.filter((f) => this.#isAccepted(f)) : [];
    const told = withoutOutranked(open, accepted).filter(own);
    const found = [...this.#problems, ...withoutConsequences(told), ...of(LAST).filter(own)];
    return inTextOrder(withHomes(found, part), tree);
  }

  #isAccepted(finding: Finding): boolean {
    return this.#of.part.accept.some((a) => accepts(a, finding));
  }

  /** Whether the text that a finding is about is still there. */
  #stands({ span, of }: Finding): boolean {
    const { part, tree } = this.#of;
    return tree.blocks.has(span.block) && of.every((name) => part.featureByName.has(featureNameOf(name)));
  }
}

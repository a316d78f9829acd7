/** What a rule is, what it finds, and how it mends. Rules are values; they know no editor, no file, no terminal. */
import type { Solid } from '../geometry/types';
import type { Feature, Part } from '../model/model';
import type { Shop } from '../model/shop-model';
import type { Span, TextTree } from '../text/tree';
import type { FindingData } from './finding-data';

export type Severity = 'error' | 'warning' | 'hint';
export type Facts = Readonly<Record<string, number | string>>;

/** A change to the part's text that cures a finding. */
export interface Fix {
  readonly title: string;
  /** Safe: the part stays what its author meant (a tidier text, a nearest name). Unsafe: the part changes; the title says how. */
  readonly safe: boolean;
  readonly edits: readonly SpanEdit[];
}
export interface SpanEdit {
  readonly span: Span;
  readonly newText: string;
}

/**
 * What is wrong with a part. A value: everything that is meant by it stands in it, so that it means the same when it has
 * come from another thread.
 */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  /** What is wrong, by how much, and what would do; plain text, lengths in the document's units. */
  readonly message: string;
  /** Features it is about: `mount`, or `mount[2]` where one member is meant. */
  readonly of: readonly string[];
  /** The narrowest text that can be changed to cure it. */
  readonly span: Span;
  readonly related: readonly { readonly span: Span; readonly message: string }[];
  /** Every number that the message quotes. Keys end in their unit: `thickness_mm`. */
  readonly facts: Facts;
  /** Where it is on the part, mm in part axes, for the view. */
  readonly at?: readonly (readonly [number, number, number])[];
  /** Ways to cure it that were known where it was made: those of the text, and those that the planner priced. */
  readonly fixes?: readonly Fix[];
  /** What its rule's `mend` needs to know of it beside the facts. */
  readonly data?: FindingData;
}

/** A number a rule compares with; a setting of the shop's `limits:` under the rule's name. */
export interface Limit {
  readonly name: string;
  readonly value: number;
  readonly unit: 'mm' | 'deg' | 'ratio' | 'percent' | 'count' | 'um' | 'mpa' | 'min';
  readonly what: string;
  /** Published source, or "common practice, no source". */
  readonly source: string;
}

export interface RuleContext {
  readonly part: Part;
  readonly shop: Shop;
  readonly solid: Solid;
  /** For the narrowest place and for edits: how the author wrote it. */
  readonly tree: TextTree;
  /** Names of all rules. */
  readonly ruleNames: readonly string[];
  /** What every other rule found, accepted ones included; only for rules that run `last`; of the rules it names, for one that runs `after` them. */
  readonly raised?: readonly Finding[];
  /** The planner tries set-ups and only counts what is found: what is long to work out for the message may be left out. */
  readonly counting?: boolean;
  /**
   * The rule's own limit by name: the shop's setting, or the default. Where a rule has `metal` and
   * `plastic` (or `web-metal` and `web-plastic`), another name (`web`) asks for the one of the part's material.
   */
  limit(name: string): number;
  /** The same of another rule, where one begins where the other ends: read, never copied. */
  limitOf(rule: Pick<Rule, 'name' | 'limits'>, name: string): number;
  /** A length for a message, in the document's units: `0.4 mm`, `0.016 in`. */
  length(mm: number): string;
  /** A length as text for an edit, in the document's units, short: `3.5`. */
  write(mm: number): string;
}

export interface Rule {
  /** `topic/what` */
  readonly name: string;
  readonly severity: Severity;
  /** Some of its findings are errors, though it is none as a rule. */
  readonly mayBeError?: true;
  /** None of its findings is an error where only the built-in shop is known. */
  readonly mildByBuiltIn?: true;
  /** One line. */
  readonly summary: string;
  /** Why it matters at the machine: a short paragraph. */
  readonly why: string;
  /** How it is worked out, with the names of the facts. */
  readonly formula?: string;
  readonly limits: readonly Limit[];
  /** Part files: the bad one raises this rule (and no other error), the good one does not. Run by the tests. */
  readonly bad: string;
  readonly good: string;
  /** The shop file that both are judged by; left out: the built-in shop. */
  readonly shop?: string;
  /** Judges a whole job: its examples are job files, and its findings are made where all parts are known. */
  readonly ofJob?: boolean;
  /** Its findings are made by the planner, which stands above the rules; `find` adds none. */
  readonly ofPlan?: boolean;
  /** Needs no solid: is run even when the body is broken. */
  readonly textOnly?: boolean;
  /** Rules whose findings it must know: it judges after them, and says what they left unsaid. */
  readonly after?: readonly string[];
  /** Judges what the other rules found: is run after them. */
  readonly last?: boolean;
  /** Its findings are made while the text is read and resolved; `find` adds few or none. They cannot be accepted. */
  readonly fromProblems?: boolean;
  find(context: RuleContext): Iterable<Finding>;
  /** Which fixes are offered, for its page: one sentence or two. */
  readonly mends?: string;
  /** Candidate fixes for one of its findings; each is offered only after it was tried and cured it. */
  mend?(finding: Finding, context: RuleContext): Iterable<Fix>;
}

export interface FeatureFinding {
  readonly feature: Feature;
  readonly finding: Finding;
}

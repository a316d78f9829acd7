/** What a rule is, what it finds, and how it mends. Rules are values; they know no editor, no file, no terminal. */
import type { Solid } from '../../geometry/types';
import type { Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { Position } from '../../text/lines';
import type { Span, TextTree } from '../../text/tree';

export type Severity = 'error' | 'warning' | 'hint';
export type Facts = Readonly<Record<string, number | string>>;

/** A change to the part's text that cures a finding. */
export interface Fix {
  readonly title: string;
  /** Safe: the part stays what its author meant (a tidier text, a nearest name). Unsafe: the part changes; the title says how. */
  readonly safe: boolean;
  readonly edits: readonly SpanEdit[];
  /** In other documents than the finding's own, by their paths as that one writes them; a span means something there. */
  readonly elsewhere?: readonly OtherEdits[];
  /** The next one is as likely meant: none of them is preferred. */
  readonly equal?: true;
}
interface OtherEdits {
  readonly file: string;
  readonly edits: readonly (SpanEdit & { readonly range: Range })[];
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
  /** What is there, what is needed, then what to change, from its first command on; plain text, lengths in the document's units. */
  readonly message: string;
  /** The named thing with its kind: `pocket left-cell`, `set-up first`. */
  readonly thing?: string;
  /** What it has and what it needs in figures, short: `0.4 mm`. */
  readonly has?: string;
  readonly needs?: string;
  /** Features it is about: `mount`, or `mount[2]` where one member is meant. */
  readonly of: readonly string[];
  /** The narrowest text that can be changed to cure it. */
  readonly span: Span;
  readonly related: readonly Related[];
  /** Every number that the message quotes. Keys end in their unit: `thickness_mm`. */
  readonly facts: Facts;
  /** Where it is on the part, mm in part axes, for the view. */
  readonly at?: readonly (readonly [number, number, number])[];
  /** Ways to cure it that were known where it was made: those of the text, and those that the planner priced. */
  readonly fixes?: readonly Fix[];
  /** What its rule's `mend` needs to know of it: plain data, kept by the rule when it found it (`define.ts`). */
  readonly data?: unknown;
  /** What it says, thing by thing, for rules that would say less of the same (`Rule.under`). */
  readonly says?: readonly Saying[];
  /** The rows of the table of variants that have it, where the part as its parameters say has not. */
  readonly variants?: readonly string[];
}

/** A place beside the finding's own. */
interface Related {
  readonly span: Span;
  readonly message: string;
  /** In another document than the finding: its path as the job writes it; `span` means nothing then. */
  readonly elsewhere?: { readonly file: string; readonly span: Span; readonly range: Range };
}
interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** One thing that a finding speaks of, under a name that rules agree on, how gravely, and how much it asks for. */
export interface Saying {
  readonly of: string;
  readonly severity: Severity;
  readonly asks: number;
  /** Said even where the finding was accepted: who lives with it does not want to hear the same in other words. */
  readonly evenAccepted?: true;
}

/**
 * When a rule judges, and of what.
 * `part`: each part that has a body. `setups`: only where set-ups are written. `text`: also where the body is broken.
 * `read`: found while the text is read and resolved, or by the checker of itself; `find` adds few or none, and nothing of it
 * can be accepted. `after`: as `part`, but after the rules it stands `under`, whose findings it is handed. `last`: after
 * all, whose findings it is handed. `plan`: found by the planner, which stands above the rules. `job`: of a whole job; its
 * examples are job files, and it is found where all parts are known.
 */
export type When = 'part' | 'setups' | 'text' | 'read' | 'after' | 'last' | 'plan' | 'job';

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
  /** A rule by its name; undefined where there is none. */
  ruleNamed(name: string): Pick<Rule, 'when'> | undefined;
  /** What every other rule found, accepted ones included; for a rule that judges `last`; of those it stands `under`, for one that judges `after` them. */
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
  /** A computed length for a message: to 0.01 mm, finer where it would else read as nothing, or as `besideMm`. */
  about(mm: number, besideMm?: number): string;
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
  /** How it is worked out. */
  readonly formula?: string;
  readonly limits: readonly Limit[];
  /** Where the limit comes from, of a rule that has no number to set: a standard, the shop file, a rule of thumb. */
  readonly bounds?: string;
  /** Part files: the bad one raises this rule (and no other error), the good one does not. Run by the tests. */
  readonly bad: string;
  readonly good: string;
  /** The shop file that both are judged by; left out: the built-in shop. */
  readonly shop?: string;
  /** Left out: `part`. */
  readonly when?: When;
  /**
   * Rules that may say graver things of the same: what one of them `says` as gravely, and asks as much for, this one does
   * not say again. An accepted finding says only what it says `evenAccepted`.
   */
  readonly under?: readonly string[];
  find(context: RuleContext): Iterable<Finding>;
  /** Which fixes are offered, for its page: one sentence or two. */
  readonly mends?: string;
  /** Candidate fixes for one of its findings; each is offered only after it was tried and cured it. */
  mend?(finding: Finding, context: RuleContext): Iterable<Fix>;
}

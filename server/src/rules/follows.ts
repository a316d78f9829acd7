/**
 * Which findings may be nothing but the shadow of another. A fault of the text takes something out of the part (a feature,
 * a set-up, the stock); what is then found of the rest may be there for that reason alone, and is not told beside it. Told
 * are what the fault has nothing to do with, and the fault.
 */

import { featureNameOf } from '../model/member-name';
import type { Accept, Named, Part } from '../model/model';
import { at, samePlace, type TextNode, type TextTree } from '../text/tree';
import { accepts } from './accept';
import type { Finding } from './kit/rule';
import { ruleByName } from './registry';

/** What could not be read. */
interface Losses {
  /** Names of features. */
  readonly features: ReadonlySet<string>;
  /** Of the set-ups in the order of the text the first of which not all could be read. */
  readonly setupsFrom: number;
  /** The first set-up that cuts a feature that was lost. */
  readonly cutFrom: number;
  readonly stock: boolean;
  /** Whether lengths are in millimetres or inches. */
  readonly units: boolean;
  /** Some of the text is no YAML: what it mentions is not known. */
  readonly words: boolean;
  /** Set-ups not all of which could be read. */
  readonly unread: readonly string[];
  /** Set-ups by name, in the order of the text. */
  readonly order: readonly string[];
  /** Entries of `accept` that could not be read, as far as they could. */
  readonly accepted: readonly Partial<Accept>[];
  /** Features that a set-up read in full cuts, before any that was not. */
  readonly assigned: ReadonlySet<string>;
}

const FAULTS: ReadonlySet<string> = new Set(['form/schema', 'form/unit', 'form/unknown-name']);

/** Undefined where the whole text was understood. */
export function lossesOf(part: Part, tree: TextTree): Losses | undefined {
  const faults = part.problems.filter((p) => FAULTS.has(p.rule));
  if (faults.length === 0 && tree.problems.length === 0 && part.broken.size === 0) return undefined;
  const blocks = [...faults, ...tree.problems].map((p) => p.span.block);
  const all = blocks.includes('');
  const within = (entry: string) => blocks.some((b) => b === entry || b.startsWith(`${entry}/`));
  const lost = (entry: string) => all || blocks.includes(entry);
  const setups = at(tree.root, 'setups');
  const order = setups?.type === 'map' ? setups.entries.map((e) => String(e.key.value)) : [];
  const first = (is: (name: string) => boolean) => {
    const i = order.findIndex(is);
    return i < 0 ? Number.POSITIVE_INFINITY : i;
  };
  const read = new Map((part.setups ?? []).map((s) => [s.name, s]));
  const unread = (name: string) => lost('setups') || within(`setups/${name}`) || !read.has(name);
  const setupsFrom = lost('setups') ? 0 : first(unread);
  const cuts = (name: string) => read.get(name)?.cuts.map((c) => featureNameOf(c.name)) ?? [];
  return {
    features: lost('features') ? new Set([...part.broken, '']) : part.broken,
    setupsFrom,
    cutFrom: first((name) => cuts(name).some((cut) => part.broken.has(cut))),
    stock: all || within('stock'),
    units: all || within('units'),
    unread: order.filter(unread),
    words: tree.problems.length > 0,
    order,
    accepted: halfRead(part, tree),
    assigned: new Set(order.slice(0, setupsFrom).flatMap(cuts)),
  };
}

/** Each with its rule and what it is of, where they stand there. */
function halfRead(part: Part, tree: TextTree): readonly Partial<Accept>[] {
  const list = at(tree.root, 'accept');
  const items = list?.type === 'list' ? list.items : list ? [list] : [];
  return items.flatMap((item) => {
    if (part.accept.some((a) => samePlace(a.span, item.span))) return [];
    const [rule, of] = [named(at(item, 'rule')), named(at(item, 'of'))];
    const known = of && (part.featureByName.has(featureNameOf(of.name)) || part.broken.has(featureNameOf(of.name)));
    return rule || known ? [{ ...(rule && { rule }), ...(of && known && { of }) }] : [];
  });
}

function named(node: TextNode | undefined): Named | undefined {
  return node?.type === 'scalar' && typeof node.value === 'string' ? { name: node.value, span: node.span } : undefined;
}

/** Whether an entry that is mended may speak of it. */
function mayAccept({ rule, of }: Partial<Accept>, finding: Finding): boolean {
  return accepts(
    { rule: rule ?? { name: finding.rule, span: finding.span }, ...(of && { of }), span: finding.span },
    finding,
  );
}

/** Told of a feature, and other where a set-up cuts it: by how it is held, from where, on which machine. */
const BY_SETUP =
  /^(access\/(reach|holder|no-tool|tilted)|hole\/(depth-ratio|sloped-start|out-of-reach)|machine\/|tol\/|cost\/|stock\/extra$)/;
/** There for material that the lost feature might have taken away. */
const OF_WHAT_STANDS =
  /^(access\/(reach|holder|jaw|covered|no-setup|no-tool)|corner\/|hole\/(depth-ratio|sloped-start|out-of-reach|flat-bottom)|machine\/|wall\/(slender|deflects)|cost\/|stock\/waste|tol\/as-set-up)/;
const OF_SETUPS = /^(hold|setup)\/|^access\/no-setup$|^tol\/as-set-up$/;

/** Whether a finding may be there for no other reason than what was lost. */
export function mayFollow(finding: Finding, lost: Losses): boolean {
  const { rule } = finding;
  if (rule === 'form/not-judged' || ruleByName(rule)?.when === 'read') return false;
  // Both ask of the whole text whether something is used in it.
  if (rule === 'form/unneeded-accept' || (rule === 'form/unused-parameter' && lost.words)) return true;
  if (lost.accepted.some((entry) => mayAccept(entry, finding))) return true;
  if (lost.units && rule !== 'form/unused-parameter') return true;
  const { block } = finding.span;
  const at = block.startsWith('setups/') ? lost.order.indexOf(block.split('/')[1]!) : undefined;
  if (lost.stock && (at !== undefined || OF_SETUPS.test(rule) || rule.startsWith('stock/'))) return true;
  return ofSetups(finding, at, lost) || ofFeatures(rule, at, lost);
}

function ofSetups({ rule, of }: Finding, at: number | undefined, { setupsFrom, assigned }: Losses): boolean {
  if (setupsFrom === Number.POSITIVE_INFINITY) return false;
  if (at !== undefined) return at >= setupsFrom || rule === 'access/no-setup';
  if (OF_SETUPS.test(rule)) return true;
  return BY_SETUP.test(rule) && !of.every((name) => assigned.has(featureNameOf(name)));
}

function ofFeatures(rule: string, at: number | undefined, { features, cutFrom }: Losses): boolean {
  if (features.size === 0) return false;
  // What no set-up cuts is not there for any of them: they are what they were.
  return at === undefined ? OF_WHAT_STANDS.test(rule) : at >= cutFrom;
}

/** Findings without those that stand or fall with another: a cut that cannot be made in a set-up need not be held in it. */
export function withoutConsequences(findings: readonly Finding[]): readonly Finding[] {
  const stranded = findings.filter((f) => f.rule === 'access/no-setup' && f.span.block.startsWith('setups/'));
  if (stranded.length === 0) return findings;
  const follows = (f: Finding) =>
    /^(access|hold)\//.test(f.rule) &&
    stranded.some(
      (s) =>
        s !== f && s.span.block === f.span.block && f.rule !== s.rule && f.of.some((n) => featureNameOf(n) === s.of[0]),
    );
  return findings.filter((f) => !follows(f));
}

/** Hovers: what a key means, what a value comes to, and what the rules say of it with this part's numbers. */

import { schemaAt } from '../model/lookup';
import { materialOf } from '../model/material-of';
import { type Angle, FACE_AXIS, type Feature, type Length } from '../model/model';
import type { Machine } from '../model/shop-model';
import { valuesOf } from '../model/values';
import { machineFor } from '../process/operations/machine';
import type { Priced } from '../process/operations/priced';
import { figuresAtHand } from '../report/at-hand';
import { formulaeOf } from '../report/cut-formulae';
import { cutLine, cutsBySetup, passedOverLines, pricedCuts, unpricedLines, WHERE_TO_BEGIN } from '../report/cuts';
import { facingsOf } from '../report/facings';
import { setUpNotes } from '../report/set-up-notes';
import { standsOutOf } from '../report/stands-out';
import { partsOf, sidesOf } from '../rules/kit/parts';
import type { Finding } from '../rules/kit/rule';
import { limitText, numbersText, severityLine, sourceText } from '../rules/page';
import { ruleByName } from '../rules/registry';
import { code, escapeMarkdown, messageMarkdown } from '../text/markdown';
import { type Cursor, cursorAt } from './cursor';
import { featureText } from './feature-text';
import { blankText } from './hover-blank';
import { includeText } from './hover-included';
import { jointText } from './hover-joints';
import { screwText } from './hover-screws';
import { toleranceText } from './hover-tolerances';
import { rowText } from './hover-variants';
import { rangeOf } from './lsp';
import { describeName } from './mentions';
import { measuredText } from './record';
import type { Hover } from './shapes';
import { signed } from './signed';
import type { PartSnapshot, Snapshot } from './snapshot';

/** Numbers that nobody wrote, by what the editor's settings call them. */
export type Unwritten = 'values' | 'sizes' | 'cutting';

interface HoverOptions {
  /** What is not wanted in hovers either. */
  readonly without?: readonly Unwritten[] | undefined;
  /** The folder of the rules' pages, as a URI. */
  readonly pagesUri?: string | undefined;
  /** Without what would have to be worked out first. */
  readonly quick?: boolean;
  /** What the jobs of the part say of it. */
  readonly met?: readonly string[];
}

/** What is shown in the place of figures that take long. */
const BEING_WORKED_OUT = '*Its figures are being worked out; they are here in a moment.*';

export function hoverAt(snapshot: Snapshot, offset: number, options: HoverOptions = {}): Hover | undefined {
  const { pagesUri, quick, met = [], without = [] } = options;
  const wants = (what: Unwritten) => !without.includes(what);
  const cursor = cursorAt(snapshot.checked.tree, offset);
  const pieces: string[] = [];
  if (snapshot.kind === 'part' && cursor.scalar && !cursor.onKey)
    pieces.push(...(wants('values') ? valueText(snapshot, offset) : []), ...toleranceText(snapshot, offset));
  if (snapshot.kind === 'part')
    pieces.push(
      ...defaultsText(snapshot, cursor, { quick, wants }),
      ...(wants('cutting') ? facingText(snapshot, cursor, quick) : []),
      ...figuresText(snapshot, cursor, quick),
      ...rowText(snapshot, cursor, quick ? BEING_WORKED_OUT : undefined),
    );
  if (snapshot.kind === 'part')
    pieces.push(
      ...heldText(snapshot, cursor),
      ...screwText(snapshot, cursor),
      ...includeText(snapshot, cursor),
      ...blankText(snapshot, cursor),
    );
  if (snapshot.kind === 'record') pieces.push(...measuredText(snapshot, offset));
  if (snapshot.kind === 'job') pieces.push(...jointText(snapshot, cursor));
  pieces.push(...met, ...nameText(snapshot, cursor), ...schemaText(snapshot, cursor));
  for (const [rule, findings] of byRule(findingsAt(snapshot, offset)))
    pieces.push(ruleText(snapshot, rule, findings, pagesUri));
  if (pieces.length === 0) return undefined;
  return {
    contents: { kind: 'markdown', value: pieces.join('\n\n---\n\n') },
    ...(cursor.scalar ? { range: rangeOf(snapshot, cursor.scalar.span) } : {}),
  };
}

export function findingsAt(snapshot: Snapshot, offset: number): readonly Finding[] {
  const { tree } = snapshot.checked;
  return snapshot.findings.filter((f) => {
    const { start, end } = tree.locate(f.span);
    return start <= offset && offset <= end;
  });
}

/** On `hold` and what is in it: how far the work stands out of the jaws on each side. */
function heldText({ checked }: PartSnapshot, { path }: Cursor): string[] {
  const [section, setup, field] = path;
  if (section !== 'setups' || field !== 'hold') return [];
  const notes = setUpNotes(checked)[checked.part.setups?.findIndex((s) => s.name === setup) ?? -1] ?? [];
  return [
    ...standsOutOf(checked).flatMap((s) => (s.setup === setup ? [`${escapeMarkdown(s.text)}.`] : [])),
    ...notes.map((note) => `${escapeMarkdown(note)}.`),
  ];
}

function byRule(findings: readonly Finding[]): ReadonlyMap<string, readonly Finding[]> {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) groups.set(finding.rule, [...(groups.get(finding.rule) ?? []), finding]);
  return groups;
}

/**
 * What stands behind the findings of one rule: this part's numbers, why, the formula, and where each limit comes from.
 * What is wrong and what would do is not said again: the editor shows the finding's message beside the hover.
 */
function ruleText(snapshot: Snapshot, name: string, findings: readonly Finding[], pagesUri?: string): string {
  const rule = ruleByName(name);
  const title = pagesUri ? `[${name}](${pagesUri}/${name}.md)` : code(name);
  // As its page begins.
  const lines = [`**${title}**`];
  if (rule) {
    lines.push(severityLine({ ...rule, summary: messageMarkdown(rule.summary) }));
  }
  // The answer comes before the reasons.
  for (const finding of findings) lines.push(...numbersOf(finding, findings.length > 1));
  if (rule) lines.push(messageMarkdown(rule.why));
  if (rule) {
    if (rule.formula) lines.push(`*How it is worked out:* ${messageMarkdown(rule.formula)}`);
    const limits = snapshot.kind === 'part' ? snapshot.checked.shop.limits.get(rule.name) : undefined;
    for (const limit of rule.limits) {
      const set = limits?.get(limit.name);
      const source = set === undefined ? `Source: ${escapeMarkdown(sourceText(limit.source))}` : 'Set by the shop';
      lines.push(
        `*Limit* ${code(limitText({ ...limit, value: set ?? limit.value }))} ${messageMarkdown(sentence(limit.what))} ${sentence(source)}`,
      );
    }
  }
  return lines.join('\n\n');
}

/** What this one has and needs, as the terminal has it, then the rest of its numbers. */
function numbersOf(finding: Finding, named: boolean): readonly string[] {
  const { thing } = partsOf(finding);
  const numbers = numbersText(finding);
  const sides = sidesOf(finding);
  const lines = [
    ...(sides.length > 0 ? [`**${escapeMarkdown(sides.join(', '))}**`] : []),
    ...(numbers ? [escapeMarkdown(numbers)] : []),
  ];
  const of = named && lines.length > 0 ? (thing ?? finding.of.join(', ')) : '';
  return of === '' ? lines : [`${escapeMarkdown(of)}:`, ...lines];
}

function sentence(text: string): string {
  return /[.!?)]$/.test(text) ? text : `${text}.`;
}

function schemaText(snapshot: Snapshot, cursor: Cursor): string[] {
  if (cursor.path.length === 0) return [];
  const info = schemaAt(snapshot.kind, cursor.path, snapshot.checked.tree.root);
  if (!info) return [];
  const key = cursor.path.filter((p) => typeof p === 'string').at(-1);
  const lines: string[] = [];
  const value = cursor.onKey ? undefined : info.values?.find((v) => v.value === cursor.scalar?.source);
  if (value?.description) lines.push(`${code(value.value)}: ${messageMarkdown(value.description)}`);
  else if (info.description)
    lines.push(
      `${key === undefined ? '' : `**${escapeMarkdown(String(key))}** — `}${messageMarkdown(info.description)}`,
    );
  if (cursor.onKey && info.fallback) lines.push(`Left out: ${messageMarkdown(info.fallback)}.`);
  return lines.length > 0 ? [lines.join('\n\n')] : [];
}

function nameText(snapshot: Snapshot, cursor: Cursor): string[] {
  if (!cursor.scalar) return [];
  const text = describeName(snapshot, cursor);
  return text === undefined ? [] : [text];
}

/** A length in both units, with its limits; an angle; and where a value came from that nobody wrote. */
function valueText(snapshot: PartSnapshot, offset: number): string[] {
  const { part, tree } = snapshot.checked;
  for (const { value, valueSpan } of part.parameters.values()) {
    const { start, end } = tree.locate(valueSpan);
    if (!value || offset < start || offset > end) continue;
    if (value.dimension === 'length') return [`**${both(value.value)}**`];
    return [`**${Number(value.value.toFixed(6))}${value.dimension === 'angle' ? '°' : ''}**`];
  }
  for (const found of valuesOf(part)) {
    if (found.value.from !== undefined) continue;
    const { start, end } = tree.locate(found.value.span);
    if (offset < start || offset > end) continue;
    return [found.type === 'length' ? lengthText(found.value) : angleText(found.value)];
  }
  return [];
}

/** On a feature's name, or its kind: what it is, and the values that nobody wrote, each with where it came from. */
function defaultsText(
  snapshot: PartSnapshot,
  cursor: Cursor,
  { quick, wants }: { readonly quick: boolean | undefined; readonly wants: (what: Unwritten) => boolean },
): string[] {
  const { part } = snapshot.checked;
  const [section, name, field] = cursor.path;
  const onName = cursor.path.length === 2 && cursor.onKey;
  const onKind = cursor.path.length === 3 && field === 'kind' && !cursor.onKey;
  const feature = section === 'features' && (onName || onKind) ? part.featureByName.get(String(name)) : undefined;
  if (!feature) return [];
  const taken = wants('sizes') ? valuesOf(feature).filter((v) => v.value.from !== undefined) : [];
  const lines = taken.map(({ type, value, path }) => {
    const shown = type === 'length' ? both(value.mm) : `${Number(value.deg.toFixed(4))}°`;
    return `- ${code(keyOf(path))} ${shown}: ${messageMarkdown(value.from ?? '')}`;
  });
  const head = `${code(feature.name)}: ${escapeMarkdown(featureText(feature, part))}`;
  const pieces = [lines.length > 0 ? `${head}\n\nNot written, taken as:\n\n${lines.join('\n')}` : head];
  if (!wants('cutting')) return pieces;
  const cuts = quick ? BEING_WORKED_OUT : cutsText(snapshot, feature);
  return cuts === undefined ? pieces : [...pieces, cuts];
}

/** On the part's own line: its figures, and how each was found. */
function figuresText({ checked }: PartSnapshot, cursor: Cursor, quick = false): string[] {
  if (cursor.path.length !== 1 || cursor.path[0] !== 'part') return [];
  if (quick) return [BEING_WORKED_OUT];
  const figures = figuresAtHand(checked);
  if (figures.length === 0) return [];
  return [figures.map((f) => `- **${f.name}** ${escapeMarkdown(f.value)}: ${messageMarkdown(f.how)}`).join('\n')];
}

/** On a face in a set-up's `cuts`: how its stock comes off. */
function facingText({ checked }: PartSnapshot, cursor: Cursor, quick = false): string[] {
  const [section, setup, field] = cursor.path;
  if (section !== 'setups' || field !== 'cuts' || !cursor.scalar || cursor.onKey) return [];
  if (!(cursor.scalar.source in FACE_AXIS)) return [];
  if (quick) return [BEING_WORKED_OUT];
  const faced = facingsOf(checked).find((f) => f.face === cursor.scalar!.source && f.setup.name === setup);
  return faced ? [`**Cut with**\n\n${cutsList(faced.cuts, checked, faced.machine).join('\n\n')}`] : [];
}

/** What cuts it and what that takes, each number with its formula, and their sources at the end. */
function cutsText({ checked }: PartSnapshot, feature: Feature): string | undefined {
  const several = cutsBySetup(feature, checked);
  if (several.length > 1)
    return several
      .map(({ setup, machine, cuts }, i) => {
        const list = cutsList(cuts, checked, machine);
        // said once, at the end
        const told = i + 1 < several.length ? list.slice(0, -1) : list;
        const up = setup.up ? `, ${setup.up.name} up` : '';
        return `**Cut in ${escapeMarkdown(setup.name)}${up}, with**\n\n${told.join('\n\n')}`;
      })
      .join('\n\n');
  const cuts = pricedCuts(feature, checked);
  if (cuts.length === 0) return bare(unpricedLines(feature, checked));
  const machine = machineFor(checked.part, checked.shop, feature.name);
  const not = passedOverLines(feature, checked).map((l) => `- ${escapeMarkdown(l)}`);
  return `**Cut with**\n\n${cutsList(cuts, checked, machine, not).join('\n\n')}`;
}

/** The cuts with their formulae, what else could be said of them, their sources, and whose word goes before them. */
function cutsList(
  cuts: readonly Priced[],
  { part }: PartSnapshot['checked'],
  machine: Machine | undefined,
  not: readonly string[] = [],
): readonly string[] {
  const material = materialOf(part);
  const sources = new Map<string, Set<string>>();
  const lines = cuts.flatMap((p) => {
    const formulae = material && machine ? formulaeOf(p, material, machine) : [];
    for (const { what, source } of formulae) sources.set(what, (sources.get(what) ?? new Set()).add(source));
    return [
      `- ${escapeMarkdown(cutLine(p, part.units, machine))}`,
      ...formulae.map(({ what, how }) => `  - *${what}* ${escapeMarkdown(how)}`),
    ];
  });
  const from = [...sources].map(([what, all]) => `- *${what}* ${escapeMarkdown(sourceText([...all].join('; ')))}`);
  return [
    [...lines, ...not].join('\n'),
    ...(from.length > 0 ? [`Sources:\n\n${from.join('\n')}`] : []),
    escapeMarkdown(WHERE_TO_BEGIN),
  ];
}

function bare(lines: readonly string[]): string | undefined {
  return lines.length === 0 ? undefined : `**Cut with**\n\n${lines.map((l) => `- ${escapeMarkdown(l)}`).join('\n')}`;
}

/** The model's name of a value as the document's key: `floorRadius` → `floor-radius`. */
function keyOf(path: readonly string[]): string {
  return path.map((step) => step.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)).join('.');
}

function lengthText(length: Length): string {
  const lines = [`**${both(length.mm)}**`];
  const { tolerance } = length;
  if (tolerance?.upperMm !== undefined && tolerance.lowerMm !== undefined) {
    lines.push(
      `${escapeMarkdown(tolerance.text)}: ${both(length.mm + tolerance.lowerMm)} to ${both(length.mm + tolerance.upperMm)} (${signed(tolerance.lowerMm)} / ${signed(tolerance.upperMm)} mm)`,
    );
  } else if (tolerance) lines.push(`${escapeMarkdown(tolerance.text)}: its limits are not in the tables.`);
  return lines.join('\n\n');
}

function angleText(angle: Angle): string {
  return `**${Number(angle.deg.toFixed(6))}°**`;
}

function both(mm: number): string {
  return `${Number(mm.toFixed(4))} mm (${Number((mm / 25.4).toFixed(5))} in)`;
}

/** Hovers: what a key means, what a value comes to, and what the rules say of it with this part's numbers. */
import type { Hover } from 'vscode-languageserver-types';
import { ruleByName } from '../rules/registry';
import type { Finding } from '../rules/rule';
import { schemaAt } from '../spec/lookup';
import type { Angle, Length } from '../spec/model';
import { valuesOf } from '../spec/values';
import { type Cursor, cursorAt } from './cursor';
import { rangeOf } from './lsp';
import { code, escapeMarkdown, messageMarkdown } from './markdown';
import { describeName } from './names';
import type { PartSnapshot, Snapshot } from './workspace';

export function hoverAt(snapshot: Snapshot, offset: number, pagesUri?: string): Hover | undefined {
  const cursor = cursorAt(snapshot.checked.tree, offset);
  const pieces: string[] = [];
  if (snapshot.kind === 'part' && cursor.scalar && !cursor.onKey) pieces.push(...valueText(snapshot, offset));
  pieces.push(...nameText(snapshot, cursor), ...schemaText(snapshot, cursor));
  for (const finding of findingsAt(snapshot, offset)) pieces.push(ruleText(snapshot, finding, pagesUri));
  if (pieces.length === 0) return undefined;
  return {
    contents: { kind: 'markdown', value: pieces.join('\n\n---\n\n') },
    ...(cursor.scalar ? { range: rangeOf(snapshot, cursor.scalar.span) } : {}),
  };
}

function findingsAt(snapshot: Snapshot, offset: number): readonly Finding[] {
  const { tree } = snapshot.checked;
  return snapshot.findings.filter((f) => {
    const { start, end } = tree.locate(f.span);
    return start <= offset && offset <= end;
  });
}

/** What a rule says, with the numbers of the finding, the formula and where each limit comes from. */
function ruleText(snapshot: Snapshot, finding: Finding, pagesUri?: string): string {
  const rule = ruleByName(finding.rule);
  const title = pagesUri ? `[${finding.rule}](${pagesUri}/${finding.rule}.md)` : code(finding.rule);
  const lines = [`**${title}** — ${finding.severity}`, messageMarkdown(finding.message)];
  const facts = Object.entries(finding.facts).map(([key, value]) => `${code(key)} = ${escapeMarkdown(shown(value))}`);
  if (facts.length > 0) lines.push(facts.join(' · '));
  if (rule) {
    lines.push(escapeMarkdown(rule.why));
    if (rule.formula) lines.push(`How it is worked out: ${messageMarkdown(rule.formula)}`);
    const limits = snapshot.kind === 'part' ? snapshot.checked.shop.limits.get(rule.name) : undefined;
    for (const limit of rule.limits) {
      const set = limits?.get(limit.name);
      const value = `${code(limit.name)} ${set ?? limit.value} ${limit.unit}`;
      lines.push(
        `Limit ${value}: ${escapeMarkdown(limit.what)}. ${set === undefined ? `Source: ${escapeMarkdown(limit.source)}` : 'Set by the shop'}.`,
      );
    }
  }
  return lines.join('\n\n');
}

function shown(value: number | string): string {
  return typeof value === 'number' ? String(Number(value.toPrecision(6))) : value;
}

function schemaText(snapshot: Snapshot, cursor: Cursor): string[] {
  const info = schemaAt(snapshot.kind, cursor.path, snapshot.checked.tree.root);
  if (!info) return [];
  const key = cursor.path.filter((p) => typeof p === 'string').at(-1);
  const lines: string[] = [];
  const value = cursor.onKey ? undefined : info.values?.find((v) => v.value === cursor.scalar?.source);
  if (value?.description) lines.push(`${code(value.value)}: ${escapeMarkdown(value.description)}`);
  else if (info.description)
    lines.push(
      `${key === undefined ? '' : `**${escapeMarkdown(String(key))}** — `}${escapeMarkdown(info.description)}`,
    );
  if (cursor.onKey && info.fallback) lines.push(`Left out: ${escapeMarkdown(info.fallback)}.`);
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
  for (const found of valuesOf(part)) {
    if (found.value.from !== undefined) continue;
    const { start, end } = tree.locate(found.value.span);
    if (offset < start || offset > end) continue;
    return [found.type === 'length' ? lengthText(found.value) : angleText(found.value)];
  }
  return [];
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

function signed(mm: number): string {
  return `${mm > 0 ? '+' : ''}${Number(mm.toFixed(4))}`;
}

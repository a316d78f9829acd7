/**
 * Cutters of a list as tools of a shop: each row is an entry that the shop would read without a complaint, or is told with what
 * stands against it. What the shop has already is not written twice.
 */
import { resolveShop } from '../model/shop';
import type { Tool } from '../model/tool-kinds';
import { readText } from '../text/read';
import { flowText, scalarText } from '../text/write';
import { rowsOfCsv } from './csv';
import { type Drafted, drafted } from './entry';
import { isExchange } from './exchange';
import { rowsOfExchange } from './exchange-rows';
import { nameFor } from './names';
import type { Listing, Row } from './row';

/** What became of a row. */
export interface Imported {
  readonly line: number;
  readonly id?: string;
  /** The name of the tool that it is in the shop, new or there before. */
  readonly name?: string;
  /** Its new entry, on one line behind its name; absent where it is there already, or not used. */
  readonly entry?: string;
  /** Fields that were left out, and what holds instead. */
  readonly assumed: readonly string[];
  /** What was concluded, and what of it could not be used. */
  readonly told: readonly string[];
  /** Why it is no entry. */
  readonly why?: string;
  /** Fields that have to be asked for before it is one. */
  readonly lacks?: readonly string[];
}

export interface Import {
  readonly rows: readonly Imported[];
  readonly told: readonly string[];
}

/** What of a shop matters to its tools: the built-in one has none to compare with. */
interface Into {
  readonly units: 'mm' | 'in';
  readonly tools: readonly Tool[];
  /** Every name in it, of tools that cannot be read too. */
  readonly names: ReadonlySet<string>;
}

export function imported(text: string, into: Into): Import {
  const { rows, told }: Listing = isExchange(text) ? rowsOfExchange(text) : rowsOfCsv(text);
  if (rows.length === 0 && told.length === 0) return { rows: [], told: ['No cutter stands in it.'] };
  const drafts = rows.map((row) => drafted(row, into.units));
  const read = readTogether(drafts, into.units);
  const tools = [...into.tools];
  const names = new Set(into.names);
  return { told, rows: rows.map((row, i) => oneOf(row, drafts[i]!, read(i), { tools, names })) };
}

interface Judged {
  readonly tool?: Tool;
  readonly problem?: string;
  readonly assumed: readonly string[];
  readonly given: ReadonlySet<string>;
}

function oneOf(
  row: Row,
  draft: Drafted | string,
  judged: Judged,
  known: { tools: Tool[]; names: Set<string> },
): Imported {
  const base = { line: row.line, ...(row.id !== undefined && { id: row.id }), assumed: judged.assumed };
  if (typeof draft === 'string') return { ...base, told: row.odd, why: draft };
  const { fields, lacks, told } = draft;
  const name = nameFor(draft, (n) => known.names.has(n));
  if (lacks.length > 0) {
    const asked = Object.fromEntries([...Object.entries(fields), ...lacks.map((key) => [key, '?'])]);
    return { ...base, name, told, lacks, entry: flowText(asked), why: `it does not say ${lacks.join(' and ')}` };
  }
  if (!judged.tool)
    return { ...base, told, entry: flowText(fields), name, why: judged.problem ?? 'the shop cannot read it' };
  const { tool } = judged;
  const there = known.tools.find((t) => isSame(tool, t, judged.given));
  if (there) return { ...base, name: there.name, told };
  known.names.add(name);
  known.tools.push({ ...tool, name });
  return { ...base, name, told, entry: flowText(fields) };
}

/** All of them as one shop, read as every shop is read. */
function readTogether(drafts: readonly (Drafted | string)[], units: 'mm' | 'in'): (i: number) => Judged {
  const lines = drafts.flatMap((d, i) =>
    typeof d === 'string' || d.lacks.length > 0 ? [] : [`  t${i}: ${flowText(d.fields)}`],
  );
  if (lines.length === 0) return () => NOTHING;
  const shop = resolveShop(readText(`shop: list\nunits: ${units}\ntools:\n${lines.join('\n')}\n`));
  const tools = new Map(shop.tools.map((t) => [t.name, t]));
  const problems = new Map<string, string>();
  for (const { span, message } of shop.problems) if (!problems.has(span.block)) problems.set(span.block, message);
  const assumed = new Map<string, { readonly field: string; readonly text: string }[]>();
  for (const { of, field, text } of shop.assumed) assumed.set(of, [...(assumed.get(of) ?? []), { field, text }]);
  return (i) => {
    const block = `tools/t${i}`;
    const left = assumed.get(block) ?? [];
    const draft = drafts[i]!;
    const given = new Set(typeof draft === 'string' ? [] : Object.keys(draft.fields));
    const problem = problems.get(block)?.replaceAll(`\`t${i}\``, 'it');
    const tool = problem === undefined ? tools.get(`t${i}`) : undefined;
    return {
      given,
      assumed: left.map(({ field, text }) => `${field} ${text}`),
      ...(tool && { tool }),
      ...(problem !== undefined && { problem }),
    };
  };
}

const NOTHING: Judged = { assumed: [], given: new Set() };

/** What says nothing of the cutter’s shape. */
const BESIDE: ReadonlySet<string> = new Set(['note', 'material', 'largest-speed']);

/** All that the row says of its shape holds of the other. */
function isSame(tool: Tool, other: Tool, given: ReadonlySet<string>): boolean {
  if (tool.kind !== other.kind) return false;
  return [...given].every((field) => {
    if (BESIDE.has(field)) return true;
    const key = keyOf(tool, field);
    return key === undefined || same(valueAt(tool, key), valueAt(other, key));
  });
}

const valueAt = (tool: Tool, key: string): unknown => (tool as unknown as Record<string, unknown>)[key];

/** `corner-radius` is read as `cornerRadiusMm`, `point` as `pointDeg`. */
function keyOf(tool: Tool, field: string): string | undefined {
  const camel = field.replace(/-(.)/g, (_, c: string) => c.toUpperCase());
  return [camel, `${camel}Mm`, `${camel}Deg`].find((key) => key in tool);
}

function same(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) < 0.0005;
  return JSON.stringify(a) === JSON.stringify(b);
}

/** New entries in the text of a shop, below those that are there: `name: { … }`, in order. */
export const entryLine = ({ name, entry }: Imported): string => `${scalarText(name ?? '')}: ${entry ?? ''}`;
export const isNew = ({ entry, why }: Imported): boolean => entry !== undefined && why === undefined;

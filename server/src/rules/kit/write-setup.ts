/** A set-up as the lines of its text, in the document's units. */
import type { Part, Setup } from '../../model/model';
import { writeLength } from '../../text/format';
import { flowText, type Writing } from '../../text/write';
import { holdWritten } from './write-hold';

/** Longer lists of cuts are written an entry a line. */
const WIDEST = 110;

export function setupLines(
  { name, up, hold, zero, method, clock, cuts, sawnOff, machine, tools }: Setup,
  part: Part,
  step: string,
): readonly string[] {
  const length = (mm: number) => Number(writeLength(mm, part.units));
  const line = (key: string, value: Writing) => `${step}${step}${key}: ${flowText(value)}`;
  const lines = [`${step}${name}:`];
  if (up) lines.push(line('up', up.name));
  if (machine) lines.push(line('machine', machine.name));
  if (hold) lines.push(line('hold', holdWritten(hold, up?.name ?? 'top', length)));
  const axes = (['x', 'y', 'z'] as const).flatMap((a) => (zero[a] ? [[a, zero[a].name] as const] : []));
  if (axes.length > 0) lines.push(line('zero', Object.fromEntries(axes)));
  if (method) lines.push(line('method', method.name));
  if (clock) lines.push(line('clock', { [clock.by]: clock.of.name }));
  const entries = cuts.map(({ name, depth }): Writing => {
    if (depth === undefined) return name;
    return { cut: name, depth: depth === 'half' ? depth : length(depth.mm) };
  });
  if (sawnOff)
    entries.push({
      cut: sawnOff.name,
      by: 'saw',
      ...(sawnOff.leave && { leave: length(sawnOff.leave.mm) }),
    });
  const short = line('cuts', entries);
  if (short.length <= WIDEST) lines.push(short);
  else lines.push(`${step}${step}cuts:`, ...entries.map((e) => `${step}${step}${step}- ${flowText(e)}`));
  if (tools.length > 0) lines.push(line('tools', Object.fromEntries(tools.map((t) => [t.of.name, t.tool.name]))));
  return lines;
}

/** Everything to have at hand before the first chip: tools, parallels, stop, what finds zero. */

import type { Part } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import { timelineOf } from '../../process/stock';
import { seatingOf } from '../../process/workholding/seating';
import type { SheetWords } from '../language/en';
import type { SheetPart } from '../sheet-part';
import { num } from './numbers';

/** A line each, to be ticked off. */
export function toBring({ read, setups, time }: SheetPart, words: SheetWords): readonly string[] {
  const { part, solid, shop } = read;
  const tools = new Set((time?.setups ?? []).flatMap((s) => s.tools));
  const timeline = timelineOf(part, solid);
  const seats = timeline.setups.flatMap((s) =>
    setups.includes(s.setup) ? (seatingOf(s, part, shop)?.held ?? []) : [],
  );
  const heights = [...new Set(seats.map((h) => h.parallelsMm).filter((mm) => mm > 0))].sort((a, b) => a - b);
  const stops = setups.some((s) => s.hold?.stop);
  return [
    ...toolLines([...tools], part, words),
    ...(heights.length > 0 ? [words.parallels(heights.map((mm) => num(mm, part.units)).join(', '))] : []),
    ...(stops ? [words.stop] : []),
  ];
}

/** By its kind and size; with the name it has in the shop where two would read alike. */
function toolLines(tools: readonly Tool[], { units }: Part, words: SheetWords): readonly string[] {
  const titles = tools.map((t) => toolTitle(t, units, words));
  return tools.map((t, i) =>
    titles.indexOf(titles[i]!) === titles.lastIndexOf(titles[i]!) ? titles[i]! : `${titles[i]} (${t.name})`,
  );
}

/** `spread`: of a tool that is set to a size, from which on. */
export function toolTitle(tool: Tool, units: Part['units'], words: SheetWords, spread = true): string {
  const kind = words.tools[tool.kind];
  if ('thread' in tool) return `${kind} ${tool.thread}`;
  if ('largestMm' in tool)
    return spread ? `${kind} ⌀${num(tool.diameterMm, units)} … ${num(tool.largestMm, units)}` : kind;
  return 'diameterMm' in tool ? `${kind} ⌀${num(tool.diameterMm, units)}` : kind;
}

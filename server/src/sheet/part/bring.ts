/** Everything to have at hand before the first chip: tools, parallels, stop, what finds zero, what measures. */

import type { Part } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import { passesOfPart, type SetupPasses } from '../../process/passes';
import { timelineOf } from '../../process/stock';
import { seatingOf } from '../../process/workholding/seating';
import type { SheetWords } from '../language/en';
import type { SetupWords } from '../language/setup-en';
import type { SheetPart } from '../sheet-part';
import { num } from './numbers';

/** A line each, to be ticked off. */
export function toBring({ read, setups, time }: SheetPart, words: SheetWords, said: SetupWords): readonly string[] {
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
    ...atHand(passesOfPart({ part, solid, shop }), part, said),
  ];
}

/** Beside the cutter's own edge and the stop: what touches for a zero, and what measures, each once. */
function atHand(passes: readonly SetupPasses[], { units }: Part, said: SetupWords): readonly string[] {
  const touching = passes.flatMap((p) => p.zeros).filter((t) => t.missing === undefined);
  const sized = touching.flatMap((t) =>
    t.with === 'tool-edge' || t.with === 'stop'
      ? []
      : [t.tipMm > 0 ? `${said.with[t.with]} ⌀${num(t.tipMm, units)}` : said.with[t.with]],
  );
  const swept = passes.some((p) => p.rows.some((r) => r.kind === 'indicate')) ? [said.with.indicator] : [];
  const gauges = passes.flatMap((p) => p.measures).map((m) => said.gauges[m.with]);
  return [...new Set([...sized, ...swept, ...gauges])];
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

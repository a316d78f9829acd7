/** Everything to have at hand before the first chip: tools, parallels, stop, what finds zero, what measures. */

import type { Part } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import { passesOfPart, type SetupPasses } from '../../process/passes';
import { timelineOf } from '../../process/stock';
import { seatingOf } from '../../process/workholding/seating';
import { SAME } from '../../tolerance';
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
  const passes = passesOfPart({ part, solid, shop });
  return [
    ...toolLines([...tools], part, words),
    ...(heights.length > 0 ? [words.parallels(heights.map((mm) => num(mm, part.units)).join(', '))] : []),
    ...(stops ? [words.stop] : []),
    ...toHold(passes, part, words),
    ...atHand(passes, part, said),
    ...inOne(
      [...tools].flatMap((t) => t.holder ?? []),
      words.inHolders,
    ),
  ];
}

/** What holds it besides vise, parallels and stop: the most of each that one set-up needs. */
function toHold(passes: readonly SetupPasses[], { units }: Part, words: SheetWords): readonly string[] {
  const all = passes.map((p) => p.holding);
  const most = Math.max(0, ...all.map(({ hold }) => hold?.clamps?.length ?? 0));
  const lines = all.flatMap(({ hold, roundBar, packing }) => [
    ...(hold?.apart && hold.vise ? [words.twoOf(hold.vise.name)] : []),
    ...(hold?.vBlock ? [hold.vBlock.name] : []),
    ...(hold?.anglePlate ? [hold.anglePlate.name] : []),
    ...(roundBar ? [words.roundBar] : []),
    ...(packing ? [words.offcutWide(num(packing.widthMm, units))] : []),
  ]);
  return [...new Set([...lines, ...(most > 0 ? [words.clamps(most)] : [])])];
}

/** Beside the cutter's own edge and the stop: what touches for a zero, and what measures, each kind in one line. */
function atHand(passes: readonly SetupPasses[], { units }: Part, said: SetupWords): readonly string[] {
  const sizes = new Map<string, string[]>();
  for (const t of passes.flatMap((p) => p.zeros)) {
    if (t.missing !== undefined || t.with === 'tool-edge' || t.with === 'stop') continue;
    const name = said.with[t.with];
    sizes.set(name, [...(sizes.get(name) ?? []), ...(t.tipMm > 0 ? [`⌀${num(t.tipMm, units)}`] : [])]);
  }
  const swept = passes.some((p) => p.rows.some((r) => r.kind === 'indicate'));
  if (swept && !sizes.has(said.with.indicator)) sizes.set(said.with.indicator, []);
  const touching = [...sizes].map(([name, all]) => [name, [...new Set(all)].join(', ')].filter(Boolean).join(' '));
  const gauges = passes.flatMap((p) => p.measures).map((m) => said.gauges[m.with]);
  return [...touching, ...new Set(gauges)];
}

function inOne(names: readonly string[], said: (all: string) => string): readonly string[] {
  return names.length === 0 ? [] : [said([...new Set(names)].join(', '))];
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
  const kind = 'roughing' in tool && tool.roughing ? words.roughMill : words.tools[tool.kind];
  if ('thread' in tool) return `${kind} ${tool.thread}`;
  const radius = 'cornerRadiusMm' in tool && 'diameterMm' in tool ? tool.cornerRadiusMm : 0;
  if ('diameterMm' in tool && radius > 0) {
    const across = `⌀${num(tool.diameterMm, units)}`;
    if (Math.abs(2 * radius - tool.diameterMm) < SAME) return `${words.ballMill} ${across}`;
    return `${kind} ${across} ${words.radius(num(radius, units))}`;
  }
  if ('largestMm' in tool)
    return spread ? `${kind} ⌀${num(tool.diameterMm, units)} … ${num(tool.largestMm, units)}` : kind;
  return 'diameterMm' in tool ? `${kind} ⌀${num(tool.diameterMm, units)}` : kind;
}

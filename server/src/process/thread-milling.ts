/** Threads that are milled, in holes and on bosses: which cutters of a shop do, why others do not, and how far they go round. */
import type { Hole } from '../model/model';
import type { Shop, ThreadMill } from '../model/shop-model';
import { formOf, type Thread, toothMm } from '../tables/thread-form';
import { pitchToleranceMm } from '../tables/thread-limits';
import { SAME } from '../tolerance';

/** A cutter needs so much more room across to go in and out of the hole. Common practice, no source: makers' own sizes leave 0.2 mm for M6. */
const ROOM_MM = 0.2;

/** Those that cut the thread of a hole, their reach aside, the thickest first. None where no machine moves in circles by itself. */
export function threadMillsOf(hole: Hole, shop: Shop): readonly ThreadMill[] {
  const thread = hole.thread?.spec;
  if (!thread || thread.screw || !movesInCircles(shop)) return [];
  const lengthMm = hole.threadDepth?.mm ?? thread.usefulMm ?? 0;
  return threadMillsIn(shop).filter((t) => !unfitInside(t, thread, hole.diameter.mm, lengthMm));
}

/** The thickest first. */
export function threadMillsIn(shop: Shop): readonly ThreadMill[] {
  return shop.tools
    .filter((t): t is ThreadMill => t.kind === 'thread-mill')
    .sort((a, b) => b.diameterMm - a.diameterMm);
}

export function movesInCircles(shop: Shop): boolean {
  return shop.machines.some((m) => m.control === 'program');
}

function hasPitch({ pitchMm: [least, most] }: ThreadMill, { pitchMm }: Thread): boolean {
  return pitchMm >= least - PITCH_MM && pitchMm <= most + PITCH_MM;
}
/** Pitches of inch threads are written with three places. */
const PITCH_MM = 0.002;

export function hasForm(tool: ThreadMill, thread: Thread): boolean {
  const form = formOf(thread);
  return hasPitch(tool, thread) && tool.flanksDeg === form.flanksDeg && tool.tapered === form.tapered;
}

/** Why a cutter does not cut the thread of a hole. */
function unfitInside(tool: ThreadMill, thread: Thread, holeMm: number, lengthMm: number): string | undefined {
  const form = formOf(thread);
  if (!hasPitch(tool, thread)) return 'another pitch';
  if (tool.cuts === 'outside') return 'it cuts bosses only';
  if (tool.flanksDeg !== form.flanksDeg) return `its flanks are ${tool.flanksDeg}°`;
  if (tool.tapered !== form.tapered) return form.tapered ? 'its rows lie on no cone' : 'its rows lie on a cone';
  if (tool.diameterMm > holeMm - ROOM_MM + SAME) return `no room to go round in ${round(holeMm)} mm`;
  // On a cone all turns are cut at once: the next step down would be a narrower one.
  if (form.tapered && tool.fluteLengthMm < lengthMm - SAME)
    return `its teeth are only ${round(tool.fluteLengthMm)} mm long`;
  const most = thickestMm(thread);
  return most !== undefined && tool.diameterMm > most + SAME ? `it is thicker than ${round(most)} mm` : undefined;
}

/** Of the nearest cutter of the pitch, why it does not do, for a hole without a tap. */
export function unfitMillOf(hole: Hole, shop: Shop): { readonly tool: ThreadMill; readonly why: string } | undefined {
  const thread = hole.thread?.spec;
  if (!thread || thread.screw) return undefined;
  const tool = threadMillsIn(shop).findLast((t) => hasPitch(t, thread));
  if (!tool) return undefined;
  const why = unfitInside(tool, thread, hole.diameter.mm, hole.threadDepth?.mm ?? thread.usefulMm ?? 0);
  if (why) return { tool, why };
  return movesInCircles(shop) ? undefined : { tool, why: 'no machine here moves in circles by itself' };
}

/** What would cut it, in words: `55° thread mill of 1.337 mm pitch`. */
export function threadMillWanted(thread: Thread): string {
  const { flanksDeg, tapered } = formOf(thread);
  const most = thickestMm(thread);
  const thin = most === undefined ? '' : `, at most ${round(most)} mm thick`;
  return `${tapered ? 'tapered ' : ''}${flanksDeg}° thread mill of ${round(thread.pitchMm)} mm pitch${thin}`;
}

/**
 * A cutter's tooth lies level while the thread rises: before and behind its deepest place it cuts the flanks wider, the more
 * the thicker it is and the steeper they are. At the pitch diameter, where the hole's radius is ρ and the tooth's r, each flank
 * loses P² r / (8π² (ρ − r) ρ tan α), to first order. The thickest whose pitch diameter stays in its tolerance; of threads
 * whose flanks stand so steep that it bites.
 */
function thickestMm(thread: Thread): number | undefined {
  const { flanksDeg } = formOf(thread);
  if (flanksDeg !== 30) return undefined;
  const { diameterMm: d, pitchMm: p } = thread;
  const tan = Math.tan(((flanksDeg / 2) * Math.PI) / 180);
  const rho = (d - p / 2) / 2;
  // 2 × each flank / tan α widens the pitch diameter: solved for r.
  const k = (pitchToleranceMm(thread) * tan * tan * 8 * Math.PI ** 2 * rho) / (2 * p * p);
  return (2 * k * rho) / (1 + k) + 2 * toothMm(thread, 'inside') - p / 2;
}

/** In and out on a quarter of a turn each. Common practice, no source. */
const IN_AND_OUT = 0.5;

/** Rows of teeth that cut at a time. */
export function rowsOf({ fluteLengthMm }: ThreadMill, pitchMm: number): number {
  return Math.max(1, Math.floor(fluteLengthMm / pitchMm + SAME));
}

/** Turns round the hole or boss: one row goes down all of the thread, several do so much of it in a turn. */
export function turnsOf(tool: ThreadMill, pitchMm: number, depthMm: number): number {
  const rows = rowsOf(tool, pitchMm);
  if (rows === 1) return depthMm / pitchMm + IN_AND_OUT;
  return (1 + IN_AND_OUT) * Math.ceil(depthMm / pitchMm / rows - SAME);
}

function round(mm: number): number {
  return Number(mm.toFixed(3));
}

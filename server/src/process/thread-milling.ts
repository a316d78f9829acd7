/** Threads that are milled: which cutters of a shop do, and how far they go round. */
import type { Hole } from '../model/model';
import type { Shop, ThreadMill } from '../model/shop-model';
import { formOf } from '../tables/thread-form';
import { SAME } from '../tolerance';

/** A cutter needs so much more room across to go in and out of the hole. Common practice, no source: makers' own sizes leave 0.2 mm for M6. */
const ROOM_MM = 0.2;

/** Those that cut the thread of a hole, their reach aside, the thickest first. None where no machine moves in circles by itself. */
export function threadMillsOf(hole: Hole, shop: Shop): readonly ThreadMill[] {
  const thread = hole.thread?.spec;
  if (!thread || formOf(thread).name !== '60°' || thread.screw) return [];
  if (!shop.machines.some((m) => m.control === 'program')) return [];
  return shop.tools
    .filter((t): t is ThreadMill => t.kind === 'thread-mill')
    .filter(({ diameterMm, pitchMm: [least, most] }) => {
      const within = thread.pitchMm >= least - SAME && thread.pitchMm <= most + SAME;
      return within && diameterMm <= hole.diameter.mm - ROOM_MM + SAME;
    })
    .sort((a, b) => b.diameterMm - a.diameterMm);
}

/** In and out on a quarter of a turn each. Common practice, no source. */
const IN_AND_OUT = 0.5;

/** Rows of teeth that cut at a time. */
export function rowsOf({ fluteLengthMm }: ThreadMill, pitchMm: number): number {
  return Math.max(1, Math.floor(fluteLengthMm / pitchMm + SAME));
}

/** Turns round the hole: one row goes down all of the thread, several do so much of it in a turn. */
export function turnsOf(tool: ThreadMill, pitchMm: number, depthMm: number): number {
  const rows = rowsOf(tool, pitchMm);
  if (rows === 1) return depthMm / pitchMm + IN_AND_OUT;
  return (1 + IN_AND_OUT) * Math.ceil(depthMm / pitchMm / rows - SAME);
}

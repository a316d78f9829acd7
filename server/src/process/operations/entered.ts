/** How cutters get into openings that are closed all round: gently where there is room, else down a hole drilled for them. */
import type { Mill, Shop } from '../../model/shop-model';
import { drillsOf, SAME_REACH_MM } from '../cutters';
import type { MilledVoid } from '../milling';
import { wayIn } from '../room';
import type { Operation } from './types';
import type { Room } from './widths';

/** Those that come in by a helix or a ramp; where none does those that plunge; where none does all, let in by a drill. */
export function enteringFirst(mills: readonly Mill[], room: Room): readonly Mill[] {
  const way = (mill: Mill) => wayIn(mill, room.widestMm, room.longMm);
  const gently = mills.filter((m) => way(m) === 'helix' || way(m) === 'ramp');
  if (gently.length > 0) return gently;
  const plunging = mills.filter((m) => way(m) === 'plunge');
  return plunging.length > 0 ? plunging : mills;
}

/** A cutter whose middle does not cut needs a hole of so much of its own width to go down in. Common practice, no source. */
const LET_IN = 0.6;

/** The first cut with the way that its cutter comes in, or after the hole that is drilled for it. */
export function letIn(made: readonly Operation[], room: Room, m: MilledVoid, shop: Shop): readonly Operation[] {
  const [first, ...rest] = made;
  if (!first || (first.does !== 'rough' && first.does !== 'finish')) return made;
  const { tool, feature, times } = first;
  const enters = wayIn(tool, room.widestMm, room.longMm);
  if (enters) return [{ ...first, enters }, ...rest];
  const depthMm = m.of.to - m.of.from;
  const drill = drillsOf(shop).findLast(
    (d) =>
      d.diameterMm >= LET_IN * tool.diameterMm &&
      d.diameterMm <= m.widestMm &&
      d.fluteLengthMm >= m.tipMm - SAME_REACH_MM,
  );
  const wanted = `end mill that cuts over its centre, or a drill of ${round(LET_IN * tool.diameterMm)} to ${round(m.widestMm)} mm to let it in`;
  if (!drill) return [{ feature, times, does: 'missing', lacks: 'mill', wanted }, ...rest];
  const hole: Operation = {
    feature,
    times,
    does: 'drill',
    tool: drill,
    diameterMm: drill.diameterMm,
    depthMm,
    how: 'to let the mill in',
  };
  return [hole, { ...first, enters: 'drilled' }, ...rest];
}

function round(mm: number): number {
  return Number(mm.toFixed(2));
}

/**
 * Where jaws or stop are in the way of a cut near an end of the work: the stop at the other end, or none; the work pushed
 * out of the jaws at that end, as far as the cut goes and the clearance beyond it.
 */

import type { Box, Solid } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { FACE_AXIS, FACES, type Face, OPPOSITE, type Setup } from '../model/model';
import { STAYS_SHARE } from '../process/workholding/along';
import type { Finding } from '../rules/kit/rule';
import { HAIR, SAME } from '../tolerance';
import type { Judged } from './blame';
import type { Item } from './item';

/** In the way of the jaws: one end alone can stand out of them. */
export const AT_THE_JAWS: ReadonlySet<string> = new Set(['access/jaw', 'hold/in-the-cut']);

/** Stands out by whole millimetres: that is how it is set with a rule. */
const STEP_MM = 1;
/** A cutter that goes past the end of its cut is given so much more, once. */
const FARTHER_MM = 6;

interface Ways {
  readonly judge: (setup: Setup) => Judged;
  readonly solid: Solid;
  /** Between a cut at an end and the jaws. */
  readonly clearMm: number;
  /** Round the work as it is put in. */
  readonly box: Box;
}

/** The best of them that is found; what was judged first where nothing is in the way. */
export function atTheEnds(setup: Setup, ways: Ways): Judged {
  const judged = stopElsewhere(setup, ways);
  return judged.blamed.size > 0 ? pushedOut(setup, judged, ways) : judged;
}

/** Where a cut at the end that the stop is on cannot be made beside it, or passes it too near: the stop at the other end, or none. */
function stopElsewhere(setup: Setup, ways: Ways): Judged {
  const { judge, solid } = ways;
  const judged = judge(setup);
  const { stop, ...free } = setup.hold!;
  const inTheWay = (i: Item, { facts, rule }: Finding) =>
    facts.meets === 'stop' || (AT_THE_JAWS.has(rule) && stop !== undefined && endsAt(i, stop.name as Face, solid));
  const meets = ({ blamed, warnings }: Judged) =>
    [...blamed].some(([item, why]) => inTheWay(item, why)) || warnings.some(({ facts }) => facts.meets === 'stop');
  if (!stop || !meets(judged)) return judged;
  let best = judged;
  for (const other of [stopAt(OPPOSITE[stop.name as Face], setup, ways), { ...setup, hold: free }]) {
    const next = judge(other);
    if (next.cost < best.cost) best = next;
    if (best.blamed.size === 0 && !meets(best)) break;
  }
  return best;
}

/** The stop at that end, and zero with it, unless stock is still on it and none on the other. */
function stopAt(end: Face, setup: Setup, { solid, box }: Ways): Setup {
  const { stop } = setup.hold!;
  const there = { ...stop!, name: end };
  const { axis } = FACE_AXIS[end];
  const raw = (face: Face) => endGap(face, solid, box) > SAME;
  const moves = setup.zero[axis]?.name === stop!.name && (!raw(end) || raw(OPPOSITE[end]));
  const zero = moves ? { ...setup.zero, [axis]: there } : setup.zero;
  return { ...setup, hold: { ...setup.hold!, stop: there }, zero };
}

/** The first end at which that frees all that is in the way there, or else the one that frees the most. */
function pushedOut(setup: Setup, judged: Judged, ways: Ways): Judged {
  const inTheWay = [...judged.blamed].filter(([, { rule }]) => AT_THE_JAWS.has(rule)).map(([item]) => item);
  if (inTheWay.length === 0 || !setup.hold?.stop) return judged;
  let best = judged;
  for (const end of endsOf(setup)) {
    const mm = standsOut(inTheWay, end, ways);
    if (mm === undefined) continue;
    for (const more of [0, FARTHER_MM]) {
      const next = ways.judge(overhanging(stopAt(OPPOSITE[end], setup, ways), end, mm + more));
      if (next.cost < best.cost) best = next;
      if (next.blamed.size === 0) return best;
    }
  }
  return best;
}

/** The two faces along the jaws. */
export function endsOf({ up, hold }: Setup): readonly Face[] {
  const taken = [up!.name, hold!.jaws![0]!.name].map((f) => FACE_AXIS[f].axis);
  return FACES.filter((f) => !taken.includes(FACE_AXIS[f].axis));
}

function overhanging(setup: Setup, face: Face, mm: number): Setup {
  const { hold } = setup;
  return { ...setup, hold: { ...hold!, overhang: { face, by: { mm, text: String(mm), span: hold!.span } } } };
}

/** How far for those of them that lie toward this end; undefined where none does, or too little would stay in the jaws. */
function standsOut(items: readonly Item[], end: Face, { solid, box, clearMm }: Ways): number | undefined {
  const { axis, sign } = FACE_AXIS[end];
  const i = AXIS_INDEX[axis];
  const length = box.max[i] - box.min[i];
  const far = items
    .map(({ feature, face }) => {
      if (!feature) return face === end ? endGap(end, solid, box) : undefined;
      return solid
        .voidsOf(feature.name)
        .reduce((most, { bounds: b }) => Math.max(most, sign > 0 ? box.max[i] - b.min[i] : b.max[i] - box.min[i]), 0);
    })
    .filter((mm): mm is number => mm !== undefined && mm + clearMm <= length * (1 - STAYS_SHARE) + SAME);
  if (far.length === 0) return undefined;
  return Math.ceil((Math.max(...far) + clearMm) / STEP_MM - SAME) * STEP_MM;
}

function endGap(end: Face, solid: Solid, box: Box): number {
  const { axis, sign } = FACE_AXIS[end];
  const i = AXIS_INDEX[axis];
  const { min, max } = solid.body.box;
  return sign > 0 ? box.max[i] - max[i] : min[i] - box.min[i];
}

function endsAt({ feature }: Item, face: Face, solid: Solid): boolean {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const { min, max } = solid.body.box;
  return (
    feature !== undefined &&
    solid
      .voidsOf(feature.name)
      .some(({ bounds: b }) => (sign > 0 ? b.max[i] > max[i] - HAIR : b.min[i] < min[i] + HAIR))
  );
}

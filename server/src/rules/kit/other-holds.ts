/**
 * Ways to hold the work where plain jaws do not: jaws milled to its shape, screws through its own holes, clamps on the
 * table. Each is a candidate: it is offered where it was tried and found to hold.
 */

import { holds } from '../../geometry/solid/prism';
import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Hole, type Setup } from '../../model/model';
import { isMaterial, timelineOf } from '../../process/stock';
import { isSeat } from '../../process/tolerances/intent';
import type { InJaws } from '../../process/workholding/in-jaws';
import { throughCuts } from '../../process/workholding/seating';
import type { Seating } from '../../process/workholding/seating-types';
import { fitsIn, roundBarOf } from '../../process/workholding/v-block';
import { setText } from '../../text/edit';
import { setHold, setupMap } from './holds';
import { list } from './message';
import type { Fix, RuleContext } from './rule';

/** From the edge of the work to the middle of a clamp's foot; a hair below the surface it presses on. mm. Common practice, no source. */
const FOOT_MM = 8;
const HAIR = 0.05;
/** One screw alone lets the work turn. */
export const LEAST_SCREWS = 2;

function held(x: InJaws, text: string, title: string, context: RuleContext): Fix | undefined {
  const map = setupMap(context, x.inTime.setup);
  const edits = map ? setText(context.tree, map, 'hold', text) : [];
  return edits.length > 0 ? { title, safe: false, edits } : undefined;
}

/** Of the same vise, grip and seat. */
export function* inSoftJaws(x: InJaws, context: RuleContext): Generator<Fix> {
  const { inVise: h, hold } = x;
  if (hold.type !== 'vise') return;
  const parts = [
    `soft-jaws: ${h.vise.name}`,
    `jaws: [${h.fixed}, ${h.moving}]`,
    ...(hold.grip ? [`grip: ${context.write(hold.grip.mm)}`] : []),
    ...(hold.parallels ? [`parallels: ${context.write(hold.parallels.mm)}`] : []),
    ...(hold.stop ? [`stop: ${hold.stop.name}`] : []),
  ];
  const fix = held(x, `{ ${parts.join(', ')} }`, 'Hold it in soft jaws milled to its shape', context);
  if (fix) yield fix;
}

/** Where straps could press on a bar in V-blocks, as shares of its length. */
const OVER_BLOCKS = [
  [0.12, 0.88],
  [0.5, 0.88],
  [0.12, 0.5],
  [0.3, 0.7],
] as const;

/** Round work from plain jaws: upright with a V-block at the moving jaw, lying in V-blocks on the table. */
export function* inVee(x: InJaws, context: RuleContext): Generator<Fix> {
  const { inTime: s, seating, hold } = x;
  const bar = roundBarOf(s.before.body);
  if (!bar || hold.type !== 'vise') return;
  for (const v of context.shop.vBlocks.filter((b) => fitsIn(b, 2 * bar.radiusMm))) {
    if (bar.axis === seating.upAxis) {
      const edits = setHold(context, s.setup, 'v-block', v.name);
      if (edits) yield { title: `Put ${v.name} at the moving jaw`, safe: false, edits };
      continue;
    }
    const [a, b] = FACE_PLANE[seating.up];
    const { min, max } = seating.box;
    const first = AXIS_INDEX[a] === bar.axis;
    const across = bar.middle[AXIS_INDEX[first ? b : a]];
    for (const shares of OVER_BLOCKS) {
      const at = shares
        .map((share) => min[bar.axis] + share * (max[bar.axis] - min[bar.axis]))
        .map((along) => (first ? [along, across] : [across, along]))
        .map(([u, w]) => `{ ${a}: ${context.write(u!)}, ${b}: ${context.write(w!)} }`);
      const fix = held(
        x,
        `{ v-block: ${v.name}, clamps: [${at.join(', ')}], on: table }`,
        `Put it in ${v.name}`,
        context,
      );
      if (fix) yield fix;
    }
  }
}

/** Round work under the same clamps, laid in V-blocks. */
export function inVBlocks(setup: Setup, block: string, context: RuleContext): Fix | undefined {
  const edits = setHold(context, setup, 'v-block', block) ?? [];
  return edits.length > 0 ? { title: `Put it in ${block}`, safe: false, edits } : undefined;
}

/** The same clamps moved to where nothing is cut: corners, or two sides. */
export function* clampedElsewhere(seating: Seating, context: RuleContext): Generator<Fix> {
  if (seating.of.setup.hold?.type === 'angle-plate') return;
  const [a, b] = FACE_PLANE[seating.up];
  for (const places of footings(seating)) {
    const at = places.map(([u, v]) => `{ ${a}: ${context.write(u)}, ${b}: ${context.write(v)} }`);
    const edits = setHold(context, seating.of.setup, 'clamps', `[${at.join(', ')}]`);
    const where = places.map(([u, v]) => `${a} ${context.length(u)} ${b} ${context.length(v)}`);
    if (edits) yield { title: `Clamp it at ${list(where)}`, safe: false, edits };
  }
}

/** Screwed to a plate through holes that are there by then, clamped down beside what is cut. */
export function* laidDown(x: InJaws, context: RuleContext): Generator<Fix> {
  const screws = screwHoles(x, context);
  if (screws.length > 0) {
    const fix = held(
      x,
      `{ screws: [${screws.join(', ')}], to: plate }`,
      `Screw it to a plate through ${list(screws)}`,
      context,
    );
    if (fix) yield fix;
  }
  const on =
    throughCuts(x.seating, { jawAxis: x.inVise.jawAxis, jawFromMm: -1e5, jawToMm: 1e5 }).length > 0 ? 'plate' : 'table';
  const [a, b] = FACE_PLANE[x.seating.up];
  for (const places of footings(x.seating)) {
    const at = places.map(([u, v]) => `{ ${a}: ${context.write(u)}, ${b}: ${context.write(v)} }`);
    const fix = held(
      x,
      `{ clamps: [${at.join(', ')}], on: ${on} }`,
      `Clamp it to the ${on} at ${places.length} places`,
      context,
    );
    if (fix) yield fix;
  }
}

/** Upright through holes cut in earlier set-ups, each with nothing cut over it here. */
function screwHoles({ inTime: s }: InJaws, { part, solid }: RuleContext): readonly string[] {
  if (!s.up) return [];
  const { axis } = FACE_AXIS[s.up];
  const there = new Set(
    timelineOf(part, solid)
      .setups.slice(0, s.index)
      .flatMap((o) => o.cuts.map((c) => c.name)),
  );
  const holes = part.features.filter(
    (f): f is Hole =>
      f.kind === 'hole' &&
      !f.thread &&
      !f.tilt &&
      // A screw through a reamed seat would score it.
      !isSeat(f) &&
      f.depth.through &&
      there.has(f.name) &&
      FACE_AXIS[f.face].axis === axis,
  );
  const count = holes.reduce((n, f) => n + f.places.length, 0);
  return count >= LEAST_SCREWS ? holes.map((f) => f.name) : [];
}

type Footing = readonly (readonly [number, number])[];

/** Four corners, or two sides, where the work is at its full height and nothing of it is cut in this set-up. */
function* footings(seating: Seating): Generator<Footing> {
  const { up, upAxis, upSign, highestMm, box, of } = seating;
  const [i, k] = FACE_PLANE[up].map((n) => AXIS_INDEX[n]) as [0 | 1 | 2, 0 | 1 | 2];
  const at = (n: 0 | 1 | 2, share: number) => {
    const [low, high] = [box.min[n] + FOOT_MM, box.max[n] - FOOT_MM];
    return low + share * (high - low);
  };
  const free = ([u, v]: readonly [number, number]) => {
    const p: [number, number, number] = [0, 0, 0];
    p[i] = u;
    p[k] = v;
    p[upAxis] = highestMm - upSign * HAIR;
    const here = p as Vec3;
    return isMaterial(of.before, here) && !of.cuts.some((c) => c.removes.some((w) => holds(w, here)));
  };
  const sets: Footing[] = [
    [0, 1].flatMap((a) => [0, 1].map((b) => [at(i, a), at(k, b)] as const)),
    [0, 1].map((a) => [at(i, a), at(k, 0.5)] as const),
    [0, 1].map((b) => [at(i, 0.5), at(k, b)] as const),
  ];
  for (const places of sets) if (places.every(free)) yield places;
}

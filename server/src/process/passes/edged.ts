/** Passes of cutters that have the shape: along edges, round rims, in letters. */
import { insetRegion } from '../../geometry/2d/offset';
import { fromFrame } from '../../geometry/frame';
import type { Edge, Region, Vec3, Void } from '../../geometry/types';
import type { ChamferMill, Mill, Tool } from '../../model/shop-model';
import { alongEdge, aroundRim, tipRadius } from '../access/cutter-locations-form';
import { mayClimb } from '../cutting/hands';
import type { Operation } from '../operations/types';
import { BELOW_MM } from '../room';
import type { Cut } from '../stock/types';
import { isThereNow } from './edges-later';
import type { Making, Shape } from './making';
import { shownAt, stationOf } from './read-out';
import type { Look, Move, ReadOut, Station, Way, Where } from './types';
import { volumesOf } from './volumes';

type Made = Exclude<Operation, { does: 'missing' }>;

export function edged(operation: Made, cut: Cut, m: Making): Shape {
  const { readOut } = m;
  const climbs = mayClimb(m.machine);
  const found = operation.does === 'engrave' ? undefined : edgesOf(operation, cut, m, climbs);
  const even: readonly Look[] = operation.does === 'chamfer' ? [{ look: 'even-width', mm: sizeOf(operation) }] : [];
  const base = { direction: climbs ? ('climb' as const) : ('conventional' as const), leavesMm: 0, looks: even };
  if (!found) {
    const floor = Math.min(
      ...volumesOf(operation, cut, readOut).flatMap((v) => [
        shownAt(readOut, 'Z', v.bounds.min),
        shownAt(readOut, 'Z', v.bounds.max),
      ]),
    );
    return { ...base, where: { type: 'as drawn' }, tipsZ: Number.isFinite(floor) ? [floor] : [], needsProgram: true };
  }
  return { ...base, ...found };
}

function sizeOf(operation: Made): number {
  return 'depthMm' in operation ? operation.depthMm : 0;
}

/** Undefined where the cutter has not the shape, or tips differ from edge to edge. */
function edgesOf(operation: Made, cut: Cut, { readOut, asked }: Making, climbs: boolean) {
  const { tool } = operation;
  // A ball goes round in many steps: no list for hands.
  if (operation.does === 'round' && tool.kind !== 'corner-rounder') return undefined;
  const up = cut.before && cutUp(cut, asked);
  if (!up) return undefined;
  const voids = volumesOf(operation, cut, readOut).filter((v) => isThereNow(v, cut));
  const made = voids.map((v) =>
    isLevelEdge(v, readOut) ? straight(v, { up, cut }, tool, readOut, climbs) : rim(v, tool, readOut, climbs),
  );
  if (made.length === 0 || made.some((x) => x === undefined)) return undefined;
  const ways = made.flatMap((x) => x!.ways);
  const places = made.flatMap((x) => x!.places);
  const tips = [...new Set(made.map((x) => Number(x!.tipZ.toFixed(4))))].sort((a, b) => b - a);
  const where: Where = places.length > 0 && ways.length === 0 ? { type: 'at', places } : { type: 'along', ways };
  if (tips.length !== 1 || (places.length > 0 && ways.length > 0)) return undefined;
  return { where, tipsZ: tips, needsProgram: ways.some((w) => w.moves.some((x) => x.type === 'arc')) };
}

function cutUp(cut: Cut, { part }: Making['asked']) {
  return part.setups?.[cut.setup]?.up?.name;
}

interface Found {
  readonly ways: readonly Way[];
  readonly places: readonly Station[];
  readonly tipZ: number;
}

function isLevelEdge(v: Void, { Z }: ReadOut): boolean {
  return v.profile.type === 'straight' && Math.abs(v.frame.w[Z.axis]) < 0.5;
}

function straight(
  v: Void,
  seen: Parameters<typeof alongEdge>[1],
  tool: Tool,
  readOut: ReadOut,
  climbs: boolean,
): Found | undefined {
  const stands = alongEdge(v, seen, tool);
  const [first, last] = [stands[0], stands.at(-1)];
  if (!first || !last) return undefined;
  const [a, b] = [stationOf(readOut, first), stationOf(readOut, last)];
  const inside = stationOf(readOut, middleOf(v));
  // The work stands to the right of the way: a cutter that turns clockwise climbs.
  const right = (b[0] - a[0]) * (inside[1] - a[1]) - (b[1] - a[1]) * (inside[0] - a[0]) < 0;
  const [from, to] = right === climbs ? [a, b] : [b, a];
  return { ways: [{ start: from, moves: [{ type: 'line', to }] }], places: [], tipZ: shownAt(readOut, 'Z', first) };
}

function middleOf({ bounds: { min, max } }: Void): Vec3 {
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

/** Round a hole's rim or what stands, its flank on the break; down the middle of a hole that is too narrow for that. */
function rim(v: Void, tool: Tool, readOut: ReadOut, climbs: boolean): Found | undefined {
  const { profile, region } = v;
  const cone = 'tipMm' in tool ? (tool as ChamferMill) : undefined;
  const half = ((cone?.angleDeg ?? 90) / 2) * (Math.PI / 180);
  const below = cone ? BELOW_MM : 0;
  const round = profile.type === 'round' ? profile.radius - (tool as Mill).cornerRadiusMm : 0;
  const off = tipRadius(tool) + below * Math.tan(half) + (profile.type === 'taper' ? profile.insetTo : round);
  const stands = region.holes[0];
  const wall: Region = stands
    ? { outer: { edges: [...stands.edges].reverse().map(turnedRound) }, holes: [] }
    : { outer: region.outer, holes: [] };
  const moved = insetRegion(wall, stands ? -off : off);
  if (!moved) return undefined;
  const place = (u: number, q: number, w: number) => fromFrame(v.frame, u, q, w);
  if (moved.length === 0) {
    const at = aroundRim(v, tool);
    return at && { ways: [], places: [stationOf(readOut, at)], tipZ: shownAt(readOut, 'Z', at) };
  }
  const station = (p: { u: number; v: number }): Station => stationOf(readOut, place(p.u, p.v, 0));
  const turns = isTurned(v, readOut);
  const ways = moved.map(({ outer }): Way => {
    // Inside a rim the way that runs counter-clockwise climbs; round what stands the other.
    const ccw = (stands === undefined) === climbs;
    const edges = ccw === turns ? [...outer.edges].reverse().map(turnedRound) : outer.edges;
    const moves = edges.map(
      (e): Move =>
        e.type === 'line'
          ? { type: 'line', to: station(e.b) }
          : { type: 'arc', to: station(e.b), centre: station(e.centre), ccw: e.ccw !== turns },
    );
    return { start: station(edges[0]!.a), moves };
  });
  return { ways, places: [], tipZ: shownAt(readOut, 'Z', place(0, 0, v.to + below)) };
}

function turnedRound(e: Edge): Edge {
  return e.type === 'line' ? { type: 'line', a: e.b, b: e.a } : { ...e, a: e.b, b: e.a, ccw: !e.ccw };
}

/** Its plane looks mirrored on the read-out. */
function isTurned({ frame: { u, v } }: Void, { X, Y }: ReadOut): boolean {
  return (u[X.axis] * v[Y.axis] - u[Y.axis] * v[X.axis]) * X.sign * Y.sign < 0;
}

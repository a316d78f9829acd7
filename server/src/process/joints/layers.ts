/** What a joint names, looked up in the parts: holes, the parts as they lie on each other, and where each hole begins and ends in metal. */
import { faceFrame, featureFrame, fromFrame } from '../../geometry/frame';
import type { Solid } from '../../geometry/types';
import { memo } from '../../memo';
import type { Meeting } from '../../model/joint-model';
import { memberName, readMemberName } from '../../model/member-name';
import type { Feature, Hole, Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { TextTree } from '../../text/tree';
import { HAIR, SAME } from '../../tolerance';
import { materialAlong } from '../column';
import { without } from '../drilling';
import type { Spot } from './pattern';

/** One part of a job. */
export interface Piece {
  readonly name: string;
  readonly part: Part;
  readonly solid: Solid;
  readonly tree: TextTree;
  readonly shop: Shop;
}

/** By the names that the job gives them; a part that could not be read is not there. */
export type Pieces = ReadonlyMap<string, Piece>;

export type Found =
  | { readonly ok: true; readonly piece: Piece; readonly feature: Feature; readonly members: readonly number[] }
  /** `unread`: nothing can be said of it; a broken feature is told in its own part. */
  | {
      readonly ok: false;
      readonly why: 'unread' | 'feature' | 'member';
      readonly piece?: Piece;
      readonly count?: number;
    };

/** The feature that a joint names, and which of its places. */
export function featureOf({ piece, feature }: Pick<Meeting, 'piece' | 'feature'>, pieces: Pieces): Found {
  const of = pieces.get(piece.name);
  if (!of) return { ok: false, why: 'unread' };
  const { feature: name, member } = readMemberName(feature.name);
  const found = of.part.featureByName.get(name);
  if (!found) return { ok: false, why: of.part.broken.has(name) ? 'unread' : 'feature', piece: of };
  const count = found.places.length;
  if (member !== undefined && (member < 1 || member > count)) return { ok: false, why: 'member', piece: of, count };
  const members = member === undefined ? found.places.map((_, i) => i) : [member - 1];
  return { ok: true, piece: of, feature: found, members };
}

export interface MetHole {
  readonly hole: Hole;
  /** Which of its places. */
  readonly index: number;
  /** `mount[2]`. */
  readonly name: string;
  readonly meeting: Meeting;
}

/** The holes of one part that a joint names. */
export interface Layer {
  readonly piece: Piece;
  readonly holes: readonly MetHole[];
}

/** Parts in the order in which they are named; those that are not holes are left out, and told by who looks them up. */
export function layersOf(meetings: readonly Meeting[], pieces: Pieces): readonly Layer[] {
  const layers: { piece: Piece; holes: MetHole[] }[] = [];
  for (const meeting of meetings) {
    const found = featureOf(meeting, pieces);
    if (!found.ok || found.feature.kind !== 'hole') continue;
    const hole = found.feature;
    const many = hole.places.length > 1;
    const holes = found.members.map((index) => ({
      hole,
      index,
      meeting,
      name: memberName(hole.name, many ? index + 1 : 0),
    }));
    const last = layers.at(-1);
    if (last?.piece === found.piece) last.holes.push(...holes);
    else layers.push({ piece: found.piece, holes });
  }
  return layers;
}

/** The pattern as it is seen along the way that the screw goes. */
export function spotsOf(layer: Layer, mark?: string): readonly Spot[] {
  const side = sideOf(layer);
  return layer.holes.map(({ hole: h, index }) => {
    const place = h.places[index]!;
    return { u: place.u, v: side * place.v, ...(mark !== undefined && { mark }) };
  });
}

/** Of the two axes of a face's plane some are right-handed about the way in, 1, others left-handed, -1. */
export function sideOf({ holes, piece }: Layer): number {
  const { hole } = holes[0]!;
  const { u, v, w } = faceFrame(hole.face, piece.part.size, hole.places[0]!);
  return Math.sign(
    w[0] * (u[1] * v[2] - u[2] * v[1]) - w[1] * (u[0] * v[2] - u[2] * v[0]) + w[2] * (u[0] * v[1] - u[1] * v[0]),
  );
}

interface Column {
  /** Below the hole's face, mm: where metal begins and ends about it, and where the hole ends. */
  readonly topMm: number;
  readonly bottomMm: number;
  readonly endMm: number;
  /** It comes out: what goes in on one side can come out on the other. */
  readonly comesOut: boolean;
}

/** Undefined for a leaning hole, or one that meets no metal. */
export function columnOf({ hole, index }: Pick<MetHole, 'hole' | 'index'>, { solid, part }: Piece): Column | undefined {
  return columnAt(hole, solid, index, part.size);
}

const columnAt = memo(
  (hole: Hole, solid: Solid, index: number, size: Part['size']): Column | undefined => {
    if (hole.tilt && hole.tilt.angle.deg !== 0) return undefined;
    const of = solid.voidsOf(hole.name).filter((v) => v.role === 'bore')[index];
    const place = hole.places[index];
    if (!of || !place) return undefined;
    const axis = fromFrame(featureFrame(hole, size, place), 0, 0, 0);
    const endMm = hole.startMm + hole.depth.mm;
    const all = materialAlong(without(solid, hole.name, of), hole.face, axis);
    const met = all.filter((s) => s.from < endMm - SAME && s.to > hole.startMm + SAME);
    const [first, last] = [met[0], met.at(-1)];
    if (!first || !last) return undefined;
    return {
      topMm: Math.max(first.from, hole.startMm),
      bottomMm: Math.min(last.to, endMm),
      endMm,
      comesOut: hole.depth.through || last.to <= endMm + HAIR,
    };
  },
  { owners: 2, size: 64, by: (_hole, _solid, index, size) => [index, size] },
);

/** Can be put on either way up: its holes come out, and no recess says where the head is. */
export function isTurnable({ holes, piece }: Layer): boolean {
  return holes.every((h) => !h.hole.counterbore && !h.hole.countersink && columnOf(h, piece)?.comesOut === true);
}

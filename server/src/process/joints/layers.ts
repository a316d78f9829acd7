/** What a joint names, looked up in the parts: holes, the parts as they lie on each other, and where each hole begins and ends in metal. */
import { faceFrame, featureFrame, toFrame } from '../../geometry/frame';
import type { Frame, Solid } from '../../geometry/types';
import { memo } from '../../memo';
import type { Meeting } from '../../model/joint-model';
import { memberName, readMemberName } from '../../model/member-name';
import type { Feature, Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { TextTree } from '../../text/tree';
import { HAIR, SAME } from '../../tolerance';
import { materialAlong, materialOn } from '../column';
import { without } from '../drilling';
import type { Spot } from './pattern';
import { holeIn, type MetFeature } from './slotted';

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
  readonly hole: MetFeature;
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
    const hole = found.ok ? holeIn(found.feature) : undefined;
    if (!found.ok || !hole) continue;
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
  const frame = acrossOf(layer);
  const { size } = layer.piece.part;
  return layer.holes.map(({ hole: h, index }) => {
    const place = h.places[index]!;
    const { slide } = h;
    const [u, v] = frame ? toFrame(frame, faceFrame(h.face, size, place).origin) : [place.u, place.v];
    return {
      ...{ u, v: side * v },
      ...(slide && { slide: { u: slide.u, v: side * slide.v } }),
      ...(mark !== undefined && { mark }),
    };
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

/** Across leaning holes; undefined for upright ones, which lie in their face as they are written. */
function acrossOf({ holes: [first], piece }: Layer): Frame | undefined {
  const { hole } = first!;
  return leans(hole) ? { ...featureFrame(hole, piece.part.size, hole.places[0]!), origin: [0, 0, 0] } : undefined;
}

export function leans({ tilt }: Pick<Feature, 'tilt'>): boolean {
  return tilt !== undefined && tilt.angle.deg !== 0;
}

interface Column {
  /** Below the hole's face, mm: where metal begins and ends about it, and where the hole ends. */
  readonly topMm: number;
  readonly bottomMm: number;
  readonly endMm: number;
  /** It comes out: what goes in on one side can come out on the other. */
  readonly comesOut: boolean;
  /** Where the first metal about it ends: what a nut that is let in is drawn against. */
  readonly firstEndMm: number;
}

/** Along a leaning hole too, from where its axis meets the face. Undefined for one that meets no metal. */
export function columnOf({ hole, index }: Pick<MetHole, 'hole' | 'index'>, { solid, part }: Piece): Column | undefined {
  return columnAt(hole, solid, index, part.size);
}

const columnAt = memo(
  (hole: MetFeature, solid: Solid, index: number, size: Part['size']): Column | undefined => {
    const place = hole.places[index];
    const of = solid.voidsOf(hole.name).filter((v) => v.role === (hole.slide ? 'slot' : 'bore'))[index];
    if (!of || !place) return undefined;
    const rest = without(solid, hole.name, of);
    const { origin, w } = featureFrame(hole, size, place);
    const endMm = leans(hole) && hole.depth.through ? Number.POSITIVE_INFINITY : hole.startMm + hole.depth.mm;
    const all = leans(hole) ? materialOn(rest, origin, w) : materialAlong(rest, hole.face, origin);
    const met = all.filter((s) => s.from < endMm - SAME && s.to > hole.startMm + SAME);
    const [first, last] = [met[0], met.at(-1)];
    if (!first || !last) return undefined;
    return {
      topMm: Math.max(first.from, hole.startMm),
      bottomMm: Math.min(last.to, endMm),
      endMm,
      comesOut: hole.depth.through || last.to <= endMm + HAIR,
      firstEndMm: Math.min(first.to, endMm),
    };
  },
  { owners: 2, size: 64, by: (_hole, _solid, index, size) => [index, size] },
);

/** Can be put on either way up: its holes come out, and no recess says where the head is. */
export function isTurnable({ holes, piece }: Layer): boolean {
  return holes.every((h) => !h.hole.counterbore && !h.hole.countersink && columnOf(h, piece)?.comesOut === true);
}

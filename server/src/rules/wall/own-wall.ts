/** The walls that a bar's section has of itself: what of them bends under a cutter that comes at their broad side. */
import type { Wall } from '../../geometry/types';
import { type ByForm, ofForm } from '../../model/feature-kinds';
import { FACE_AXIS, type Face, type Feature, type Part } from '../../model/model';
import { sectionKind } from '../../model/section';
import type { Told } from '../kit/define';
import { figure, roundUp, subjectOf } from '../kit/message';
import type { RuleContext } from '../kit/rule';
import { deepestMm, ownWalls } from './walls';

export interface OwnWall {
  readonly wall: Wall;
  readonly face: Face;
  /** Milled into its broad side. */
  readonly feature: Feature;
  /** From the edge that holds it to its free one, or between the two that do. */
  readonly spanMm: number;
  /** Along both its edges: a tube's walls and a channel's web. */
  readonly held: boolean;
}

/** Pressed on by a mill; a drill and what breaks an edge press little. */
const MILLED: ByForm<[], boolean> = {
  opening: () => true,
  channel: () => true,
  outside: () => true,
  shoulder: () => true,
  ring: () => true,
  slope: () => true,
  hole: () => false,
  edge: () => false,
  letters: () => false,
};

/** Each such wall once, with the first feature that is milled into it; thinner than the least of its span by these ratios. */
export function* ownWallsCut(context: RuleContext, ratio: number, heldRatio: number): Generator<OwnWall> {
  const { part, solid } = context;
  if (!part.stock.section) return;
  const told = new Set<Face>();
  for (const wall of ownWalls(context, deepestMm(solid) / Math.min(ratio, heldRatio))) {
    const face = wall.b as Face;
    const feature = part.features.find((f) => f.face === face && ofForm(MILLED, f));
    if (!feature || told.has(face)) continue;
    const held = isHeld(face, part);
    const spanMm = wall.lengthMm;
    if (spanMm / wall.thicknessMm <= (held ? heldRatio : ratio)) continue;
    told.add(face);
    yield { wall, face, feature, spanMm, held };
  }
}

/** No edge of it is free: round a tube, and opposite the open side of a channel. A tee is free to both sides of its web. */
function isHeld(face: Face, { stock }: Part): boolean {
  const kind = sectionKind(stock.form);
  if (kind?.open === 0) return true;
  const [open] = stock.section?.open ?? [];
  return stock.form === 'channel' && open !== undefined && FACE_AXIS[open.name].axis === FACE_AXIS[face].axis;
}

/** The bar’s own: free along one edge, or held along both. No error: what it lies on may hold it. */
export function tellOwn({ wall, face, feature, spanMm }: OwnWall, most: number, context: RuleContext): Told {
  const { part, about, length } = context;
  const { form } = part.stock;
  const ratio = spanMm / wall.thicknessMm;
  return {
    message: `${subjectOf(part, feature.name)} is milled into the ${face} wall of the ${form}. It is ${about(wall.thicknessMm)} thick and ${about(spanMm)} wide: ${figure(ratio, most)} times. Over ${most} times it bends (rule of thumb). Support it from inside, or use ${length(roundUp(spanMm / most, part.units))} of wall.`,
    thing: `${face} wall of the ${form}`,
    has: `${about(wall.thicknessMm)} thick`,
    needs: about(spanMm / most),
    at: wall.at,
    of: [feature.name],
    span: part.stock.section!.wall.span,
    related: [{ span: feature.nameSpan, message: 'milled into it' }],
    facts: { width_mm: spanMm, thickness_mm: wall.thicknessMm, ratio, limit: most, needed_mm: spanMm / most },
  };
}

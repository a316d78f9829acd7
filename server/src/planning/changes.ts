/**
 * Small changes to a part that might save time: a corner radius that a larger cutter makes, two hole sizes that are nearly
 * one, a chamfer where an edge is rounded, a floor or a bottom without a shape of its own. Only proposals: what each saves
 * is found by pricing the changed part (`savings.ts`), and only sizes that nobody toleranced are touched.
 */

import { type ByForm, homeOf, isChannel, ofForm } from '../model/feature-kinds';
import type { EdgeRound, Feature, Hole, Length, Part } from '../model/model';
import type { Shop, Tool } from '../model/shop-model';
import { endMills } from '../process/cutters';
import { featureNode, setLength } from '../rules/kit/edits';
import type { SpanEdit } from '../rules/kit/rule';
import { formatLength } from '../text/format';
import { entry, type Span, type TextTree } from '../text/tree';
import { SAME } from '../tolerance';

export interface Change {
  readonly of: readonly string[];
  /** What is done, for the fix: `Round the corners of window with 5 mm`. */
  readonly title: string;
  /** The same as part of a sentence: `corners of 5 mm in window`. */
  readonly words: string;
  readonly edits: readonly SpanEdit[];
  /** The narrowest text that it changes. */
  readonly span: Span;
  /** How much of the part is changed, mm: of two that save as much the smaller is told. */
  readonly byMm: number;
}

interface Source {
  readonly part: Part;
  readonly shop: Shop;
  readonly tree: TextTree;
  /** Hole sizes farther apart than this are not taken for one, mm. */
  readonly alikeMm: number;
  /** Only radii of these end mills: where nothing but a tool can be spared. */
  readonly mills?: readonly Tool[];
}

/** Those of one feature alone. */
export function changesOf(feature: Feature, source: Source): readonly Change[] {
  return [...ofForm(CHANGES, feature, source)];
}

function* cornersAndFloor(feature: Feature, source: Source): Generator<Change> {
  yield* cornerChanges(feature, source);
  yield* floorChange(feature, source);
}

const CHANGES: ByForm<[Source], Iterable<Change>> = {
  hole: bottomChange,
  opening: cornersAndFloor,
  outside: cornersAndFloor,
  channel: floorChange,
  shoulder: floorChange,
  edge: (edge, source) => (edge.kind === 'edge-round' ? chamferInstead(edge, source) : []),
  ring: () => [],
  letters: () => [],
  slope: () => [],
};

/** Larger corner radii, each that of an end mill on hand. */
function* cornerChanges(feature: Feature, { part, shop, mills = endMills(shop) }: Source): Generator<Change> {
  const corners = cornersOf(feature);
  const least = Math.min(...corners.map((c) => c.length.mm));
  if (!Number.isFinite(least) || least <= 0) return;
  const tight = corners.filter((c) => c.length.mm < least + SAME);
  const most = Math.min(...tight.map((c) => c.mostMm));
  const radii = new Set(mills.flatMap((m) => (m.kind === 'end-mill' ? [m.diameterMm / 2] : [])));
  for (const mm of [...radii].sort((a, b) => a - b)) {
    if (mm <= least + SAME || mm > most) continue;
    const edits = tight.map((c) => setLength(c.length, mm, part));
    if (edits.some((e) => e === undefined)) return;
    const to = formatLength(mm, part.units);
    yield {
      of: [feature.name],
      title: `Round the inside corners of ${feature.name} with ${to}`,
      words: `inside corners of ${to} in ${feature.name}`,
      edits: edits as SpanEdit[],
      span: tight[0]!.length.span,
      byMm: mm - least,
    };
  }
}

interface Rounded {
  readonly length: Length;
  /** No larger radius has room. */
  readonly mostMm: number;
}

/** Corners with a radius that somebody wrote and nobody toleranced. */
function cornersOf(feature: Feature): readonly Rounded[] {
  const shapes = homeOf(feature).shapes(feature);
  const free = (length: Length) => !length.from && !length.tolerance;
  return shapes.flatMap((shape): Rounded[] => {
    // Outside a contour's rectangle corners are outside ones: no cutter is bound by them.
    if (shape.type === 'rectangle' && feature.kind === 'pocket')
      return free(shape.cornerRadius)
        ? [{ length: shape.cornerRadius, mostMm: Math.min(shape.u.mm, shape.v.mm) / 2 }]
        : [];
    if (shape.type !== 'path') return [];
    return shape.corners.flatMap((c) =>
      c.round && free(c.round) ? [{ length: c.round, mostMm: 3 * c.round.mm }] : [],
    );
  });
}

/** A flat floor, which a flat end mill leaves. */
function* floorChange(feature: Feature, { part }: Source): Generator<Change> {
  if (!('floorRadius' in feature) || feature.floorRadius.mm <= 0 || feature.floorRadius.tolerance) return;
  // Round all over it is a seat for something round.
  if (isChannel(feature) && feature.floorRadius.mm > 0.45 * feature.width.mm) return;
  const edit = setLength(feature.floorRadius, 0, part);
  if (!edit) return;
  yield {
    of: [feature.name],
    title: `Leave the floor of ${feature.name} flat to the wall`,
    words: `a floor without a radius in ${feature.name}`,
    edits: [edit],
    span: feature.floorRadius.span,
    byMm: feature.floorRadius.mm,
  };
}

/** Tangent to the round it stands for: legs of r (2 − √2). It takes nothing away that the round would leave. */
const CHAMFER_SHARE = 2 - Math.SQRT2;

function* chamferInstead(feature: EdgeRound, { part, tree }: Source): Generator<Change> {
  const node = featureNode(tree, feature.name);
  const [kind, radius] = [node && entry(node, 'kind'), node && entry(node, 'radius')];
  if (!kind?.value || !radius?.value || feature.radius.from || feature.radius.tolerance) return;
  const mm = Math.max(0.1, Math.round(feature.radius.mm * CHAMFER_SHARE * 10) / 10);
  const size = setLength(feature.radius, mm, part);
  if (!size) return;
  yield {
    of: [feature.name],
    title: `Chamfer the edges of ${feature.name} by ${formatLength(mm, part.units)} instead of rounding them`,
    words: `a chamfer of ${formatLength(mm, part.units)} instead of the round ${feature.name}`,
    edits: [{ span: kind.value.span, newText: 'chamfer' }, { span: radius.key.span, newText: 'size' }, size],
    span: kind.value.span,
    byMm: feature.radius.mm - mm,
  };
}

/** The drill's own bottom. What sits in a bore with a tolerance of its own stands on that bottom: it stays flat. */
function* bottomChange(feature: Hole, { tree }: Source): Generator<Change> {
  if (feature.bottom !== 'flat' || feature.depth.through || feature.diameter.tolerance) return;
  const node = featureNode(tree, feature.name);
  const bottom = node && entry(node, 'bottom');
  if (!bottom?.value) return;
  yield {
    of: [feature.name],
    title: `Leave the drill’s cone at the bottom of ${feature.name}`,
    words: `the drill’s own bottom in ${feature.name}`,
    edits: [{ span: bottom.value.span, newText: 'cone' }],
    span: bottom.value.span,
    byMm: feature.diameter.mm / 2,
  };
}

/** Holes of two sizes that are nearly one, all made of the larger. */
export function* commonSizes({ part, alikeMm }: Source): Generator<Change> {
  const bySize = new Map<number, Hole[]>();
  for (const f of part.features) {
    if (f.kind !== 'hole' || !isFree(f)) continue;
    const key = Number(f.diameter.mm.toFixed(4));
    bySize.set(key, [...(bySize.get(key) ?? []), f]);
  }
  const sizes = [...bySize].sort((a, b) => a[0] - b[0]);
  for (const [small, smaller] of sizes)
    for (const [large, larger] of sizes) {
      if (large <= small || large - small > alikeMm + SAME) continue;
      // Only wider: what passes through still does.
      const edits = smaller.map((h) => setLength(h.diameter, large, part));
      if (edits.some((e) => e === undefined)) continue;
      const names = smaller.map((h) => h.name);
      yield {
        of: names,
        title: `Make ${names.join(', ')} ${formatLength(large, part.units)} as well, like ${larger[0]!.name}`,
        words: `${names.map((n) => `${n}`).join(', ')} of ${formatLength(large, part.units)}, like ${larger[0]!.name}`,
        edits: edits as SpanEdit[],
        span: smaller[0]!.diameter.span,
        byMm: large - small,
      };
    }
}

/** A plain size of the author's own, with nothing that hangs on it. */
function isFree(hole: Hole): boolean {
  return hole.diameterGiven && !hole.diameter.tolerance && !hole.diameter.from && !hole.thread && !hole.clearance;
}

/** Pockets with their islands, and contours: what is cut inside an outline, and outside one. */
import { at, type MapEntry, type MapNode, mapAt } from '../../../text/tree';
import type { Contour, Island, Length, Place, Pocket, Shape } from '../../model';
import { baseOf, drawnSpan, type Head } from '../base';
import { itemsOf, type Work } from '../evaluation';
import { pathShape, relativeTo, shapeOf, unwritten } from '../outline';
import { depthOf, positionOf } from '../places';
import { reliefOf } from './relief';

export function pocket(work: Work, head: Head, map: MapNode): Pocket | undefined {
  const base = baseOf(work, head, map, drawnSpan(map, 'path'));
  const depth = depthOf(work, map, base);
  if (!base) return undefined;
  const shape = shapeOf(work, map, base.face, head.span);
  const floorRadius = floorRadiusOf(work, map, head);
  if (!shape || !depth || !floorRadius) return undefined;
  const relief = reliefOf(work, map, shape, floorRadius.mm);
  const islands = islandsOf(work, map, base.face, base.places[0]!, depth.mm);
  if (work.broken) return undefined;
  return {
    ...base,
    kind: 'pocket',
    shape,
    depth,
    floorRadius,
    ...(relief && { relief }),
    islands,
  };
}

export function floorRadiusOf(work: Work, map: MapNode, head: Head): Length | undefined {
  if (!at(map, 'floor-radius')) return unwritten(0, head.span, 'no `floor-radius` is given: a sharp floor');
  return work.length(map, 'floor-radius', 'from-zero');
}

function islandsOf(work: Work, map: MapNode, face: Pocket['face'], place: Place, depthMm: number): Island[] {
  const found: Island[] = [];
  for (const e of mapAt(map, 'islands')?.entries ?? []) {
    const island = islandOf(work, e, face, place, depthMm);
    if (island) found.push(island);
  }
  return found;
}

function islandOf(
  work: Work,
  e: MapEntry,
  face: Pocket['face'],
  pocketPlace: Place,
  depthMm: number,
): Island | undefined {
  const map = e.value as MapNode;
  const shape = shapeOf(work, map, face, e.span);
  const where = mapAt(map, 'at');
  const origin: Place = { u: 0, v: 0, span: e.span };
  if (!where && shape?.type !== 'path' && shape) {
    return work.fail('An island needs `at`: where its centre is.', e.key.span);
  }
  const place = where ? positionOf(work, where, face) : origin;
  const height = at(map, 'height')
    ? work.length(map, 'height')
    : unwritten(depthMm, e.span, 'no `height` is given: up to where the pocket starts');
  if (!shape || !place || !height) return undefined;
  if (height.mm > depthMm + 1e-9) return work.fail('An island cannot be higher than the pocket is deep.', height.span);
  return { name: String(e.key.value), span: e.key.span, shape, place: relativeTo(place, pocketPlace), height };
}

export function contour(work: Work, head: Head, map: MapNode): Contour | undefined {
  const base = baseOf(work, head, map, drawnSpan(map, 'path', 'paths'));
  const depth = depthOf(work, map, base);
  if (!base) return undefined;
  const several = at(map, 'paths');
  const shapes: (Shape | undefined)[] = several
    ? itemsOf(several).map((item) => (item.type === 'list' ? pathShape(work, item, base.face) : undefined))
    : [shapeOf(work, map, base.face, head.span)];
  if (shapes.length === 0) work.fail('`paths` is empty: give at least one outline.', several!.span);
  const floorRadius = floorRadiusOf(work, map, head);
  if (!depth || !floorRadius || work.broken) return undefined;
  return { ...base, kind: 'contour', shapes: shapes as Shape[], depth, floorRadius };
}

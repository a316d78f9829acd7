/** Slots: plain, T and dovetail. */
import { at, type MapNode, mapAt } from '../../../text/tree';
import type { PathCorner, Slot } from '../../model';
import { baseOf, drawnSpan, type Head } from '../base';
import type { Work } from '../evaluation';
import { cornersOf } from '../outline';
import { depthOf } from '../places';
import { floorRadiusOf } from './pocket';

export function slot(work: Work, head: Head, map: MapNode): Slot | undefined {
  const base = baseOf(work, head, map, drawnSpan(map, 'ends', 'path'));
  const width = work.length(map, 'width');
  const depth = depthOf(work, map, base);
  if (!base) return undefined;
  const line = lineOf(work, map, base.face);
  const floorRadius = floorRadiusOf(work, map, head);
  const tee = teeOf(work, map);
  const dovetail = dovetailOf(work, map);
  if (!line || !width || !depth || !floorRadius || work.broken) return undefined;
  if (tee && dovetail) return work.fail('A slot has a tee or a dovetail, not both.', dovetail.span);
  if (tee && tee.width.mm <= width.mm) return work.fail('The tee must be wider than the slot’s neck.', tee.width.span);
  if (tee && tee.height.mm >= depth.mm)
    return work.fail('The tee must be lower than the slot is deep, so that a neck is left.', tee.height.span);
  return { ...base, kind: 'slot', line, width, depth, floorRadius, ...(tee && { tee }), ...(dovetail && { dovetail }) };
}

function lineOf(work: Work, map: MapNode, face: Slot['face']): readonly PathCorner[] | undefined {
  const ends = at(map, 'ends');
  if (ends?.type === 'list') {
    if (ends.items.length === 2) return cornersOf(work, ends, face, false);
    return work.fail(`A slot has two ends; this gives ${ends.items.length}. A bent one takes \`path\`.`, ends.span);
  }
  const path = at(map, 'path');
  return path?.type === 'list' ? cornersOf(work, path, face, false) : undefined;
}

function teeOf(work: Work, map: MapNode): Slot['tee'] {
  const tee = mapAt(map, 'tee');
  const width = work.length(tee, 'width');
  const height = work.length(tee, 'height');
  return tee && width && height && { width, height, span: tee.span };
}

function dovetailOf(work: Work, map: MapNode): Slot['dovetail'] {
  const dovetail = mapAt(map, 'dovetail');
  const angle = work.angle(dovetail, 'angle', 0, 90);
  return dovetail && angle && { angle, span: dovetail.span };
}

/** Grooves on a face and inside a hole, and engraved text. */
import { at, entry, type MapNode, scalarAt } from '../../../text/tree';
import type { Engraving, Feature, Groove, Length } from '../../model';
import { baseOf, finishOf, type Head } from '../base';
import { textOf, type Work } from '../evaluation';
import { unwritten } from '../outline';
import { depthOf, MOST } from '../places';

export function groove(work: Work, head: Head, map: MapNode): Groove | undefined {
  const diameter = work.length(map, 'diameter');
  const width = work.length(map, 'width');
  if (at(map, 'in')) return inHole(work, head, map, diameter, width);
  const below = entry(map, 'below');
  if (below)
    return work.fail(
      '`below` is for a groove inside a hole: name the hole with `in`, or leave it out.',
      below.key.span,
    );
  if (!at(map, 'depth'))
    work.fail('A groove on a face needs `depth`; one inside a hole needs `in` and `below`.', head.nameSpan);
  const base = baseOf(work, head, map);
  const depth = depthOf(work, map, base);
  return base && diameter && width && depth && { ...base, kind: 'groove', diameter, width, depth };
}

function inHole(work: Work, head: Head, map: MapNode, diameter?: Length, width?: Length): Groove | undefined {
  for (const key of ['face', 'from', 'at', 'pattern', 'depth', 'tilt']) {
    const odd = entry(map, key);
    if (odd) work.remark(`A groove inside a hole is where the hole is: leave \`${key}\` out.`, odd.key.span);
  }
  const node = scalarAt(map, 'in')!;
  if (!at(map, 'below'))
    work.fail('A groove inside a hole needs `below`: how far under the face it begins.', head.nameSpan);
  const below = work.length(map, 'below', 'from-zero');
  const finish = finishOf(work, map);
  const found = work.feature(node);
  if (!found) return work.circle === undefined ? undefined : work.fail('A groove cannot be inside itself.', node.span);
  const boreMm = boreOf(found.feature);
  if (boreMm === undefined)
    return work.fail(`\`${found.named.name}\` is no round hole: a groove inside it cannot be turned round.`, node.span);
  if (!diameter || !width || !below) return undefined;
  if (diameter.mm <= boreMm) return work.fail('The groove must be wider than the hole it is in.', diameter.span);
  const { face, startMm, places, tilt, pattern } = found.feature;
  const where = { face, faceSpan: node.span, startMm, places, ...(tilt && { tilt }), ...(pattern && { pattern }) };
  return { ...head, ...finish, ...where, kind: 'groove', diameter, width, in: found.named, below };
}

function boreOf(f: Feature): number | undefined {
  if (f.kind === 'hole') return f.diameter.mm;
  return f.kind === 'pocket' && f.shape.type === 'circle' ? f.shape.diameter.mm : undefined;
}

export function engraving(work: Work, head: Head, map: MapNode): Engraving | undefined {
  const base = baseOf(work, head, map);
  const height = work.length(map, 'height');
  const depth = depthOf(work, map, base);
  const text = textOf(scalarAt(map, 'text')!);
  if (text.trim() === '') work.fail('There is nothing to engrave.', scalarAt(map, 'text')!.span);
  if (text.length > MOST) {
    return work.fail(
      `An engraving has at most ${MOST.toLocaleString('en')} letters; this has ${text.length.toLocaleString('en')}. Shorten it, or cut it in two.`,
      scalarAt(map, 'text')!.span,
    );
  }
  if (depth?.through) work.fail('Text is engraved to a depth, not through.', depth.span);
  const stroke = at(map, 'stroke')
    ? work.length(map, 'stroke')
    : height && unwritten(height.mm / 8, head.span, 'no `stroke` is given: an eighth of the height');
  return base && height && depth && stroke && { ...base, kind: 'engraving', text, height, depth, stroke };
}

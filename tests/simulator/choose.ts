/** Which tools are tried for a cut, and in what order: every one of the shop that could do it by its kind. */
import type { Feature, Hole } from '../../server/src/model/model';
import type { Mill, Tool } from '../../server/src/model/shop-model';
import type { View } from './view';

export function sameThread(a: string, b: string): boolean {
  const plain = (x: string) =>
    x
      .toLowerCase()
      .replace(/[\s-]/g, '')
      .replace(/^(m\d+(\.\d+)?)x.*$/, '$1');
  return a === b || plain(a) === plain(b);
}

const FLAT = (t: Tool): t is Mill => t.kind === 'end-mill' || t.kind === 'face-mill';
const same = (a: Mill, b: Mill) =>
  a.diameterMm === b.diameterMm &&
  a.cornerRadiusMm === b.cornerRadiusMm &&
  a.holder === b.holder &&
  a.stickoutMm === b.stickoutMm;
const byDiameter = (a: Tool, b: Tool) => b.diameterMm - a.diameterMm;

/** Tools that go down a hole's axis, in the order they would: the hole's own drill, or one to open it and what makes it to size; then its mouth. */
export function plunging(hole: Hole, tools: readonly Tool[]): readonly Tool[] {
  const d = hole.diameter.mm;
  const same = (t: Tool) => Math.abs(t.diameterMm - d) <= 0.03;
  const drills = tools.filter((t) => t.kind === 'drill' || t.kind === 'flat-drill');
  const own = drills.filter(same);
  const sizers = tools.filter(
    (t) => (t.kind === 'reamer' && same(t)) || (t.kind === 'boring-head' && t.diameterMm <= d && t.largestMm >= d),
  );
  const opener =
    own.length > 0
      ? []
      : drills
          .filter((t) => t.diameterMm < d - 0.03)
          .sort(byDiameter)
          .slice(0, 1);
  const mouth = tools.filter((t) => {
    if (t.kind === 'counterbore-cutter')
      return hole.counterbore !== undefined && Math.abs(t.diameterMm - hole.counterbore.diameter.mm) < 0.03;
    if (t.kind !== 'countersink' && t.kind !== 'chamfer-mill') return false;
    return (
      hole.countersink !== undefined &&
      t.angleDeg === hole.countersink.angle.deg &&
      t.diameterMm >= hole.countersink.diameter.mm - 0.03
    );
  });
  return [...own, ...opener, ...(own.length > 0 ? [] : sizers), ...mouth];
}

/** Tools that go round, largest first. */
export function toolsFor(
  feature: Feature | undefined,
  name: string,
  view: View,
  tools: readonly Tool[],
): readonly Tool[] {
  const mills = tools.filter(FLAT).sort(byDiameter);
  // Of mills alike in diameter and end the one that reaches farthest.
  const ends = mills.filter(
    (t, i) =>
      t.kind === 'end-mill' &&
      !mills.some(
        (o, k) => o.kind === 'end-mill' && same(o, t) && (o.reachMm > t.reachMm || (o.reachMm === t.reachMm && k < i)),
      ),
  );
  switch (feature?.kind) {
    case undefined:
      return name === view.up ? mills : ends;
    case 'chamfer':
      return tools.filter((t) => t.kind === 'chamfer-mill' || t.kind === 'countersink');
    case 'edge-round':
      return tools.filter((t) => t.kind === 'corner-rounder');
    case 'hole':
      return ends.filter(
        // One as wide as its hole has no room to go round.
        (t) => t.diameterMm < Math.max(feature.diameter.mm, feature.counterbore?.diameter.mm ?? 0) - 0.4,
      );
    case 'slot':
      if (feature.tee || feature.dovetail)
        return [
          ...ends,
          ...tools
            .filter((t) => t.kind === 'tee-cutter' || t.kind === 'dovetail-cutter' || t.kind === 'ball-undercutter')
            .sort(byDiameter),
        ];
      return ends;
    case 'contour':
      return feature.thread?.undercut
        ? [...ends, ...tools.filter((t) => t.kind === 'tee-cutter').sort(byDiameter)]
        : ends;
    case 'groove':
      return feature.in ? tools.filter((t) => t.kind === 'tee-cutter').sort(byDiameter) : ends;
    case 'slope':
      return [...tools.filter((t) => t.kind === 'chamfer-mill'), ...ends];
    default:
      return ends;
  }
}

/** The tool that makes each cut of a set-up, to size, where it goes deepest: as it was found when its reach was judged. */
import { fromFrame, inward } from '../../geometry/frame';
import { centroidOf, regionMoments } from '../../geometry/moments';
import type { Solid, Vec3, Void } from '../../geometry/types';
import { add, dot, scale } from '../../geometry/vector';
import { verdictOf } from '../../machining/reaching';
import { shapeOf, type ToolShape } from '../../machining/reaching/shape';
import { alongSpindle, standsIn } from '../../machining/reaching/stands';
import type { Cut, SetupInTime } from '../../machining/workpiece/types';
import type { Face, Part } from '../../spec/model';
import type { Shop, Tool } from '../../spec/shop-model';
import type { PictureCutter } from './protocol';

/** Roles whose walls a mill goes along. */
const MILLED: ReadonlySet<Void['role']> = new Set<Void['role']>([
  'pocket',
  'slot',
  'step',
  'contour',
  'groove',
  'bore',
]);

/** Of drilled and milled cuts; none where no tool was found, or where the tool goes along an edge only. */
export function cuttersOf(of: SetupInTime, part: Part, solid: Solid, shop: Shop): readonly PictureCutter[] {
  const { up } = of;
  if (!up) return [];
  return of.cuts.flatMap((cut) => {
    if (!cut.feature) return [];
    const found = toolOf(cut, of, part, solid, shop);
    const tip = found && deepest(cut, up, shapeOf(found.tool, shop), isAlong(cut, found.tool));
    if (!found || !tip) return [];
    const parts = partsOf(shapeOf(found.tool, shop), found.outMm);
    return [{ feature: cut.feature.name, tool: found.tool.name, tip, towards: scale(inward(up), -1), parts }];
  });
}

/** The one that reaches deepest, or where none gets there the one whose holder is in the way. */
function toolOf(cut: Cut, of: SetupInTime, part: Part, solid: Solid, shop: Shop) {
  const verdict = verdictOf(cut, of, part, solid, shop);
  if (!verdict) return undefined;
  const uses = verdict.uses.filter((u) => u.does !== 'tap' && u.does !== 'face');
  const use = uses.reduce<(typeof uses)[number] | undefined>(
    (a, b) => (a && a.reachMm >= b.reachMm ? a : b),
    undefined,
  );
  return use ?? (verdict.holder as { readonly tool: Tool; readonly outMm: number } | undefined);
}

function isAlong({ feature }: Cut, tool: Tool): boolean {
  return feature?.kind === 'hole' && tool.kind !== 'end-mill';
}

function partsOf(shape: ToolShape, outMm: number): PictureCutter['parts'] {
  const cutTo = Math.min(shape.reachMm, outMm);
  const { holder } = shape;
  return [
    { what: 'cut', radiusMm: shape.cutRadiusMm || shape.shankRadiusMm, fromMm: 0, toMm: cutTo },
    ...(outMm > cutTo ? [{ what: 'shank' as const, radiusMm: shape.shankRadiusMm, fromMm: cutTo, toMm: outMm }] : []),
    ...(holder
      ? [{ what: 'holder' as const, radiusMm: holder.radiusMm, fromMm: outMm, toMm: outMm + holder.lengthMm }]
      : []),
  ];
}

/** `along`: the tool goes down the hole's own axis, and does not circle in it. */
function deepest(cut: Cut, up: Face, shape: ToolShape, along: boolean): Vec3 | undefined {
  const down = inward(up);
  const member = Math.min(...cut.removes.map((v) => v.member));
  const own = cut.removes.filter((v) => v.member === member);
  const lowest = lowestOf(own, down, cut);
  if (along) {
    const bore = own.find((v) => v.role === 'bore');
    if (!bore || Math.abs(dot(bore.frame.w, down)) < 1 - 1e-6) return undefined;
    const { u, v } = centroidOf(regionMoments(bore.region));
    return at(fromFrame(bore.frame, u, v, bore.from), down, lowest);
  }
  for (const v of own) {
    if (!MILLED.has(v.role)) continue;
    const free = v.role === 'step';
    const [stand] = standsIn(alongSpindle(v, up), cut.before, up, shape.cutRadiusMm, free);
    if (stand) return at(stand, down, lowestOf([v], down, cut));
  }
  return undefined;
}

/** How far down the volumes go, along `down`; never below the workpiece. */
function lowestOf(voids: readonly Void[], down: Vec3, cut: Cut): number {
  const far = ({ min, max }: Void['bounds']) => Math.max(dot(min, down), dot(max, down));
  return Math.min(far(cut.before.body.box), Math.max(...voids.map((v) => far(v.bounds))));
}

/** The point brought to a level along `down`. */
function at(p: Vec3, down: Vec3, level: number): Vec3 {
  return add(p, down, level - dot(p, down));
}

/** The tool that makes each cut of a set-up, to size, where it goes deepest: as it was found when its reach was judged. */

import { centroidOf, regionMoments } from '../../geometry/2d/moments';
import { fromFrame, inward } from '../../geometry/frame';
import type { Vec3, Void } from '../../geometry/types';
import { add, dot, scale } from '../../geometry/vector';
import type { Face } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';
import { homeOfTool, isCone } from '../../model/tool-kinds';
import { verdictOf } from '../../process/access';
import { alongSpindle, standsIn } from '../../process/access/cutter-locations';
import {
  alongEdge,
  aroundRim,
  besideEdge,
  inStroke,
  isUpright,
  type Seen,
  tipRadius,
} from '../../process/access/cutter-locations-form';
import { discStand } from '../../process/access/disc';
import { faceStands } from '../../process/access/facing';
import { shapeOf, type ToolShape } from '../../process/access/shape';
import type { PartInShop } from '../../process/part-in-shop';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { axesToward, inPart, seenCut } from '../../process/tilted/place';
import { spindleOf } from '../../process/tilted/spindle';
import { SAME } from '../../tolerance';
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

/** Of every cut for which a tool was found: along an edge half way of it, on a face at its rim. */
export function cuttersOf(of: SetupInTime, inShop: PartInShop): readonly PictureCutter[] {
  const { part, shop } = inShop;
  if (!of.up) return [];
  const spindle = spindleOf(of.setup, part);
  const axes = spindle && axesToward(spindle.toward);
  // Work that is held at an angle as the spindle sees it: there `top` looks at it.
  const up = axes ? 'top' : of.up;
  const towards = spindle?.toward ?? scale(inward(up), -1);
  return of.cuts.flatMap((own) => {
    if (!own.feature && !own.face) return [];
    const found = toolOf(own, of, inShop);
    if (!found) return [];
    const cut = axes ? seenCut(own, axes) : own;
    const shape = shapeOf(found.tool, shop);
    const disc = axes ? undefined : discStand(cut, up, found.tool);
    const tip =
      disc ??
      (axes && cut.feature?.kind === 'slope' ? onPlane(cut.removes[0]!) : undefined) ??
      deepest(cut, up, shape, isAlong(cut, found.tool)) ??
      formTip({ cut, up }, found.tool) ??
      (cut.face ? faceStands({ cut, up }, shape.cutRadiusMm)[0] : undefined);
    if (!tip) return [];
    const parts = partsOf(found.tool, found.outMm, shop);
    return [{ feature: cut.name, tool: found.tool.name, tip: axes ? inPart(tip, axes) : tip, towards, parts }];
  });
}

/** A tool as cylinders and cones from its tip up to its holder's end, standing out of that by `outMm`. */
export function partsOf(tool: Tool, outMm: number, shop: Shop): PictureCutter['parts'] {
  const shape = shapeOf(tool, shop);
  return homeOfTool(tool).disc(tool) ? discParts(shape, outMm) : roundParts(shape, outMm);
}

/** A disc on its hub: the nut or screw below it, the rim, and the arbor above. The tip is the disc's lower side. */
function discParts(shape: ToolShape, outMm: number): PictureCutter['parts'] {
  const disc = homeOfTool(shape.tool).disc(shape.tool)!;
  const { thicknessMm, hubRadiusMm, belowMm } = disc;
  const { holder } = shape;
  return [
    ...(belowMm > 0 ? [{ what: 'shank' as const, radiusMm: hubRadiusMm, fromMm: -belowMm, toMm: 0 }] : []),
    { what: 'cut', radiusMm: shape.cutRadiusMm, fromMm: 0, toMm: thicknessMm },
    ...(outMm > thicknessMm
      ? [{ what: 'shank' as const, radiusMm: hubRadiusMm, fromMm: thicknessMm, toMm: outMm }]
      : []),
    ...(holder
      ? [{ what: 'holder' as const, radiusMm: holder.radiusMm, fromMm: outMm, toMm: outMm + holder.lengthMm }]
      : []),
  ];
}

/** In the middle of a slope that looks at the spindle. */
function onPlane({ bounds: { min, max } }: Void): Vec3 {
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, min[2]];
}

/** The one that reaches deepest, or where none gets there the one whose holder is in the way. */
function toolOf(cut: Cut, of: SetupInTime, inShop: PartInShop) {
  const verdict = verdictOf(cut, of, inShop);
  if (!verdict) return undefined;
  const uses = verdict.uses.filter((u) => u.does !== 'tap');
  const use = uses.reduce<(typeof uses)[number] | undefined>(
    (a, b) => (a && a.reachMm >= b.reachMm ? a : b),
    undefined,
  );
  return use ?? (verdict.holder as { readonly tool: Tool; readonly outMm: number } | undefined);
}

function isAlong({ feature }: Cut, tool: Tool): boolean {
  return feature?.kind === 'hole' && tool.kind !== 'end-mill';
}

function roundParts(shape: ToolShape, neededMm: number): PictureCutter['parts'] {
  // One that hardly goes in stands out as far as it is made to, all the same.
  const outMm = WHOLE.has(shape.tool.kind) ? Math.max(neededMm, Math.min(shape.reachMm, shape.mostOutMm)) : neededMm;
  const cutTo = Math.min(shape.reachMm, outMm);
  const { holder } = shape;
  return [
    ...cutParts(shape, cutTo),
    ...(outMm > cutTo ? [{ what: 'shank' as const, radiusMm: shape.shankRadiusMm, fromMm: cutTo, toMm: outMm }] : []),
    ...(holder
      ? [{ what: 'holder' as const, radiusMm: holder.radiusMm, fromMm: outMm, toMm: outMm + holder.lengthMm }]
      : []),
  ];
}

/** What the tool cuts with: a cone, a rounder with its thin end, or as thick as its cut all the way. */
function cutParts({ tool, cutRadiusMm, shankRadiusMm }: ToolShape, cutTo: number): PictureCutter['parts'] {
  const whole = (radiusMm: number, fromMm: number) => ({ what: 'cut' as const, radiusMm, fromMm, toMm: cutTo });
  const radiusMm = cutRadiusMm || shankRadiusMm;
  const thin = 'pointDeg' in tool ? 0 : tipRadius(tool);
  const angle = isCone(tool) ? tool.angleDeg : 'pointDeg' in tool ? tool.pointDeg : undefined;
  if (angle !== undefined && angle < 179) {
    const coneMm = Math.min(cutTo, (radiusMm - thin) / Math.tan((angle / 2) * (Math.PI / 180)));
    const cone = { what: 'cut' as const, radiusMm, tipRadiusMm: thin, fromMm: 0, toMm: coneMm };
    return coneMm < cutTo - SAME ? [cone, whole(radiusMm, coneMm)] : [cone];
  }
  if (tool.kind === 'corner-rounder' && tool.cornerRadiusMm < cutTo - SAME && thin > 0) {
    const { cornerRadiusMm } = tool;
    return [{ what: 'cut', radiusMm: thin, fromMm: 0, toMm: cornerRadiusMm }, whole(radiusMm, cornerRadiusMm)];
  }
  return [whole(radiusMm, 0)];
}
const WHOLE: ReadonlySet<Tool['kind']> = new Set<Tool['kind']>([
  'chamfer-mill',
  'countersink',
  'corner-rounder',
  'engraver',
  'face-mill',
]);

/** Along an edge, round a rim, beside a slope or in a mark. */
function formTip(seen: Seen, tool: Tool): Vec3 | undefined {
  const { cut } = seen;
  for (const v of cut.removes) {
    if (v.role === 'engraving') return inStroke(v, tool.diameterMm);
    if (v.role !== 'edge' && v.role !== 'slope') continue;
    if (v.profile.type !== 'straight') {
      const tip = aroundRim(v, tool);
      if (tip) return tip;
    } else if (isUpright(v, seen)) {
      const [tip] = besideEdge(v, seen, tool.diameterMm / 2);
      if (tip) return tip;
    } else {
      const [, tip] = alongEdge(v, seen, tool);
      if (tip) return tip;
    }
  }
  return undefined;
}

/** `along`: the tool goes down the hole's own axis, and does not circle in it. */
function deepest(cut: Cut, up: Face, shape: ToolShape, along: boolean): Vec3 | undefined {
  const down = inward(up);
  const member = Math.min(...cut.removes.map((v) => v.member));
  const own = cut.removes.filter((v) => v.member === member);
  const lowest = lowestOf(own, down, cut);
  if (along) {
    const bore = own.find((v) => v.role === 'bore');
    if (!bore || Math.abs(dot(bore.frame.w, down)) < 1 - SAME) return undefined;
    const { u, v } = centroidOf(regionMoments(bore.region));
    return at(fromFrame(bore.frame, u, v, bore.from), down, lowest);
  }
  for (const v of own) {
    if (!MILLED.has(v.role)) continue;
    const free = v.role === 'step';
    const [stand] = standsIn(alongSpindle(v, up), cut.before, up, shape.cutRadiusMm, { free });
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

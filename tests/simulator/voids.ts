/** What each feature takes, worked out from the resolved text alone: a flat shape swept along a depth that it may grow or shrink over. */
import { FACE_AXIS, FACE_PLANE, type Face, type Feature, OPPOSITE, type Part } from '../../server/src/spec/model';
import { circle, type Distance, type Outline, ofShape, rectangle, shifted, thick } from './outline';

export type Vec = readonly [number, number, number];
export interface Frame {
  readonly origin: Vec;
  readonly u: Vec;
  readonly v: Vec;
  readonly w: Vec;
}
export interface Taken {
  readonly feature: string;
  readonly member: number;
  readonly frame: Frame;
  readonly outline: Outline;
  readonly from: number;
  readonly to: number;
  /** A point is in it when its distance to the outline is less than this at its depth. */
  readonly grow: (depth: number) => number;
  /** The largest that `grow` comes to. */
  readonly most: number;
  /** Its width changes with depth: layers must be thin there. */
  readonly sloped: boolean;
  /** Only its two ends in depth matter: it has no walls of its own (a broken edge's far ends). */
  readonly open?: boolean;
  readonly what:
    | 'bore'
    | 'point'
    | 'counterbore'
    | 'countersink'
    | 'floor'
    | 'edge'
    | 'undercut'
    | 'groove'
    | 'incline';
}

export const AXIS = { x: 0, y: 1, z: 2 } as const;
const UNIT: readonly Vec[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const RAD = Math.PI / 180;
const FAR = 1000;

export function axisOf(face: Face): 0 | 1 | 2 {
  return AXIS[FACE_AXIS[face].axis];
}
export function intoOf(face: Face): Vec {
  const { sign } = FACE_AXIS[face];
  return UNIT[axisOf(face)]!.map((x) => x * -sign) as unknown as Vec;
}
function levelOf(face: Face, part: Part): number {
  return FACE_AXIS[face].sign > 0 ? part.size[axisOf(face)] : 0;
}
function planeOf(face: Face): readonly [0 | 1 | 2, 0 | 1 | 2] {
  return [AXIS[FACE_PLANE[face][0]], AXIS[FACE_PLANE[face][1]]];
}

function frameOn(face: Face, part: Part, u: number, v: number): Frame {
  const [a, b] = planeOf(face);
  const origin = [0, 0, 0];
  origin[a] = u;
  origin[b] = v;
  origin[axisOf(face)] = levelOf(face, part);
  return { origin: origin as unknown as Vec, u: UNIT[a]!, v: UNIT[b]!, w: intoOf(face) };
}

function leaning(f: Feature, frame: Frame): Frame {
  if (!f.tilt || f.tilt.angle.deg === 0) return frame;
  const k = AXIS[f.tilt.about];
  const [i, j] = [(k + 1) % 3, (k + 2) % 3] as [number, number];
  const [c, s] = [Math.cos(f.tilt.angle.deg * RAD), Math.sin(f.tilt.angle.deg * RAD)];
  const turn = (p: Vec): Vec => {
    const q = [...p];
    q[i] = c * p[i]! - s * p[j]!;
    q[j] = s * p[i]! + c * p[j]!;
    return q as unknown as Vec;
  };
  return { origin: frame.origin, u: turn(frame.u), v: turn(frame.v), w: turn(frame.w) };
}

const flat = () => 0;

export function takenBy(f: Feature, part: Part): readonly Taken[] {
  const extent = part.size[axisOf(f.face)];
  const make = (
    member: number,
    frame: Frame,
    t: Omit<Taken, 'feature' | 'member' | 'frame' | 'most' | 'sloped' | 'grow'> & {
      grow?: Taken['grow'];
      most?: number;
      sloped?: boolean;
    },
  ): Taken => ({
    grow: flat,
    most: 0,
    sloped: false,
    feature: f.name,
    member,
    frame,
    ...t,
  });
  const frames = (places = f.places) => places.map((p) => leaning(f, frameOn(f.face, part, p.u, p.v)));
  /** Above a leaning feature's place the tool has already been in the material. */
  const over = f.tilt ? 50 : 0;
  const from = f.startMm - over;
  const to = (d: { through: boolean; mm: number }) => (d.through ? (f.tilt ? extent * 3 : extent) : f.startMm + d.mm);

  switch (f.kind) {
    case 'hole': {
      const r = f.diameter.mm / 2;
      const end = to(f.depth);
      return frames().flatMap((frame, i) => {
        const out = [make(i, frame, { what: 'bore', outline: circle(r), from, to: end })];
        if (!f.depth.through && f.bottom === 'cone') {
          const t = Math.tan((f.point.deg / 2) * RAD);
          const long = r / t;
          const grow = (d: number) => -(d - end) * t;
          out.push(
            make(i, frame, { what: 'point', outline: circle(r), from: end, to: end + long, grow, sloped: true }),
          );
        }
        if (f.counterbore) {
          const c = circle(f.counterbore.diameter.mm / 2);
          out.push(make(i, frame, { what: 'counterbore', outline: c, from, to: f.startMm + f.counterbore.depth.mm }));
        }
        if (f.countersink) {
          const t = Math.tan((f.countersink.angle.deg / 2) * RAD);
          const wide = f.countersink.diameter.mm / 2;
          const cb = f.counterbore && f.counterbore.diameter.mm / 2 >= wide ? f.counterbore.depth.mm : 0;
          const start = f.startMm + cb;
          const long = Math.max(0, (wide - r) / t);
          const grow = (d: number) => -(Math.max(d, start) - start) * t;
          out.push(
            make(i, frame, {
              what: 'countersink',
              outline: circle(wide),
              from: start - over,
              to: start + long,
              grow,
              sloped: true,
            }),
          );
        }
        return out;
      });
    }
    case 'pocket': {
      const shape = ofShape(f.shape);
      const end = to(f.depth);
      const fr = f.depth.through ? 0 : Math.min(f.floorRadius.mm, end - f.startMm);
      const islands = f.islands.map((island) => ({
        o: shifted(ofShape(island.shape), island.place.u, island.place.v),
        top: Math.max(f.startMm, end - island.height.mm),
      }));
      const cuts = [...new Set([from, ...islands.map((i) => i.top).filter((t) => t > from && t < end), end])].sort(
        (a, b) => a - b,
      );
      return frames().flatMap((frame, i) => {
        const out = cuts.slice(1).map((bottom, k) => {
          const top = cuts[k]!;
          const standing = islands.filter((s) => s.top <= top + 1e-9).map((s) => s.o);
          return make(i, frame, {
            what: 'floor',
            outline: without(shape, standing),
            from: top,
            to: bottom,
            ...filleted(fr, end),
          });
        });
        if (f.relief && f.shape.type === 'rectangle' && f.shape.cornerRadius.mm === 0 && f.shape.rotateDeg === 0) {
          const [hu, hv, r] = [f.shape.u.mm / 2, f.shape.v.mm / 2, f.relief.diameter.mm / 2];
          for (const su of [-1, 1])
            for (const sv of [-1, 1]) {
              const o = circle(r, su * (hu - r * Math.SQRT1_2), sv * (hv - r * Math.SQRT1_2));
              out.push(make(i, frame, { what: 'floor', outline: o, from, to: end }));
            }
        }
        return out;
      });
    }
    case 'slot': {
      const end = to(f.depth);
      const fr = f.depth.through ? 0 : Math.min(f.floorRadius.mm, end - f.startMm);
      return frames().flatMap((frame, i) => {
        const neck = thick(f.line, f.width.mm);
        if (f.dovetail) {
          const t = 1 / Math.tan(f.dovetail.angle.deg * RAD);
          const most = (end - f.startMm) * t;
          return [
            make(i, frame, {
              what: 'undercut',
              outline: neck,
              from,
              to: end,
              grow: (d) => Math.max(0, d - f.startMm) * t,
              most,
              sloped: true,
            }),
          ];
        }
        if (f.tee) {
          const at = Math.max(f.startMm, end - f.tee.height.mm);
          return [
            make(i, frame, { what: 'floor', outline: neck, from, to: at }),
            make(i, frame, { what: 'undercut', outline: thick(f.line, f.tee.width.mm), from: at, to: end }),
          ];
        }
        return [make(i, frame, { what: 'floor', outline: neck, from, to: end, ...filleted(fr, end) })];
      });
    }
    case 'step': {
      const [a, b] = planeOf(f.face);
      const box: [number, number, number, number] = [-FAR, -FAR, FAR, FAR];
      f.along.forEach(({ name }, i) => {
        const k = axisOf(name);
        const w = f.widths[i]?.mm ?? 0;
        const low = FACE_AXIS[name].sign < 0;
        if (k === a) box[low ? 2 : 0] = low ? w : part.size[a] - w;
        if (k === b) box[low ? 3 : 1] = low ? w : part.size[b] - w;
      });
      const end = to(f.depth);
      const fr = f.depth.through ? 0 : Math.min(f.floorRadius.mm, end - f.startMm);
      return [
        make(0, frameOn(f.face, part, 0, 0), {
          what: 'floor',
          outline: rectangle(...box),
          from,
          to: end,
          ...filleted(fr, end),
        }),
      ];
    }
    case 'contour': {
      const places = f.places.length > 0 ? f.places : [{ u: 0, v: 0 }];
      const kept = places.flatMap((p) => f.shapes.map((s) => shifted(ofShape(s), p.u, p.v)));
      const end = to(f.depth);
      const fr = f.depth.through ? 0 : Math.min(f.floorRadius.mm, end - f.startMm);
      return [
        make(0, frameOn(f.face, part, 0, 0), {
          what: 'floor',
          outline: outside(kept),
          from,
          to: end,
          ...filleted(fr, end),
        }),
      ];
    }
    case 'groove': {
      if (f.in) {
        const hole = part.featureByName.get(f.in.name);
        if (hole?.kind !== 'hole') return [];
        const near = f.below?.mm ?? 0;
        return hole.places.map((p, i) =>
          make(i, leaning(hole, frameOn(hole.face, part, p.u, p.v)), {
            what: 'groove',
            outline: circle(f.diameter.mm / 2),
            from: near,
            to: near + f.width.mm,
          }),
        );
      }
      const [inner, outer] = [circle(f.diameter.mm / 2), circle(f.diameter.mm / 2 + f.width.mm)];
      const middle = f.diameter.mm / 2 + f.width.mm / 2;
      const ring = {
        ...without(outer, [inner]),
        centres: [
          [0, middle],
          [0, -middle],
          [middle, 0],
          [-middle, 0],
        ] as const,
      };
      return frames().map((frame, i) => make(i, frame, { what: 'floor', outline: ring, from, to: to(f.depth!) }));
    }
    case 'incline': {
      const [side, face] = [f.along.name, f.face];
      const frame = edgeFrame(face, side, part);
      const [w, d] = [f.widthMm, f.depthMm];
      const norm = Math.hypot(1 / w, 1 / d);
      const outline: Outline = {
        sd: (u, v) => (u / w + v / d - 1) / norm,
        box: [-20, -20, w * (1 + 20 / d), d * (1 + 20 / w)],
        us: [0, w],
        vs: [0, d],
        centres: [],
        slanted: true,
      };
      return [make(0, frame, { what: 'incline', outline, from: -FAR, to: FAR, open: true })];
    }
    case 'chamfer':
    case 'round':
      return broken(f, part);
    case 'engraving':
      return [];
  }
}

/** Walls and floor meet in a fillet. */
function filleted(radius: number, end: number): { grow: Taken['grow']; sloped: boolean } {
  if (!(radius > 0)) return { grow: flat, sloped: false };
  const grow = (d: number) => {
    const h = Math.min(radius, end - d);
    return h >= radius ? 0 : -(radius - Math.sqrt(Math.max(0, radius * radius - (radius - h) ** 2)));
  };
  return { grow, sloped: true };
}

function without(o: Outline, standing: readonly Outline[]): Outline {
  if (standing.length === 0) return o;
  return {
    ...o,
    sd: (u, v) => standing.reduce((d, s) => Math.max(d, -s.sd(u, v)), o.sd(u, v)),
    us: [...o.us, ...standing.flatMap((s) => s.us)],
    vs: [...o.vs, ...standing.flatMap((s) => s.vs)],
  };
}

function outside(kept: readonly Outline[]): Outline {
  const sd: Distance = (u, v) => -Math.min(...kept.map((k) => k.sd(u, v)));
  return {
    sd,
    box: [-FAR, -FAR, FAR, FAR],
    us: kept.flatMap((k) => k.us),
    vs: kept.flatMap((k) => k.vs),
    centres: kept.flatMap((k) => k.centres),
    slanted: kept.some((k) => k.slanted),
  };
}

/** u into the body from `side`, v into it from `face`, w along their edge. */
function edgeFrame(face: Face, side: Face, part: Part): Frame {
  const [u, v] = [intoOf(side), intoOf(face)];
  const along = 3 - axisOf(face) - axisOf(side);
  const origin = [0, 0, 0];
  origin[axisOf(face)] = levelOf(face, part);
  origin[axisOf(side)] = levelOf(side, part);
  return { origin: origin as unknown as Vec, u, v, w: UNIT[along]! };
}

function broken(f: Feature & { kind: 'chamfer' | 'round' }, part: Part): readonly Taken[] {
  const along = f.kind === 'round' ? f.radius.mm : f.size.mm;
  const down = f.kind === 'round' ? along : f.size.mm * Math.tan(f.angle.deg * RAD);
  const set = (d: number) =>
    f.kind === 'round'
      ? along - Math.sqrt(Math.max(0, along * along - (along - Math.min(d, along)) ** 2))
      : along * (1 - d / down);
  const base = { feature: f.name, sloped: true, most: along, what: 'edge' as const };
  const make = (face: Face, sd: Distance, outline: Omit<Outline, 'sd'>): Taken => ({
    ...base,
    member: 0,
    frame: frameOn(face, part, 0, 0),
    outline: { ...outline, sd },
    from: 0,
    to: down,
    grow: set,
    open: true,
  });
  return f.edges.flatMap((choice): readonly Taken[] => {
    if (choice.type === 'rim') {
      const owner = part.featureByName.get(choice.feature.name);
      if (!owner) return [];
      const all = takenBy(owner, part).filter((t) => t.what !== 'incline');
      const mouth = Math.min(...all.map((t) => t.from));
      return all
        .filter((t) => t.from <= mouth + 1e-9)
        .map((t) => {
          const start = Math.max(t.from, owner.startMm);
          const at = t.grow(start);
          return {
            ...t,
            ...base,
            from: start,
            to: start + down,
            grow: (d) => at + set(d - start),
            most: t.most + along,
          };
        });
    }
    const face = choice.type === 'face' ? choice.face : f.face;
    const [a, b] = planeOf(face);
    const [u0, v0, u1, v1] = cutBack(face, part);
    const kept = outlineOf(face, part);
    const sides: Distance[] = [];
    if (choice.type === 'edge') {
      const other = choice.faces[0] === face ? choice.faces[1] : choice.faces[0];
      const low = FACE_AXIS[other].sign < 0;
      if (axisOf(other) === a) sides.push(low ? (u) => u - u0 : (u) => u1 - u);
      else sides.push(low ? (_u, v) => v - v0 : (_u, v) => v1 - v);
    } else if (part.body?.form === 'round' && AXIS[part.body.axis] === axisOf(face)) {
      const [r, cu, cv] = [part.body.diameter.mm / 2, part.size[a] / 2, part.size[b] / 2];
      sides.push((u, v) => r - Math.hypot(u - cu, v - cv));
    } else {
      sides.push(
        (u) => u - u0,
        (u) => u1 - u,
        (_u, v) => v - v0,
        (_u, v) => v1 - v,
      );
      if (kept.length > 0) sides.push((u, v) => -Math.min(...kept.map((k) => k.sd(u, v))));
    }
    const sd: Distance = (u, v) => Math.min(...sides.map((s) => s(u, v)));
    const walls = { us: [u0, u1, u0 + along, u1 - along], vs: [v0, v1, v0 + along, v1 - along] };
    return [make(face, sd, { box: [-FAR, -FAR, FAR, FAR], centres: [], slanted: kept.length > 0, ...walls })];
  });
}

/** The face's rectangle less the steps that take a whole side of it. */
function cutBack(face: Face, part: Part): [number, number, number, number] {
  const [a, b] = planeOf(face);
  const box: [number, number, number, number] = [0, 0, part.size[a], part.size[b]];
  const move = (side: Face, by: number) => {
    const k = axisOf(side) === a ? 0 : 1;
    if (FACE_AXIS[side].sign < 0) box[k] = Math.max(box[k]!, by);
    else box[k + 2] = Math.min(box[k + 2]!, part.size[k === 0 ? a : b] - by);
  };
  for (const f of part.features) {
    if (f.kind !== 'step' || f.along.length !== 1 || f.startMm > 0) continue;
    const side = f.along[0]!.name;
    const width = f.widths[0]?.mm ?? 0;
    if (f.face === face || (f.depth.through && f.face === OPPOSITE[face])) move(side, width);
    else if (side === face) move(f.face, f.depth.mm);
  }
  return box;
}

function outlineOf(face: Face, part: Part): readonly Outline[] {
  return part.features.flatMap((f) => {
    if (f.kind !== 'contour' || f.startMm > 0) return [];
    if (f.face !== face && !(f.depth.through && f.face === OPPOSITE[face])) return [];
    const places = f.places.length > 0 ? f.places : [{ u: 0, v: 0 }];
    return places.flatMap((p) => f.shapes.map((s) => shifted(ofShape(s), p.u, p.v)));
  });
}

/** What each feature takes, worked out from the resolved text alone: a flat shape swept along a depth that it may grow or shrink over. */
import { FACE_AXIS, type Feature, type Part, type PathCorner } from '../../server/src/model/model';
import { broken } from './breaks';
import { axisOf, edgeFrame, FAR, type Frame, frameOn, leaning, planeOf, RAD, type Taken } from './frame';
import { circle, type Distance, type Outline, ofShape, rectangle, shifted, thick } from './outline';

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
      const round = f.thread?.undercut;
      return [
        make(0, frameOn(f.face, part, 0, 0), {
          what: 'floor',
          outline: outside(kept),
          from,
          to: end,
          ...filleted(fr, end),
        }),
        ...(round
          ? places.map((p, i) =>
              make(i, frameOn(f.face, part, p.u, p.v), {
                what: 'undercut',
                outline: without(circle(f.thread!.spec.diameterMm / 2 + 0.5), [circle(round.diameter.mm / 2)]),
                from: end - round.width.mm,
                to: end,
              }),
            )
          : []),
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
    case 'slope': {
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
      return [make(0, frame, { what: 'slope', outline, from: -FAR, to: FAR, open: true })];
    }
    case 'chamfer':
    case 'edge-round':
      return broken(f, part, takenBy);
    case 'engraving':
      return [];
    // Along a centre line.
    default: {
      if (f.runOutMm !== undefined) return ranOut(f, part, f.runOutMm);
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
  }
}

/** Where a disc as thick as the channel is wide went along it: its side is swept across the width. */
function ranOut(f: Extract<Feature, { runOutMm?: number }>, part: Part, radius: number): readonly Taken[] {
  const [p, q] = f.line as readonly [PathCorner, PathCorner];
  const onU = p.v === q.v;
  const [half, end] = [Math.abs(onU ? q.u - p.u : q.v - p.v) / 2, f.startMm + f.depth.mm];
  const [cu, cv] = [(p.u + q.u) / 2, (p.v + q.v) / 2];
  const outline: Outline = {
    // Above the disc's axis, in stock on the face, it is as wide as at its axis.
    sd: (u, v) => Math.hypot(Math.max(0, Math.abs(u) - half), Math.max(0, v - (end - radius))) - radius,
    box: [-half - radius, -50, half + radius, end],
    us: [],
    vs: [end],
    centres: [
      [-half, end / 2],
      [half, end / 2],
    ],
    slanted: false,
  };
  return f.places.map((place, member) => {
    const on = frameOn(f.face, part, place.u + cu, place.v + cv);
    const [u, w] = onU ? [on.u, on.v] : [on.v, on.u];
    const frame: Frame = { origin: on.origin, u, v: on.w, w };
    const [from, to] = [-f.width.mm / 2, f.width.mm / 2];
    return { feature: f.name, member, what: 'floor', frame, outline, from, to, grow: flat, most: 0, sloped: false };
  });
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

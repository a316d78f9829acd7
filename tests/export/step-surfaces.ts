/**
 * Elementary surfaces of a STEP file (ISO 10303-42, clause 4.5), as far as a volume needs them: r·n dA in the surface's own
 * parameters, summed along v, and how fast u turns along a curve.
 */

import { type Axes, inner, type P3, plus, times } from './step-curves';
import type { Step } from './step-reader';

interface Surface {
  readonly kind: string;
  /** Distance of a point from it, mm. */
  off(p: P3): number;
  /** ∫ r·(r_u × r_v) dv from the surface's base to the point, times du/dt for a curve going that way. */
  sweep(p: P3, along: P3): number;
}

/** Eight Gauss points on −1 … 1 (Abramowitz & Stegun, table 25.4). */
export const GAUSS: readonly (readonly [x: number, w: number])[] = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
].flatMap(([x, w]) => [[x!, w!] as const, [-x!, w!] as const]);

/** `within`: points of the face, to tell which end of a sphere's axis it touches, and where on a tube it lies. */
export function surfaceOf(step: Step, id: number, within: readonly P3[]): Surface {
  const [kind, { o, x, y, z }, sizes] = elementary(step, id);
  const local = (p: P3) => {
    const d = plus(p, o, -1);
    return { a: inner(d, x), b: inner(d, y), w: inner(d, z) };
  };
  if (kind === 'PLANE') {
    return {
      kind,
      off: (p) => Math.abs(local(p).w),
      sweep: (p, along) => inner(o, z) * local(p).b * inner(along, x),
    };
  }
  const places = within.map((p) => {
    const { a, b, w } = local(p);
    return [Math.hypot(a, b), w] as const;
  });
  const [profile, base, vAt] = profileOf(kind, sizes, places);
  return {
    kind,
    off(p) {
      const { a, b, w } = local(p);
      const rho = Math.hypot(a, b);
      const on = profile(vAt(rho, w));
      return Math.hypot(on.rho - rho, on.h - w);
    },
    sweep(p, along) {
      const { a, b, w } = local(p);
      const rho = Math.hypot(a, b);
      if (rho < 1e-12) return 0;
      const e = plus(times(x, a / rho), y, b / rho);
      const turning = inner(along, plus(times(x, -b / rho), y, a / rho)) / rho;
      const v = vAt(rho, w);
      let sum = 0;
      for (const [g, weight] of GAUSS) {
        const s = profile(base + ((v - base) * (g + 1)) / 2);
        // r_u × r_v = ρ (h' e − ρ' z)
        sum += weight * s.rho * (s.dh * (inner(o, e) + s.rho) - s.drho * (inner(o, z) + s.h));
      }
      return ((sum * (v - base)) / 2) * turning;
    },
  };
}

interface Station {
  readonly rho: number;
  readonly h: number;
  readonly drho: number;
  readonly dh: number;
}

/** A torus is one however wide its tube: of one that reaches past the axis the outer sheet is meant. */
function elementary(step: Step, id: number): readonly [kind: string, axes: Axes, sizes: readonly number[]] {
  const { kind, args } = step.entity(id);
  if (kind === 'DEGENERATE_TOROIDAL_SURFACE') {
    const [, axes, major, minor, sheet] = args;
    const isOuter = (sheet as { readonly enum: string }).enum === 'T';
    if (!isOuter || !((minor as number) > (major as number))) throw new Error('the inner sheet of a torus');
    return ['TOROIDAL_SURFACE', step.axes(axes), [major as number, minor as number]];
  }
  return [kind, step.axes(args[1]), args.slice(2) as number[]];
}

/** ρ, height and their slopes, over v; where v is counted from; v of a place (ρ, height). */
function profileOf(
  kind: string,
  [r = 0, s = 0]: readonly number[],
  places: readonly (readonly [rho: number, w: number])[],
): readonly [(v: number) => Station, number, (rho: number, w: number) => number] {
  switch (kind) {
    case 'CYLINDRICAL_SURFACE':
      return [(v) => ({ rho: r, h: v, drho: 0, dh: 1 }), 0, (_, w) => w];
    case 'CONICAL_SURFACE': {
      const t = Math.tan(s);
      return [(v) => ({ rho: r + v * t, h: v, drho: t, dh: 1 }), -r / t, (_, w) => w];
    }
    case 'SPHERICAL_SURFACE': {
      const south = places.some(([rho, w]) => rho < 1e-6 && w < 0);
      return [tube(0, r), south ? -Math.PI / 2 : Math.PI / 2, (rho, w) => Math.atan2(w, rho)];
    }
    case 'TOROIDAL_SURFACE': {
      // counted from where it touches the axis, else from the middle of the face: no part of it is half a turn away
      const sum = places.reduce(([a, b], [rho, w]) => [a + rho - r, b + w], [0, 0]);
      const base = places.some(([rho]) => rho < 1e-6) ? Math.PI : Math.atan2(sum[1]!, sum[0]!);
      return [tube(r, s), base, (rho, w) => base + wrapped(Math.atan2(w, rho - r) - base)];
    }
    default:
      throw new Error(`a surface of kind ${kind}`);
  }
}

function tube(major: number, minor: number): (v: number) => Station {
  return (v) => {
    const [c, d] = [minor * Math.cos(v), minor * Math.sin(v)];
    return { rho: major + c, h: d, drho: -d, dh: c };
  };
}

function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}

/**
 * Bars that do not fill their outside: tube, angle, channel and tee. What such a section lacks is told as rectangles across
 * the bar, their corners rounded where the section is. Their outside corners and the ends of their legs are taken as sharp.
 */
import { ROUNDING, SAME } from '../tolerance';
import type { Section, StockForm } from './base';
import { FACE_AXIS, type Face } from './faces';

/** Across the bar, from its least corner, mm; `radii` counter-clockwise from that corner. */
export interface Hollow {
  readonly u0: number;
  readonly v0: number;
  readonly u1: number;
  readonly v1: number;
  readonly radii: readonly [number, number, number, number];
}

/** A section's own sizes, mm. `open`: which way, along the two axes after the bar's in turn. */
interface Across {
  readonly wallMm: number;
  readonly flangeMm: number;
  readonly rootMm: number;
  readonly open: readonly (readonly [u: number, v: number])[];
}

interface Kind {
  readonly hollows: (s: Across, outside: readonly [number, number]) => readonly Hollow[];
  /** So many faces are without wall. */
  readonly open: 0 | 1 | 2;
  readonly flanges: boolean;
  /** What it lacks, as walls and pictures call it. */
  readonly inside: string;
}

const from = (way: number, wall: number, side: number): readonly [number, number] =>
  way > 0 ? [wall, side] : [0, side - wall];

/** Rounded where the two sides that are not open meet. */
function hollow(
  [u0, u1]: readonly [number, number],
  [v0, v1]: readonly [number, number],
  radii: Hollow['radii'],
): Hollow {
  return { u0, v0, u1, v1, radii };
}

const at = (r: number, u: number, v: number): Hollow['radii'] =>
  u > 0 ? (v > 0 ? [r, 0, 0, 0] : [0, 0, 0, r]) : v > 0 ? [0, r, 0, 0] : [0, 0, r, 0];

/** A section that is open along v, told as if it were along u: turned over the diagonal. */
function alongU(
  make: (way: number, outside: readonly [number, number], s: Across) => readonly Hollow[],
): Kind['hollows'] {
  return (s, [a, b]) => {
    const [u, v] = s.open[0]!;
    if (u !== 0) return make(u, [a, b], s);
    return make(v, [b, a], s).map((h) => {
      const [r0, r1, r2, r3] = h.radii;
      return { u0: h.v0, v0: h.u0, u1: h.v1, v1: h.u1, radii: [r0, r3, r2, r1] };
    });
  };
}

const KINDS: Readonly<Record<SectionForm, Kind>> = {
  tube: {
    hollows: ({ wallMm: t, rootMm: r }, [a, b]) => [hollow([t, a - t], [t, b - t], [r, r, r, r])],
    open: 0,
    flanges: false,
    inside: 'the inside of the tube',
  },
  angle: {
    hollows: ({ wallMm: t, rootMm: r, open }, [a, b]) => {
      const [u, v] = [open.find((o) => o[0] !== 0)![0], open.find((o) => o[1] !== 0)![1]];
      return [hollow(from(u, t, a), from(v, t, b), at(r, u, v))];
    },
    open: 2,
    flanges: false,
    inside: 'the inside of the angle',
  },
  channel: {
    hollows: alongU((u, [a, b], { wallMm, flangeMm, rootMm: r }) => [
      hollow(from(u, wallMm, a), [flangeMm, b - flangeMm], u > 0 ? [r, 0, 0, r] : [0, r, r, 0]),
    ]),
    open: 1,
    flanges: true,
    inside: 'the inside of the channel',
  },
  tee: {
    hollows: alongU((u, [a, b], { wallMm, flangeMm, rootMm }) => [
      hollow(from(u, flangeMm, a), [0, (b - wallMm) / 2], at(rootMm, u, -1)),
      hollow(from(u, flangeMm, a), [(b + wallMm) / 2, b], at(rootMm, u, 1)),
    ]),
    open: 1,
    flanges: true,
    inside: 'the inside of the tee',
  },
};

type SectionForm = Extract<StockForm, 'tube' | 'angle' | 'channel' | 'tee'>;

/** Undefined for stock that fills its outside. */
export function sectionKind(form: StockForm): Kind | undefined {
  return (KINDS as Partial<Record<StockForm, Kind>>)[form];
}

/** Along the two axes after the bar's in turn; undefined for a face at its ends. */
export function wayOf(face: Face, axis: 0 | 1 | 2): readonly [number, number] | undefined {
  const { axis: name, sign } = FACE_AXIS[face];
  const i = ['x', 'y', 'z'].indexOf(name);
  return i === (axis + 1) % 3 ? [sign, 0] : i === (axis + 2) % 3 ? [0, sign] : undefined;
}

/** A round tube's inside is as round as it can be. */
export function acrossSection(
  { wall, flange, root, open }: Section,
  axis: 0 | 1 | 2,
  roundMm: number | undefined,
): Across {
  return {
    wallMm: wall.mm,
    flangeMm: flange?.mm ?? wall.mm,
    rootMm: roundMm === undefined ? (root?.mm ?? 0) : roundMm / 2 - wall.mm,
    open: open.flatMap((f) => [wayOf(f.name, axis) ?? []].filter((w): w is readonly [number, number] => w.length > 0)),
  };
}

/** Each hollow has a size, and room for its corners. */
export function isHollow(hollows: readonly Hollow[]): boolean {
  return hollows.every(({ u0, v0, u1, v1, radii: [a, b, c, d] }) => {
    const [w, h] = [u1 - u0 + ROUNDING, v1 - v0 + ROUNDING];
    return w > SAME && h > SAME && a + b <= w && c + d <= w && b + c <= h && d + a <= h;
  });
}

/** Across the bar, mm². */
export function hollowAreaMm2(hollows: readonly Hollow[]): number {
  return hollows.reduce(
    (sum, { u0, v0, u1, v1, radii }) =>
      sum + (u1 - u0) * (v1 - v0) - (1 - Math.PI / 4) * radii.reduce((r2, r) => r2 + r * r, 0),
    0,
  );
}

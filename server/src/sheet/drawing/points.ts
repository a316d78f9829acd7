/** By which points a feature is located: centres, ends of a slot, the middle of a circle of holes, corners of an outline. */
import { type ByForm, isChannel, ofForm } from '../../model/feature-kinds';
import type { Feature, PathCorner, Shape } from '../../model/model';
import { SAME } from '../../tolerance';
import { isCentred } from '../part/brief';

/** In the plane of the feature's face, mm along its two part axes. */
export interface Point {
  readonly u: number;
  readonly v: number;
  /** Of a corner of an outline: how it is treated, and through where the way to the next runs. */
  readonly corner?: PathCorner;
}

interface Located {
  readonly points: readonly Point[];
  /** Corners of an outline or a bent line: they stand in a table. */
  readonly outline: boolean;
  readonly circle?: Circle;
}

interface Circle {
  readonly u: number;
  readonly v: number;
  readonly diameterMm: number;
  /** Of the first, from the first axis of the face to the second. */
  readonly startDeg: number;
}

const NOWHERE: Located = { points: [], outline: false };

const BY_FORM: ByForm<[], Located> = {
  hole: centres,
  opening: (pocket) => shaped(pocket, [pocket.shape]),
  channel: (slot) => (isCentred(slot.line) ? centres(slot) : lined(slot, slot.line)),
  shoulder: () => NOWHERE,
  outside: (contour) => shaped(contour, contour.shapes),
  edge: () => NOWHERE,
  ring: (ring) => (ring.in ? NOWHERE : centres(ring)),
  letters: centres,
  slope: () => NOWHERE,
};

export function locatedOf(feature: Feature): Located {
  return ofForm(BY_FORM, feature);
}

function centres(feature: Feature): Located {
  const circle = circleOf(feature);
  return { points: circle ? [circle] : feature.places, outline: false, ...(circle && { circle }) };
}

function shaped(feature: Feature, shapes: readonly Shape[]): Located {
  const paths = shapes.flatMap((s) => (s.type === 'path' ? s.corners : []));
  if (paths.length === 0) return centres(feature);
  return { points: cornersAt(feature, paths), outline: true };
}

function lined(feature: Feature, line: readonly PathCorner[]): Located {
  const straight = line.length === 2 && !line[0]!.arc;
  return { points: cornersAt(feature, line), outline: !straight };
}

function cornersAt({ places }: Feature, corners: readonly PathCorner[]): readonly Point[] {
  return places.flatMap((p) => corners.map((c) => ({ u: p.u + c.u, v: p.v + c.v, corner: c })));
}

/** Of holes on a circle of their own, two at least. */
function circleOf({ pattern, places }: Feature): Circle | undefined {
  if (pattern?.type !== 'bolt-circle' || places.length < 2) return undefined;
  const mean = (of: (p: Point) => number) => places.reduce((sum, p) => sum + of(p), 0) / places.length;
  const [u, v] = [mean((p) => p.u), mean((p) => p.v)];
  const first = places[0]!;
  const start = (Math.atan2(first.v - v, first.u - u) * 180) / Math.PI;
  const startDeg = Math.abs(start) < SAME ? 0 : (start + 360) % 360;
  return { u, v, diameterMm: 2 * Math.hypot(first.u - u, first.v - v), startDeg };
}

/**
 * How narrow a feature is where it is seen from its face; undefined where that says nothing of it. A round hole is read
 * at half the size.
 */
const NARROWEST: ByForm<[], number | undefined> = {
  hole: ({ diameter }) => 2 * diameter.mm,
  opening: ({ shape }) =>
    shape.type === 'circle' ? shape.diameter.mm : shape.type === 'path' ? undefined : Math.min(shape.u.mm, shape.v.mm),
  channel: ({ width }) => width.mm,
  shoulder: ({ widths }) => Math.min(...widths.map((w) => w.mm)),
  outside: () => undefined,
  edge: () => undefined,
  ring: (ring) => (ring.in ? undefined : ring.width.mm),
  letters: () => undefined,
  slope: () => undefined,
};

export function narrowestOf(feature: Feature): number | undefined {
  return ofForm(NARROWEST, feature);
}

const NO_WAY = () => 0;
const ASIDE: ByForm<[], number> = {
  hole: NO_WAY,
  opening: NO_WAY,
  channel: NO_WAY,
  shoulder: NO_WAY,
  outside: NO_WAY,
  edge: NO_WAY,
  ring: ({ diameter, width }) => diameter.mm / 2 + width.mm / 2,
  letters: NO_WAY,
  slope: NO_WAY,
};

/** How far beside its middle a feature is itself: of a ring. */
export function asideOf(feature: Feature): number {
  return ofForm(ASIDE, feature);
}

/** Of a row: its first place, its last, and the pitch between them. Rows of more than four are said so. */
interface Row {
  readonly ends: readonly [number, number];
  readonly count: number;
  readonly pitchMm: number;
}
const LONG = 4;

export function rowAlong(feature: Feature, which: 'u' | 'v'): Row | undefined {
  const { pattern, places } = feature;
  if (isChannel(feature) || (pattern?.type !== 'line' && pattern?.type !== 'grid')) return undefined;
  const all = places.map((p) => p[which]).sort((a, b) => a - b);
  const stands = all.filter((x, i) => i === 0 || x - all[i - 1]! > SAME);
  if (stands.length <= LONG) return undefined;
  const [first, last] = [stands[0]!, stands.at(-1)!];
  return { ends: [first, last], count: stands.length, pitchMm: (last - first) / (stands.length - 1) };
}

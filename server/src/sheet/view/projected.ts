/** Pictures of a part or a workpiece, by the one projection there is, and their places on a page. */
import { within } from '../../effort';
import { type Drawn, drawView } from '../../export/flat/lines';
import { turnedView, type View, viewOf } from '../../export/flat/view';
import type { Edge, Point2, Region, Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { type Axis, FACE_AXIS, FACES, type Face } from '../../model/faces';

/** Looks at an edge that one picture may cost. */
const MOST_LOOKS = 1e8;

type Piece = Pick<Solid, 'body' | 'voids'>;

/** Broken edges narrower than this are two lines in one, and letters are specks: they are told, not drawn. */
const LEAST_EDGE_MM = 1;

/** Without what is too fine to be drawn. */
export function drawable({ body, voids }: Piece): Piece {
  const narrowest = ({ bounds: { min, max } }: Piece['voids'][number]) => Math.min(...max.map((m, i) => m - min[i]!));
  const fine = (v: Piece['voids'][number]) =>
    v.role === 'engraving' || (v.role === 'edge' && narrowest(v) < LEAST_EDGE_MM);
  return { body, voids: voids.filter((v) => !fine(v)) };
}

/** Undefined where its outlines are too tangled to follow. */
export function pictureOf(piece: Piece, view: View): Drawn | undefined {
  return within(
    { remaining: MOST_LOOKS },
    () => drawView(piece, view),
    () => undefined,
  );
}

export function faceView(face: Face, size: Vec3): View {
  return viewOf(face, size);
}

/** `up` looks at the eye; the face `back` lies away from who stands there, at the top of the paper. */
export function viewFromAbove(up: Face, back: Face, size: Vec3): View {
  return turnedView(up, { right: seen(crossed(back, up)), up: seen(back) }, size);
}

/** From the end of the jaws: what is up is up, the face `right` is on the right. */
export function viewFromEnd(up: Face, right: Face, size: Vec3): View {
  return turnedView(crossed(right, up), { right: seen(right), up: seen(up) }, size);
}

function seen(face: Face): { readonly axis: Axis; readonly sign: 1 | -1 } {
  return FACE_AXIS[face];
}

/** The face that looks along a × b. */
export function crossed(a: Face, b: Face): Face {
  const [i, k] = [a, b].map((f) => AXIS_INDEX[FACE_AXIS[f].axis]) as [number, number];
  const even = (k - i + 3) % 3 === 1 ? 1 : -1;
  const sign = FACE_AXIS[a].sign * FACE_AXIS[b].sign * even;
  const axis = 3 - i - k;
  return FACES.find((f) => AXIS_INDEX[FACE_AXIS[f].axis] === axis && FACE_AXIS[f].sign === sign)!;
}

/** From a picture's millimetres to the page's: the place of its origin, lower left, and the scale. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

export function onPage({ x, y, scale }: Place, { u, v }: Point2): Point2 {
  return { u: x + u * scale, v: y - v * scale };
}

export function edgesOnPage(edges: readonly Edge[], place: Place): Edge[] {
  return edges.map((e): Edge => {
    const ends = { a: onPage(place, e.a), b: onPage(place, e.b) };
    if (e.type === 'line') return { type: 'line', ...ends };
    return { type: 'arc', ...ends, centre: onPage(place, e.centre), radius: e.radius * place.scale, ccw: !e.ccw };
  });
}

export function outlinesOf(regions: readonly Region[]): readonly (readonly Edge[])[] {
  return regions.flatMap(({ outer, holes }) => [outer.edges, ...holes.map((h) => h.edges)]);
}

/** A place of the part as the picture has it. */
export function inPicture(view: View, p: Vec3): Point2 {
  const { map, axis } = view;
  const [a, b] = [p[(axis + 1) % 3]!, p[(axis + 2) % 3]!];
  return { u: map.uu * a + map.uv * b + map.u0, v: map.vu * a + map.vv * b + map.v0 };
}

/** Scales of ISO 5455, the largest first. */
const SCALES: readonly (readonly [scale: number, words: string])[] = [
  [5, '5:1'],
  [2, '2:1'],
  [1, '1:1'],
  [0.5, '1:2'],
  [0.2, '1:5'],
  [0.1, '1:10'],
  [0.05, '1:20'],
  [0.02, '1:50'],
];

export interface Scale {
  readonly scale: number;
  readonly words: string;
}

/** The largest at which it fits; the smallest where none does. */
export function scaleFor(fits: (scale: number) => boolean): Scale {
  const [scale, words] = SCALES.find(([s]) => fits(s)) ?? SCALES.at(-1)!;
  return { scale, words };
}

/** Which views a drawing has, and what each says: a feature is called out once, a size of the body once. */
import type { Drawn } from '../../export/flat/lines';
import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { breaksEdges } from '../../model/feature-kinds';
import { type Axis, FACE_AXIS, FACE_PLANE, type Face, type Feature, type GeometricTolerance } from '../../model/model';
import { gridOf } from '../view/choice';
import { drawable, faceView, inPicture, pictureOf } from '../view/projected';
import type { Drafted } from './callout';
import { type Distance, distancesIn } from './distance-lines';
import { type MarkedEdge, markedEdges } from './edge-notes';
import { facesSaid, viewFor } from './face-notes';
import { pointNames, pointTable, type Rows } from './point-table';
import { locatedOf, rowAlong } from './points';
import { type Cut, cutOf } from './section-view';
import type { ViewPlan } from './view-figure';
import { placesAlong, sidesOf } from './wanted';

export interface Plans {
  /** Columns from left to right, each with its views from above down. */
  readonly columns: readonly (readonly (ViewPlan | undefined)[])[];
  readonly cut?: Cut;
  readonly tables: readonly Rows[];
  /** Broken edges that no view shows. */
  readonly unseen: readonly Feature[];
  /** Toleranced distances that a view shows as lines. */
  readonly distances: ReadonlySet<GeometricTolerance>;
  /** Faces whose outlines could not be followed. */
  readonly missing: readonly Face[];
}

const ORDER: readonly Face[] = ['front', 'top', 'right', 'left', 'bottom', 'back'];

/** The front, the faces that carry features, and one more where those tell two sizes only. */
function facesDrawn(features: readonly Feature[]): readonly Face[] {
  const shown = new Set<Face>(['front', ...features.filter((f) => !breaksEdges(f)).map((f) => f.face)]);
  if ([...shown].every((f) => FACE_AXIS[f].axis === 'y')) shown.add('top');
  return ORDER.filter((f) => shown.has(f));
}

/** More numbers along one side than these are too many to read. */
const MOST_ALONG = 12;
const MOST_CALLED = 9;

/** Faces with so much on them that holes go into a table. */
export function crowded(features: readonly Feature[]): ReadonlySet<Face> {
  return new Set(
    ORDER.filter((face) => {
      const on = features.filter((f) => f.face === face && !breaksEdges(f));
      const along = (axis: Axis) => new Set(on.flatMap((f) => placesAlong(f, axis)).map((mm) => mm.toFixed(3))).size;
      return on.length > MOST_CALLED || FACE_PLANE[face].some((axis) => along(axis) > MOST_ALONG);
    }),
  );
}

export interface Drawable {
  readonly of: Drafted;
  readonly solid: Solid;
  readonly projection: 'first' | 'third';
}

export function plansOf({ of, solid, projection }: Drawable, tabled: ReadonlySet<Face>): Plans {
  const { part } = of;
  const size = solid.body.box.max;
  const piece = drawable(solid);
  const drawn = new Map<Face, Drawn>();
  const missing: Face[] = [];
  for (const face of facesDrawn(part.features)) {
    const picture = pictureOf(piece, faceView(face, size));
    if (picture) drawn.set(face, picture);
    else missing.push(face);
  }
  const cut = cutOf(part, solid, of.letters);
  const free = detailLettersOf(of, cut);
  const cutHere =
    cut && drawn.has(cut.section.through.face) ? { ...cut, detailLetters: free.splice(0, EACH) } : undefined;
  const told = new Set<Axis>();
  const all = [...drawn.values()];
  const marked = markedEdges(of, all);
  const apart = distancesIn(of, all);
  const plans = new Map<Face, ViewPlan>();
  const tables: Rows[] = [];
  for (const face of ORDER) {
    const picture = drawn.get(face);
    if (!picture) continue;
    const { plan, table } = planOf(picture, {
      of,
      solid,
      cut: cutHere,
      dimensioned: told,
      all,
      distances: apart.of.get(picture) ?? [],
      edges: marked.of.get(picture) ?? [],
      tabled: tabled.has(face),
      detailLetters: free.splice(0, EACH),
    });
    plans.set(face, plan);
    if (table) tables.push(table);
    told.add(picture.view.right.axis).add(picture.view.up.axis);
  }
  const columns = gridOf([...drawn.keys()], projection).map((c) => c.map((f) => f && plans.get(f)));
  return { columns, tables, missing, unseen: marked.unseen, distances: apart.drawn, ...(cutHere && { cut: cutHere }) };
}

/** Letters for details of one view. */
const EACH = 3;

/** From the end of the alphabet, where features, datums and the section have few. */
function detailLettersOf({ letters, part }: Drafted, cut: Cut | undefined): string[] {
  const taken = new Set([...letters.values(), ...part.datums.keys(), cut?.letter]);
  return [...'ZYXWVUTSRPNMLKJHGFEDCBA'].filter((l) => !taken.has(l));
}

interface Around {
  readonly of: Drafted;
  readonly solid: Solid;
  readonly cut: Cut | undefined;
  readonly dimensioned: ReadonlySet<Axis>;
  readonly all: readonly Drawn[];
  readonly edges: readonly MarkedEdge[];
  readonly distances: readonly Distance[];
  readonly tabled: boolean;
  readonly detailLetters: readonly string[];
}

function planOf(
  drawn: Drawn,
  { of, solid, cut, dimensioned: told, all, edges, distances, tabled, detailLetters }: Around,
): { plan: ViewPlan; table?: Rows } {
  const { view } = drawn;
  const here = of.part.features.filter((f) => f.face === view.face && !breaksEdges(f));
  const inCut = (f: Feature) => cut?.features.includes(f) === true;
  // What has points of its own can stand in a table; the rest has nothing but its callout.
  const whole = new Set(tabled ? here.filter((f) => !inCut(f) && isListed(f)) : []);
  const listed = here.filter((f) => whole.has(f) || locatedOf(f).outline);
  const across = of.part.body?.form === 'round' ? of.part.body : undefined;
  const cutsHere = cut?.section.through.face === view.face;
  const plan: ViewPlan = {
    drawn,
    solid,
    detailLetters,
    sides: sidesOf(
      view,
      here.filter((f) => !whole.has(f)),
      told,
      of,
    ),
    here,
    called: here.filter((f) => !whole.has(f) && !inCut(f)),
    tags: [
      ...listed.flatMap((f) => tagsOf(f, drawn, of)),
      ...here.filter(inCut).flatMap((f) => lettersAt(f, drawn, of)),
    ],
    edges,
    distances,
    faces: facesSaid(of).filter((f) => viewFor(f, all) === drawn),
    round: across !== undefined && roundView(all, across.axis) === drawn,
    ...(cutsHere && { cut: { section: cut.section, letter: cut.letter } }),
  };
  return { plan, ...(listed.length > 0 && { table: pointTable(view.face, listed, whole, of) }) };
}

/** A row and a circle are said shorter in a note. */
function isListed(f: Feature): boolean {
  const { points, circle } = locatedOf(f);
  return points.length > 0 && !circle && !rowAlong(f, 'u') && !rowAlong(f, 'v');
}

/** A round body's diameter is said where it is seen as a circle, else on the first view. */
function roundView(all: readonly Drawn[], axis: Axis): Drawn | undefined {
  return all.find((d) => d.view.axis === AXIS_INDEX[axis]) ?? all[0];
}

/** Of several that are called out in the section: their letter at each. */
function lettersAt(feature: Feature, drawn: Drawn, of: Drafted): ViewPlan['tags'] {
  const letter = of.letters.get(feature);
  const several = feature.places.length > 1 && letter ? tagsOf(feature, drawn, of) : [];
  return several.map((tag) => ({ ...tag, name: letter! }));
}

function tagsOf(feature: Feature, { view }: Drawn, of: Drafted): ViewPlan['tags'] {
  const [a, b] = FACE_PLANE[feature.face].map((x) => AXIS_INDEX[x]) as [number, number];
  const named = pointNames(feature, of);
  const r = 'diameter' in feature && feature.diameter ? feature.diameter.mm / 2 : 0;
  return named.map(({ name, at }) => {
    const p: [number, number, number] = [0, 0, 0];
    p[a] = at.u;
    p[b] = at.v;
    const { u, v } = inPicture(view, p);
    return { name, u: clamp(u, view.width), v: clamp(v, view.height), r };
  });
}

function clamp(x: number, most: number): number {
  return Math.max(0, Math.min(most, x));
}

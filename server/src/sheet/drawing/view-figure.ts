/** One view of a drawing: its picture, the numbers below and to the left of it, the notes in a lane to the right. */
import type { Drawn } from '../../export/flat/lines';
import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import type { Face, Feature } from '../../model/model';
import { boxOfSaying } from '../draw/boxes';
import type { Mark } from '../draw/marks';
import { Placer } from '../draw/placer';
import { bold, SMALL, textFigure } from '../draw/text';
import { cuttingLine, STUB } from '../view/cutting-line';
import { spotsIn } from '../view/measures';
import { type Ordinates, ordinatesOn } from '../view/ordinates';
import { onPage, type Place } from '../view/projected';
import type { Section } from '../view/section';
import { type Tagged, tagsAt } from '../view/tags';
import type { Drafted } from './callout';
import { type Detail, detailRing, detailsOf, type Small } from './detail';
import { type Distance, distanceLines } from './distance-lines';
import { edgeNote, type MarkedEdge } from './edge-notes';
import { faceNote, isLeft, leftFaceMarks } from './face-notes';
import { featureNote, roundMm } from './feature-note';
import { laneOf, type Note } from './lane';
import { pictureMarks } from './picture';
import { asideOf, narrowestOf } from './points';
import { bodySize, type Sides, sizeText } from './wanted';

/** What a view says, whatever its scale. */
export interface ViewPlan {
  readonly drawn: Drawn;
  readonly sides: Sides;
  /** Features that are cut from the face that is seen. */
  readonly here: readonly Feature[];
  /** Those of them with a callout beside this view. */
  readonly called: readonly Feature[];
  /** Points that stand in a table: their names at their places, in the picture's millimetres. */
  readonly tags: readonly { readonly name: string; readonly u: number; readonly v: number; readonly r: number }[];
  readonly faces: readonly Face[];
  readonly edges: readonly MarkedEdge[];
  readonly distances: readonly Distance[];
  /** The diameter of a round body is said here. */
  readonly round: boolean;
  readonly cut?: { readonly section: Pick<Section, 'at' | 'axis'>; readonly letter: string };
  readonly solid: Solid;
  /** Letters that its details may have. */
  readonly detailLetters: readonly string[];
}

/** About the picture's lower left corner. */
export interface ViewFigure {
  readonly marks: readonly Mark[];
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
  /** Numbers that found no room. */
  readonly dropped: number;
}

const BEYOND = 4;
/** How far lines from a face below a view come down. */
const FACE_STUB = 4.5;

export function viewFigure(plan: ViewPlan, scale: number, of: Drafted): ViewFigure {
  const { drawn, cut } = plan;
  const { view } = drawn;
  const [w, h] = [view.width * scale, view.height * scale];
  const place: Place = { x: 0, y: 0, scale };
  const foot = distanceLines(plan.distances, scale, {
    along: 'right',
    base: Math.max(cut ? STUB + 1 : FACE_STUB, beyondOf(plan, scale).below - AXIS_FREE),
    beyond: 'low',
  });
  // above stands what is said of a face to the left; then they keep clear of what the lines below have there
  const isSaidLeft = plan.faces.some((f) => isLeft(f, drawn));
  const over = isSaidLeft ? Math.max(0, ...foot.marks.flatMap((m) => -(boxOfSaying(m)?.x0 ?? 0))) : 0;
  const beside = distanceLines(plan.distances, scale, {
    along: 'up',
    base: over,
    beyond: isSaidLeft ? 'low' : 'high',
  });
  const below = side(plan, scale, 'below', foot.depth);
  const left = side(plan, scale, 'left', beside.depth);
  const details = viewDetails(plan, scale);
  const lane = laneOf(notesOf(plan, details, scale, of), w);
  const picture = [
    ...pictureMarks({ drawn, here: plan.here, solid: plan.solid }, place, of),
    ...details.map((d) => detailRing(d, place)),
  ];
  const lefts = plan.faces.flatMap((f) => leftFaceMarks(f, drawn, scale, of));
  const lines = [...foot.marks, ...beside.marks];
  const fixed = [...lines, ...below.marks, ...left.marks, ...lane.marks, ...picture, ...lefts];
  const placer = new Placer(fixed);
  const cutting = cut ? cuttingLine({ ...cut, drawn, place }, placer) : [];
  const tagged = plan.tags.map(
    ({ name, u, v, r }): Tagged => ({ letter: name, at: onPage(place, { u, v }), radius: r * scale }),
  );
  const ringed = details.map(
    ({ letter, at, radius }): Tagged => ({ letter, at: onPage(place, at), radius: Math.max(2, radius * scale) }),
  );
  const tags = tagsAt([...ringed, ...tagged, ...lane.tags], placer, { x: w + 2, y: -h });
  const name = nameMarks(view.face, h, placer, of);
  const said = [...cutting, ...tags, ...name];
  const boxes = [...said, ...lefts, ...lines].flatMap((m) => boxOfSaying(m) ?? []);
  return {
    marks: [...fixed, ...said],
    left: Math.max(left.reach, beside.depth, BEYOND, ...boxes.map((b) => -b.x0)) + 1,
    right: Math.max(lane.right, w + BEYOND + 2, ...boxes.map((b) => b.x1)) + 1,
    up: Math.max(h, lane.up, cut ? h + STUB + 1 : 0, ...boxes.map((b) => -b.y0)) + 1,
    down: Math.max(below.reach, foot.depth, lane.down, BEYOND + 2, ...boxes.map((b) => b.y1)) + 1,
    dropped: below.dropped + left.dropped,
  };
}

/** How far axes reach beyond a view's foot and its left side. */
function beyondOf({ drawn }: { readonly drawn: Pick<Drawn, 'centreLines'> }, scale: number) {
  const ends = drawn.centreLines.flatMap((e) => [e.a, e.b]);
  return {
    below: Math.max(0, ...ends.map((p) => -p.v * scale)),
    left: Math.max(0, ...ends.map((p) => -p.u * scale)),
  };
}

/** So far an axis may reach before it comes to the numbers. */
const AXIS_FREE = 4;

function side(
  { drawn: { view, centreLines }, sides, cut }: ViewPlan,
  scale: number,
  which: 'below' | 'left',
  taken: number,
): Ordinates {
  const axes = beyondOf({ drawn: { centreLines } }, scale);
  if (which === 'below')
    return ordinatesOn(
      sides.right.map((o) => ({ ...o, at: o.at * scale })),
      {
        side: 'below',
        edge: 0,
        low: -BEYOND,
        high: view.width * scale + BEYOND,
        clear: Math.max(cut ? STUB + 1 : 0, taken, axes.below - AXIS_FREE),
      },
    );
  return ordinatesOn(
    sides.up.map((o) => ({ ...o, at: -o.at * scale })),
    {
      side: 'left',
      edge: 0,
      low: -view.height * scale - BEYOND,
      high: BEYOND,
      clear: Math.max(taken, axes.left - AXIS_FREE),
    },
  );
}

/** What is too small to be read in this view at this scale. */
export function viewDetails({ called, drawn, solid, detailLetters }: ViewPlan, scale: number): readonly Detail[] {
  const smalls = called.flatMap((feature): Small[] => {
    const wide = narrowestOf(feature);
    const spots = wide === undefined ? [] : spotsIn(drawn.view, feature, solid);
    const [first] = spots;
    if (wide === undefined || !first) return [];
    const spot = spots.reduce((best, s) => (s.u > best.u ? s : best), first);
    const aside = asideOf(feature);
    return [
      { feature, at: { u: spot.u + aside, v: spot.v }, wide, round: aside === 0 ? (roundMm(feature) ?? 0) / 2 : 0 },
    ];
  });
  return detailsOf(smalls, scale, detailLetters);
}

function notesOf(plan: ViewPlan, details: readonly Detail[], scale: number, of: Drafted): readonly Note[] {
  const { drawn, called, solid, faces, round } = plan;
  const { view } = drawn;
  const inDetail = new Set(details.map((d) => d.feature));
  const features = called.filter((f) => !inDetail.has(f)).map((f) => featureNote(f, plan, scale, of));
  const notes = [
    ...features,
    ...faces.flatMap((f) => (isLeft(f, drawn) ? [] : [faceNote(f, drawn, scale, of)])),
    ...plan.edges.map((e) => edgeNote(e, scale, of)),
  ];
  if (!round || solid.body.form !== 'round') return notes;
  const across = bodySize(of.part, acrossAxis(plan));
  if (!across) return notes;
  const fromEnd = view.axis === solid.body.axis;
  const [w, h] = [view.width * scale, view.height * scale];
  const to = fromEnd ? { u: w / 2, v: -h / 2 } : { u: w * 0.8, v: -h };
  const figure = textFigure(bold(`⌀${sizeText(across, of.part)}`), { width: 46 });
  return [...notes, { figure, to, radius: fromEnd ? w / 2 : 0, end: 'arrow' }];
}

/** An axis of the picture across a round body. */
function acrossAxis({ drawn: { view }, solid: { body } }: ViewPlan): 'x' | 'y' | 'z' {
  if (body.form !== 'round') return view.right.axis;
  return AXIS_INDEX[view.right.axis] === body.axis ? view.up.axis : view.right.axis;
}

/** The face's name above its view, or where there is room beside that. */
function nameMarks(face: Face, h: number, placer: Placer, { words }: Drafted): Mark[] {
  return placer.put(bold(words.faces[face]), SMALL, function* () {
    for (let up = 2; up < 60; up += 2) for (let x = 0; x < 24; x += 4) yield [x, -h - up] as const;
  });
}

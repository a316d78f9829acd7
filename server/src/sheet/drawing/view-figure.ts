/** One view of a drawing: its picture, the numbers below and to the left of it, the notes in a lane to the right. */
import type { Drawn } from '../../export/flat/lines';
import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import type { Face, Feature } from '../../model/model';
import { boxOfSaying } from '../draw/boxes';
import { CHAIN, DASHED, type Mark, NARROW, WIDE } from '../draw/marks';
import { Placer } from '../draw/placer';
import { ring, stroke } from '../draw/shapes';
import { bold, SMALL, textFigure } from '../draw/text';
import { cornerSign, cuttingLine, STUB } from '../view/cutting-line';
import { spotsIn } from '../view/measures';
import { type Ordinates, ordinatesOn } from '../view/ordinates';
import { edgesOnPage, inPicture, onPage, type Place } from '../view/projected';
import type { Section } from '../view/section';
import { type Tagged, tagsAt } from '../view/tags';
import type { Drafted } from './callout';
import { type Detail, detailRing, detailsOf, type Small } from './detail';
import { faceNote, isLeft, leftFaceMarks } from './face-notes';
import { featureNote, roundMm } from './feature-note';
import { laneOf, type Note } from './lane';
import { asideOf, locatedOf, narrowestOf } from './points';
import { bodySize, type Sides, sizeText } from './wanted';

/** What a view says, whatever its scale. */
export interface ViewPlan {
  readonly drawn: Drawn;
  readonly sides: Sides;
  /** Features with a callout beside this view. */
  readonly called: readonly Feature[];
  /** Points that stand in a table: their names at their places, in the picture's millimetres. */
  readonly tags: readonly { readonly name: string; readonly u: number; readonly v: number; readonly r: number }[];
  readonly faces: readonly Face[];
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

export function viewFigure(plan: ViewPlan, scale: number, of: Drafted): ViewFigure {
  const { drawn, cut } = plan;
  const { view } = drawn;
  const [w, h] = [view.width * scale, view.height * scale];
  const place: Place = { x: 0, y: 0, scale };
  const below = side(plan, scale, 'below');
  const left = side(plan, scale, 'left');
  const details = viewDetails(plan, scale);
  const lane = laneOf(notesOf(plan, details, scale, of), w);
  const picture = [...pictureMarks(plan, place, of), ...details.map((d) => detailRing(d, place))];
  const lefts = plan.faces.flatMap((f) => leftFaceMarks(f, drawn, scale, of));
  const fixed = [...below.marks, ...left.marks, ...lane.marks, ...picture, ...lefts];
  const placer = new Placer(fixed);
  const cutting = cut ? cuttingLine({ ...cut, drawn, place }, placer) : [];
  const tagged = plan.tags.map(
    ({ name, u, v, r }): Tagged => ({ letter: name, at: onPage(place, { u, v }), radius: r * scale }),
  );
  const ringed = details.map(
    ({ letter, at, radius }): Tagged => ({ letter, at: onPage(place, at), radius: Math.max(2, radius * scale) }),
  );
  const tags = tagsAt([...ringed, ...tagged], placer, { x: w + 2, y: -h });
  const name = nameMarks(view.face, h, placer, of);
  const said = [...cutting, ...tags, ...name];
  const boxes = [...said, ...lefts].flatMap((m) => boxOfSaying(m) ?? []);
  return {
    marks: [...fixed, ...said],
    left: Math.max(left.reach, BEYOND, ...boxes.map((b) => -b.x0)) + 1,
    right: Math.max(lane.right, w + BEYOND + 2, ...boxes.map((b) => b.x1)) + 1,
    up: Math.max(h, lane.up, cut ? h + STUB + 1 : 0, ...boxes.map((b) => -b.y0)) + 1,
    down: Math.max(below.reach, lane.down, BEYOND + 2, ...boxes.map((b) => b.y1)) + 1,
    dropped: below.dropped + left.dropped,
  };
}

function side({ drawn: { view }, sides, cut }: ViewPlan, scale: number, which: 'below' | 'left'): Ordinates {
  if (which === 'below')
    return ordinatesOn(
      sides.right.map((o) => ({ ...o, at: o.at * scale })),
      { side: 'below', edge: 0, low: -BEYOND, high: view.width * scale + BEYOND, clear: cut ? STUB + 1 : 0 },
    );
  return ordinatesOn(
    sides.up.map((o) => ({ ...o, at: -o.at * scale })),
    { side: 'left', edge: 0, low: -view.height * scale - BEYOND, high: BEYOND },
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
  const notes = [...features, ...faces.flatMap((f) => (isLeft(f, drawn) ? [] : [faceNote(f, drawn, scale, of)]))];
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

function pictureMarks({ drawn, called, solid }: ViewPlan, place: Place, of: Drafted): Mark[] {
  const hidden = edgesOnPage(drawn.hidden, place);
  const centre = edgesOnPage(drawn.centreLines, place);
  const p = (['x', 'y', 'z'] as const).map((a) => of.origin.at(a)) as [number, number, number];
  const origin = onPage(place, inPicture(drawn.view, p));
  const circles = called.flatMap((f) => {
    const { circle } = locatedOf(f);
    const spots = circle && spotsIn(drawn.view, f, solid);
    if (!circle || !spots || spots.length === 0) return [];
    const middle = {
      u: spots.reduce((s, q) => s + q.u, 0) / spots.length,
      v: spots.reduce((s, q) => s + q.v, 0) / spots.length,
    };
    const { u, v } = onPage(place, middle);
    const made = ring(u, v, (circle.diameterMm / 2) * place.scale, 0.18);
    return [stroke(made.edges, 0.18, CHAIN)];
  });
  return [
    stroke(edgesOnPage(drawn.visible, place), WIDE),
    ...(hidden.length > 0 ? [stroke(hidden, NARROW, DASHED)] : []),
    ...(centre.length > 0 ? [stroke(centre, 0.18, CHAIN)] : []),
    ...circles,
    ...cornerSign(origin.u, origin.v),
  ];
}

/** The face's name above its view, or where there is room beside that. */
function nameMarks(face: Face, h: number, placer: Placer, { words }: Drafted): Mark[] {
  return placer.put(bold(words.faces[face]), SMALL, function* () {
    for (let up = 2; up < 60; up += 2) for (let x = 0; x < 24; x += 4) yield [x, -h - up] as const;
  });
}

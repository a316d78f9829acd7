/** The section of a drawing: through the bore held closest, else the deepest pocket; its callouts stand beside it. */

import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { type ByForm, ofForm } from '../../model/feature-kinds';
import { FACE_PLANE, type Feature, type Part } from '../../model/model';
import { CHAIN, type Figure, moved, NARROW, WIDE } from '../draw/marks';
import { Placer } from '../draw/placer';
import { hatching, stroke } from '../draw/shapes';
import { bold, NUMBER, textFigure } from '../draw/text';
import { edgesOnPage, onPage, outlinesOf, type Place } from '../view/projected';
import { closestBore, type Section, sectionThrough, type Through } from '../view/section';
import { tagsAt } from '../view/tags';
import { calloutFigure, type Drafted } from './callout';
import { type Detail, detailFigure, detailRing, detailsOf, type Small } from './detail';
import { laneOf, type Note } from './lane';
import { locatedOf } from './points';
import { onPlane, threadLines, wallOf } from './section-walls';

export interface Cut {
  readonly section: Section<Through>;
  readonly letter: string;
  /** What stands on the cutting plane and is called out there. */
  readonly features: readonly Feature[];
  readonly detailLetters: readonly string[];
}

/** None where everything is plain: through holes without a seat, and nothing deep. */
export function cutOf(part: Part, solid: Solid, letters: ReadonlyMap<Feature, string>): Cut | undefined {
  const bore = closestBore(part);
  const seated = bore && (bore.diameter.tolerance || bore.counterbore || bore.countersink);
  const through = seated ? bore : deepestOf(part);
  const section = through && sectionThrough<Through>(middleOf(through, solid), part, solid);
  if (!section) return undefined;
  const on = part.features.filter((f) => f.face === section.through.face && onPlane(f, section));
  const taken = new Set([...letters.values(), ...part.datums.keys()]);
  const letter = [...'ABCDEFGHJKLMNPRSTUVWXYZ'].find((l) => !taken.has(l)) ?? 'AA';
  return { section, letter, features: on, detailLetters: [] };
}

/** Where a section goes through it: a hole's place; of what is milled the middle of its first member. */
function middleOf(feature: Feature, solid: Solid): Through {
  const [first] = solid.voidsOf(feature.name);
  const { face, places } = feature;
  if (!first || locatedOf(feature).points === places) return { face, places };
  const [u, v] = FACE_PLANE[face].map((axis) => {
    const i = AXIS_INDEX[axis];
    const [low, high] = [Math.max(0, first.bounds.min[i]), Math.min(solid.body.box.max[i], first.bounds.max[i])];
    return (low + high) / 2;
  }) as [number, number];
  return { face, places: [{ u, v, span: feature.span }] };
}

/** How deep it is; recesses go before holes. */
const DEEP: ByForm<[], number | undefined> = {
  hole: ({ depth }) => (depth.through ? undefined : depth.mm / 1000),
  opening: ({ depth, startMm }) => (depth.through ? undefined : startMm + depth.mm),
  channel: ({ depth, startMm }) => (depth.through ? undefined : startMm + depth.mm),
  shoulder: () => undefined,
  outside: () => undefined,
  edge: () => undefined,
  ring: () => undefined,
  letters: () => undefined,
  slope: () => undefined,
};

function deepestOf(part: Part): Feature | undefined {
  const deep = (f: Feature) => (f.tilt || f.places.length === 0 ? undefined : ofForm(DEEP, f));
  return part.features.reduce<Feature | undefined>(
    (best, f) => ((deep(f) ?? 0) > ((best && deep(best)) ?? 0) ? f : best),
    undefined,
  );
}

/** Rings in a bore that come out too small. */
export function cutDetails({ section, features, detailLetters }: Cut, scale: number, of: Drafted): readonly Detail[] {
  const smalls = features.flatMap((feature): Small[] => {
    const wide = ofForm(NARROW_RING, feature, of.part);
    return wide === undefined ? [] : [{ feature, at: wallOf(feature, section, of), wide, round: 0 }];
  });
  return detailsOf(smalls, scale, detailLetters);
}

const NONE = () => undefined;
const NARROW_RING: ByForm<[Part], number | undefined> = {
  hole: NONE,
  opening: NONE,
  channel: NONE,
  shoulder: NONE,
  outside: NONE,
  edge: NONE,
  ring: (ring, part) => {
    const home = ring.in && part.featureByName.get(ring.in.name);
    const bore = home && 'diameter' in home ? home.diameter.mm : undefined;
    return bore === undefined ? undefined : Math.min(ring.width.mm, (ring.diameter.mm - bore) / 2);
  },
  letters: NONE,
  slope: NONE,
};

export function cutDetailFigure(detail: Detail, { section: { cut, behind } }: Cut, of: Drafted): Figure {
  const outlines = outlinesOf(cut).flat();
  const lines = hatching(outlines, 2.2 / detail.scale, [], false).edges;
  return detailFigure(detail, outlines, [...lines, ...(behind?.visible ?? [])], of);
}

export function cutFigure(whole: Cut, scale: number, of: Drafted): Figure {
  const { section, letter, features } = whole;
  const { view, cut, behind } = section;
  const place: Place = { x: 0, y: 0, scale };
  const outlines = outlinesOf(cut).flatMap((l) => edgesOnPage(l, place));
  const axis = behind?.centreLines.length ? edgesOnPage(behind.centreLines, place) : [];
  const threads = edgesOnPage(
    features.flatMap((f) => threadLines(f, section, of)),
    place,
  );
  const details = cutDetails(whole, scale, of);
  const shown = features.filter((f) => !details.some((d) => d.feature === f));
  const notes = shown.map((f) => noteOf(f, section, scale, of));
  const lane = laneOf(notes, view.width * scale);
  const title = textFigure(bold(`${letter}–${letter}`, NUMBER));
  const up = Math.max(view.height * scale + 4, lane.up);
  const left = 4;
  const marks = [
    hatching(outlines, 2.2),
    ...(behind ? [stroke(edgesOnPage(behind.visible, place), WIDE)] : []),
    stroke(outlines, WIDE),
    ...(threads.length > 0 ? [stroke(threads, NARROW)] : []),
    ...(axis.length > 0 ? [stroke(axis, 0.18, CHAIN)] : []),
    ...lane.marks,
    ...details.map((d) => detailRing(d, place)),
  ];
  const ringed = details.map((d) => ({
    letter: d.letter,
    at: onPage(place, d.at),
    radius: Math.max(2, d.radius * scale),
  }));
  const tags = tagsAt(ringed, new Placer(marks, { x0: -left, x1: view.width * scale + 4, y0: -up, y1: 4 }), {
    x: view.width * scale + 2,
    y: 0,
  });
  const top = title.h + 1;
  return {
    marks: [...title.marks, ...moved([...marks, ...tags], left, top + up)],
    w: left + Math.max(view.width * scale + 4, lane.right, title.w),
    h: top + up + Math.max(4, lane.down),
  };
}

/** At its wall on the side of the notes, in the middle of its depth where that is there. */
function noteOf(f: Feature, section: Section<Through>, scale: number, of: Drafted): Note {
  const to = onPage({ x: 0, y: 0, scale }, wallOf(f, section, of));
  return { figure: calloutFigure(f, of), to, radius: 0, end: 'arrow' };
}

/** The section as it is drawn: what is cut hatched, what lies behind thin, heights and the bore's limits beside it. */

import { AXIS_INDEX } from '../../geometry/vector';
import type { Part } from '../../model/model';
import { SAME } from '../../tolerance';
import { CHAIN, type Figure, type Mark, moved, NARROW, WIDE } from '../draw/marks';
import { hatching, stroke } from '../draw/shapes';
import { bold, NUMBER, textFigure } from '../draw/text';
import type { SheetWords } from '../language/en';
import { limits, num, sized } from '../part/numbers';
import { type Ordinate, ordinatesOn } from './ordinates';
import { edgesOnPage, outlinesOf, type Place, type Scale, scaleFor } from './projected';
import type { Section } from './section';

const BEYOND = 4;

/** As large as fits; never larger than the views beside it. */
export function sectionFigure(
  section: Section,
  part: Part,
  words: SheetWords,
  { most, w, h }: { readonly most: Scale; readonly w: number; readonly h: number },
): Figure {
  let made: Figure = { marks: [], w: 0, h: 0 };
  const scale = scaleFor((s) => {
    if (s > most.scale) return false;
    made = at(section, part, s);
    return made.w <= w && made.h <= h - 12;
  });
  const { diameter } = section.through;
  const both = diameter.tolerance && limits(diameter, part.units);
  const head = textFigure([bold(words.section('A'), NUMBER), scale.scale === most.scale ? '' : ` ${scale.words}`], {
    width: w,
  });
  const size = textFigure([bold(`⌀${sized(diameter, part.units)}${both ? `  ${both}` : ''}`)], {
    width: w,
    cap: NUMBER,
  });
  const marks = [...head.marks, ...moved(size.marks, 0, head.h), ...moved(made.marks, 0, head.h + size.h + 1)];
  return { marks, w, h: head.h + size.h + 1 + made.h };
}

function at(section: Section, part: Part, scale: number): Figure {
  const { view, cut, behind } = section;
  const levels = ordinates(section, part, scale);
  const probe = ordinatesOn(levels(0), { side: 'left', edge: 0, low: -BEYOND, high: view.height * scale + BEYOND });
  const place: Place = { x: probe.reach + 1, y: BEYOND + view.height * scale, scale };
  const outlines = outlinesOf(cut);
  const onPage = outlines.flatMap((l) => edgesOnPage(l, place));
  const side = ordinatesOn(levels(place.y), { side: 'left', edge: place.x, low: 0, high: place.y + BEYOND });
  const axis = behind?.centreLines.length ? edgesOnPage(behind.centreLines, place) : [];
  const marks: Mark[] = [
    hatching(onPage, 2.2),
    ...(behind ? [stroke(edgesOnPage(behind.visible, place), NARROW)] : []),
    stroke(onPage, WIDE),
    ...(axis.length > 0 ? [stroke(axis, 0.18, CHAIN)] : []),
    ...side.marks,
  ];
  return { marks, w: place.x + view.width * scale + 3, h: place.y + BEYOND };
}

/** Where the bore and what lies on its axis end, along the section's height. */
function ordinates({ view, through }: Section, part: Part, scale: number) {
  const i = AXIS_INDEX[view.up.axis];
  const height = part.size[i]!;
  const own = part.features.filter((f) => f.kind === 'hole' && f.face === through.face && onAxis(f, through));
  const places = new Set<number>([0, height]);
  const down = view.up.axis === depthAxis(through);
  if (down)
    for (const f of own) {
      if (f.kind !== 'hole') continue;
      const level = (mm: number) => (faceIsHigh(through.face) ? height - mm : mm);
      for (const mm of [
        f.startMm,
        f.startMm + f.depth.mm,
        ...(f.counterbore ? [f.startMm + f.counterbore.depth.mm] : []),
      ])
        if (mm > SAME && mm < height - SAME) places.add(level(mm));
    }
  return (foot: number): Ordinate[] =>
    [...places].map((mm) => {
      const up = view.up.sign > 0 ? mm : height - mm;
      return { at: foot - up * scale, label: num(mm, part.units), rank: mm === 0 || mm === height ? 0 : 1 };
    });
}

type Holes = Section['through'];

function onAxis(f: { readonly places: Holes['places'] }, { places }: Holes): boolean {
  const [p, q] = [f.places[0], places[0]!];
  return p !== undefined && Math.hypot(p.u - q.u, p.v - q.v) < SAME;
}

function depthAxis({ face }: Holes): 'x' | 'y' | 'z' {
  return face === 'left' || face === 'right' ? 'x' : face === 'front' || face === 'back' ? 'y' : 'z';
}

function faceIsHigh(face: Holes['face']): boolean {
  return face === 'right' || face === 'back' || face === 'top';
}

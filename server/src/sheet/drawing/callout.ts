/** What stands beside a feature: its sizes, its frames of geometric tolerances below, and its datum's letter on those. */
import { breaksEdges, ofForm } from '../../model/feature-kinds';
import type { Feature, GeometricTolerance, Part, Shape } from '../../model/model';
import { FACE_PLANE } from '../../model/model';
import { DATUM_BOX, datumBox, TRIANGLE, triangle } from '../draw/datum';
import { type Figure, moved } from '../draw/marks';
import { polyline } from '../draw/shapes';
import { column } from '../draw/stack';
import { bold, textFigure } from '../draw/text';
import type { DrawingWords } from '../language/drawing-en';
import type { SheetWords } from '../language/en';
import { edgeSize, saidOf } from '../part/brief';
import { besides, calledBy, toleranceFrame } from '../part/frames';
import { limits, num, sized } from '../part/numbers';
import { type Origin, originOf } from './origin';
import { locatedOf, rowAlong } from './points';

/** What all figures of a drawing are made from. */
export interface Drafted {
  readonly part: Part;
  readonly words: SheetWords;
  readonly said: DrawingWords;
  readonly letters: ReadonlyMap<Feature, string>;
  readonly origin: Origin;
}

export function draftOf(of: Omit<Drafted, 'origin'>): Drafted {
  return { ...of, origin: originOf(of.part) };
}

/** How wide words beside a view may be. */
const CALLOUT_W = 46;

export function textOf(feature: Feature, of: Drafted): string {
  const { part, words } = of;
  const saying = { units: part.units, words, named: calledBy(of), drawn: (f: Feature) => morePlaces(f, of) };
  // A broken rim is told with what it is the rim of.
  const rims = part.features.flatMap((f) =>
    breaksEdges(f) && f.edges.some((e) => e.type === 'rim' && e.feature.name === feature.name)
      ? [`⌞\u00a0${edgeSize(f, saying).replaceAll(' ', '\u00a0')}`]
      : [],
  );
  return [saidOf(feature, saying), ...rims].join(', ');
}

/** Whether it is told with features, and needs no note of its own. */
export function isToldAtRims(f: Feature, { part }: Drafted): boolean {
  return (
    breaksEdges(f) &&
    f.edges.every((e) => e.type === 'rim' && part.featureByName.has(e.feature.name)) &&
    !part.tolerances.some((t) => t.of.some((n) => n.name === f.name))
  );
}

/** Letter, how many, what. */
export function calloutFigure(feature: Feature, of: Drafted, w: number = CALLOUT_W): Figure {
  const count = feature.places.length > 1 ? [bold(`${feature.places.length}×`), ' '] : [];
  const text = textFigure([bold(of.letters.get(feature) ?? ''), ' ', ...count, textOf(feature, of)], { width: w });
  return column([text, belowFigure(feature.name, of)], 0.8);
}

/** Frames, and the datum: nothing where it has none. */
export function belowFigure(name: string, of: Drafted): Figure {
  const { part } = of;
  const called = calledBy(of);
  const frames = tolerancesOf(name, part).flatMap((t): Figure[] => {
    const made = toleranceFrame(t, part);
    if (!made) return [];
    // A frame stands once, at the first that it is of; the others are named beside it.
    const others = t.of.slice(1).map((n) => called(n.name));
    const members = baseOf(t.of[0]!.name) === t.of[0]!.name ? [] : [called(t.of[0]!.name)];
    const named = [...members, ...others];
    const more = besides(t, called);
    if (named.length + more.length === 0) return [made];
    const also = named.length > 0 ? [of.said.alsoOf(named.join(', '))] : [];
    const beside = textFigure([...also, ...more].join(' · '));
    return [{ marks: [...made.marks, ...moved(beside.marks, made.w + 1, 0.6)], w: made.w + 1 + beside.w, h: made.h }];
  });
  const datums = [...part.datums.values()].filter((d) => d.target.name === name).map((d) => d.letter.name);
  return column([...frames, ...datums.map(datumFigure)], frames.length > 0 ? 0 : 0.6);
}

export function tolerancesOf(name: string, { tolerances }: Part): readonly GeometricTolerance[] {
  return tolerances.filter((t) => t.characteristic !== 'distance' && t.of[0] && baseOf(t.of[0].name) === name);
}

function baseOf(name: string): string {
  return name.replace(/\[\d+\]$/, '');
}

const STEM = 1.4;
const INDENT = 4;

/** A filled triangle on what stands above it, its letter in a frame below (ISO 5459). */
function datumFigure(letter: string): Figure {
  const top = TRIANGLE + STEM;
  return {
    marks: [
      triangle(INDENT, 0, 0, 1),
      polyline([
        [INDENT, TRIANGLE],
        [INDENT, top],
      ]),
      ...moved(datumBox(letter), INDENT - DATUM_BOX / 2, top),
    ],
    w: INDENT + DATUM_BOX / 2,
    h: top + DATUM_BOX,
  };
}

/** What is said of a feature's places in words: its circle, its pitches, its islands. */
function morePlaces(feature: Feature, of: Drafted): string {
  const { part, said } = of;
  const { units } = part;
  const { circle } = locatedOf(feature);
  const parts: string[] = [];
  if (circle) {
    parts.push(said.onCircle(num(circle.diameterMm, units)));
    if (num(circle.startDeg, 'mm') !== '0') parts.push(said.startsAt(num(circle.startDeg, 'mm')));
  }
  for (const [k, which] of (['u', 'v'] as const).entries()) {
    const row = rowAlong(feature, which);
    if (row) parts.push(said.pitched(FACE_PLANE[feature.face][k]!, row.count - 1, num(row.pitchMm, units)));
  }
  return [...parts, ...islandsOf(feature, of)].join(', ');
}

function islandsOf(feature: Feature, { part, said, origin }: Drafted): readonly string[] {
  const none = () => [];
  const [a, b] = FACE_PLANE[feature.face];
  return ofForm<[], readonly string[]>(
    {
      hole: none,
      channel: none,
      shoulder: none,
      outside: none,
      edge: none,
      ring: none,
      letters: none,
      slope: none,
      opening: (pocket) =>
        pocket.islands.map((island) => {
          const first = pocket.places[0]!;
          const [u, v] = [first.u + island.place.u, first.v + island.place.v];
          const corners = island.shape.type === 'path' ? island.shape.corners : undefined;
          const where = corners
            ? corners.map((c) => `${origin.said(a, u + c.u)}/${origin.said(b, v + c.v)}${rounded(c, part)}`).join('; ')
            : `${origin.said(a, u)}/${origin.said(b, v)}`;
          const root = island.rib?.root;
          const atWalls = root && root.mm > 0 ? `, ${said.root(num(root.mm, part.units))}` : '';
          const size = `${shapeText(island.shape, part)}${atWalls}`;
          return said.island(size, `${a}/${b} ${where}`, `${sized(island.height, part.units)}`);
        }),
    },
    feature,
  );
}

function rounded({ round, bevel }: { round?: { mm: number }; bevel?: { mm: number } }, { units }: Part): string {
  return round ? ` R${num(round.mm, units)}` : bevel ? ` ${num(bevel.mm, units)}×45°` : '';
}

function shapeText(shape: Shape, { units }: Part): string {
  const both = (l: Parameters<typeof limits>[0]) => (l.tolerance ? ` (${limits(l, units) ?? ''})` : '');
  if (shape.type === 'circle') return `⌀${sized(shape.diameter, units)}${both(shape.diameter)}`;
  if (shape.type === 'path') return '';
  const corner = shape.cornerRadius.mm > 0 ? ` R${num(shape.cornerRadius.mm, units)}` : '';
  const turned = shape.rotateDeg === 0 ? '' : ` ${num(shape.rotateDeg, 'mm')}°`;
  return `${sized(shape.u, units)}${both(shape.u)} × ${sized(shape.v, units)}${both(shape.v)}${corner}${turned}`;
}

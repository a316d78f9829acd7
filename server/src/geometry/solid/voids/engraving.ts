/** Engraved text: letters as strokes of one width with round ends, a void for each lump of a letter. */
import type { Engraving } from '../../../model/model';
import { uniteRegions } from '../../2d/assemble-loops';
import { BLANK_UNITS, CAP_UNITS, GAP_UNITS, type Glyph, glyphOf } from '../../2d/letters';
import { arcThrough } from '../../2d/path-outline';
import { mapRegion, shift } from '../../2d/plane-map';
import { straightRun, thickLine } from '../../2d/slot-outline';
import type { BodyShape, Edge, Frame, Point2, Region, Void } from '../../types';
import { depthRange, eachPlace, makeVoid, type Surroundings } from './make';

/** The strokes of the letters at every place, as deep as the engraving; letters that are not known are left out. */
export function engravingVoids(engraving: Engraving, { size }: Surroundings): readonly Void[] {
  const regions = textRegions(engraving.text, engraving.height.mm, engraving.stroke.mm, Math.hypot(...size));
  const out: Void[] = [];
  for (const { member, frame } of eachPlace(engraving, size)) {
    const readable = readableFrom(frame);
    for (const region of regions) {
      const range = depthRange(engraving, engraving.depth, size, region);
      if (range)
        out.push(
          makeVoid(engraving, {
            member,
            role: 'engraving',
            frame: readable,
            region,
            from: range.from,
            to: range.to,
            through: range.through,
          }),
        );
    }
  }
  return out;
}

/**
 * A reader stands before the face: on left, back and bottom the part axis along u runs to his left, so that there
 * the text runs against it.
 */
function readableFrom(frame: Frame): Frame {
  const { u, v, w } = frame;
  const across = [v[1] * u[2] - v[2] * u[1], v[2] * u[0] - v[0] * u[2], v[0] * u[1] - v[1] * u[0]];
  const facing = across[0]! * w[0] + across[1]! * w[1] + across[2]! * w[2];
  return facing > 0 ? frame : { ...frame, u: [-u[0], -u[1], -u[2]] };
}

interface Letter {
  readonly glyph: Glyph;
  /** Where it begins, from the middle of the text, mm. */
  readonly at: number;
}

/** More letters of one text are not drawn: each is a cut of its own. */
const MOST_DRAWN = 500;

/** Known letters one behind the other, their middle at 0. */
function lettersOf(text: string, scale: number, stroke: number): readonly Letter[] {
  const gap = stroke + GAP_UNITS * scale;
  const placed: Letter[] = [];
  let pen = 0;
  let end = 0;
  for (const character of text) {
    const glyph = glyphOf(character);
    if (glyph) {
      placed.push({ glyph, at: pen });
      end = pen + glyph.width * scale;
    }
    pen += (glyph ? glyph.width : BLANK_UNITS) * scale + gap;
  }
  return placed.map(({ glyph, at }) => ({ glyph, at: at - end / 2 }));
}

/** Of a text of any length those within reach of its middle, and the first and the last, which tell how far it runs. */
function drawnOf(letters: readonly Letter[], reachMm: number) {
  if (letters.length <= MOST_DRAWN) return { drawn: letters, leftOut: 0 };
  const near = letters.filter((l) => Math.abs(l.at) <= reachMm);
  const from = Math.max(0, Math.floor((near.length - MOST_DRAWN) / 2));
  const middle = near.slice(from, from + MOST_DRAWN);
  const end = (l: Letter) => (middle.includes(l) ? [] : [l]);
  const drawn = [...end(letters[0]!), ...middle, ...end(letters.at(-1)!)];
  return { drawn, leftOut: near.length - middle.length };
}

/** How many letters that may lie on this body are not drawn, as there are too many. */
export function lettersLeftOut({ text, height, stroke }: Engraving, { box }: BodyShape): number {
  if (text.length <= MOST_DRAWN || !(height.mm > 0 && stroke.mm > 0)) return 0;
  const reachMm = Math.hypot(...box.max.map((max, i) => max - box.min[i]!));
  return drawnOf(lettersOf(text, scaleOf(height.mm, stroke.mm), stroke.mm), reachMm).leftOut;
}

function scaleOf(height: number, stroke: number): number {
  return Math.max(0, height - stroke) / CAP_UNITS;
}

/**
 * The letters of a text, mm, centred on the origin: the height over all of a capital, strokes included. `reachMm`: so far
 * from its middle they may lie on the part, which is its body's diagonal.
 */
export function textRegions(
  text: string,
  height: number,
  stroke: number,
  reachMm = Number.POSITIVE_INFINITY,
): readonly Region[] {
  if (!(height > 0 && stroke > 0)) return [];
  const scale = scaleOf(height, stroke);
  const made = new Map<Glyph, readonly Region[]>();
  return drawnOf(lettersOf(text, scale, stroke), reachMm).drawn.flatMap(({ glyph, at }) => {
    let lumps = made.get(glyph);
    if (!lumps) {
      lumps = glyphRegions(glyph, scale, stroke);
      made.set(glyph, lumps);
    }
    return lumps.map((r) => mapRegion(shift(at, (-CAP_UNITS * scale) / 2), r));
  });
}

function glyphRegions(glyph: Glyph, scale: number, stroke: number): readonly Region[] {
  const strokes = glyph.strokes.flatMap((s) => {
    const chain = strokeChain(s, scale);
    const first = chain[0];
    if (!first) {
      const [u, v] = s.split(',').map(Number);
      const dot = { u: u! * scale, v: v! * scale };
      return [straightRun(dot, dot, stroke / 2)];
    }
    return thickLine(chain, stroke) ?? chain.map((e) => straightRun(e.a, e.b, stroke / 2));
  });
  return uniteRegions(strokes) ?? strokes;
}

/** Centre line of one stroke, mm. */
function strokeChain(stroke: string, scale: number): readonly Edge[] {
  const edges: Edge[] = [];
  let from: Point2 | undefined;
  let through: Point2 | undefined;
  for (const word of stroke.split(' ')) {
    const [u, v] = word.replace(/[()]/g, '').split(',').map(Number);
    const point = { u: u! * scale, v: v! * scale };
    if (word.startsWith('(')) {
      through = point;
      continue;
    }
    if (from) edges.push((through && arcThrough(from, through, point)) ?? { type: 'line', a: from, b: point });
    from = point;
    through = undefined;
  }
  return edges;
}

/**
 * A set-up from above, as it lies: jaws at full width, the work with stock still on it in black, what is cut in thin lines,
 * the stop, how far each end stands out, parallels dashed, packing, the zeros, the axes.
 */

import type { Units } from '../../model/model';
import type { SetupPasses } from '../../process/passes';
import { type Box, DASHED, type Figure, type Mark, moved, NARROW, WIDE } from '../draw/marks';
import { Placer } from '../draw/placer';
import { arrowHead, block, boxEdges, frame, hatching, polyline, stroke } from '../draw/shapes';
import { bold, type Line, lineMarks, linesOf, NUMBER, SMALL } from '../draw/text';
import type { SheetWords } from '../language/en';
import { num } from '../part/numbers';
import { edgesOnPage, onPage, outlinesOf, type Place, type Scale, scaleFor } from '../view/projected';
import { reach } from './end-view';
import { boxInPicture, type Lying, type Picture } from './lying';
import { zeroSign } from './zero-sign';

interface AboveOf {
  readonly lying: Lying;
  readonly passes: SetupPasses;
  readonly words: SheetWords;
  readonly units: Units;
}

/** So much of a jaw is drawn behind its face, of the paper; of the field for the axes on the right, and round the jaws. */
const JAW = 9;
const AXES = 12.5;
const ROUND = 2;
const OUT = 8;
const OUT_ARROW = 6;
const PACKING = 8;
const STOP = 13;
const LEAST_OUT_MM = 0.05;

export function aboveView(
  of: AboveOf,
  room: { readonly w: number; readonly h: number },
): (Figure & { readonly scale: Scale }) | undefined {
  const { above } = of.lying;
  if (!above) return undefined;
  let made: Figure = { marks: [], w: 0, h: 0 };
  const scale = scaleFor((s) => {
    made = drawn(of, above, s);
    return made.w <= room.w && made.h <= room.h;
  });
  return { ...made, scale };
}

interface Frame {
  readonly place: Place;
  /** The work as it is put in, on the paper. */
  readonly work: Box;
  /** Jaws on the paper, away from the hand and towards it; absent without a vise. */
  readonly jaws?: { readonly fixed: Box; readonly moving: Box };
  /** The second of two pieces, as it is put in. */
  readonly second?: Box;
  readonly all: Box;
}

function drawn(of: AboveOf, above: Picture, scale: number): Figure {
  const f = framed(of, above, scale);
  const { place } = f;
  const marks: Mark[] = [];
  const gone = outlinesOf(above.gone).map((l) => edgesOnPage(l, place));
  if (f.jaws) marks.push(...under(of, f));
  if (gone.length > 0) marks.push({ type: 'fill', loops: gone });
  const cut = above.after ? edgesOnPage(above.after.visible, place) : [];
  marks.push(stroke(cut, NARROW), stroke(edgesOnPage(outlinesOf(above.before.shadow).flat(), place), WIDE));
  marks.push(...fixings(of, f, above), ...(f.second ? [frame(f.second, NARROW, DASHED)] : []));
  const placer = new Placer(marks, f.all);
  if (f.jaws) marks.push(...jawMarks(of, f.jaws, placer));
  const said = [
    ...zeros(of, f, placer),
    ...axes(f, placer),
    ...stopMark(of, f, placer),
    ...outs(of, f, placer),
    ...secondName(of, f, placer),
    ...names(of, f, placer),
  ];
  const shift = (m: readonly Mark[]) => moved(m, -f.all.x0, -f.all.y0);
  return { marks: shift([...marks, ...said]), w: f.all.x1 - f.all.x0, h: f.all.y1 - f.all.y0 };
}

function framed({ lying, passes }: AboveOf, above: Picture, scale: number): Frame {
  const [u0, v0, u1, v1] = reach(above.before.shadow);
  const place: Place = { x: 0, y: 0, scale };
  const work = { x0: u0 * scale, x1: u1 * scale, y0: -v1 * scale, y1: -v0 * scale };
  const { held } = lying.seating;
  const second = secondBox(lying, above, scale);
  const both = second ? { ...work, x0: Math.min(work.x0, second.x0), x1: Math.max(work.x1, second.x1) } : work;
  const stop = passes.holding.stop?.at;
  const stopRoom = stop === 'left' || stop === 'right' ? 17 : 0;
  let all: Box = {
    x0: both.x0 - (stop === 'left' ? stopRoom : ROUND),
    x1: both.x1 + (stop === 'right' ? stopRoom : ROUND),
    y0: work.y0 - (stop === 'back' ? 8 : ROUND),
    y1: work.y1 + (stop === 'front' ? 8 : ROUND),
  };
  let jaws: Frame['jaws'];
  if (held) {
    const on = (what: 'fixed jaw' | 'moving jaw') => lying.seating.obstacles.find((o) => o.what === what);
    const ends = on('fixed jaw') ?? on('moving jaw');
    const [j0, j1] = ends
      ? [boxInPicture(above.view, ends.box)[0] * scale, boxInPicture(above.view, ends.box)[2] * scale]
      : [work.x0, work.x1];
    jaws = {
      fixed: { x0: j0, x1: j1, y0: work.y0 - JAW, y1: work.y0 },
      moving: { x0: j0, x1: j1, y0: work.y1, y1: work.y1 + JAW },
    };
    const { left, right } = outOf(passes);
    all = {
      x0: Math.min(all.x0, j0, left ? j0 - passes.holding.out!.left.mm * scale - OUT_ARROW : j0),
      x1: Math.max(all.x1, j1),
      y0: jaws.fixed.y0,
      y1: jaws.moving.y1 + (left || right ? OUT : 1),
    };
  } else
    for (const o of lying.seating.obstacles) {
      const [a, b, c, d] = boxInPicture(above.view, o.box).map((mm) => mm * scale) as [number, number, number, number];
      all = {
        x0: Math.min(all.x0, a - ROUND),
        x1: Math.max(all.x1, c + ROUND),
        y0: Math.min(all.y0, -d - ROUND),
        y1: Math.max(all.y1, -b + ROUND),
      };
    }
  // the axes stand over the arrows of what is out
  const arrows = jaws && outOf(passes).right ? passes.holding.out!.right.mm * scale + OUT_ARROW : 0;
  all = { ...all, x1: Math.max(all.x1 + AXES, (jaws?.fixed.x1 ?? 0) + arrows) };
  return { place, work, all, ...(jaws && { jaws }), ...(second && { second }) };
}

function secondBox({ seating }: Lying, { view }: Picture, scale: number): Box | undefined {
  const neighbour = seating.obstacles.find((o) => o.what === 'other piece');
  if (!neighbour) return undefined;
  const [u0, v0, u1, v1] = boxInPicture(view, neighbour.box);
  return { x0: u0 * scale, x1: u1 * scale, y0: -v1 * scale, y1: -v0 * scale };
}

function secondName({ words }: AboveOf, { second }: Frame, placer: Placer): Mark[] {
  return second ? placer.put(bold(words.secondPiece), SMALL, (l) => inside(second, l)) : [];
}

/** Which ends stand out of the jaws. */
function outOf({ holding: { out } }: SetupPasses): { readonly left: boolean; readonly right: boolean } {
  const stands = (at: 'left' | 'right') => out !== undefined && out[at].mm > LEAST_OUT_MM;
  return { left: stands('left'), right: stands('right') };
}

/** What lies under the work and beside it in the vise: parallels, packing. */
function under({ passes: { holding }, words }: AboveOf, { place, jaws, work }: Frame): Mark[] {
  const marks: Mark[] = [];
  const [j0, j1] = [jaws!.fixed.x0, jaws!.fixed.x1];
  const packing = packingBox(holding, { work, ...(jaws && { jaws }) });
  const [x0, x1] = packing ? [packing.x0 > j0 ? j0 : packing.x1, packing.x0 > j0 ? packing.x0 : j1] : [j0, j1];
  for (const [front, back] of holding.pair?.at ?? []) {
    const [y0, y1] = [-back * place.scale, -front * place.scale];
    for (const y of [y0, y1])
      if (y > work.y0 + 0.3 && y < work.y1 - 0.3)
        marks.push(
          polyline(
            [
              [x0, y],
              [x1, y],
            ],
            NARROW,
            DASHED,
          ),
        );
  }
  if (packing) {
    const line = linesOf(words.offcut, SMALL)[0]!;
    marks.push(frame(packing, NARROW));
    if (line.width < packing.y1 - packing.y0 - 2)
      marks.push(
        ...lineMarks(line, (packing.x0 + packing.x1 + SMALL) / 2, (packing.y0 + packing.y1 + line.width) / 2, true),
      );
  }
  return marks;
}

/** As it is drawn; none where the work leaves no room for it on the paper. */
function packingBox(
  { packing, stop }: SetupPasses['holding'],
  { jaws, work }: Pick<Frame, 'work' | 'jaws'>,
): Box | undefined {
  if (!packing || !jaws) return undefined;
  const left = packing.at === 'left';
  const [j0, j1] = [jaws.fixed.x0, jaws.fixed.x1];
  const box = { x0: left ? j0 : j1 - PACKING, x1: left ? j0 + PACKING : j1, y0: work.y0, y1: work.y1 };
  const room = stop?.at === packing.at ? STOP : 0.5;
  return (left ? work.x0 - box.x1 : box.x0 - work.x1) > room ? box : undefined;
}

/** Clamps and screws. */
function fixings({ lying }: AboveOf, { place }: Frame, above: Picture): Mark[] {
  return lying.seating.obstacles
    .filter((o) => o.what === 'clamp' || o.what === 'screw')
    .flatMap((o): Mark[] => {
      const [u0, v0, u1, v1] = boxInPicture(above.view, o.box);
      const [p, q] = [onPage(place, { u: u0, v: v1 }), onPage(place, { u: u1, v: v0 })];
      const box = { x0: p.u, y0: p.v, x1: q.u, y1: q.v };
      return [hatching(boxEdges(box), 2), frame(box, WIDE)];
    });
}

function jawMarks({ passes, words }: AboveOf, { fixed, moving }: NonNullable<Frame['jaws']>, placer: Placer): Mark[] {
  const bar = passes.holding.roundBar;
  const one = (box: Box, long: string, short: string): Mark[] => {
    const line = [long, short].map((t) => linesOf(bold(t), SMALL)[0]!).find((l) => l.width < box.x1 - box.x0 - 4);
    const x = (box.x0 + box.x1 - (line?.width ?? 0)) / 2;
    const y = (box.y0 + box.y1 + SMALL) / 2;
    const spared = line ? [{ x0: x - 1.5, x1: x + line.width + 1.5, y0: y - SMALL - 1.2, y1: y + 1.4 }] : [];
    return [hatching(boxEdges(box), 2, spared), frame(box, WIDE), ...(line ? lineMarks(line, x, y) : [])];
  };
  const marks = [
    ...one(fixed, words.fixedJaw, words.fixedJaw),
    ...one(moving, bar ? words.movingWithBar : words.movingWithoutBar, words.movingJaw),
  ];
  placer.add(marks);
  return marks;
}

function stopMark({ passes: { holding }, words }: AboveOf, { work }: Frame, placer: Placer): Mark[] {
  const at = holding.stop?.at;
  if (!at) return [];
  const middle = [(work.x0 + work.x1) / 2, (work.y0 + work.y1) / 2] as const;
  const along = at === 'left' || at === 'right';
  const way = at === 'left' || at === 'back' ? 1 : -1;
  const tip = along
    ? ([at === 'left' ? work.x0 : work.x1, middle[1]] as const)
    : ([middle[0], at === 'back' ? work.y0 : work.y1] as const);
  const length = 12;
  const [dx, dy] = along ? [way, 0] : [0, way];
  const back = 4;
  const box = along
    ? {
        x0: Math.min(tip[0] - dx * back, tip[0] - dx * length),
        x1: Math.max(tip[0] - dx * back, tip[0] - dx * length),
        y0: tip[1] - 1,
        y1: tip[1] + 1,
      }
    : {
        x0: tip[0] - 1,
        x1: tip[0] + 1,
        y0: Math.min(tip[1] - dy * back, tip[1] - dy * length),
        y1: Math.max(tip[1] - dy * back, tip[1] - dy * length),
      };
  const head = arrowHead(tip[0] - dx * 0.3, tip[1] - dy * 0.3, dx, dy, 5);
  const marks: Mark[] = [block(box), { ...head, loops: head.loops }];
  placer.add(marks);
  const said = placer.put(bold(words.stopSign), SMALL, (l) => around(box, l));
  return [...marks, ...said];
}

/** Over, under and beside a box. */
function* around(box: Box, { width, cap }: Line): Generator<readonly [number, number]> {
  const middle = (box.x0 + box.x1 - width) / 2;
  yield [middle, box.y0 - 1.6];
  yield [middle, box.y1 + cap + 1.6];
  yield [box.x0, box.y0 - 1.6];
  yield [box.x1 + 2, (box.y0 + box.y1 + cap) / 2];
  yield [box.x0 - width - 2, (box.y0 + box.y1 + cap) / 2];
}

/** The sign of zero where X and Y are touched. */
function zeros({ passes }: AboveOf, { place }: Frame, placer: Placer): Mark[] {
  const of = (axis: 'X' | 'Y') => passes.zeros.find((t) => t.axis === axis && t.missing === undefined);
  const [x, y] = [of('X'), of('Y')];
  if (!x || !y) return [];
  const p = onPage(place, { u: x.placeMm, v: y.placeMm });
  const marks = zeroSign(p.u, p.v);
  placer.add(marks);
  placer.block({ x0: p.u - 2.4, x1: p.u + 2.4, y0: p.v - 2.4, y1: p.v + 2.4 });
  return marks;
}

function axes({ all, work }: Frame, placer: Placer): Mark[] {
  const [x, y] = [all.x1 - AXES + 2.5, Math.max(work.y1 - 2, work.y0 + 14)];
  const letters = [
    { text: 'X', at: [x + 8.6, y + 1.2] as const },
    { text: 'Y', at: [x - 0.9, y - 9.2] as const },
  ];
  const marks: Mark[] = [
    polyline([
      [x, y - 7.5],
      [x, y],
      [x + 7.5, y],
    ]),
    arrowHead(x, y - 8, 0, -1, 2),
    arrowHead(x + 8, y, 1, 0, 2),
    ...letters.flatMap(({ text, at: [lx, ly] }) => lineMarks(linesOf(bold(text), SMALL)[0]!, lx, ly)),
  ];
  placer.add(marks);
  return marks;
}

/** How far each end of the finished work stands out of the jaws. */
function outs({ passes: { holding }, words, units }: AboveOf, f: Frame, placer: Placer): Mark[] {
  if (!holding.out || !f.jaws) return [];
  const y = f.jaws.moving.y1 + 3.5;
  return (['left', 'right'] as const).flatMap((at): Mark[] => {
    const { mm } = holding.out![at];
    if (mm <= LEAST_OUT_MM) return [];
    const jaw = at === 'left' ? f.jaws!.moving.x0 : f.jaws!.moving.x1;
    const end = at === 'left' ? jaw - mm * f.place.scale : jaw + mm * f.place.scale;
    const way = at === 'left' ? -1 : 1;
    const marks: Mark[] = [
      polyline([
        [jaw, f.jaws!.moving.y1 + 0.8],
        [jaw, y + 2],
      ]),
      polyline([
        [end, f.work.y1 + 0.8],
        [end, y + 2],
      ]),
      polyline([
        [jaw - way * 6, y],
        [jaw, y],
      ]),
      arrowHead(jaw, y, way, 0, 2),
      polyline([
        [end, y],
        [end + way * 5, y],
      ]),
      arrowHead(end, y, -way, 0, 2),
    ];
    placer.add(marks);
    const text = [bold(words.out(num(mm, units)), NUMBER)];
    const said = placer.put(text, NUMBER, (l) => [
      [at === 'left' ? jaw + 8 : jaw - 8 - l.width, y + NUMBER / 2],
      [at === 'left' ? jaw + 8 : jaw - 8 - l.width, y + NUMBER / 2 + 2],
      [at === 'left' ? end - 7 - l.width : end + 7, y + NUMBER / 2],
    ]);
    return [...marks, ...said];
  });
}

/** Which faces the two ends are, and the state that they are in. */
function names({ passes: { holding }, lying, words }: AboveOf, { work }: Frame, placer: Placer): Mark[] {
  if (!holding.out) return placer.put(bold(words.faces[lying.seating.up]), SMALL, (l) => inside(work, l));
  return (['left', 'right'] as const).flatMap((at) => {
    const { face } = holding.out![at];
    const state = holding.stop?.face === face ? `, ${words.states[holding.stop.state]}` : '';
    return placer.put(`${words.faces[face]}${state}`, SMALL, (l) => atEnd(work, at, l));
  });
}

function* atEnd(work: Box, at: 'left' | 'right', { width, cap }: Line): Generator<readonly [number, number]> {
  const rows = [work.y0 + cap + 1.5, work.y1 - 1.8, (work.y0 + work.y1) / 2 - 3, (work.y0 + work.y1) / 2 + cap + 3];
  for (const inset of [1.5, 4, 8])
    for (const y of rows) yield [at === 'left' ? work.x0 + inset : work.x1 - inset - width, y];
  for (const y of rows) yield [at === 'left' ? work.x0 - width - 1.5 : work.x1 + 1.5, y];
}

function* inside(work: Box, { width, cap }: Line): Generator<readonly [number, number]> {
  for (const y of [0.5, 0.25, 0.75, 0.12, 0.9])
    for (const x of [0.5, 0.2, 0.8])
      yield [work.x0 + x * (work.x1 - work.x0 - width), work.y0 + cap + y * (work.y1 - work.y0 - cap)];
}

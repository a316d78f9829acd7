/** Rows of a set-up in plain words, in each language. Numbers as the read-out shows them, mm. */

import { FACES, type Face } from '../model/faces';
import type {
  Feed,
  Holding,
  Look,
  MeasureRow,
  PassRow,
  SetupPasses,
  Side,
  Speed,
  Station,
  Touch,
  Way,
  Where,
} from '../process/passes';
import { dialled } from '../process/passes/dialled';
import { ROUNDING } from '../tolerance';
import { besidesJaws, onTableLines } from './holding';
import type { Words } from './language';

export function place(mm: number): string {
  return (Math.abs(mm) < 0.005 ? 0 : mm).toFixed(2);
}

/** `0.4`, `12`, `6.25`: no more digits than there are. */
export function size(mm: number, digits = 2): string {
  return String(Number((Math.abs(mm) < ROUNDING ? 0 : mm).toFixed(digits)));
}

/** A face by its word, anything else by its name. */
export function called(of: string, { part }: Words): string {
  return (FACES as readonly string[]).includes(of) ? part.faces[of as Face].toLowerCase() : of;
}

function side({ face, state }: Side, w: Words): string {
  return `${w.part.faces[face]} (${w.markdown.states[state]})`;
}

/** What hands do to hold it, one line each. */
export function holdingLines(h: Holding, w: Words): readonly string[] {
  const { markdown: m, part } = w;
  const more = {
    words: w.hold,
    face: (face: Face) => part.faces[face],
    state: (state: Side['state']) => m.states[state],
    called: (name: string) => name,
    length: (mm: number) => size(mm),
    station,
  };
  if (!h.fixed || !h.moving || !h.vise) return onTableLines(h, more);
  const ends = (['left', 'right'] as const).flatMap((at) => {
    const end = h.out![at];
    return end.mm > 0.05 ? [m.endOut(part.faces[end.face], size(end.mm, 1), m.sides[at]!)] : [];
  });
  return [
    m.viseTrue(h.vise.name),
    m.toFixed(side(h.fixed, w)),
    ...besidesJaws(h, more),
    ...(h.stop ? [m.toStop(side(h.stop, w), m.sides[h.stop.at]!)] : []),
    ...ends,
    ...(h.packing ? [m.offcut(size(h.packing.widthMm), m.sides[h.packing.at]!)] : []),
    h.parallelsMm ? m.onParallels(size(h.parallelsMm)) : m.onBed,
    m.inJaws(size(h.gripMm!), size(h.aboveMm!)),
    m.bar(h.roundBar ?? false),
    m.knocked(Boolean(h.parallelsMm)),
  ];
}

export function touchWords(t: Touch, w: Words): string {
  const { markdown: m, part } = w;
  if (t.missing !== undefined) return m.cannotTouch(t.axis, t.missing);
  const shows = m.shows(t.axis, place(t.showsMm));
  const after = t.afterPass > 0 ? m.afterPass(t.afterPass) : '';
  const tip = size(t.tipMm);
  switch (t.how) {
    case 'bore':
      return `${m.swept(t.of)}${after}: ${shows}`;
    case 'parallels':
      return `${m.onParallel(tip)}: ${shows}`;
    case 'top':
      return `${m.onTop(tip)}${after}: ${shows}`;
    case 'face': {
      const from = t.cameFrom ? m.coming(m.sides[t.cameFrom]!) : '';
      const face = part.faces[t.of as Face] ?? t.of.toUpperCase();
      return `${m.face(face, m.with[t.with], t.tipMm > 0 ? ` ⌀${tip}` : '', from)}${after}: ${shows}`;
    }
    default:
      return t.how satisfies never;
  }
}

export function speedWords({ rpm, ask, setBy }: Speed, { markdown: m }: Words): string {
  if (setBy === 'hand') return m.byHand;
  const turns = setBy === 'step' ? m.step(rpm) : String(rpm);
  return ask ? m.orLess(turns) : turns;
}

export function feedWords(feed: Feed, { markdown: m }: Words): string {
  if (feed.by === 'feel') return m.byFeel;
  if (feed.by === 'program') return `${Math.round(feed.mmPerMin)} mm/min`;
  if (feed.strokeMm / feed.mmPerS > 0 && feed.mmPerS >= 2) return `${size(feed.mmPerS, 1)} mm/s`;
  return m.inSeconds(size(feed.strokeMm), Math.round(feed.secondsAStroke));
}

export function unsetAxes(unset: PassRow['unset'], zero: PassRow['unset'][number]['zero']): readonly string[] {
  return unset.flatMap((u) => (u.zero === zero ? [u.axis] : []));
}

/** Before an axis has its zero its places are only those of later pieces. */
export function unsetWords({ unset, offs }: PassRow, { markdown: m }: Words): string {
  const both = ` ${m.and} `;
  const off = offs ? m.off(offs.axis, offs.mm.map((mm) => size(mm)).join(both)) : '';
  const [later, nowhere] = [unsetAxes(unset, 'later').join(both), unsetAxes(unset, 'nowhere').join(both)];
  return [...(later ? [m.later(later, off)] : []), ...(nowhere ? [m.nowhere(nowhere)] : [])].join('');
}

export function whereWords(where: Where, w: Words, dial?: SetupPasses['dial']): string {
  const { markdown: m } = w;
  switch (where.type) {
    case 'at':
      return where.places.map((p) => `${station(p)}${turnsWords(p, w, dial)}`).join('; ');
    case 'along':
      return where.ways.map((one) => way(one, w)).join(m.nextWay);
    case 'over':
      return m.over(where.ways.map((one) => way(one, w)).join(m.alsoOver), size(where.stepMm, 1));
    case 'as drawn':
      return m.asDrawn;
    default:
      return where satisfies never;
  }
}

/** For hand wheels: turns and marks. */
function turnsWords(at: Station, { markdown: m }: Words, dial: SetupPasses['dial']): string {
  if (!dial) return '';
  const one = (mm: number) => {
    const { back, turns, marks } = dialled(mm, dial);
    return m.turns(back, turns, marks);
  };
  return ` (X ${one(at[0])}, Y ${one(at[1])})`;
}

export function station([x, y]: Station): string {
  return `X ${place(x)} Y ${place(y)}`;
}

/** Arcs turn left (counter-clockwise) or right about their middle. */
function way({ start, moves }: Way, { markdown: m }: Words): string {
  const one = (move: Way['moves'][number]) =>
    move.type === 'line' ? station(move.to) : m.round(move.ccw, station(move.centre), station(move.to));
  return [station(start), ...moves.map(one)].join(' → ');
}

export function depthWords(p: PassRow, { markdown: m }: Words): string {
  const tips = p.tipsZ.map((z) => `Z ${place(z)}`).join(', ');
  const lift = p.liftEachMm === undefined ? '' : m.liftEach(size(p.liftEachMm, 1));
  const bored = p.diametersMm ? `⌀ ${p.diametersMm.map((d) => size(d)).join(', ')}; ` : '';
  const strokes = p.strokes === undefined ? '' : m.strokes(p.strokes);
  return `${bored}${lift}${p.tipsZ.length === 1 ? m.to(tips) : tips}${strokes}`;
}

export function looksWords(looks: readonly Look[], w: Words): string {
  return looks.map((l) => lookWords(l, w)).join('; ');
}

function lookWords(l: Look, { setup }: Words): string {
  switch (l.look) {
    case 'clean-all-over':
      return setup.looks['clean-all-over'](l);
    case 'this-wide':
      return setup.thisWide(size(l.diameterMm, 1));
    case 'left-a-side':
      return setup.leftASide(size(l.mm));
    case 'even-width':
      return setup.evenWidth(size(l.mm));
    case 'no-parallel-hit':
    case 'chips-clear':
    case 'square-start':
    case 'smooth':
    case 'clamp-free':
      return setup.looks[l.look];
    default:
      return l satisfies never;
  }
}

export function measureWords(row: MeasureRow, w: Words): string {
  const { of, to, what, limitsMm, with: gauge, fit, nominalMm, thread } = row;
  const { markdown: m, setup } = w;
  const named = to === undefined ? called(of, w) : setup.fromTo(called(of, w), called(to, w));
  const limits = limitsMm?.map((mm) => mm.toFixed(3)).join(' … ') ?? setup.goNoGo(thread ?? '');
  return `${named}, ${m.whats[what]}${fit ? ` ${size(nominalMm)} ${fit}` : ''}: ${limits} ${m.gauge(gauge)}`;
}

export function passWords(p: PassRow, w: Words): string {
  const { does } = p.operation;
  const said = does === 'rest' ? w.markdown.corners : w.setup.does[does];
  return `${p.tool.name}, ${w.markdown.out(size(p.stickoutMm, 0))} · ${said} ${p.of.map((of) => called(of, w)).join(', ')}`;
}

export function edgesWords(edges: readonly (readonly [Face, Face])[], w: Words): string {
  return edges.map((e) => e.map((f) => called(f, w)).join('/')).join(', ');
}

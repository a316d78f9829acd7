/** Rows of a set-up in plain words, in each language. Numbers as the read-out shows them, mm. */

import { FACES, type Face } from '../model/faces';
import type { Units } from '../model/model';
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
import { mmPer } from '../text/format';
import { ROUNDING } from '../tolerance';
import { besidesJaws, onTableLines } from './holding';
import type { Words } from './language';

/** Words, in the units of the part, and the marks of hand wheels where there is no read-out. */
export interface Told extends Words {
  readonly units: Units;
  readonly dial?: SetupPasses['dial'];
}

/** As a read-out shows it: hundredths of a millimetre, ten-thousandths of an inch. */
export function place(mm: number, { units }: Pick<Told, 'units'>): string {
  const text = (mm / mmPer(units)).toFixed(units === 'in' ? 4 : 2);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** `0.4`, `12`, `6.25`: no more digits than there are; of an inch two more. */
export function size(mm: number, { units }: Pick<Told, 'units'>, digits = 2): string {
  const by = mm / mmPer(units);
  return String(Number((Math.abs(by) < ROUNDING ? 0 : by).toFixed(units === 'in' ? digits + 2 : digits)));
}

/** A face by its word, anything else by its name. */
export function called(of: string, { part }: Told): string {
  return (FACES as readonly string[]).includes(of) ? part.faces[of as Face].toLowerCase() : of;
}

function side({ face, state }: Side, w: Told): string {
  return `${w.part.faces[face]} (${w.markdown.states[state]})`;
}

/** What hands do to hold it, one line each. */
export function holdingLines(h: Holding, w: Told): readonly string[] {
  const { markdown: m, part } = w;
  const more = {
    words: w.hold,
    face: (face: Face) => part.faces[face],
    state: (state: Side['state']) => m.states[state],
    called: (name: string) => name,
    length: (mm: number) => size(mm, w),
    place: (mm: number) => place(mm, w),
  };
  if (!h.fixed || !h.moving || !h.vise) return onTableLines(h, more);
  const ends = (['left', 'right'] as const).flatMap((at) => {
    const end = h.out![at];
    return end.mm > 0.05 ? [m.endOut(part.faces[end.face], size(end.mm, w, 1), m.sides[at]!)] : [];
  });
  return [
    m.viseTrue(h.vise.name),
    m.toFixed(side(h.fixed, w)),
    ...besidesJaws(h, more),
    ...(h.stop ? [m.toStop(side(h.stop, w), m.sides[h.stop.at]!)] : []),
    ...ends,
    ...(h.packing ? [m.offcut(size(h.packing.widthMm, w), m.sides[h.packing.at]!)] : []),
    h.parallelsMm ? m.onParallels(size(h.parallelsMm, w)) : m.onBed,
    m.inJaws(size(h.gripMm!, w), size(h.aboveMm!, w)),
    m.bar(h.roundBar ?? false),
    m.knocked(Boolean(h.parallelsMm)),
  ];
}

/** `its middle at X 56.00 Y 20.00`, and `20.00 + 5.00 + 5.00 / cos 30°` */
function leaningWords({ leans, placeMm, tipMm }: Touch, w: Told): readonly [where: string, sum: string] {
  if (!leans) return ['', ''];
  const { markdown: m } = w;
  const [r, deg] = [place(tipMm / 2, w), Number(leans.deg.toFixed(2))];
  const at = `X ${place(leans.at[0], w)} Y ${place(leans.at[1], w)}`;
  const where = leans.begins === undefined ? m.middleAt(at) : m.beginOf(leans.begins);
  return [where, `${place(placeMm, w)} + ${r} + ${r} / cos ${deg}°`];
}

export function touchWords(t: Touch, w: Told): string {
  const { markdown: m, part } = w;
  if (t.missing !== undefined) return m.cannotTouch(t.axis, t.missing);
  const shows = `${m.shows(t.axis, place(t.showsMm, w), w.dial !== undefined)}${inTurns(t.showsMm, w)}`;
  const after = t.afterPass > 0 ? m.afterPass(t.afterPass) : '';
  const tip = size(t.tipMm, w);
  switch (t.how) {
    case 'bore':
      return `${m.swept(t.of)}${after}: ${shows}`;
    case 'parallels':
      return `${m.onParallel(tip)}: ${shows}`;
    case 'top':
      return `${m.onTop(tip)}${after}: ${shows}`;
    case 'leaning':
      return `${m.onLeaning(tip, part.faces[t.of as Face] ?? t.of, ...leaningWords(t, w))}${after}: ${shows}`;
    case 'face': {
      const from = t.cameFrom ? m.coming(m.sides[t.cameFrom]!) : '';
      const face = part.faces[t.of as Face] ?? t.of.toUpperCase();
      return `${m.face(face, m.with[t.with], t.tipMm > 0 ? ` ⌀${tip}` : '', from)}${after}: ${shows}`;
    }
    default:
      return t.how satisfies never;
  }
}

export function speedWords({ rpm, ask, setBy }: Speed, { markdown: m }: Told): string {
  if (setBy === 'hand') return m.byHand;
  const turns = setBy === 'step' ? m.step(rpm) : String(rpm);
  return ask ? m.orLess(turns) : turns;
}

export function feedWords(feed: Feed, w: Told): string {
  const { markdown: m, units } = w;
  if (feed.by === 'feel') return m.byFeel;
  if (feed.by === 'program')
    return `${Number((feed.mmPerMin / mmPer(units)).toFixed(units === 'in' ? 1 : 0))} ${units}/min`;
  if (feed.strokeMm / feed.mmPerS > 0 && feed.mmPerS >= 2) return `${size(feed.mmPerS, w, 1)} ${units}/s`;
  return m.inSeconds(size(feed.strokeMm, w), units, Math.round(feed.secondsAStroke));
}

export function unsetAxes(unset: PassRow['unset'], zero: PassRow['unset'][number]['zero']): readonly string[] {
  return unset.flatMap((u) => (u.zero === zero ? [u.axis] : []));
}

/** Before an axis has its zero its places are only those of later pieces. */
export function unsetWords({ unset, offs }: PassRow, w: Told): string {
  const { markdown: m } = w;
  const both = ` ${m.and} `;
  const off = offs ? m.off(offs.axis, offs.mm.map((mm) => size(mm, w)).join(both)) : '';
  const [later, nowhere] = [unsetAxes(unset, 'later').join(both), unsetAxes(unset, 'nowhere').join(both)];
  return [...(later ? [m.later(later, off)] : []), ...(nowhere ? [m.nowhere(nowhere)] : [])].join('');
}

export function whereWords(where: Where, w: Told): string {
  const { markdown: m } = w;
  switch (where.type) {
    case 'at':
      return where.places.map((p) => `${station(p, w)}${turnsWords(p, w)}`).join('; ');
    case 'along':
      return where.ways.map((one) => way(one, w)).join(m.nextWay);
    case 'over':
      return m.over(where.ways.map((one) => way(one, w)).join(m.alsoOver), size(where.stepMm, w, 1));
    case 'as drawn':
      return m.asDrawn;
    default:
      return where satisfies never;
  }
}

/** For hand wheels: turns and marks. */
function turnsWords(at: Station, w: Told): string {
  return w.dial ? ` (X ${turnsOf(at[0], w.dial, w)}, Y ${turnsOf(at[1], w.dial, w)})` : '';
}

export function inTurns(mm: number, w: Told): string {
  return w.dial ? ` (${turnsOf(mm, w.dial, w)})` : '';
}

export function turnsOf(mm: number, dial: NonNullable<Told['dial']>, { setup }: Pick<Words, 'setup'>): string {
  const { back, turns, marks } = dialled(mm, dial);
  return setup.turns(back, turns, marks);
}

/** In the dial's own unit: a turn, a mark. */
export function dialWords({ unit, turnMm, markMm }: NonNullable<Told['dial']>): readonly [string, string, string] {
  const of = (mm: number) => String(Number((mm / mmPer(unit)).toFixed(4)));
  return [unit, of(turnMm), of(markMm)];
}

export function station([x, y]: Station, w: Pick<Told, 'units'>): string {
  return `X ${place(x, w)} Y ${place(y, w)}`;
}

/** Arcs turn left (counter-clockwise) or right about their middle. */
function way({ start, moves }: Way, w: Told): string {
  const to = (at: Station) => `${station(at, w)}${turnsWords(at, w)}`;
  const one = (move: Way['moves'][number]) =>
    move.type === 'line' ? to(move.to) : w.markdown.round(move.ccw, station(move.centre, w), to(move.to));
  return [to(start), ...moves.map(one)].join(' → ');
}

export function depthWords(p: PassRow, w: Told): string {
  const { markdown: m } = w;
  const tip = (z: number) => `Z ${place(z, w)}${inTurns(z, w)}`;
  const tips = p.tipsZ.map(tip).join(', ');
  const lift = p.liftEachMm === undefined ? '' : m.liftEach(size(p.liftEachMm, w, 1));
  const bored = p.diametersMm ? `⌀ ${p.diametersMm.map((d) => size(d, w)).join(', ')}; ` : '';
  const strokes = p.strokes === undefined ? '' : m.strokes(p.strokes);
  return `${bored}${lift}${p.tipsZ.length === 1 ? m.to(tips) : tips}${strokes}`;
}

/** How a cutter comes in where the opening is closed all round. */
export function entersWords({ enters, rampDeg = 0 }: PassRow, { enters: said }: Words['setup']): readonly string[] {
  return enters ? [said[enters](String(Number(rampDeg.toFixed(1))))] : [];
}

export function looksWords(row: PassRow, w: Told): string {
  return [...entersWords(row, w.setup), ...row.looks.map((l) => lookWords(l, w))].join('; ');
}

function lookWords(l: Look, w: Told): string {
  const { setup } = w;
  switch (l.look) {
    case 'clean-all-over':
      return setup.looks['clean-all-over'](l);
    case 'this-wide':
      return setup.thisWide(size(l.diameterMm, w, 1));
    case 'left-a-side':
      return setup.leftASide(size(l.mm, w));
    case 'even-width':
      return setup.evenWidth(size(l.mm, w));
    case 'over-tabs':
      return setup.overTabs(place(l.z, w), size(l.mm, w));
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

export function measureWords(row: MeasureRow, w: Told): string {
  const { of, to, what, limitsMm, with: gauge, fit, nominalMm, thread } = row;
  const { markdown: m, setup } = w;
  const named = to === undefined ? called(of, w) : setup.fromTo(called(of, w), called(to, w));
  const limits =
    limitsMm?.map((mm) => (mm / mmPer(w.units)).toFixed(w.units === 'in' ? 4 : 3)).join(' … ') ??
    setup.goNoGo(thread ?? '');
  return `${named}, ${m.whats[what]}${fit ? ` ${size(nominalMm, w)} ${fit}` : ''}: ${limits} ${m.gauge(gauge)}`;
}

export function passWords(p: PassRow, w: Told): string {
  const { does } = p.operation;
  const said = does === 'rest' ? w.markdown.corners : w.setup.does[does];
  const roughs = 'roughing' in p.tool && p.tool.roughing ? ` (${w.part.roughMill})` : '';
  return `${p.tool.name}${roughs}, ${w.markdown.out(size(p.stickoutMm, w, 0))} · ${said} ${p.of.map((of) => called(of, w)).join(', ')}`;
}

export function edgesWords(edges: readonly (readonly [Face, Face])[], w: Told): string {
  return edges.map((e) => e.map((f) => called(f, w)).join('/')).join(', ');
}

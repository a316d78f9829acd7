/** Rows of a set-up in plain words. Numbers as the read-out shows them, mm. */

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
import { minutesText } from '../report/cuts';
import { ROUNDING } from '../tolerance';

/** On every paper. */
export const CAUTION =
  'Eye protection. Hair and sleeves tied, no gloves. No key left in the chuck. Spindle stopped to measure; chips brushed. The shop’s rules and its trained staff go before this paper.';

export function place(mm: number): string {
  return (Math.abs(mm) < 0.005 ? 0 : mm).toFixed(2);
}

/** `0.4`, `12`, `6.25`: no more digits than there are. */
export function size(mm: number, digits = 2): string {
  return String(Number((Math.abs(mm) < ROUNDING ? 0 : mm).toFixed(digits)));
}

const STATE = { sawn: 'sawn', raw: 'rough, with stock on it', supplied: 'as supplied', cut: 'cut' } as const;

function side({ face, state }: Side): string {
  return `${face.toUpperCase()} (${STATE[state]})`;
}

/** What hands do to hold it, one line each. */
export function holdingLines(h: Holding): readonly string[] {
  if (!h.fixed || !h.moving || !h.vise)
    return [
      h.type ? `held by ${h.type}; the text of the part says where` : 'the text does not say how it is held',
      ...(h.places ? [`at ${h.places.map(station).join('; ')}`] : []),
    ];
  const ends = (['left', 'right'] as const).flatMap((at) => {
    const end = h.out![at];
    return end.mm > 0.05 ? [`${end.face.toUpperCase()} end ${size(end.mm, 1)} out of the jaws, on the ${at}`] : [];
  });
  return [
    `${h.vise.name} swept true; jaws clean, burrs off`,
    `${side(h.fixed)} to the fixed jaw, which stands at the back`,
    ...(h.stop ? [`${side(h.stop)} to the stop, on the ${h.stop.at}`] : []),
    ...ends,
    ...(h.packing ? [`an offcut ${size(h.packing.widthMm)} wide at the jaws’ ${h.packing.at} end`] : []),
    h.parallelsMm ? `on parallels of ${size(h.parallelsMm)}` : 'on the bed of the vise',
    `${size(h.gripMm!)} in the jaws, ${size(h.aboveMm!)} above`,
    `at the moving jaw ${h.roundBar ? 'a round bar' : 'no round bar'}`,
    h.parallelsMm ? 'knocked down, parallels tight' : 'knocked down',
  ];
}

export function touchWords(t: Touch): string {
  if (t.missing !== undefined) return `${t.axis}: cannot be touched: ${t.missing}`;
  const shows = `read-out shows ${t.axis} ${place(t.showsMm)}`;
  const after = t.afterPass > 0 ? ` after pass ${t.afterPass}` : '';
  switch (t.how) {
    case 'bore':
      return `${t.of} swept with an indicator${after}: ${shows}`;
    case 'parallels':
      return `each tool let down on a pin ⌀${size(t.tipMm)} on a parallel: ${shows}`;
    case 'top':
      return `each tool let down on a pin ⌀${size(t.tipMm)} on the top${after}: ${shows}`;
    case 'face': {
      const from = t.cameFrom ? `, coming from the ${t.cameFrom === 'front' ? 'front' : t.cameFrom}` : '';
      const tip = t.tipMm > 0 ? ` ⌀${size(t.tipMm)}` : '';
      return `${t.of.toUpperCase()} face with ${WITH[t.with]}${tip}${from}${after}: ${shows}`;
    }
    default:
      return t.how satisfies never;
  }
}
const WITH = {
  'edge-finder': 'an edge finder',
  probe: 'a probe',
  'tool-edge': 'the cutter’s edge',
  indicator: 'an indicator',
  stop: 'the stop',
  pin: 'a pin',
} as const;

export function speedWords({ rpm, ask, setBy }: Speed): string {
  if (setBy === 'hand') return 'by hand';
  const turns = setBy === 'step' ? `step ${rpm}` : String(rpm);
  return ask ? `${turns} or less: ask for its highest` : turns;
}

export function feedWords(feed: Feed): string {
  if (feed.by === 'feel') return 'by feel';
  if (feed.by === 'program') return `${Math.round(feed.mmPerMin)} mm/min`;
  if (feed.strokeMm / feed.mmPerS > 0 && feed.mmPerS >= 2) return `${size(feed.mmPerS, 1)} mm/s`;
  return `${size(feed.strokeMm)} mm in ${Math.round(feed.secondsAStroke)} s`;
}

export function unsetAxes(unset: PassRow['unset'], zero: PassRow['unset'][number]['zero']): readonly string[] {
  return unset.flatMap((u) => (u.zero === zero ? [u.axis] : []));
}

/** Before an axis has its zero its places are only those of later pieces. */
export function unsetWords({ unset, offs }: PassRow): string {
  const off = offs ? `, ${offs.axis} ${offs.mm.map((mm) => size(mm)).join(' and ')} off` : '';
  const [later, nowhere] = [unsetAxes(unset, 'later').join(' and '), unsetAxes(unset, 'nowhere').join(' and ')];
  return [
    ...(later ? [`${later} not set yet: touch the end with the cutter${off}; once set: `] : []),
    ...(nowhere ? [`${nowhere} cannot be set: nothing stands out to be touched; where it is known: `] : []),
  ].join('');
}

export function whereWords(where: Where, dial?: SetupPasses['dial']): string {
  switch (where.type) {
    case 'at':
      return where.places.map((p) => `${station(p)}${turnsWords(p, dial)}`).join('; ');
    case 'along':
      return where.ways.map(way).join('; then ');
    case 'over':
      return `all over within ${where.ways.map(way).join('; and ')}, strokes ${size(where.stepMm, 1)} apart`;
    case 'as drawn':
      return 'as drawn';
    default:
      return where satisfies never;
  }
}

/** For hand wheels: turns and marks. */
function turnsWords(at: Station, dial: SetupPasses['dial']): string {
  if (!dial) return '';
  const one = (mm: number) => {
    const { back, turns, marks } = dialled(mm, dial);
    return `${back ? 'back ' : ''}${turns} turns ${marks} marks`;
  };
  return ` (X ${one(at[0])}, Y ${one(at[1])})`;
}

export function station([x, y]: Station): string {
  return `X ${place(x)} Y ${place(y)}`;
}

/** Arcs turn left (counter-clockwise) or right about their middle. */
function way({ start, moves }: Way): string {
  const one = (m: Way['moves'][number]) =>
    m.type === 'line' ? station(m.to) : `${m.ccw ? 'left' : 'right'} round ${station(m.centre)} to ${station(m.to)}`;
  return [station(start), ...moves.map(one)].join(' → ');
}

export function depthWords(p: PassRow): string {
  const tips = p.tipsZ.map((z) => `Z ${place(z)}`).join(', ');
  const lift = p.liftEachMm === undefined ? '' : `lift each ${size(p.liftEachMm, 1)}; `;
  const bored = p.diametersMm ? `⌀ ${p.diametersMm.map((d) => size(d)).join(', ')}; ` : '';
  const strokes = p.strokes === undefined ? '' : `; ${p.strokes} times along, each a little nearer`;
  return `${bored}${lift}${p.tipsZ.length === 1 ? `to ${tips}` : tips}${strokes}`;
}

export function looksWords(looks: readonly Look[]): string {
  return looks.map(lookWords).join('; ');
}

function lookWords(l: Look): string {
  switch (l.look) {
    case 'clean-all-over':
      return l.then ? `clean all over, then zero ${l.then}` : 'clean all over';
    case 'this-wide':
      return `⌀${size(l.diameterMm, 1)} wide`;
    case 'left-a-side':
      return `${size(l.mm)} left a side`;
    case 'no-parallel-hit':
      return 'no parallel hit';
    case 'chips-clear':
      return 'chips come out';
    case 'square-start':
      return 'starts square';
    case 'smooth':
      return 'smooth';
    case 'even-width':
      return `${size(l.mm)} wide all along`;
    case 'clamp-free':
      return 'clear of the clamps';
    default:
      return l satisfies never;
  }
}

export function measureWords({ of, what, limitsMm, with: gauge, fit, nominalMm }: MeasureRow): string {
  const limits = limitsMm.map((mm) => mm.toFixed(3)).join(' … ');
  return `${of}, ${what}${fit ? ` ${size(nominalMm)} ${fit}` : ''}: ${limits} with a ${gauge}`;
}

export function passWords(p: PassRow): string {
  const does = p.operation.does === 'rest' ? 'corners' : p.operation.does;
  return `${p.tool.name}, ${size(p.stickoutMm, 0)} out · ${does} ${p.of.join(', ')}`;
}

export function minutesWords(minutes: readonly [number, number]): string {
  return minutesText(minutes);
}

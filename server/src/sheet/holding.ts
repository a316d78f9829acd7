/** What hands do to hold work that plain jaws alone do not hold, and what is to be done besides: a line each, in their order. */
import { FACES, type Face, type Hold } from '../model/model';
import type { Holding } from '../process/passes';
import type { HoldWords } from './language/hold-en';

interface HoldSaid {
  readonly words: HoldWords;
  readonly face: (face: Face) => string;
  readonly state: (state: NonNullable<Holding['seat']>['state']) => string;
  /** A feature as the sheet calls it. */
  readonly called: (name: string) => string;
  readonly length: (mm: number) => string;
  readonly place: (mm: number) => string;
}

/** Of work on the table, on a plate, in V-blocks, at an angle plate, in its stock. */
export function onTableLines(h: Holding, said: HoldSaid): readonly string[] {
  const { words: w } = said;
  const { hold } = h;
  if (!hold) return [w.notSaid];
  const places = (h.places ?? []).map((p) => p.map(([axis, mm]) => `${axis} ${said.place(mm)}`).join(' ')).join('; ');
  const on = w.on[hold.on ?? (hold.type === 'screws' ? 'plate' : 'table')];
  const down = h.seat ? [w.down(said.face(h.seat.face), said.state(h.seat.state), on)] : [];
  const stop = hold.stop ? [w.toStop(endOf(hold.stop.name, said))] : [];
  const clamps = hold.clamps && hold.clamps.length > 0 ? [w.clampsAt(hold.clamps.length, places)] : [];
  const screws = (hold.screws ?? []).map((s) => said.called(s.name)).join(', ');
  const ways: Readonly<Record<Hold['type'], () => readonly string[]>> = {
    vise: () => [w.notSaid],
    'soft-jaws': () => [w.notSaid],
    angle: () => tiltedLines(h, said),
    clamps: () => [w.clean(on), ...down, ...stop, ...turnedLines(h, said), ...clamps],
    screws: () => [w.clean(on), ...down, ...stop, ...turnedLines(h, said), w.screwsAt(screws, places)],
    tabs: () => [w.clean(on), ...down, w.frame(on), ...tabLines(hold, places, said)],
    'v-block': () => [
      w.clean(on),
      w.inVBlocks(hold.vBlock?.name ?? '?', on),
      ...stop,
      ...turnedLines(h, said),
      ...clamps,
    ],
    'angle-plate': () => [w.clean(on), ...plateLines(h, said), ...stop, ...turnedLines(h, said), ...clamps],
  };
  return ways[hold.type]();
}

/** What work in jaws needs besides: how it leans, a second vise, a V-block, which way it is turned, how far its bar stands out. */
export function besidesJaws(h: Holding, said: HoldSaid): readonly string[] {
  const { words: w, length } = said;
  const { hold } = h;
  if (!hold) return [];
  const { apart, vBlock, overhang } = hold;
  return [
    ...tiltedLines(h, said),
    ...(apart ? [w.twoVises(length(apart.mm))] : []),
    ...secondLines(h, said),
    ...(vBlock && h.moving ? [w.blockInVise(vBlock.name, said.face(h.moving.face))] : []),
    ...(overhang && !isTold(overhang, h) ? [w.barOut(said.face(overhang.face), length(overhang.by.mm))] : []),
    ...turnedLines(h, said),
  ];
}

/** Two pieces in the jaws: how they are put in, and the zero of the second. */
function secondLines({ second }: Holding, { words: w, length, place }: HoldSaid): readonly string[] {
  if (!second) return [];
  const way = second.mm < 0 ? 'left' : 'right';
  return [
    w.twoPieces(way, second.gapMm > 0 ? length(second.gapMm) : undefined),
    ...(second.padMm > 0 ? [w.pad(length(second.padMm))] : []),
    w.secondZero(place(second.mm)),
    w.lastAlone,
  ];
}

/** The same stands with the ends already. */
function isTold({ face, by }: NonNullable<Hold['overhang']>, { out }: Holding): boolean {
  return [out?.left, out?.right].some((end) => end?.face === face && Math.abs(end.mm - by.mm) < 0.05);
}

function tiltedLines({ hold }: Holding, { words }: HoldSaid): readonly string[] {
  const { tilt } = hold ?? {};
  if (!tilt) return [];
  return [words.tilted(String(Number(tilt.angle.deg.toFixed(2))).replace('-', '−'), tilt.about)];
}

function turnedLines({ clock }: Holding, said: HoldSaid): readonly string[] {
  return clock ? [said.words.clocked[clock.by](endOf(clock.of.name, said))] : [];
}

function plateLines({ hold, plate }: Holding, said: HoldSaid): readonly string[] {
  const { words: w } = said;
  if (!hold?.against || !hold.anglePlate) return [];
  const first = w.atPlate(said.face(hold.against.name), hold.anglePlate.name);
  if (!plate) return [first];
  const lies = plate.hangs ? w.overEdge : hold.out ? '' : w.besideFoot;
  return [first, ...(plate.outMm > 0 ? [w.abovePlate(said.length(plate.outMm))] : []), ...(lies ? [lies] : [])];
}

function tabLines({ tabs }: Hold, places: string, { words, length }: HoldSaid): readonly string[] {
  if (!tabs) return [];
  const stays = words.tabs(tabs.count, length(tabs.width.mm), length(tabs.height.mm));
  return [stays, ...(places ? [words.tabsAt(places)] : [])];
}

function endOf(name: string, { face, called }: HoldSaid): string {
  return (FACES as readonly string[]).includes(name) ? face(name as Face) : called(name);
}

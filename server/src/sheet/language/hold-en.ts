/** How work is held where it is not by plain jaws alone, in English: a box each on the sheet. */
import type { Hold, Setup } from '../../model/model';

type On = NonNullable<Hold['on']>;
type ClockWay = NonNullable<Setup['clock']>['by'];

export const HOLD_EN = {
  notSaid: 'the spec does not say how it is held',
  on: { table: 'the table', plate: 'the plate' } as Readonly<Record<On, string>>,
  clean: (on: string) => `${on} clean, burrs off`,
  down: (face: string, state: string, on: string) => `${face} (${state}) down on ${on}`,
  toStop: (face: string) => `${face} to the stop`,
  inVBlocks: (block: string, on: string) => `round, in ${block} on ${on}, one under each outer clamp`,
  blockInVise: (block: string, face: string) => `${block} between ${face} and the moving jaw`,
  atPlate: (face: string, plate: string) => `${face} against ${plate}, its side swept true`,
  abovePlate: (mm: string) => `${mm} out above the plate`,
  overEdge: 'its foot over an edge of the table: it hangs beside it',
  besideFoot: 'standing on the table beside the plate’s foot',
  clampsAt: (n: number, places: string) => `${n} clamps, pressing at ${places}`,
  screwsAt: (holes: string, places: string) => `screws through ${holes}${places ? `, at ${places}` : ''}`,
  frame: (on: string) => `the frame of stock clamped to ${on}`,
  tabs: (n: number, wide: string, high: string) =>
    `${n} tabs stay, ${wide} wide, ${high} high: cut and filed off afterwards`,
  tabsAt: (places: string) => `the middles of the tabs on the outline at ${places}`,
  twoVises: (mm: string) => `a second such vise in line, ${mm} from middle to middle; both fixed jaws swept as one`,
  twoPieces: (way: 'left' | 'right', gap: string | undefined) =>
    `a second piece to the ${way} of the first, ${gap ? `a spacer of ${gap} between them` : 'against it'}; neither loose when tapped`,
  pad: (mm: string) => `a soft strip, ${mm} thick, at the moving jaw over both`,
  secondZero: (x: string) =>
    `second piece: zero X touched on it, about ${x} from that of the first; every pass on both`,
  lastAlone: 'a last piece alone: an offcut as wide in the place of the second',
  tilted: (deg: string, about: string | undefined) => `tilted ${deg}°${about ? ` about ${about}` : ''}, angle checked`,
  clocked: {
    indicator: (of: string) => `turned till an indicator runs true along ${of}`,
    pin: (of: string) => `turned by a pin in ${of}, set level`,
    square: (of: string) => `turned till a square lies against ${of}`,
  } as Readonly<Record<ClockWay, (of: string) => string>>,
  barOut: (face: string, mm: string) => `as put in, ${mm} of it out of the jaws at ${face}`,
};

export type HoldWords = typeof HOLD_EN;

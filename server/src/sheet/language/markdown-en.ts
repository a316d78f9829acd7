/** The words of the Markdown sheet in English, where they are others than those of the drawn pages. */
import type { Gauge, MeasureRow, Side, Touch } from '../../process/passes';

export const MARKDOWN_EN = {
  caution:
    'Eye protection. Hair and sleeves tied, no gloves. No key left in the chuck. Spindle stopped to measure; chips brushed. The shop’s rules and its trained staff go before this paper.',
  noMaterial: 'no material',
  from: (file: string, mark: string, date: string, creator: string) =>
    `From ${file}, mark **${mark}**, ${date}, ${creator}. If the spec changed, this paper is void.`,
  foot: (mark: string) =>
    `Mark ${mark}: over part, shop and program. If the spec changed, this paper is void. Changed at the machine (speed, feed, trouble): write it down, and change the spec.`,
  setup: (index: number, count: number, name: string, face: string) =>
    `Set-up ${index} of ${count}: ${name}, ${face} up`,
  noMachine: 'no machine',
  takes: (first: string, further: string) => `first piece ${first}, each further ${further}`,
  counts: (from: string, dials: boolean) =>
    `${dials ? 'numbers count' : 'the read-out counts'} from the finished part: ${from}; X grows to the right, Y to the back, Z up`,
  zeroAt: (axis: string, face: string) => `${axis} 0 at ${face}`,
  lengthsIn: (units: 'mm' | 'in'): string => (units === 'in' ? 'Lengths in inches.' : 'Lengths in mm.'),
  hold: 'Hold',
  zero: 'Zero',
  passes: 'Passes',
  before: 'Before it leaves the vise',
  titles: ['tool · cut', 'rpm', 'feed', 'go to', 'depth', 'way', 'look'],
  ways: { climb: 'climb', conventional: 'conventional', down: 'down' },
  moved:
    'Moved, bumped, unclamped: stop; touch every zero again before anything is cut. The shop’s rules and its trained staff go before this sheet.',
  samePlace: 'same place: lock both',
  stop: 'STOP',
  halve: 'cut half of what is left, measure again',
  sweep: (of: string, total: string, at: string) => `sweep ${of}, ${total} in all, set ${at}`,
  toolIn: (tool: string, z: string) => `${tool} in; Z at touch ${z}`,
  saw: (face: string, long: string, leaves: string | undefined) =>
    `out of the vise, saw it off at ${face}, ${long} long: ${leaves ? `${leaves} stays to be milled` : 'the face stays as sawn'}`,
  file: (of: string, mm: string, edges: string, setup: number) => `${of}: file ${mm} at ${edges} after set-up ${setup}`,
  missing: (of: string, wanted: string) => `${of}: nothing in the shop does it: ${wanted}`,
  states: { sawn: 'sawn', raw: 'rough, with stock on it', supplied: 'as supplied', cut: 'cut' } as Readonly<
    Record<Side['state'], string>
  >,
  viseTrue: (vise: string) => `${vise} swept true; jaws clean, burrs off`,
  toFixed: (side: string) => `${side} to the fixed jaw, which stands at the back`,
  toStop: (side: string, at: string) => `${side} to the stop, on the ${at}`,
  endOut: (face: string, mm: string, at: string) => `${face} end ${mm} out of the jaws, on the ${at}`,
  offcut: (mm: string, at: string) => `an offcut ${mm} wide at the jaws’ ${at} end`,
  onParallels: (mm: string) => `on parallels of ${mm}`,
  onBed: 'on the vise bed',
  inJaws: (grip: string, above: string) => `${grip} in the jaws, ${above} above`,
  bar: (round: boolean): string =>
    round ? 'a round bar between the workpiece and the moving jaw' : 'the moving jaw straight on the workpiece',
  knocked: (parallels: boolean): string => (parallels ? 'knocked down, parallels tight' : 'knocked down'),
  sides: { left: 'left', right: 'right', front: 'front', back: 'back' } as Readonly<Record<string, string>>,
  cannotTouch: (axis: string, why: string) => `${axis}: cannot be touched: ${why}`,
  shows: (axis: string, at: string, dials: boolean) => `${dials ? 'set the dial to' : 'read-out shows'} ${axis} ${at}`,
  afterPass: (n: number) => ` after pass ${n}`,
  swept: (of: string) => `${of} swept with an indicator`,
  onParallel: (tip: string) => `each tool let down on a pin ⌀${tip} on a parallel`,
  onLeaning: (tip: string, on: string, where: string, sum: string) =>
    `each tool let down on a pin ⌀${tip} lying on ${on}, over ${where}, ${sum}`,
  middleAt: (at: string) => `its middle at ${at}`,
  beginOf: (of: string) => `the place where ${of} begins`,
  alongSpindle: (on: string) => `Z 0 where the pin lies on ${on}, along the spindle`,
  onTop: (tip: string) => `each tool let down on a pin ⌀${tip} on the top`,
  face: (face: string, gauge: string, tip: string, from: string) => `${face} face with ${gauge}${tip}${from}`,
  coming: (from: string) => `, coming from the ${from}`,
  with: {
    'edge-finder': 'an edge finder',
    probe: 'a probe',
    'tool-edge': 'the cutter’s edge',
    indicator: 'an indicator',
    stop: 'the stop',
    pin: 'a pin',
  } as Readonly<Record<Touch['with'], string>>,
  byHand: 'by hand',
  step: (rpm: number) => `step ${rpm}`,
  orLess: (turns: string) => `${turns} or less: ask for its highest`,
  byFeel: 'by feel',
  inSeconds: (length: string, units: string, s: number) => `${length} ${units} in ${s} s`,
  and: 'and',
  off: (axis: string, mm: string) => `, ${axis} ${mm} off`,
  later: (axes: string, off: string) => `${axes} not set yet: touch the end with the cutter${off}; once set: `,
  nowhere: (axes: string) => `${axes} cannot be set: nothing there can be touched; where it is known: `,
  nextWay: '; then ',
  over: (ways: string, step: string) => `all over within ${ways}, strokes ${step} apart`,
  alsoOver: '; and ',
  asDrawn: 'as drawn',
  round: (ccw: boolean, centre: string, to: string) => `${ccw ? 'left' : 'right'} round ${centre} to ${to}`,
  liftEach: (mm: string) => `lift each ${mm}; `,
  strokes: (n: number) => `; ${n} times along, each a little nearer`,
  to: (tip: string) => `to ${tip}`,
  whats: { diameter: 'diameter', width: 'width', depth: 'depth', distance: 'distance', thread: 'thread' } as Readonly<
    Record<MeasureRow['what'], string>
  >,
  gauge: (gauge: Gauge) => `with a ${gauge}`,
  corners: 'corners',
  out: (mm: string) => `${mm} out`,
};

export type MarkdownWords = typeof MARKDOWN_EN;

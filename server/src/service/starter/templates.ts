/** What a part can start as: features by the size of its outside and by what the shop drills and taps. Names and sizes are a first guess, to be changed. */
import type { Shop } from '../../model/shop-model';
import { findThread } from '../../tables/thread-names';
import { writeLength } from '../../text/format';
import { ROUNDING } from '../../tolerance';
import { gridOf, type Outside } from './outside';
import type { Template } from './protocol';

/** A feature by its lines; the first is its name's. */
export interface Sketch {
  readonly name: string;
  readonly lines: readonly string[];
  /** A plainer one, where this cannot be made. */
  readonly instead?: Sketch;
}

/** Features in their order; what the shop cannot make of them is left out by whoever asks. */
export function sketchesOf(template: Template, outside: Outside, shop: Shop): readonly Sketch[] {
  const kit = kitOf(outside, shop);
  const size = `size: ${kit.write(kit.grid)}`;
  const some = sketch('edges', 'sharp edges broken', 'kind: chamfer', 'edges: [top]', size);
  const edges: Sketch = {
    ...sketch('edges', 'sharp edges broken', 'kind: chamfer', 'edges: [top, bottom]', size),
    instead: some,
  };
  switch (template) {
    case 'bearing-block':
      return [...bore(kit), ...(outside.isRound ? circle(kit) : besides(kit)), edges];
    case 'plate':
      return [...(outside.isRound ? circle(kit) : corners(kit)), ...recess(kit), edges];
    case 'blank':
      return [{ ...edges, instead: { ...some, ...middle(kit) } }];
    default:
      return template satisfies never;
  }
}

interface Screw {
  readonly name: string;
  readonly mm: number;
  readonly drillMm: number;
}

interface Kit {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly isRound: boolean;
  readonly grid: number;
  readonly write: (mm: number) => string;
  /** Down to the grid. */
  readonly even: (mm: number) => number;
  /** The widest screw's thread, at most so wide, that the shop taps. */
  readonly threadTo: (mm: number) => Screw | undefined;
  /** The widest drill, at most so wide. */
  readonly drillTo: (mm: number) => number | undefined;
}

/** Coarse, right-hand, and no pipe’s. */
const PLAIN_THREAD = /^(?:M\d+(?:\.\d)?|\S+ UNC)$/;
/** Screws that a first part has no use for. */
const WIDEST_SCREW = 8;

function kitOf({ sizeMm: [x, y, z], isRound, units }: Outside, { tools }: Shop): Kit {
  const grid = gridOf(units);
  const taps = tools.flatMap((tool) => {
    const thread = tool.kind === 'tap' && PLAIN_THREAD.test(tool.thread) ? findThread(tool.thread) : undefined;
    return thread ? [{ name: thread.designation, mm: thread.diameterMm, drillMm: thread.tapDrillMm }] : [];
  });
  const drills = tools.flatMap((tool) => (tool.kind === 'drill' ? [tool.diameterMm] : []));
  return {
    x,
    y,
    z,
    isRound,
    grid,
    write: (mm) => writeLength(mm, units),
    even: (mm) => Math.max(grid, Math.floor(mm / grid + ROUNDING) * grid),
    threadTo: (mm) => taps.filter((t) => t.mm <= Math.min(mm, WIDEST_SCREW)).sort((a, b) => b.mm - a.mm)[0],
    drillTo: (mm) => drills.filter((d) => d <= mm).sort((a, b) => b - a)[0],
  };
}

function sketch(name: string, remark: string, ...lines: readonly string[]): Sketch {
  return { name, lines: [`${name}:${remark && ` # ${remark}`}`, ...lines.map((line) => `  ${line}`)] };
}

const MIDDLE = 'at: { x: center, y: center }';

/** What is cut where no edge can be: a hole through the middle. */
function middle(kit: Kit): Pick<Sketch, 'instead'> {
  const wide = kit.drillTo(0.3 * kit.y);
  if (wide === undefined) return {};
  const lines = ['kind: hole', 'face: top', MIDDLE, `diameter: ${kit.write(wide)}`, depthLine(kit, wide)];
  return { instead: sketch('middle', '', ...lines) };
}

const seatOf = ({ x, y, z, even }: Kit) => even(Math.min(0.55 * y, 0.4 * x, 1.6 * z, 22));

/** A flat-bottomed seat, and a hole through its floor. */
function bore(kit: Kit): Sketch[] {
  const { z, write, even } = kit;
  const seat = seatOf(kit);
  const through = kit.drillTo(0.6 * seat) ?? even(0.55 * seat);
  const seatTo = (fit: string) =>
    sketch(
      'seat',
      // Whether it is a bearing's seat its fit says, which may be another once our own fixes have been at it.
      'a flat-bottomed bore',
      'kind: hole',
      'face: top',
      MIDDLE,
      `diameter: ${write(seat)} ${fit} # value, then fit or tolerance`,
      `depth: ${write(even(Math.min(0.45 * z, 7)))}`,
      'bottom: flat',
    );
  return [
    { ...seatTo('H7'), instead: seatTo('H9') },
    sketch(
      'shaft',
      'starts on the seat’s floor and goes through',
      'kind: hole',
      'face: top',
      'from: seat',
      MIDDLE,
      `diameter: ${write(through)}`,
      'depth: through',
    ),
  ];
}

/** Through where a drill gets there in one go. */
function depthLine({ z, write, even }: Kit, drillMm: number): string {
  const most = even(MOST_DIAMETERS * drillMm);
  return `depth: ${z <= most ? 'through' : write(most)}`;
}

/** A hole deeper than this is drilled in pecks (below the rule of thumb of `machine/no-coolant`). */
const MOST_DIAMETERS = 4.4;

function threadLines(kit: Kit, { name, mm, drillMm }: Screw): string[] {
  const { z, write, even } = kit;
  const deep = even(2 * mm);
  const thread = deep < z ? [`thread-depth: ${write(deep)} # more turns hold nothing`] : [];
  return [`thread: ${name}`, depthLine(kit, drillMm), ...thread];
}

/** Two tapped holes, one on each side of the seat. */
function besides(kit: Kit): Sketch[] {
  const { x, y, write, even } = kit;
  const beside = (x - seatOf(kit)) / 2;
  const thread = kit.threadTo(Math.min(0.3 * beside, 0.2 * y));
  if (!thread) return [];
  const pitch = even(seatOf(kit) + beside);
  return [
    sketch(
      'mount',
      `two tapped holes, ${write(pitch)} apart`,
      'kind: hole',
      'face: top',
      MIDDLE,
      `pattern: { line: { x: ${write(pitch)}, count: 2 } }`,
      ...threadLines(kit, thread),
    ),
  ];
}

/** Four tapped holes round the middle. */
function circle(kit: Kit): Sketch[] {
  const { x, write, even } = kit;
  const seat = seatOf(kit);
  const ring = (x - seat) / 2;
  const thread = kit.threadTo(0.35 * ring);
  if (!thread) return [];
  return [
    sketch(
      'mount',
      'four tapped holes on a circle',
      'kind: hole',
      'face: top',
      MIDDLE,
      `pattern: { bolt-circle: { diameter: ${write(even(seat + ring))}, count: 4 } }`,
      ...threadLines(kit, thread),
    ),
  ];
}

/** A hole past it misses the parallel under its edge (common practice, no source). */
const PARALLEL_MM = 6;

/** Four through holes for screws. */
function corners(kit: Kit): Sketch[] {
  const { x, y, write, even } = kit;
  const diameter = kit.drillTo(Math.min(0.12 * y, 5.5));
  if (diameter === undefined) return [];
  const edge = even(Math.max(1.6 * diameter, PARALLEL_MM + 0.5 * diameter + 2));
  return [
    sketch(
      'screws',
      'a hole in each corner',
      'kind: hole',
      'face: top',
      MIDDLE,
      `pattern: { grid: { x: { pitch: ${write(x - 2 * edge)}, count: 2 }, y: { pitch: ${write(y - 2 * edge)}, count: 2 } } }`,
      `diameter: ${write(diameter)}`,
      depthLine(kit, diameter),
    ),
  ];
}

/** A recess in the middle, its corners as a cutter leaves them. */
function recess(kit: Kit): Sketch[] {
  return [{ ...recessOf(kit, 1), instead: recessOf(kit, 0.6) }];
}

function recessOf({ x, y, z, isRound, write, even }: Kit, share: number): Sketch {
  const head = ['kind: pocket', 'face: top', MIDDLE];
  const depth = `depth: ${write(even(share * Math.min(0.35 * z, 8)))}`;
  if (isRound)
    return sketch(
      'recess',
      'a pocket; its corners are as a cutter leaves them',
      ...head,
      `diameter: ${write(even(0.4 * share * x))}`,
      depth,
    );
  const [wide, high] = [even(0.45 * share * x), even(0.4 * share * y)];
  const corner = `corner-radius: ${write(even(Math.min(0.3 * high, 5.5)))} # a cutter a little smaller rolls through`;
  return sketch(
    'recess',
    'a pocket; its corners are as a cutter leaves them',
    ...head,
    `size: { x: ${write(wide)}, y: ${write(high)} }`,
    corner,
    depth,
  );
}

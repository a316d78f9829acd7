/** Parts drawn at random as plain data, and edits of them, each with what it changed. */
import fc from 'fast-check';

type Fields = Readonly<Record<string, unknown>>;
export interface PartData {
  readonly [field: string]: unknown;
  readonly features: Readonly<Record<string, Fields>>;
  readonly setups: Readonly<Record<string, Fields>>;
  readonly tolerances: readonly Fields[];
}

interface Edit {
  readonly name: string;
  readonly edit: (part: PartData) => PartData;
  /** What became of features, by the name in the new text; of what is gone, in the old one. */
  readonly features?: Readonly<Record<string, readonly string[]>>;
  /** What of the part, and of its set-ups, by what it is told under. */
  readonly part?: readonly string[];
  readonly setups?: readonly string[];
}

/** Text of our own that is read as any other: JSON is YAML. */
export function textOf({ features, ...head }: PartData): string {
  const lines = (of: object) => Object.entries(of).map(([key, value]) => `${key}: ${JSON.stringify(value)}\n`);
  return `${lines(head).join('')}features:\n${lines(features)
    .map((l) => `  ${l}`)
    .join('')}`;
}

const int = (min: number, max: number) => fc.integer({ min, max });

/** Every kind of thing that is edited below is in it, at places and of sizes that are drawn. */
export const drawnPart: fc.Arbitrary<PartData> = fc
  .record({ x: int(0, 3), y: int(0, 3), deep: int(3, 6), bore: int(14, 18), pitch: int(24, 30), wide: int(5, 7) })
  .map(({ x, y, deep, bore, pitch, wide }) => ({
    part: 'drawn',
    material: 'aluminium-6061-t6',
    quantity: 2,
    tolerance: 'ISO 2768-m',
    body: { x: 140, y: 90, z: 20 },
    stock: { form: 'flat-bar', extra: { left: 1, right: 1 } },
    features: {
      seat: {
        kind: 'hole',
        face: 'top',
        at: { x: 30 + x, y: 60 + y },
        diameter: `${bore} H7`,
        depth: deep,
        bottom: 'flat',
      },
      screws: {
        ...{ kind: 'hole', face: 'top', at: { x: 30 + x, y: 20 }, pattern: { line: { x: pitch, count: 2 } } },
        ...{ thread: 'M5', depth: 'through' },
      },
      ties: {
        ...{ kind: 'hole', face: 'top', at: { x: 110, y: 20 + y } },
        ...{ pattern: { grid: { x: { pitch: 16, count: 2 }, y: { pitch: 12, count: 2 } } } },
        ...{ diameter: wide, depth: 'through' },
      },
      well: {
        ...{
          kind: 'pocket',
          face: 'top',
          at: { x: 75, y: 60 },
          size: { x: 40, y: 30 },
          'corner-radius': 4,
          depth: deep,
        },
        islands: { boss: { at: { x: 75, y: 60 }, size: { x: 10, y: 8 }, 'corner-radius': 2 } },
      },
      way: {
        ...{ kind: 'slot', face: 'bottom', width: wide, depth: deep },
        ends: [
          { x: 30, y: 40 + y },
          { x: 60, y: 40 + y },
        ],
      },
      rim: { kind: 'chamfer', edges: ['top'], size: 0.5 },
    },
    tolerances: [{ position: 0.2, of: 'screws', datums: ['A'] }],
    datums: { A: 'bottom' },
    setups: {
      one: {
        up: 'top',
        hold: { vise: 'mill-vise-100', jaws: ['back', 'front'], grip: 6, stop: 'left' },
        zero: { x: 'left', y: 'back', z: 'parallels' },
        cuts: ['seat', 'screws', 'ties', 'well', 'rim'],
      },
      two: {
        up: 'bottom',
        hold: { vise: 'mill-vise-100', jaws: ['back', 'front'], grip: 6, stop: 'left' },
        zero: { x: 'left', y: 'back', z: 'parallels' },
        cuts: ['way'],
      },
    },
  }));

const head = (more: Fields) => (p: PartData) => ({ ...p, ...more });
const feature = (name: string, change: (f: Fields) => Fields) => (p: PartData) => ({
  ...p,
  features: { ...p.features, [name]: change(p.features[name]!) },
});
const setup = (name: string, change: (s: Fields) => Fields) => (p: PartData) => ({
  ...p,
  setups: { ...p.setups, [name]: change(p.setups[name]!) },
});
/** Under another name wherever it is named. */
const called = (name: string, other: string) => (p: PartData) => {
  const swap = (value: unknown): unknown => {
    if (value === name) return other;
    if (Array.isArray(value)) return value.map(swap);
    return typeof value === 'object' && value !== null
      ? Object.fromEntries(Object.entries(value).map(([k, v]) => [k === name ? other : k, swap(v)]))
      : value;
  };
  return swap(p) as PartData;
};
const both = (first: Edit['edit'], second: Edit['edit']) => (p: PartData) => second(first(p));
const at = (f: Fields) => f.at as { readonly x: number; readonly y: number };
const size = (f: Fields) => f.size as { readonly x: number; readonly y: number };

export const EDITS: readonly Edit[] = [
  {
    name: 'a fit',
    edit: feature('seat', (f) => ({ ...f, diameter: String(f.diameter).replace('H7', 'H8') })),
    features: { seat: ['tolerance'] },
  },
  {
    name: 'a size that keeps its fit',
    edit: feature('seat', (f) => ({ ...f, diameter: `${Number.parseInt(String(f.diameter), 10) + 2} H7` })),
    features: { seat: ['resized'] },
  },
  {
    name: 'limits in place of a fit',
    edit: feature('seat', (f) => ({ ...f, diameter: `${Number.parseInt(String(f.diameter), 10)} ±0.1` })),
    features: { seat: ['tolerance'] },
  },
  {
    name: 'a thread',
    edit: feature('screws', (f) => ({ ...f, thread: 'M6' })),
    features: { screws: ['resized', 'changed'] },
  },
  {
    name: 'a through hole made blind',
    edit: feature('ties', (f) => ({ ...f, depth: 8 })),
    features: { ties: ['resized'] },
  },
  {
    name: 'a counterbore',
    edit: feature('ties', (f) => ({ ...f, counterbore: { diameter: 11, depth: 3 } })),
    features: { ties: ['resized'] },
  },
  {
    name: 'a pattern’s count',
    edit: feature('screws', (f) => ({ ...f, pattern: { line: { x: 20, count: 3 } } })),
    features: { screws: ['moved'] },
  },
  {
    name: 'a pattern’s pitch',
    edit: feature('ties', (f) => ({
      ...f,
      pattern: { grid: { x: { pitch: 18, count: 2 }, y: { pitch: 12, count: 2 } } },
    })),
    features: { ties: ['moved'] },
  },
  {
    name: 'a place',
    edit: feature('well', (f) => ({ ...f, at: { x: at(f).x + 1, y: at(f).y } })),
    // Its island stays where it is: it lies elsewhere in the pocket.
    features: { well: ['changed', 'moved'] },
  },
  {
    name: 'a pocket’s size',
    edit: feature('well', (f) => ({ ...f, size: { x: size(f).x + 2, y: size(f).y } })),
    features: { well: ['resized'] },
  },
  {
    name: 'an island',
    edit: feature('well', (f) => ({
      ...f,
      islands: { boss: { at: { x: 77, y: 60 }, size: { x: 10, y: 8 }, 'corner-radius': 2 } },
    })),
    features: { well: ['changed'] },
  },
  {
    name: 'no island',
    edit: feature('well', ({ islands: _, ...f }) => f),
    features: { well: ['changed'] },
  },
  { name: 'edges broken wider', edit: feature('rim', (f) => ({ ...f, size: 0.8 })), features: { rim: ['resized'] } },
  {
    name: 'edges of another face too',
    edit: feature('rim', (f) => ({ ...f, edges: ['top', 'bottom'] })),
    features: { rim: ['changed'] },
  },
  {
    name: 'a slot moved',
    edit: feature('way', (f) => ({
      ...f,
      ends: (f.ends as { x: number; y: number }[]).map((e) => ({ ...e, x: e.x + 3 })),
    })),
    features: { way: ['moved'] },
  },
  {
    name: 'a slot made longer',
    edit: feature('way', (f) => ({ ...f, ends: [(f.ends as object[])[0], { ...(f.ends as object[])[1], x: 70 }] })),
    features: { way: ['changed'] },
  },
  { name: 'a name', edit: called('seat', 'bearing'), features: { bearing: ['renamed'] } },
  {
    name: 'a name and a place',
    edit: both(
      feature('seat', (f) => ({ ...f, at: { x: at(f).x + 2, y: at(f).y } })),
      called('seat', 'bearing'),
    ),
    features: { bearing: ['renamed', 'moved'] },
  },
  {
    name: 'a name and a size',
    edit: both(
      feature('seat', (f) => ({ ...f, depth: 8 })),
      called('seat', 'bearing'),
    ),
    features: { bearing: ['renamed', 'resized'] },
  },
  {
    name: 'a feature more, and its cut',
    edit: both(
      (p) => ({
        ...p,
        features: {
          ...p.features,
          plug: { kind: 'hole', face: 'top', at: { x: 8, y: 8 }, diameter: 3, depth: 'through' },
        },
      }),
      setup('one', (s) => ({ ...s, cuts: [...(s.cuts as string[]), 'plug'] })),
    ),
    features: { plug: ['added'] },
    setups: ['set-up one: cuts'],
  },
  {
    name: 'a feature less, and its cut',
    edit: both(
      (p) => ({ ...p, features: Object.fromEntries(Object.entries(p.features).filter(([name]) => name !== 'ties')) }),
      setup('one', (s) => ({ ...s, cuts: ['seat', 'screws', 'well', 'rim'] })),
    ),
    features: { ties: ['gone'] },
    setups: ['set-up one: cuts'],
  },
  { name: 'the material', edit: head({ material: 'aluminium-7075-t6' }), part: ['material'] },
  { name: 'the quantity', edit: head({ quantity: 3 }), part: ['quantity'] },
  { name: 'the general tolerance', edit: head({ tolerance: 'ISO 2768-f' }), part: ['general tolerance'] },
  {
    name: 'the stock',
    edit: head({ stock: { form: 'flat-bar', extra: { left: 2, right: 1 } } }),
    part: ['stock extra left'],
  },
  {
    name: 'the stock’s form',
    edit: head({ stock: { form: 'plate', extra: { left: 1, right: 1 } } }),
    part: ['stock form'],
  },
  {
    name: 'a geometric tolerance more',
    edit: (p) => ({ ...p, tolerances: [...p.tolerances, { flatness: 0.05, of: 'bottom' }] }),
    part: ['flatness of bottom'],
  },
  { name: 'no geometric tolerance', edit: head({ tolerances: [] }), part: ['position of screws'] },
  {
    name: 'a set-up more',
    edit: (p) => ({
      ...p,
      features: { ...p.features, side: { kind: 'hole', face: 'left', at: { y: 45, z: 10 }, diameter: 3, depth: 6 } },
      setups: { ...p.setups, three: { ...p.setups.two!, up: 'left', cuts: ['side'] } },
    }),
    features: { side: ['added'] },
    setups: ['set-ups', 'set-up three'],
  },
  {
    name: 'a set-up less',
    edit: (p) => ({
      ...p,
      features: Object.fromEntries(Object.entries(p.features).filter(([name]) => name !== 'way')),
      setups: { one: p.setups.one! },
    }),
    features: { way: ['gone'] },
    setups: ['set-ups', 'set-up two'],
  },
  { name: 'the body', edit: head({ body: { x: 140, y: 92, z: 20 } }), part: ['body y'] },
  {
    name: 'a geometric tolerance',
    edit: head({ tolerances: [{ position: 0.1, of: 'screws', datums: ['A'] }] }),
    part: ['position of screws'],
  },
  { name: 'a datum', edit: head({ datums: { A: 'left' } }), part: ['datum A'] },
  {
    name: 'how it is held',
    edit: setup('one', (s) => ({ ...s, hold: { ...(s.hold as object), grip: 8 } })),
    setups: ['set-up one: hold grip'],
  },
  {
    name: 'where zero is',
    edit: setup('two', (s) => ({ ...s, zero: { x: 'right', y: 'back', z: 'parallels' } })),
    setups: ['set-up two: zero x'],
  },
  {
    name: 'a tool',
    edit: setup('one', (s) => ({ ...s, tools: { well: 'em-8' } })),
    setups: ['set-up one: tools well'],
  },
  {
    name: 'the order of cuts',
    edit: setup('one', (s) => ({ ...s, cuts: ['screws', 'seat', 'ties', 'well', 'rim'] })),
    setups: ['set-up one: cuts'],
  },
];

/** What means the same, said otherwise. */
export const SAME: Readonly<Record<string, (p: PartData) => PartData>> = {
  itself: (p) => p,
  'its text turned round': (p) => {
    const turned = <T extends object>(of: T) => Object.fromEntries(Object.entries(of).reverse()) as T;
    return turned({ ...p, features: turned(p.features) });
  },
  'numbers to parameters': (p) => {
    const { diameter, ...ties } = p.features.ties!;
    const { depth, ...seat } = p.features.seat!;
    return {
      ...p,
      parameters: { hole: diameter, deep: `${String(depth)} mm` },
      features: { ...p.features, ties: { ...ties, diameter: 'hole' }, seat: { ...seat, depth: 'deep' } },
    };
  },
  'inches in a place': (p) => ({
    ...p,
    features: { ...p.features, way: { ...p.features.way!, depth: `${String(p.features.way!.depth)}/25.4 * 1 in` } },
  }),
  'a pattern written out': (p) => {
    const { pattern, at: middle, ...screws } = p.features.screws!;
    const { x, y } = middle as { x: number; y: number };
    const { pitch } = { pitch: (pattern as { line: { x: number } }).line.x };
    return {
      ...p,
      features: {
        ...p.features,
        screws: {
          ...screws,
          pattern: {
            places: [
              { x: x - pitch / 2, y },
              { x: x + pitch / 2, y },
            ],
          },
        },
      },
    };
  },
};

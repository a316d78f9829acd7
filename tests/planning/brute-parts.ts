/** Parts for trying all plans of them: at most five features on at most three faces, drawn so that something is in the way. */
import fc from 'fast-check';
import { checkShop } from '../../server/src/rules/check';

/** One vise and few tools, so that all poses can be tried. */
export const BENCH = checkShop(`shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW, torque: 14 N·m }, feed: 3000 mm/min, coolant: flood } }
vises: { vise: { jaw: { width: 60, height: 32 }, opens: 90, force: 15 kN } }
parallels: [10, 18, 26]
holders: { collet: { diameter: 30, length: 50 } }
tools:
  em-6: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 18, reach: 22, shank: 6, material: carbide, holder: collet, stickout: 26 }
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 26, reach: 34, shank: 10, material: carbide, holder: collet, stickout: 40 }
  dr-5: { kind: drill, diameter: 5, flute-length: 40, material: hss, holder: collet, stickout: 60 }
  chamfer-90: { kind: chamfer-mill, diameter: 10, angle: 90, reach: 20, material: carbide, holder: collet, stickout: 30 }
`).shop;

type Size = Readonly<Record<'x' | 'y' | 'z', number>>;
const PLANES = {
  top: ['x', 'y', 'z'],
  bottom: ['x', 'y', 'z'],
  front: ['x', 'z', 'y'],
  back: ['x', 'z', 'y'],
  left: ['y', 'z', 'x'],
  right: ['y', 'z', 'x'],
} as const;
type Face = keyof typeof PLANES;
const BESIDE = { x: ['left', 'right'], y: ['front', 'back'], z: ['bottom', 'top'] } as const;

const whole = (lo: number, hi: number) =>
  fc.integer({ min: Math.ceil(lo), max: Math.max(Math.ceil(lo), Math.floor(hi)) });

/** A feature's text; `n` is its number, for a name that another stands on. */
function featureOn(face: Face, size: Size): fc.Arbitrary<(n: number) => string> {
  const [a, b, deep] = PLANES[face];
  const place = fc.tuple(whole(8, size[a] - 8), whole(8, size[b] - 8)).map(([u, v]) => `{ ${a}: ${u}, ${b}: ${v} }`);
  const on = (kind: string) => `kind: ${kind}, face: ${face}`;
  const depth = whole(2, Math.min(24, size[deep] * 0.7));
  const one = (text: fc.Arbitrary<string>) => text.map((t) => (n: number) => `  f${n}: { ${t} }\n`);
  return fc.oneof(
    {
      weight: 3,
      arbitrary: one(
        fc
          .tuple(place, fc.constantFrom(5, 5, 8), fc.oneof(fc.constant('through'), depth))
          .map(([at, d, z]) => `${on('hole')}, at: ${at}, diameter: ${d}, depth: ${z}`),
      ),
    },
    {
      weight: 2,
      arbitrary: one(
        fc
          .tuple(place, whole(12, 20), depth)
          .map(([at, d, z]) => `${on('pocket')}, at: ${at}, diameter: ${d}, depth: ${z}`),
      ),
    },
    {
      weight: 2,
      arbitrary: one(
        fc
          .tuple(fc.constantFrom(...BESIDE[a], ...BESIDE[b]), whole(4, 14), depth)
          .map(([e, w, z]) => `${on('step')}, along: ${e}, width: ${w}, depth: ${z}`),
      ),
    },
    {
      weight: 2,
      arbitrary: one(
        fc
          .tuple(whole(8, size[b] - 8), fc.constantFrom(6, 7, 12), fc.oneof(fc.constant('through'), depth))
          .map(
            ([v, w, z]) =>
              `${on('slot')}, ends: [{ ${a}: -8, ${b}: ${v} }, { ${a}: ${size[a] + 8}, ${b}: ${v} }], width: ${w}, depth: ${z}`,
          ),
      ),
    },
    { weight: 1, arbitrary: one(fc.constant(`kind: chamfer, edges: ${face}, size: 1`)) },
    {
      weight: 1,
      arbitrary: one(
        fc.oneof(fc.constant('through'), depth).map((z) => {
          const at = (u: number, v: number) => `{ ${a}: ${u}, ${b}: ${v}, round: 2 }`;
          const [u, v] = [size[a] - 5, size[b] - 5];
          return `${on('contour')}, path: [${at(5, 5)}, ${at(u, 5)}, ${at(u, v)}, ${at(5, v)}], depth: ${z}`;
        }),
      ),
    },
    {
      weight: 1,
      arbitrary: fc.tuple(place, whole(2, size[deep] * 0.4), whole(3, size[deep] * 0.4)).map(
        ([at, z, d]) =>
          (n: number) =>
            `  f${n}: { ${on('pocket')}, at: ${at}, diameter: 16, depth: ${z} }\n  f${n}-bore: { ${on('hole')}, from: f${n}, at: ${at}, diameter: 5, depth: ${d} }\n`,
      ),
    },
  );
}

interface Drawn {
  readonly size: Size;
  readonly features: readonly ((n: number) => string)[];
  readonly extra: readonly Face[];
  readonly extraMm: number;
}

function drawn(size: fc.Arbitrary<Size>, of: readonly Face[], most: number, extra: fc.Arbitrary<readonly Face[]>) {
  return fc
    .tuple(size, fc.subarray([...of], { minLength: 1, maxLength: Math.min(3, of.length) }))
    .chain(([body, faces]) =>
      fc.record({
        size: fc.constant(body),
        features: fc.array(
          fc.constantFrom(...faces).chain((f) => featureOn(f, body)),
          { minLength: 1, maxLength: most },
        ),
        extra,
        extraMm: fc.constantFrom(2, 2, 8),
      }),
    );
}

const sizes = (x: readonly [number, number], y: readonly [number, number], z: readonly [number, number]) =>
  fc.record({ x: whole(...x), y: whole(...y), z: whole(...z) });
const ANY: readonly Face[] = ['top', 'bottom', 'front', 'back', 'left', 'right'];

function textOf({ size, features, extra, extraMm }: Drawn): string {
  const stock =
    extra.length > 0 ? `stock: { form: block, extra: { ${extra.map((f) => `${f}: ${extraMm}`).join(', ')} } }\n` : '';
  return `part: drawn
material: aluminium-6061-t6
body: { x: ${size.x}, y: ${size.y}, z: ${size.z} }
${stock}features:
${features.map((f, i) => f(i + 1)).join('')}`;
}

const atMostFive = (text: string) => (text.match(/^ {2}f/gm) ?? []).length <= 5;

/** Whatever comes. */
export const smallPart: fc.Arbitrary<string> = drawn(
  sizes([24, 88], [20, 45], [14, 45]),
  ANY,
  5,
  fc.oneof(
    { weight: 3, arbitrary: fc.constant<readonly Face[]>([]) },
    { weight: 2, arbitrary: fc.subarray([...ANY], { minLength: 1, maxLength: 2 }) },
  ),
)
  .map(textOf)
  .filter(atMostFive);

/** Parts of which more is in the way: both ends still raw and shorter than the jaws, or held by what is cut off in the end. */
export const crowdedPart: fc.Arbitrary<string> = fc
  .oneof(
    drawn(sizes([24, 56], [20, 45], [14, 30]), ['top', 'bottom', 'front'], 3, fc.constant(['left', 'right'] as const)),
    drawn(sizes([30, 56], [24, 45], [10, 24]), ['top', 'front'], 3, fc.constant(['bottom'] as const)).map((d) => {
      const at = (x: number, y: number) => `{ x: ${x}, y: ${y}, round: 2 }`;
      const [x, y] = [d.size.x - 4, d.size.y - 4];
      const path = `[${at(4, 4)}, ${at(x, 4)}, ${at(x, y)}, ${at(4, y)}]`;
      const rim = (n: number) => `  f${n}: { kind: contour, face: top, path: ${path}, depth: through }\n`;
      return { ...d, features: [...d.features, rim], extraMm: 8 };
    }),
    drawn(sizes([62, 88], [20, 40], [14, 30]), ['top'], 2, fc.constant([])).map((d) => {
      const step = (side: string) => (n: number) =>
        `  f${n}: { kind: step, face: top, along: ${side}, width: 5, depth: ${d.size.z - 5} }\n`;
      return { ...d, features: [...d.features, step('left'), step('right')] };
    }),
  )
  .map(textOf)
  .filter(atMostFive);

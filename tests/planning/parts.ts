/**
 * Small parts for the planner, made up: what is on each face, where stock is left. Written down without handedness, so
 * that the same part can also be written turned (x becomes y becomes z becomes x) and mirrored (left becomes right).
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { checkShop } from '../../server/src/rules/check';

export const SHOP = checkShop(
  readFileSync(resolve(__dirname, '../../examples/gimbal/campus.shop.yaml'), 'utf8'),
  'file:///campus.shop.yaml',
).shop;

type Axis = 'x' | 'y' | 'z';
type Size = Readonly<Record<Axis, number>>;

/** One feature as text; `x` turns a coordinate along x into what is written. */
interface Piece {
  readonly name: string;
  text(x: (v: number) => number): string;
}
interface Made {
  readonly size: Size;
  readonly extra: readonly string[];
  readonly pieces: readonly Piece[];
}

const AXES = { top: ['x', 'y', 'z'], bottom: ['x', 'y', 'z'], front: ['x', 'z', 'y'], back: ['x', 'z', 'y'] } as const;
const SIDES = { left: ['y', 'z', 'x'], right: ['y', 'z', 'x'] } as const;
const PLANES: Readonly<Record<string, readonly [Axis, Axis, Axis]>> = { ...AXES, ...SIDES };
const BESIDE: Readonly<Record<Axis, readonly [string, string]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};

const whole = (lo: number, hi: number) =>
  fc.integer({ min: Math.ceil(lo), max: Math.max(Math.ceil(lo), Math.floor(hi)) });

function pieceOn(face: string, size: Size): fc.Arbitrary<(name: string) => Piece> {
  const [a, b, deep] = PLANES[face]!;
  const at = (axis: Axis, v: number, x: (v: number) => number) => `${axis}: ${axis === 'x' ? x(v) : v}`;
  const place = fc.tuple(whole(7, size[a] - 7), whole(7, size[b] - 7));
  const make = (text: Piece['text']) => (name: string) => ({ name, text });
  const hole = fc
    .tuple(place, fc.constantFrom('diameter: 5.5', 'thread: M5', 'diameter: 4.5'), fc.boolean(), whole(4, 10))
    .map(([[u, v], d, through, z]) =>
      make(
        (x) =>
          `{ kind: hole, face: ${face}, at: { ${at(a, u, x)}, ${at(b, v, x)} }, ${d}, depth: ${through ? 'through' : `${z}${d.startsWith('thread') ? ', thread-depth: 3' : ''}`} }`,
      ),
    );
  const pocket = fc
    .tuple(place, whole(2, Math.min(8, size[deep] * 0.4)), whole(10, 18))
    .map(([[u, v], z, d]) =>
      make(
        (x) => `{ kind: pocket, face: ${face}, at: { ${at(a, u, x)}, ${at(b, v, x)} }, diameter: ${d}, depth: ${z} }`,
      ),
    );
  const step = fc
    .tuple(fc.constantFrom(...BESIDE[a], ...BESIDE[b]), whole(3, 8), whole(2, Math.min(6, size[deep] * 0.4)))
    .map(([along, w, z]) => make(() => `{ kind: step, face: ${face}, along: ${along}, width: ${w}, depth: ${z} }`));
  const slot = fc
    .tuple(whole(10, size[b] - 10), whole(2, Math.min(6, size[deep] * 0.4)))
    .map(([v, z]) =>
      make(
        (x) =>
          `{ kind: slot, face: ${face}, ends: [{ ${at(a, -8, x)}, ${at(b, v, x)} }, { ${at(a, size[a] + 8, x)}, ${at(b, v, x)} }], width: 6, depth: ${z} }`,
      ),
    );
  const edges = fc.constant(make(() => `{ kind: chamfer, edges: ${face}, size: 0.5 }`));
  return fc.oneof(
    { weight: 4, arbitrary: hole },
    { weight: 2, arbitrary: pocket },
    { weight: 1, arbitrary: step },
    { weight: 1, arbitrary: slot },
    { weight: 1, arbitrary: edges },
  );
}

export function parts(mostFeatures: number): fc.Arbitrary<Made> {
  return fc.tuple(whole(40, 90), whole(28, 60), whole(16, 40)).chain(([x, y, z]) => {
    const size = { x, y, z };
    const faces = fc.constantFrom('top', 'top', 'top', 'bottom', 'front', 'back', 'left', 'right');
    return fc.record({
      size: fc.constant(size),
      extra: fc.subarray(['left', 'right', 'top', 'bottom', 'front'], { maxLength: 2 }),
      pieces: fc
        .array(
          faces.chain((face) => pieceOn(face, size)),
          { minLength: 1, maxLength: mostFeatures },
        )
        .map((made) => made.map((make, i) => make(`f${i + 1}`))),
    });
  });
}

const TURN: Readonly<Record<string, string>> = {
  ...{ x: 'y', y: 'z', z: 'x' },
  ...{ left: 'front', front: 'bottom', bottom: 'left', right: 'back', back: 'top', top: 'right' },
};

interface As {
  readonly mirrored?: boolean;
  readonly turned?: boolean;
}

/** The part's text, with a comment beside each feature. */
export function textOf({ size, extra, pieces }: Made, as: As = {}): string {
  const x = as.mirrored ? (v: number) => size.x - v : (v: number) => v;
  const mirror = (t: string) =>
    as.mirrored ? t.replace(/\b(left|right)\b/g, (f) => (f === 'left' ? 'right' : 'left')) : t;
  const turn = (t: string) =>
    as.turned ? t.replace(/\b(x|y|z|left|right|front|back|bottom|top)\b/g, (w) => TURN[w]!) : t;
  const stock =
    extra.length > 0 ? `stock: { form: block, extra: { ${extra.map((f) => `${f}: 2`).join(', ')} } }\n` : '';
  const lines = pieces.map((p) => `  ${p.name}: ${p.text(x)} # ${p.name} stays`);
  return `part: made-up # a block
material: aluminium-6061-t6
${turn(mirror(`body: { x: ${size.x}, y: ${size.y}, z: ${size.z} }\n${stock}features:\n${lines.join('\n')}`))}
`;
}

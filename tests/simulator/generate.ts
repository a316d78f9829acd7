/** Small parts with set-ups, made up: what is on each face, how deep, how held. Some can be made, some cannot. */
import fc from 'fast-check';

type Up = 'top' | 'bottom' | 'front';
interface Piece {
  readonly face: Up;
  readonly text: string;
}

const half = (lo: number, hi: number) => fc.integer({ min: lo * 2, max: Math.floor(hi * 2) }).map((n) => n / 2);
const one = <T>(...of: T[]) => fc.constantFrom(...of);

/** `a`, `b`: names of the two axes of the face, with the body's sizes along them. */
function pieceOn(face: Up, size: { x: number; y: number; z: number }): fc.Arbitrary<Piece> {
  const [a, b, deep] = face === 'front' ? (['x', 'z', 'y'] as const) : (['x', 'y', 'z'] as const);
  const place = fc.tuple(half(6, size[a] - 6), half(6, size[b] - 6)).map(([u, v]) => `{ ${a}: ${u}, ${b}: ${v} }`);
  const depth = half(1, size[deep] * 0.7);
  const edge = face === 'front' ? one('left', 'right') : one('front', 'back', 'left', 'right');
  const on = (kind: string) => `kind: ${kind}, face: ${face}`;
  const kinds: fc.Arbitrary<string>[] = [
    fc
      .tuple(
        place,
        one('diameter: 5', 'thread: M5', 'diameter: 10', 'diameter: 4.2'),
        depth,
        one('', '', ', bottom: flat'),
      )
      .map(
        ([at, d, z, flat]) =>
          `{ ${on('hole')}, at: ${at}, ${d}, depth: ${z}${d.startsWith('thread') ? `, thread-depth: ${Math.max(1, z - 5)}` : flat} }`,
      ),
    fc
      .tuple(place, one('diameter: 5', 'diameter: 4.2', 'diameter: 9'))
      .map(([at, d]) => `{ ${on('hole')}, at: ${at}, ${d}, depth: through }`),
    fc
      .tuple(place, half(3, 6))
      .map(
        ([at, z]) =>
          `{ ${on('hole')}, at: ${at}, diameter: 5, depth: through, counterbore: { diameter: 9, depth: ${z} } }`,
      ),
    fc
      .tuple(place, half(8, 20), half(8, 16), one(1.5, 2, 3, 3.5, 5), depth)
      .map(
        ([at, p, q, r, z]) =>
          `{ ${on('pocket')}, at: ${at}, size: { ${a}: ${p}, ${b}: ${q} }, corner-radius: ${r}, depth: ${z} }`,
      ),
    fc
      .tuple(place, half(8, 16), depth)
      .map(([at, d, z]) => `{ ${on('pocket')}, at: ${at}, diameter: ${d}, depth: ${z} }`),
    fc
      .tuple(half(6, size[b] - 6), one(3, 6, 7, 10), depth)
      .map(
        ([v, w, z]) =>
          `{ ${on('slot')}, ends: [{ ${a}: -8, ${b}: ${v} }, { ${a}: ${size[a] + 8}, ${b}: ${v} }], width: ${w}, depth: ${z} }`,
      ),
    fc
      .tuple(place, place, one(3, 6, 7), half(1, 8))
      .map(([p, q, w, z]) => `{ ${on('slot')}, ends: [${p}, ${q}], width: ${w}, depth: ${z} }`),
    fc.tuple(edge, half(3, 12), depth).map(([e, w, z]) => `{ ${on('step')}, along: ${e}, width: ${w}, depth: ${z} }`),
    fc.constant(`{ kind: chamfer, edges: [${face}], size: 1 }`),
    fc
      .tuple(place, half(14, 24), half(14, 22), half(4, 7), half(2, 8))
      .map(
        ([at, p, q, d, z]) =>
          `{ ${on('pocket')}, at: ${at}, size: { ${a}: ${p}, ${b}: ${q} }, corner-radius: 3.5, depth: ${z}, islands: { post: { diameter: ${d}, at: ${at}, height: ${z} } } }`,
      ),
    fc
      .tuple(half(2, 5), one(3.5, 5), half(1, 6))
      .map(
        ([m, r, z]) =>
          `{ ${on('contour')}, path: [{ ${a}: ${m}, ${b}: ${m}, round: ${r} }, { ${a}: ${size[a] - m}, ${b}: ${m}, round: ${r} }, { ${a}: ${size[a] - m}, ${b}: ${size[b] - m}, bevel: ${r} }, { ${a}: ${m}, ${b}: ${size[b] - m} }], depth: ${z} }`,
      ),
    fc
      .tuple(place, half(6, 12), depth)
      .map(
        ([at, pitch, z]) =>
          `{ ${on('hole')}, at: ${at}, pattern: { line: { ${a}: ${pitch}, count: 2 } }, diameter: 4.2, depth: ${z} }`,
      ),
    fc
      .tuple(place, half(8, 14), half(8, 14), one(15, 30, 45), depth)
      .map(
        ([at, p, q, turn, z]) =>
          `{ ${on('pocket')}, at: ${at}, size: { ${a}: ${p}, ${b}: ${q} }, rotate: ${turn}, corner-radius: 3, depth: ${z} }`,
      ),
  ];
  const fromAbove: fc.Arbitrary<string> = fc
    .tuple(place, one(a, b), half(10, 20), one(4, 6, 7), half(1, 6))
    .map(
      ([at, along, l, w, z]) =>
        `{ ${on('keyway')}, at: ${at}, along: ${along}, length: ${l}, width: ${w}, depth: ${z} }`,
    );
  kinds.push(fromAbove);
  if (face === 'front') kinds.push(...fromBeside(size));
  return fc.oneof(...kinds).map((text) => ({ face, text }));
}

/** Cut from the front by a disc, in from the top or an end: keyways that run out, and slits. */
function fromBeside(size: { x: number; y: number; z: number }): readonly fc.Arbitrary<string>[] {
  const keyway = fc
    .tuple(half(8, size.x - 8), half(4, size.y - 4), half(4, 16), one(4, 4, 6), half(1, 4))
    .map(
      ([x, y, l, w, z]) =>
        `{ kind: keyway, face: top, at: { x: ${x}, y: ${y} }, along: x, length: ${l}, width: ${w}, depth: ${z}, ends: run-out, cutter: 14 }`,
    );
  const slit = fc
    .tuple(half(3, size.y - 3), one(1, 1, 2), half(2, 14))
    .map(
      ([y, w, z]) =>
        `{ kind: slot, face: top, ends: [{ x: -8, y: ${y} }, { x: ${size.x + 8}, y: ${y} }], width: ${w}, depth: ${z} }`,
    );
  return [keyway, keyway, slit];
}

/** The text of a part for the shop of `defects.ts`. */
export const partText: fc.Arbitrary<string> = fc
  .record({
    x: fc.integer({ min: 24, max: 56 }),
    y: fc.integer({ min: 20, max: 40 }),
    z: fc.integer({ min: 14, max: 30 }),
  })
  .chain((size) =>
    fc.record({
      size: fc.constant(size),
      pieces: fc.array(
        one<Up>('top', 'top', 'bottom', 'front').chain((f) => pieceOn(f, size)),
        { minLength: 1, maxLength: 4 },
      ),
      ends: fc.boolean(),
      grips: fc.tuple(one(6, 10, 14), one(6, 10, 14), one(6, 10)),
    }),
  )
  .map(({ size, pieces, ends, grips }) => {
    const names = pieces.map((_, i) => `f${i + 1}`);
    const cuts = (face: Up) => [...names.filter((_, i) => pieces[i]!.face === face)];
    const first = [...(ends ? ['right'] : []), ...cuts('top')];
    const second = [...(ends ? ['left'] : []), ...cuts('bottom')];
    const third = cuts('front');
    const set = (name: string, up: Up, list: string[], grip: number) =>
      list.length === 0
        ? ''
        : `  ${name}: { up: ${up}, hold: { vise: vise, jaws: [${up === 'front' ? 'bottom, top' : 'back, front'}], grip: ${grip} }, cuts: [${list.join(', ')}] }\n`;
    return `part: piece
material: aluminium-6061-t6
body: { x: ${size.x}, y: ${size.y}, z: ${size.z} }
${ends ? 'stock: { form: flat-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }\n' : ''}features:
${pieces.map((p, i) => `  ${names[i]}: ${p.text}\n`).join('')}setups:
${set('first', 'top', first, grips[0])}${set('second', 'bottom', second, grips[1])}${set('third', 'front', third, grips[2])}`;
  });

/**
 * Generated part texts: a block or a bar with up to a handful of features of every kind, from every face, patterned,
 * leaning, one inside the other, across and along the same axis. Sizes are multiples of a half or odd hundredths, so
 * that surfaces now coincide and now just miss. They shrink to fewer and plainer features.
 */
import fc from 'fast-check';
import { keyway, slot } from './channels';
import {
  at,
  type Draft,
  deep,
  depth,
  FACES,
  type FaceName,
  face,
  leaning,
  mm,
  NORMAL,
  PLANE,
  pattern,
  patterned,
  place,
  round,
  type Size,
  share,
  tilt,
} from './draft';

const hole: fc.Arbitrary<Draft> = fc
  .record({
    face,
    place,
    depth,
    diameter: mm(2, 14),
    bottom: fc.constantFrom('cone', 'flat', 'cone'),
    mouth: fc.constantFrom('plain', 'plain', 'bore', 'sink'),
    more: mm(1, 6),
    down: share,
    tilt,
    pattern,
  })
  .map(
    (h): Draft =>
      (size) => ({
        kind: 'hole',
        face: h.face,
        at: at(h.face, size, h.place),
        ...patterned(h.face, h.pattern),
        diameter: h.diameter,
        depth: deep(h.face, size, h.depth),
        ...(h.depth === 'through' ? {} : { bottom: h.bottom }),
        ...(h.mouth === 'bore'
          ? {
              counterbore: {
                diameter: round(h.diameter + h.more),
                depth: round(Math.min(size[NORMAL[h.face]] * 0.08 * (1 + h.down), 4)),
              },
            }
          : {}),
        ...(h.mouth === 'sink'
          ? { countersink: { diameter: round(h.diameter + Math.min(h.more, 2)), angle: 90 } }
          : {}),
        ...leaning(h.face, h.tilt),
      }),
  );

const bent = fc.record({ type: fc.constant('path' as const), a: mm(8, 20), b: mm(8, 16), r: share });
const outline = fc.oneof(
  fc.record({
    type: fc.constant('size' as const),
    a: mm(5, 22),
    b: mm(5, 18),
    r: share,
    turn: fc.constantFrom(0, 0, 30, 45),
  }),
  fc.record({ type: fc.constant('disc' as const), a: mm(4, 18) }),
  bent,
);
type Outline = typeof outline extends fc.Arbitrary<infer T> ? T : never;
const shaped = (f: FaceName, o: Outline): Record<string, unknown> => {
  const [u, v] = PLANE[f];
  if (o.type === 'disc') return { diameter: o.a };
  if (o.type === 'size') {
    return {
      size: { [u]: o.a, [v]: o.b },
      ...(o.r > 0.3 ? { 'corner-radius': round((Math.min(o.a, o.b) / 2) * Math.min(o.r, 0.85)) } : {}),
      ...(o.turn ? { rotate: o.turn } : {}),
    };
  }
  const [a, b] = [o.a / 2, o.b / 2];
  const k = round(Math.min(a, b) * 0.4 * o.r);
  return {
    path: [
      { [u]: -a, [v]: -b, round: k },
      { [u]: a, [v]: -b, bevel: k },
      { [u]: a, [v]: round(b * 0.2) },
      { [u]: round(a * 0.2), [v]: round(b * 0.2), round: k },
      { [u]: round(a * 0.2), [v]: b },
      { [u]: -a, [v]: b, round: k },
    ],
  };
};

const pocket: fc.Arbitrary<Draft> = fc
  .record({
    face,
    place,
    depth,
    outline,
    floor: fc.option(share, { freq: 2 }),
    tilt,
    pattern,
    island: fc.option(share, { freq: 4 }),
  })
  .map(
    (p): Draft =>
      (size) => {
        const d = deep(p.face, size, p.depth);
        const least = p.outline.type === 'disc' ? p.outline.a : Math.min(p.outline.a, p.outline.b);
        const middle = at(p.face, size, p.place);
        return {
          kind: 'pocket',
          face: p.face,
          at: middle,
          ...patterned(p.face, p.pattern),
          ...shaped(p.face, p.outline),
          depth: d,
          ...(p.floor !== null && typeof d === 'number'
            ? { 'floor-radius': round(Math.min(d, least / 2) * p.floor) }
            : {}),
          ...(p.island !== null && !p.pattern && typeof d === 'number' && least > 8
            ? {
                // an island's place is in part axes, as the pocket's is; of a pattern it would be that of the first member
                islands: { post: { diameter: round(least * 0.3), at: middle, height: round(d * p.island) } },
              }
            : {}),
          ...leaning(p.face, p.tilt),
        };
      },
  );

const step: fc.Arbitrary<Draft> = fc
  .record({ face, side: fc.nat(3), wide: share, depth: share, floor: fc.option(share, { freq: 2 }) })
  .map(
    (s): Draft =>
      (size) => {
        const sides = FACES.filter((f) => NORMAL[f] !== NORMAL[s.face]);
        const along = sides[s.side]!;
        const width = round(size[NORMAL[along]] * s.wide * 0.6);
        const d = round(size[NORMAL[s.face]] * s.depth * 0.7);
        return {
          kind: 'step',
          face: s.face,
          along,
          width,
          depth: d,
          ...(s.floor !== null ? { 'floor-radius': round(Math.min(width, d) * s.floor) } : {}),
        };
      },
  );

const contour: fc.Arbitrary<Draft> = fc
  .record({ face, outline: bent, depth: share, floor: fc.option(share, { freq: 2 }) })
  .map(
    (c): Draft =>
      (size) => {
        const [u, v] = PLANE[c.face];
        const d = round(size[NORMAL[c.face]] * c.depth * 0.6);
        return {
          kind: 'contour',
          face: c.face,
          at: { [u]: size[u] / 2, [v]: size[v] / 2 },
          ...shaped(c.face, { ...c.outline, a: size[u] * 0.7, b: size[v] * 0.7 }),
          depth: d,
          ...(c.floor !== null ? { 'floor-radius': round(Math.min(d, 3) * c.floor) } : {}),
        };
      },
  );

const edges: fc.Arbitrary<Draft> = fc
  .record({
    face,
    other: fc.nat(3),
    type: fc.constantFrom('face', 'pair', 'rim'),
    size: mm(0.3, 2.5),
    round: fc.boolean(),
    of: fc.nat(5),
  })
  .map(
    (e): Draft =>
      (_, __, holes) => {
        const sides = FACES.filter((f) => NORMAL[f] !== NORMAL[e.face]);
        const rim = holes[e.of % Math.max(1, holes.length)];
        const which = e.type === 'pair' ? [e.face, sides[e.other]!] : e.type === 'rim' && rim ? { rim } : e.face;
        return { kind: e.round ? 'edge-round' : 'chamfer', edges: [which], [e.round ? 'radius' : 'size']: e.size };
      },
  );

const groove: fc.Arbitrary<Draft> = fc.record({ face, place, diameter: mm(6, 20), width: mm(1, 4), depth: share }).map(
  (g): Draft =>
    (size) => ({
      kind: 'groove',
      face: g.face,
      at: at(g.face, size, g.place),
      diameter: g.diameter,
      width: g.width,
      depth: round(Math.min(4, size[NORMAL[g.face]] * g.depth)),
    }),
);

const slope: fc.Arbitrary<Draft> = fc
  .record({ face, side: fc.nat(3), wide: share, depth: share, by: fc.constantFrom('width', 'depth') })
  .map(
    (i): Draft =>
      (size) => {
        const along = FACES.filter((f) => NORMAL[f] !== NORMAL[i.face])[i.side]!;
        const width = round(size[NORMAL[along]] * i.wide * 0.6);
        const d = round(size[NORMAL[i.face]] * i.depth * 0.6);
        const angle = Math.round((Math.atan2(d, width) * 1800) / Math.PI) / 10;
        return { kind: 'slope', face: i.face, along, angle, [i.by]: i.by === 'width' ? width : d };
      },
  );

const letters = (...texts: readonly string[]): fc.Arbitrary<Draft> =>
  fc.record({ face, place, text: fc.constantFrom(...texts), height: mm(4, 8) }).map(
    (e): Draft =>
      (size) => ({
        kind: 'engraving',
        face: e.face,
        at: at(e.face, size, e.place),
        text: e.text,
        height: e.height,
        depth: 0.3,
        stroke: 0.6,
      }),
  );

/** The kinds by name, with how often each is drawn. */
export const KINDS: Readonly<Record<string, { readonly draft: fc.Arbitrary<Draft>; readonly weight: number }>> = {
  hole: { draft: hole, weight: 7 },
  pocket: { draft: pocket, weight: 5 },
  slot: { draft: slot, weight: 4 },
  keyway: { draft: keyway, weight: 2 },
  step: { draft: step, weight: 2 },
  edges: { draft: edges, weight: 2 },
  contour: { draft: contour, weight: 1 },
  groove: { draft: groove, weight: 1 },
  slope: { draft: slope, weight: 1 },
  engraving: { draft: letters('A', 'R2', 'B8'), weight: 1 },
  /** Letters that read the same upside down and in a mirror. */
  sign: { draft: letters('I', 'X', 'HOH', 'OXO'), weight: 1 },
};
const ALL = Object.keys(KINDS).filter((k) => k !== 'sign');

const body = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({ form: fc.constant('block' as const), x: mm(30, 70), y: mm(24, 50), z: mm(10, 30) }),
  },
  { weight: 1, arbitrary: fc.record({ form: fc.constant('bar' as const), x: mm(26, 60), y: mm(20, 40) }) },
);

export interface PartText {
  readonly size: Size;
  readonly text: string;
}

/** Part texts with 1 … `most` features of the kinds named (all of them). */
export function partTexts(most: number, kinds: readonly string[] = ALL): fc.Arbitrary<PartText> {
  const any = fc.oneof(...kinds.map((k) => ({ weight: KINDS[k]!.weight, arbitrary: KINDS[k]!.draft })));
  return fc.record({ body, drafts: fc.array(any, { minLength: 1, maxLength: most }) }).map(({ body: b, drafts }) => {
    const size = b.form === 'block' ? { x: b.x, y: b.y, z: b.z } : { x: b.x, y: b.y, z: b.y };
    const lines = ['part: proof', 'units: mm', 'material: aluminium-6061-t6'];
    lines.push(`body: ${flow(b.form === 'block' ? size : { diameter: b.y, length: b.x, axis: 'x' })}`, 'features:');
    const rims: string[] = [];
    drafts.forEach((draft, i) => {
      const name = `f${i + 1}`;
      const made = draft(size, name, rims);
      if (!made) return;
      lines.push(`  ${name}: ${flow(made)}`);
      if (made.kind === 'hole' || made.kind === 'pocket') rims.push(name);
    });
    return { size, text: `${lines.join('\n')}\n` };
  });
}

/** YAML's flow style. */
function flow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  return `{ ${Object.entries(value)
    .map(([k, v]) => `${k}: ${flow(v)}`)
    .join(', ')} }`;
}

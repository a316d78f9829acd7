/** Texts that the tests of this floor share, and what makes trees comparable. */
import fc from 'fast-check';
import type { TextNode, TextTree } from '../../server/src/text/tree';

export const PART = `# elevation axis of the gimbal
part: bearing-block
title: Elevation bearing block
revision: B
shop: ../campus.shop.yaml        # left out: the built-in shop
units: mm
material: aluminium-6061-t6

parameters:
  pitch: 36
  edge: pitch / 2 + 3 mm   # from the middle

body: { x: 60, y: 40, z: 16 }    # finished envelope

stock:
  form: flat-bar
  sawn: [left, right]            # the others as supplied
  extra: { left: 1.5, right: 1.5 }

features:
  # the seat comes first
  bearing-seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 H7
    depth: 7
    bottom: flat

  mount:
    kind: hole
    face: front
    at: { x: center, z: 8 }
    pattern: { line: { x: pitch, count: 2 } }   # centred on \`at\`
    thread: M5
    depth: 14
    note: >
      two of them,
      # not a comment
      tapped by hand
  lightening:
    kind: pocket
    face: bottom
    at: { x: 14, y: center }
    size: {
      x: 14,
      y: 24
    }
    depth: 9

datums: { A: bottom, B: front, C: bearing-seat }
tolerances:
  - { position: 0.1, of: mount, datums: [A, B, C] }
  - { flatness: 0.05, of: bottom }

setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [front, back], grip: 6, stop: left }
    cuts:
    - bearing-seat
    - mount
accept:
- { rule: hole/depth-ratio, of: mount, because: "long: drill is borrowed" }
# the end
`;

/** A part of `count` features, about 200 characters each. */
export function partOf(count: number): string {
  const feature = (i: number) => `  hole-${i}:
    kind: hole
    face: top
    at: { x: ${(i % 20) * 10 + 5}, y: ${Math.floor(i / 20) * 10 + 5} }   # row ${Math.floor(i / 20)}
    diameter: ${3 + (i % 5)} H7
    depth: through
    note: place ${i}
    counterbore: { diameter: 8 ±0.1, depth: 3 }
`;
  return `part: grid\nunits: mm\nbody: { x: 220, y: 220, z: 12 }\nfeatures:\n${Array.from({ length: count }, (_, i) => feature(i)).join('')}`;
}

/** A node with its places in the document, free of how it was cut into blocks. */
export function plain(tree: TextTree): unknown {
  return plainNode(tree, tree.root);
}

function plainNode(tree: TextTree, node: TextNode | undefined): unknown {
  if (!node) return undefined;
  const { start, end } = tree.locate(node.span);
  const place = [start, end];
  if (node.type === 'scalar') return { place, value: node.value, source: node.source, quoted: node.quoted };
  if (node.type === 'list') return { place, flow: node.flow, items: node.items.map((item) => plainNode(tree, item)) };
  return {
    place,
    flow: node.flow,
    entries: node.entries.map((e) => {
      const whole = tree.locate(e.span);
      return { key: plainNode(tree, e.key), value: plainNode(tree, e.value), whole: [whole.start, whole.end] };
    }),
  };
}

/** Problems with their places in the document. */
export function said(tree: TextTree): string[] {
  return tree.problems.map((p) => `${p.code}@${tree.locate(p.span).start} ${p.message}`);
}

const word = fc.constantFrom('a', 'b', 'kind', 'size', 'note', 'x', 'mount', 'depth-2');
const scalar = fc.constantFrom(
  ...['3', '22 H7', 'pitch / 2', '"a: b"', "'it''s'", 'true', '~', '', '-0.5', '"two\\n"', 'a#b', 'über', '"😀"'],
);
const flow = fc.constantFrom(
  ...['{ x: 1, y: center }', '[1, 2]', '{}', '[]', '{ a: { b: [x, y] }, c: }', '[{ x: 0 }, { y: "}" }]'],
);
const comment = fc.constantFrom('', '', '', ' # said', ' #');

/** A block-style map at a column, as lines. */
function block(column: number, depth: number): fc.Arbitrary<string[]> {
  const pad = ' '.repeat(column);
  const entry = fc.oneof(
    {
      weight: 4,
      arbitrary: fc.tuple(word, fc.oneof(scalar, flow), comment).map(([k, v, c]) => [`${pad}${k}: ${v}${c}`]),
    },
    { weight: 1, arbitrary: fc.constantFrom([''], [`${pad}# between`], ['# far left'], ['   ']) },
    { weight: 1, arbitrary: word.map((k) => [`${pad}${k}: |`, `${pad}  text: x`, '', `${pad}  # more`]) },
    { weight: 1, arbitrary: word.map((k) => [`${pad}${k}: { a: 1,`, `${pad}   b: 2 }`]) },
    { weight: 1, arbitrary: word.map((k) => [`${pad}${k}: "one`, `${pad}  two: 2"`]) },
    { weight: 1, arbitrary: word.map((k) => [`${pad}${k}: one`, `${pad}  two three`]) },
    {
      weight: 1,
      arbitrary: word.map((k) => [`${pad}${k}:`, `${pad}- one`, `${pad}- { x: 1 }`, `${pad}- c: 1`, `${pad}  d: 2`]),
    },
  );
  if (depth === 0) return fc.array(entry, { minLength: 1, maxLength: 4 }).map((lines) => lines.flat());
  const map = fc
    .tuple(
      word,
      comment,
      fc.integer({ min: 1, max: 4 }).chain((by) => block(column + by, depth - 1)),
    )
    .map(([k, c, inner]) => [`${pad}${k}:${c}`, ...inner]);
  const any = fc.oneof({ weight: 2, arbitrary: entry }, { weight: 3, arbitrary: map });
  return fc.array(any, { minLength: 1, maxLength: 5 }).map((lines) => lines.flat());
}

/** Whole documents, most of them sound. */
export const documents: fc.Arbitrary<string> = fc
  .tuple(block(0, 3), fc.constantFrom('\n', '\r\n'), fc.boolean(), fc.boolean())
  .map(([lines, end, last, mark]) => (mark ? '\ufeff' : '') + lines.join(end) + (last ? end : ''));

/** One change of a text, such as typing, deleting or pasting makes. */
export const changes = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  drop: fc.constantFrom(0, 0, 0, 1, 1, 5, 40),
  put: fc.constantFrom(
    ...['', '', 'x', ' ', '\n', ':', ': ', '{', '}', '[', ']', '"', "'", '#', ' #', '- ', '  ', '\n\n', ',', '7', '\t'],
    ...[
      '\n  new:\n    kind: hole\n',
      '\nb: 2\n',
      '---\n',
      '...',
      '%',
      '&a ',
      '*a',
      '!t ',
      '? ',
      '|',
      '>',
      '\r',
      '\ufeff',
      '\ud83d',
    ],
  ),
});
export type Change = { at: number; drop: number; put: string };
export function changed(text: string, { at, drop, put }: Change): string {
  const offset = Math.floor(at * text.length);
  return text.slice(0, offset) + put + text.slice(offset + drop);
}

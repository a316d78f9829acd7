/** Documents with hostile words in every place that an author fills in, and what no shown line may have in it. */
import assert from 'node:assert/strict';
import type { Random } from './runs';

/** What hides, turns round, begins a line, or speaks to a terminal, a build server, an editor, a reader of Markdown or of files. */
const BITS = [
  ...['\u001b[31m', '\u001b]0;title\u0007', '\u009b2J', '\u0000', '\u0008', '\u007f', '\u0085', '\u2028', '\u2029'],
  ...['\u202a', '\u202b', '\u202d', '\u202e', '\u202c', '\u2066', '\u2067', '\u2068', '\u2069', '\u061c', '\u200e'],
  ...[
    '\u200b',
    '\u200d',
    '\u2060',
    '\ufeff',
    '\u00ad',
    '\u3164',
    '\ufff9',
    '\u{e0041}',
    '\u{e0100}',
    '\ud800',
    '\udc00',
  ],
  ...[
    '\n::error file=a::no',
    '\r\n0 files checked: nothing found.\r\n',
    '\n',
    '\r',
    '\t',
    '::set-output name=x::',
    '##[group]x',
  ],
  ...[
    '[press](command:workbench.action.quit)',
    '![p](https://example.invalid/p.png)',
    '[a]: http://example.invalid',
    '](1)',
  ],
  ...['`', '``', '`x`y``', '***', '~~', '# ', '- ', '1. ', '> ', '|', '\\', '\\\\', '$(sync~spin)', '$x$', '{0}', '}}'],
  ...[
    'http://example.invalid/',
    'www.example.invalid',
    'me@example.invalid',
    '<img src=x onerror=alert(1)>',
    '</text><script>',
  ],
  ...[
    ']]>',
    '<!--',
    '&lt;',
    '&#x202e;',
    '"',
    "'",
    "''",
    '%%d',
    '\\X2\\202E\\X0\\',
    '\\U+202E',
    'DATA;',
    'ENDSEC;',
    "');#1=PRODUCT(",
  ],
  ...['#1 = PRODUCT_DEFINITION(', 'constructor', '__proto__', 'é', '漢字', '😀'],
];

export function hostileWords(r: Random): string {
  let words = '';
  for (let n = 1 + r.below(4); n > 0; n--) words += r.pick(BITS) + r.pick(['', 'a', ' b ', 'c']);
  return words;
}

/** A value of YAML that reads as exactly these words. */
export function written(words: string): string {
  return JSON.stringify(words).replace(
    /[\u007f-\uffff]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** The words, most of them plain: a document of nothing but trouble is refused before much of it is told. */
function maybe(r: Random, plain: string): string {
  return written(r.below(2) === 0 ? hostileWords(r) : plain);
}

export interface HostileDocuments {
  readonly part: string;
  readonly shop: string;
  readonly job: string;
}

export function hostileDocuments(r: Random): HostileDocuments {
  const [a, b, c, p, setup, tool] = ['seat', 'pin', 'mark', 'gap', 'first', 'em-x'].map((plain) => maybe(r, plain));
  const comment = hostileWords(r).replace(/[\u0000-\u001f\u007f]|[\ud800-\udfff]/g, '');
  const part = `part: ${maybe(r, 'plate')}
title: ${maybe(r, 'Plate')}
revision: ${maybe(r, 'A')}
shop: ${r.below(4) === 0 ? maybe(r, './a.shop.yaml') : './a.shop.yaml'}
units: mm
material: ${r.below(3) === 0 ? maybe(r, 'aluminium-6061-t6') : 'aluminium-6061-t6'}
tolerance: ${r.below(3) === 0 ? maybe(r, 'ISO 2768-m') : 'ISO 2768-m'}
# ${comment}
parameters:
  ${p}: 3
body: { x: 60, y: 40, z: 16 }
features:
  ${a}: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 12 H7, depth: 7 ±0.01, note: ${maybe(r, 'bearing')} }
  ${b}: { kind: hole, face: top, at: { x: 45, y: 20 }, thread: ${r.below(4) === 0 ? maybe(r, 'M5') : 'M5'}, depth: 12, from: ${maybe(r, 'top')} }
  ${c}: { kind: engraving, face: front, at: { x: 30, z: 8 }, text: ${maybe(r, 'A1')}, height: 4, depth: 0.3, stroke: 0.5 }
  wall: { kind: pocket, face: bottom, at: { x: 20, y: 4.4 }, size: { x: 20, y: 8 }, corner-radius: 3.5, depth: 5 }
datums: { A: bottom, B: ${a} }
tolerances:
  - { position: 0.02, of: ${b}, datums: [A, B] }
${r.below(2) === 0 ? '' : `setups:\n  ${setup}: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6, stop: ${maybe(r, 'left')} }, cuts: [${a}, ${b}], tools: { ${a}: ${tool} } }\n`}accept:
  - { rule: ${maybe(r, 'wall/thin')}, of: ${a}, because: ${maybe(r, 'tried')} }
${r.below(3) === 0 ? `${maybe(r, 'colour')}: ${maybe(r, 'blue')}\n` : ''}`;
  const shop = `shop: ${maybe(r, 'campus')}
units: mm
machines:
  ${maybe(r, 'mill')}: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } }
vises:
  mill-vise-100: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN }
tools:
  ${tool}: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 20, material: carbide, note: ${maybe(r, 'old')} }
  dr-4.2: { kind: drill, diameter: 4.2 }
  ${maybe(r, 'tap')}: { kind: tap, thread: M5 }
`;
  const job = `job: ${maybe(r, 'flight set')}
shop: ./a.shop.yaml
parts:
  ${maybe(r, 'plate')}: { spec: ./a.part.yaml, quantity: 2 }
  ${maybe(r, 'other')}: { spec: ${maybe(r, './b.part.yaml')} }
`;
  return { part, shop, job };
}

/** Said otherwise than by the gate's own properties of characters: ranges, from the Unicode charts. Halves of pairs are `\p{Cs}`. */
const HIDES: readonly (readonly [from: number, to: number])[] = [
  [0, 0x1f],
  [0x7f, 0x9f],
  [0xad, 0xad],
  [0x34f, 0x34f],
  [0x61c, 0x61c],
  [0x115f, 0x1160],
  [0x17b4, 0x17b5],
  [0x180b, 0x180f],
  [0x200b, 0x200b],
  [0x200e, 0x200f],
  [0x2028, 0x202e],
  [0x2060, 0x206f],
  [0x3164, 0x3164],
  [0xd800, 0xdfff],
  [0xfeff, 0xfeff],
  [0xffa0, 0xffa0],
  [0xfff0, 0xfffb],
  [0xfffe, 0xffff],
  [0xe0000, 0xe0fff],
];

/** Words that only show; `keep`: of those that hide, which may stay. */
export function assertShows(words: string, keep: string, told: string): void {
  for (const character of words) {
    const code = character.codePointAt(0)!;
    if (code < 0x7f && code > 0x1f) continue;
    const hides = HIDES.some(([from, to]) => from <= code && code <= to) && !keep.includes(character);
    assert.ok(!hides, `U+${code.toString(16)} in ${JSON.stringify(words).slice(0, 500)}\n${told}`);
  }
}

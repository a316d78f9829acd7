/**
 * What the sheet's layout needs of its two fonts, read from the font files themselves: for each character how far it
 * carries the pen on, and how high and low its ink goes (OpenType: `cmap` formats 4 and 12, `hmtx`, `loca`, `glyf`).
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const FOLDER = 'node_modules/dejavu-fonts-ttf/ttf';
const FONTS = { PLAIN: 'DejaVuSansCondensed.ttf', BOLD: 'DejaVuSansCondensed-Bold.ttf' } as const;

/** Latin, Greek, Cyrillic, marks above letters, punctuation, currency, letter-like signs, arrows, mathematics, shapes. */
const RANGES: readonly (readonly [from: number, to: number])[] = [
  [0x20, 0x7e],
  [0xa0, 0x24f],
  [0x2b9, 0x2dd],
  [0x300, 0x36f],
  [0x370, 0x3ff],
  [0x400, 0x52f],
  [0x1e00, 0x1fff],
  [0x2010, 0x2027],
  [0x2030, 0x205e],
  [0x2070, 0x20b9],
  [0x2100, 0x214f],
  [0x2150, 0x218f],
  [0x2190, 0x22ff],
  [0x25a0, 0x25ff],
];

interface Glyph {
  readonly advance: number;
  readonly low: number;
  readonly high: number;
}

/** The module's text: four letters a character, `metrics.ts` beside it reads them. */
export function fontMetricsModule(root: string): string {
  const lines = Object.entries(FONTS).map(([name, file]) => {
    const glyphOf = readFont(readFileSync(join(root, FOLDER, file)));
    const packed = RANGES.map(([from, to]) => {
      const codes = Array.from({ length: to - from + 1 }, (_, i) => from + i);
      return codes.map((code) => pack(glyphOf(code))).join('');
    });
    return `export const ${name} =\n  '${packed.join('')}';`;
  });
  return `// Made by \`npm run generate\` from ${Object.values(FONTS).join(' and ')}: not to be edited.
export const UNITS = 2048;
export const RANGES = ${JSON.stringify(RANGES)} as const;
${lines.join('\n')}
`;
}

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
/** Steps of height, of the font's units: what is higher or lower is told as the next step. */
const HIGH_STEP = 40;
const LOW_STEP = 16;

function pack(glyph: Glyph | undefined): string {
  if (!glyph) return '....';
  const { advance } = glyph;
  const high = Math.min(63, Math.ceil(Math.max(0, glyph.high) / HIGH_STEP));
  const low = Math.min(63, Math.ceil(Math.max(0, -glyph.low) / LOW_STEP));
  return [advance >> 6, advance & 63, high, low].map((n) => DIGITS[n]!).join('');
}

type Find = (code: number) => number;

/** Answers a character's glyph; undefined where the font has none. */
function readFont(bytes: Buffer): (code: number) => Glyph | undefined {
  const tables = new Map<string, number>();
  for (let i = 0; i < bytes.readUInt16BE(4); i++) {
    const at = 12 + 16 * i;
    tables.set(bytes.toString('latin1', at, at + 4), bytes.readUInt32BE(at + 8));
  }
  const table = (name: string): number => {
    const at = tables.get(name);
    if (at === undefined) throw new Error(`the font has no table ${name}`);
    return at;
  };
  const [head, hhea, hmtx, loca, glyf] = ['head', 'hhea', 'hmtx', 'loca', 'glyf'].map(table) as [
    number,
    number,
    number,
    number,
    number,
  ];
  if (bytes.readUInt16BE(head + 18) !== 2048) throw new Error('the font has other units than the layout counts in');
  const long = bytes.readInt16BE(head + 50) === 1;
  const metrics = bytes.readUInt16BE(hhea + 34);
  const place = (glyph: number) =>
    long ? bytes.readUInt32BE(loca + 4 * glyph) : 2 * bytes.readUInt16BE(loca + 2 * glyph);
  const find = glyphFinder(bytes, table('cmap'));
  return (code) => {
    const glyph = find(code);
    if (glyph === 0) return undefined;
    const advance = bytes.readUInt16BE(hmtx + 4 * Math.min(glyph, metrics - 1));
    const at = glyf + place(glyph);
    const empty = place(glyph) === place(glyph + 1);
    return { advance, low: empty ? 0 : bytes.readInt16BE(at + 4), high: empty ? 0 : bytes.readInt16BE(at + 8) };
  };
}

function glyphFinder(bytes: Buffer, cmap: number): Find {
  const tables = Array.from({ length: bytes.readUInt16BE(cmap + 2) }, (_, i) => {
    const at = cmap + bytes.readUInt32BE(cmap + 4 + 8 * i + 4);
    return { at, format: bytes.readUInt16BE(at) };
  });
  const wide = tables.find((t) => t.format === 12);
  if (wide) return wideFinder(bytes, wide.at);
  const narrow = tables.find((t) => t.format === 4);
  if (!narrow) throw new Error('the font has no table of characters that is known here');
  return narrowFinder(bytes, narrow.at);
}

function wideFinder(bytes: Buffer, at: number): Find {
  const groups = Array.from({ length: bytes.readUInt32BE(at + 12) }, (_, i) =>
    [0, 4, 8].map((o) => bytes.readUInt32BE(at + 16 + 12 * i + o)),
  ) as [number, number, number][];
  return (code) => {
    const group = groups.find(([from, to]) => from <= code && code <= to);
    return group ? group[2] + code - group[0] : 0;
  };
}

function narrowFinder(bytes: Buffer, at: number): Find {
  const double = bytes.readUInt16BE(at + 6);
  const word = (offset: number) => bytes.readUInt16BE(at + offset);
  return (code) => {
    for (let i = 0; i < double; i += 2) {
      if (word(14 + i) < code) continue;
      const from = word(16 + double + i);
      if (from > code) return 0;
      const delta = word(16 + 2 * double + i);
      const offset = word(16 + 3 * double + i);
      if (offset === 0) return (code + delta) & 0xffff;
      const glyph = word(16 + 3 * double + i + offset + 2 * (code - from));
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };
}

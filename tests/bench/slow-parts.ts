/** Texts that cost much: few words that draw hundreds of holes across each other, and many words that draw them apart. */
import { flowStyle } from './heavy';

const HEAD = (name: string, x: number, y: number, z: number) =>
  `part: ${name}\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: ${x}, y: ${y}, z: ${z} }\nfeatures:\n`;

/** A vent of the balloon's gondola as somebody mistyped it: a pattern whose holes overlap. */
export function vent(across: number): string {
  return `${HEAD('vent', 60, 40, 16)}  vent:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { grid: { x: { pitch: 2.1, count: ${across} }, y: { pitch: 2.1, count: ${across} } } }
    diameter: 2.6
    depth: 5
`;
}

/** Holes down a diagonal, each into the one before. */
export function chainOfHoles(count: number): string {
  const hole = (i: number) =>
    `  step-${i}: { kind: hole, face: top, at: { x: ${60 + i * 1.2}, y: ${60 + i} }, diameter: 8.6, depth: ${5 + (i % 7)} }\n`;
  return HEAD('chain', 300, 300, 16) + Array.from({ length: count }, (_, i) => hole(i)).join('');
}

/** Pockets that lean against each other. */
export function leaningPockets(count: number): string {
  const pocket = (i: number) =>
    `  lean-${i}: { kind: pocket, face: top, at: { x: ${50 + (i % 8) * 9}, y: ${50 + Math.floor(i / 8) * 9} }, tilt: { about: ${i % 2 ? 'y' : 'x'}, angle: ${4 + i} }, size: { x: 12, y: 12 }, corner-radius: 2, depth: 11 }\n`;
  return HEAD('leaning', 180, 180, 16) + Array.from({ length: count }, (_, i) => pocket(i)).join('');
}

/** A perforated cover: as many holes as asked, none near another. */
export function cover(count: number): string {
  const columns = Math.ceil(Math.sqrt(count));
  const side = (columns + 1) * 9;
  const hole = (i: number) =>
    `  hole-${i}: { kind: hole, face: top, at: { x: ${(i % columns) * 9 + 9}, y: ${Math.floor(i / columns) * 9 + 9} }, diameter: 3, depth: through }\n`;
  return HEAD('cover', side, side, 8) + Array.from({ length: count }, (_, i) => hole(i)).join('');
}

export const SLOW: readonly (readonly [name: string, text: string])[] = [
  ['vent of 6 × 6 overlapping holes', vent(6)],
  ['vent of 14 × 14', vent(14)],
  ['25 holes into each other', chainOfHoles(25)],
  ['20 leaning pockets', leaningPockets(20)],
  ['2,000 separate holes', cover(2000)],
  ['1,000 holes on one line', flowStyle(1000)],
];

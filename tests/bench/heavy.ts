/**
 * Texts that cost more than they look: many of one thing, or few that meet each other everywhere. Nobody keeps such a
 * part for long, but a slip of the hand (a pitch of 2 for 20, a quote left open) makes one for a moment.
 */

const HEAD = (x: number, y: number, z = 16) =>
  `part: odd\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: ${x}, y: ${y}, z: ${z} }\n`;

const lines = (count: number, line: (i: number) => string) => Array.from({ length: count }, (_, i) => line(i)).join('');

/** Holes that stay clear of each other, in rows. */
export function separateHoles(count: number): string {
  const columns = Math.ceil(Math.sqrt(count));
  const side = columns * 10 + 20;
  return `${HEAD(side, side)}features:\n${lines(
    count,
    (i) =>
      `  h${i}: { kind: hole, face: top, at: { x: ${10 + (i % columns) * 10}, y: ${10 + Math.floor(i / columns) * 10} }, diameter: 3, depth: 5 }\n`,
  )}`;
}

/** One pattern whose members run into each other where `pitch` is less than the diameter of 1.5. */
export function sieve(rows: number, pitch: number): string {
  const side = Math.max(60, rows * pitch + 20);
  return `${HEAD(side, side)}features:
  sieve:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { grid: { x: { pitch: ${pitch}, count: ${rows} }, y: { pitch: ${pitch}, count: ${rows} } } }
    diameter: 1.5
    depth: 5
`;
}

/** Every feature on one line. */
export function flowStyle(count: number): string {
  const one = (i: number) =>
    `a${i}: { kind: hole, face: top, at: { x: ${i % 60}, y: ${9 + (i % 31)} }, diameter: 1, depth: 1 }`;
  return `${HEAD(60, 40)}features: {${Array.from({ length: count }, (_, i) => one(i)).join(', ')}}\n`;
}

export function longEngraving(letters: number): string {
  return `${HEAD(60, 40)}features:\n  mark:\n    kind: engraving\n    face: top\n    at: { x: center, y: center }\n    text: ${'GIMBAL '
    .repeat(Math.ceil(letters / 7))
    .slice(0, letters)
    .trimEnd()}\n    height: 4\n    depth: 0.3\n`;
}

/** A quote that is never closed, before many lines. */
export function openQuote(count: number): string {
  return `${HEAD(60, 40)}title: "gimbal\nfeatures:\n${lines(count, (i) => `  h${i}: { kind: hole }\n`)}`;
}

export function manyErrors(count: number): string {
  return `${HEAD(60, 40)}${lines(count, (i) => `fild-${i}: ${i}\n`)}`;
}

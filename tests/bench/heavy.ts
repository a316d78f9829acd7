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

/** Holes in a slanting row, each through several others. */
export function holesOnEachOther(count: number): string {
  return `${HEAD(400, 400)}features:\n${lines(
    count,
    (i) =>
      `  h${i}: { kind: hole, face: top, at: { x: ${100 + i}, y: ${100 + i} }, diameter: 9.3, depth: ${5 + (i % 7)} }\n`,
  )}`;
}

/** Leaning pockets that run into their neighbours. */
export function tiltedPockets(count: number): string {
  return `${HEAD(200, 200)}features:\n${lines(
    count,
    (i) =>
      `  h${i}: { kind: pocket, face: top, at: { x: ${60 + (i % 8) * 9}, y: ${60 + Math.floor(i / 8) * 9} }, tilt: { about: ${'xy'[i % 2]}, angle: ${5 + i} }, size: { x: 12, y: 12 }, corner-radius: 2, depth: 12 }\n`,
  )}`;
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

export function deepNesting(depth: number): string {
  return `${HEAD(60, 40)}features: ${'{ a: '.repeat(depth)}1${' }'.repeat(depth)}\n`;
}

export function deepLists(depth: number): string {
  return `${HEAD(60, 40)}features: ${'['.repeat(depth)}${']'.repeat(depth)}\n`;
}

/** Each parameter takes the one before it; the last is asked for. */
export function chainedParameters(count: number): string {
  return `part: odd\nunits: mm\nparameters:\n  p0: 10\n${lines(
    count,
    (i) => `  p${i + 1}: p${i} + 0.001\n`,
  )}body: { x: 60, y: 40, z: 16 }\nfeatures:\n  h: { kind: hole, face: top, at: { x: p${count}, y: 10 }, diameter: 3, depth: 5 }\n`;
}

export function manySetups(count: number): string {
  return `${separateHoles(20)}setups:\n${lines(
    count,
    (i) =>
      `  s${i}: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, zero: { x: left, y: back, z: top }, cuts: [h${i % 20}] }\n`,
  )}`;
}

export function manyAccepts(count: number): string {
  return `${separateHoles(20)}accept:\n${lines(
    count,
    (i) => `  - { rule: hole/depth-ratio, of: h${i % 20}, because: known ${i} }\n`,
  )}`;
}

/** A pocket whose outline has this many corners. */
export function manyCorners(count: number): string {
  const at = (i: number) => {
    const turn = (2 * Math.PI * i) / count;
    const radius = i % 2 ? 80 : 79;
    return `{ x: ${(100 + radius * Math.cos(turn)).toFixed(3)}, y: ${(100 + radius * Math.sin(turn)).toFixed(3)} }`;
  };
  return `${HEAD(200, 200)}features:\n  star:\n    kind: pocket\n    face: top\n    path:\n${lines(count, (i) => `      - ${at(i)}\n`)}    depth: 5\n`;
}

export function hugeJob(count: number): string {
  return `job: odd\nparts:\n${lines(count, (i) => `  p${i}: { spec: p${i}.part.yaml, quantity: 1 }\n`)}`;
}

/** By file name. */
export const HEAVY: Readonly<Record<string, () => string>> = {
  'sieve-6x6.part.yaml': () => sieve(6, 2),
  'sieve-touching-6x6.part.yaml': () => sieve(6, 1),
  'sieve-touching-14x14.part.yaml': () => sieve(14, 1),
  'sieve-14x14.part.yaml': () => sieve(14, 2),
  'sieve-100x100.part.yaml': () => sieve(100, 2),
  'sieve-touching-100x100.part.yaml': () => sieve(100, 1),
  'flow-200.part.yaml': () => flowStyle(200),
  'flow-2000.part.yaml': () => flowStyle(2000),
  'on-each-other-25.part.yaml': () => holesOnEachOther(25),
  'on-each-other-200.part.yaml': () => holesOnEachOther(200),
  'tilted-pockets-20.part.yaml': () => tiltedPockets(20),
  'holes-500.part.yaml': () => separateHoles(500),
  'holes-2000.part.yaml': () => separateHoles(2000),
  'engraving-200000.part.yaml': () => longEngraving(200_000),
  'open-quote-10000.part.yaml': () => openQuote(10_000),
  'errors-100000.part.yaml': () => manyErrors(100_000),
  'nesting-5000.part.yaml': () => deepNesting(5000),
  'lists-5000.part.yaml': () => deepLists(5000),
  'parameters-5000.part.yaml': () => chainedParameters(5000),
  'setups-200.part.yaml': () => manySetups(200),
  'accepts-5000.part.yaml': () => manyAccepts(5000),
  'corners-10000.part.yaml': () => manyCorners(10_000),
  'job-5000.job.yaml': () => hugeJob(5000),
};

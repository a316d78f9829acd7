/** Parts of any size for measuring: a plate with as many features as asked, of the kinds people draw, most of them sound. */

const CELL = 24;

/** `count` features on a plate that grows with them; `seed` shifts sizes so that no two parts are the same text. */
export function plate(count: number, seed = 0): string {
  const columns = Math.ceil(Math.sqrt(count * 1.5));
  const rows = Math.ceil(count / columns);
  const lines = [
    `# plate ${seed} with ${count} features`,
    `part: plate-${seed}`,
    'title: Bench plate',
    'revision: A',
    'units: mm',
    'material: aluminium-6061-t6',
    'quantity: 2',
    'tolerance: ISO 2768-m',
    '',
    'parameters:',
    `  wall: ${2 + (seed % 5) * 0.25}`,
    '  pitch: 10',
    '',
    `body: { x: ${columns * CELL}, y: ${rows * CELL}, z: 16 }`,
    '',
    'stock:',
    '  form: plate',
    '  sawn: [left, right, front, back]',
    '  extra: { left: 2, right: 2, front: 2, back: 2 }',
    '',
    'features:',
  ];
  for (let i = 0; i < count; i++) {
    const x = (i % columns) * CELL + CELL / 2;
    const y = Math.floor(i / columns) * CELL + CELL / 2;
    lines.push(...FEATURES[i % FEATURES.length]!(i, x, y, seed));
  }
  return `${lines.join('\n')}\n`;
}

type Maker = (i: number, x: number, y: number, seed: number) => string[];

const FEATURES: readonly Maker[] = [
  (i, x, y, seed) => [
    `  seat-${i}: # for a bearing`,
    '    kind: hole',
    '    face: top',
    `    at: { x: ${x}, y: ${y} }`,
    '    diameter: 12 H7',
    `    depth: ${5 + (seed % 4) * 0.5}`,
    '    bottom: flat',
  ],
  (i, x, y) => [
    `  screw-${i}:`,
    '    kind: hole',
    '    face: top',
    `    at: { x: ${x}, y: ${y} }`,
    '    pattern: { line: { x: pitch, count: 2 } }',
    '    thread: M4',
    '    thread-depth: 8',
    '    depth: through',
  ],
  (i, x, y, seed) => [
    `  pocket-${i}:`,
    '    kind: pocket',
    '    face: top',
    `    at: { x: ${x}, y: ${y} }`,
    '    size: { x: 16, y: 14 }',
    '    corner-radius: 3.5',
    `    depth: wall + ${4 + (seed % 3)} # leaves a sound floor`,
  ],
  (i, x, y) => [
    `  slot-${i}:`,
    '    kind: slot',
    '    face: bottom',
    `    ends: [{ x: ${x - 5}, y: ${y} }, { x: ${x + 5}, y: ${y} }]`,
    '    width: 6',
    '    depth: 5',
  ],
  (i, x, y) => [
    `  clearance-${i}:`,
    '    kind: hole',
    '    face: top',
    `    at: { x: ${x}, y: ${y} }`,
    '    diameter: 5.5',
    '    depth: through',
    '    counterbore: M5',
  ],
];

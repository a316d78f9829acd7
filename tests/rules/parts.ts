/** Part texts for tests of rules: a head, a body and features, each as it would be written. */

export const ALUMINIUM = 'part: sample\nunits: mm\nmaterial: aluminium-6061-t6\n';
export const ACETAL = 'part: sample\nunits: mm\nmaterial: pom-c\n';

/** A block with features; `features` is their YAML, indented by two spaces. */
export function block(size: readonly [number, number, number], features: string, head = ALUMINIUM, tail = ''): string {
  const [x, y, z] = size;
  return `${head}body: { x: ${x}, y: ${y}, z: ${z} }\nfeatures:\n${features.replace(/\n*$/, '\n')}${tail}`;
}

interface PocketOptions {
  readonly at: string;
  readonly size: readonly [number, number];
  readonly depth: number | string;
  readonly face?: string;
  readonly radius?: number;
  readonly more?: string;
}

/** A pocket from the top (or another face), its size along the face's own two axes. */
export function pocket(name: string, { at, size, depth, face = 'top', radius = 4, more }: PocketOptions): string {
  const [u, v] = face === 'left' || face === 'right' ? 'yz' : face === 'front' || face === 'back' ? 'xz' : 'xy';
  return [
    `  ${name}:`,
    '    kind: pocket',
    `    face: ${face}`,
    `    at: { ${at} }`,
    `    size: { ${u}: ${size[0]}, ${v}: ${size[1]} }`,
    ...(radius > 0 ? [`    corner-radius: ${radius}`] : []),
    `    depth: ${depth}`,
    ...(more ? [`    ${more}`] : []),
    '',
  ].join('\n');
}

export function hole(name: string, at: string, diameter: string | number, depth: string | number, more = ''): string {
  return [
    `  ${name}:`,
    '    kind: hole',
    /face:/.test(more) || /from:/.test(more) ? undefined : '    face: top',
    `    at: { ${at} }`,
    `    diameter: ${diameter}`,
    `    depth: ${depth}`,
    more ? `    ${more}` : undefined,
    '',
  ]
    .filter((line) => line !== undefined)
    .join('\n');
}

/** The text a new part starts with, and what may be a part's name. Knows no editor. */

/** Says what is wrong with a part's name, or nothing. */
export function nameTrouble(name: string): string | undefined {
  if (name === '') return 'A part needs a name.';
  if (!/^[a-z][a-z0-9-]*$/.test(name)) return 'Small letters, digits and “-”, beginning with a letter: bearing-block.';
  return name.length > 60 ? 'Sixty characters will do.' : undefined;
}

/** A plain block with two drilled holes and broken edges: makeable as it stands, and one of everything to change. */
export function starterPart(name: string): string {
  const title = name.charAt(0).toUpperCase() + name.slice(1).replaceAll('-', ' ');
  return `part: ${name}
title: ${title}
revision: A
units: mm
material: aluminium-6061-t6
quantity: 1
tolerance: ISO 2768-m

# Finished size. The origin is the left-front-bottom corner: x to the right, y to the back, z up.
body: { x: 60, y: 40, z: 12 }

features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: 40, count: 2 } }
    diameter: 5.5
    depth: through
  edge-break:
    kind: chamfer
    edges: [top, bottom]
    size: 0.5
`;
}

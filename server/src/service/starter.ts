/** The part a newcomer starts from: small, sound, and with every line explained; and a job of the parts that are there. */

export function starterPart(name: string): string {
  return `# A part for Scribeline. Every length is in \`units\`. The origin is the left-front-bottom corner
# of the finished body: x to the right, y to the back, z up. Text after a # is a remark.
part: ${name}
title: ${name.replaceAll('-', ' ')}
revision: A
units: mm
material: aluminium-6061-t6
quantity: 1
tolerance: ISO 2768-m # for every dimension without a tolerance of its own

parameters:
  wall: 4 # a name for a number that is used more than once

body: { x: 60, y: 40, z: 16 } # the finished part's outside

stock:
  form: flat-bar # 40 x 16 as supplied: front, back, top and bottom need no cutting
  sawn: [left, right] # the two ends come from the saw
  extra: { left: 1.5, right: 1.5 } # and are cut down to the body

features:
  seat: # a flat-bottomed bore for a bearing
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 H7
    depth: 7
    bottom: flat
  shaft: # starts on the seat's floor and goes through
    kind: hole
    face: top
    from: seat
    at: { x: center, y: center }
    diameter: 12
    depth: through
  mount: # two tapped holes, 44 apart
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: 44, count: 2 } }
    thread: M5
    depth: through
    thread-depth: 10 # more turns hold nothing
  lightening:
    kind: pocket
    face: bottom
    at: { x: center, y: wall + 4 }
    size: { x: 22, y: 8 }
    corner-radius: 3.5 # a 6 mm cutter rolls through
    depth: 8
  edges:
    kind: chamfer
    edges: [top, bottom]
    size: 0.5
`;
}

/** A job of parts: `specs` are their files from the job's own folder. */
export function starterJob(name: string, specs: readonly string[]): string {
  const nameOf = (spec: string) =>
    spec
      .replace(/^.*\//, '')
      .replace(/\.part\.ya?ml$/i, '')
      .replace(/[^\w-]+/g, '-');
  const entries = specs.map((spec) => `  ${nameOf(spec)}: { spec: ${quoted(spec)}, quantity: 1 }`);
  return [
    '# The parts that are made together. `mass-limit`, `hours` and `evening` may stand here too.',
    `job: ${name.replaceAll('-', ' ')}`,
    'parts:',
    ...(entries.length > 0 ? entries : ['  first: { spec: parts/first.part.yaml, quantity: 1 }']),
    '',
  ].join('\n');
}

function quoted(spec: string): string {
  return /^[\w./-]+$/.test(spec) ? spec : JSON.stringify(spec);
}

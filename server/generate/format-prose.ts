/** What the format's page says besides the fields: how things are written, and one whole example of each document. */
import type { DocumentKind } from '../src/model/lookup';

export const TITLES: Readonly<Record<DocumentKind, string>> = {
  part: 'A part: `NAME.part.yaml`',
  shop: 'A shop: `NAME.shop.yaml`',
  job: 'A job: `NAME.job.yaml`',
  record: 'A record: `NAME.record.yaml`',
};

export const INTRODUCTION = `
# The format

There are four kinds of YAML 1.2 document, told apart by file name.

- \`NAME.part.yaml\` says what a part is.
- \`NAME.shop.yaml\` says what a shop has.
- \`NAME.job.yaml\` says what is to be made.
- \`NAME.record.yaml\` says what came of it.

The tables below are generated from the schemas that the checker itself uses.

The last column, of parts, shops and jobs, says where a field counts. It was found by changing the field in small documents and comparing what came of them:

- \`check\`: findings come, go or say something else.
- \`drawing\`: the drawing of the part.
- \`export\`: STEP, its shape or what it says beside it.
- \`sheet\`: the set-up sheet, with tools, passes and plan.
- \`time\`: minutes, bars or money.
- \`refused\`: it is understood, and refused in words.
- \`hover\`: what the editor tells of a feature, set-up or joint that has it.
- \`stays in the text\`: a remark for whoever reads it.

The editor explains each of them where the pointer rests on it.

## How things are written

- Keys are lower-case, words joined by \`-\`. Names are lower-case letters, digits and \`-\`, a letter first.
- Bare lengths are in the document's \`units\`. Any length may carry its own: \`6.35 mm\`, \`0.25 in\`, \`1/4 in\`, \`1 3/4 in\`.
- A dimension is one scalar: a value, then its unit and its tolerance where it has them. Examples: \`22\`, \`22 mm\`,
  \`22 H7\`, \`40 ±0.05\`, \`40 +0.1/-0\`, \`pitch / 2 + 3 mm\`, \`body.x - 12\`.
- A tolerance class is one of ISO 286-1: \`A1\` to \`ZC18\`, to 500 mm. Or it is one of ANSI B4.1: \`RC4\`, \`LC3\`, \`LT2\`, \`LN2\`,
  \`FN2\`, to 19.69 in. Capitals give the limits of a hole, small letters those of a shaft: \`22 H7\`, \`22 g6\`, \`1 in RC4\`, \`1 in rc4\`.
- Arithmetic: \`+ - * / ( )\`, \`min max abs sqrt sin cos tan\` (of degrees), parameters, and \`body.x\`, \`body.y\`, \`body.z\`.
  In a sum, a number without a unit takes the unit of the value beside it. You cannot add a length to an angle.
- A minus between two names needs spaces around it: \`pitch - edge\`; \`pitch-edge\` is one name.
- A \`#\` after a space begins a comment: write \`10-24 UNC\` without it.

## Where things are

The part axes begin at the left-front-bottom corner of the finished body and are right-handed. \`x\` is to the right, \`y\` to the back, \`z\` up.
The six faces are \`left\` (x = 0), \`right\`, \`front\` (y = 0), \`back\`, \`bottom\` (z = 0), \`top\`. A place on a face is given
in the two axes of its plane. Each is given by the axis or by the distance from a face: \`{ x: 20, y: 8 }\`, \`{ right: 12, front: 8 }\`,
\`{ x: center, back: 10 }\`. The axis along the feature's depth is not given. The same holds for sizes and pitches.

Angles in the plane of a face are \`rotate\` and \`start\`. They count from the first of its two axes toward the second.

## One part in many sizes

\`\`\`yaml
parameters: { length: 60, wall: 3 }
variants:
  short: { length: 40 }
  long: { length: 90, wall: 4 }
\`\`\`

Each row of \`variants\` is a part of its own. It has other values of the parameters that it names: \`arm-short\`, \`arm-long\`. The
editor shows the part as \`parameters\` say; a row \`plain: {}\` gives that one a name. \`check\` checks it and every row, and a
finding says which rows have it. \`plan\`, \`sheet\` and \`export\` make every row, each in a file of its own, or the one that
\`--variant NAME\` names. A job names the row that it makes: \`{ spec: arm.part.yaml, variant: short }\`. Set-ups in the text
hold for all rows. \`parameters\` of a job go before those of its parts and their rows.

## Features from another part’s file

\`\`\`yaml
include:
  motor:
    from: motor-face.part.yaml
    features: [bore, screws]     # left out: all of them
    prefix: motor-               # bore is motor-bore here
    rename: { screws: bolts }    # screws is bolts
    parameters: { pitch: 31 }
    place: { face: front, at: { x: center, z: 20 }, rotate: 90 }
\`\`\`

They are cut as if they stood under \`features\`, after those. Setups, datums, tolerances, joints and other features name them
as they are called here. Sizes and places are worked out in the other part, by its body and its parameters. \`through\` goes
through this part. Its tolerances, datums and set-ups stay there. One file may come in several times.

Without \`place\` they lie where they lie there, in the part axes. With it they lie on one face. The middle of that
face there comes to lie at \`at\`, or the centre of the feature that \`by\` names. Nothing is mirrored. From top, front or
right to bottom, back or left the first axis of the face runs the other way. \`rotate\` turns the group then. What lies along sides of its own body (steps, slopes, edges of faces) is refused there. So are letters and toleranced
places at other turns than they can have.

What is found of them is told at the entry, with where they stand in the other file. No fix changes that file. Files may
include others, up to eight in a row, and not in a circle.

## Stock that is another part

\`\`\`yaml
stock: { form: blank, from: plate-raw.part.yaml, turned: { top: right }, extra: { bottom: 1 } }
\`\`\`

The workpiece begins as the finished body of that part. \`extra\` says where it lies: what is outside the body on one face
of each axis. The other face follows from its size; where neither is named it lies in the middle. This text says all of the
finished part. What the blank has already is written here too, or taken by \`include\`, and no set-up cuts it again.
Where the blank lacks what the part needs is an error. How it is made is checked in its own file.
`;

export const EXAMPLES: Readonly<Record<DocumentKind, string>> = {
  part: `
part: bearing-block
title: Elevation bearing block
revision: B
shop: ../campus.shop.yaml
units: mm
material: aluminium-6061-t6
quantity: 4
tolerance: ISO 2768-m

parameters:
  pitch: 36

body: { x: 60, y: 40, z: 16 }

stock:
  form: flat-bar
  sawn: [left, right]
  extra: { left: 1.5, right: 1.5 }

features:
  bearing-seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 H7
    depth: 7
    bottom: flat
  shaft-clearance:
    kind: hole
    face: top
    from: bearing-seat           # starts on that feature's floor; depth counts from there
    at: { x: center, y: center }
    diameter: 12
    depth: through
  mount:
    kind: hole
    face: front
    at: { x: center, z: 8 }
    pattern: { line: { x: pitch, count: 2 } }   # centred on \`at\`
    thread: M5
    depth: 14
    thread-depth: 10
  lightening:
    kind: pocket
    face: bottom
    at: { x: 14, y: center }
    size: { x: 14, y: 24 }
    corner-radius: 3.5
    depth: 9
  edge-break:
    kind: chamfer
    edges: [top, bottom]
    size: 0.5

datums: { A: bottom, B: front, C: bearing-seat }
tolerances:
  - { position: 0.1, of: mount, datums: [A, B, C] }
  - { flatness: 0.05, of: bottom }

setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [front, back], grip: 6, stop: left }
    zero: { x: left, y: back, z: top }
    cuts: [bearing-seat, shaft-clearance, right]
  second:
    up: front
    hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 12, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [mount]

accept:
  - { rule: hole/depth-ratio, of: mount, because: long-series drill is borrowed }
`,
  shop: `
shop: campus workshop
units: mm
machines:
  toolroom-mill:
    travel: { x: 400, y: 220, z: 380 }
    spindle: { rpm: [150, 5000], power: 1.1 kW, torque: 14 N·m }
    feed: 3000 mm/min
    coolant: flood
    zero-error: { edge-finder: 0.02, probe: 0.01, tool-edge: 0.08, stop: 0.02 }
vises:
  mill-vise-100: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN, face: smooth }
parallels: [10, 14, 18, 22, 26, 30]
holders:
  er20-short: { diameter: 34, length: 50 }
tools:
  em-6: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 18, shank: 6, corner-radius: 0, material: carbide, holder: er20-short, stickout: 24 }
  dr-4.2: { kind: drill, diameter: 4.2, flute-length: 43, point: 118, material: hss, holder: er20-short }
  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 22 }
rack:
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 40, thickness: 16 }, lengths: [1000, 3000], per-metre: 9.5 }
rates: { machine-hour: 25, person-hour: 0, currency: EUR }
`,
  job: `
job: gimbal flight set
shop: campus.shop.yaml
parts:
  yoke: { spec: parts/yoke.part.yaml, quantity: 2 }
  bearing-block: { spec: parts/bearing-block.part.yaml, quantity: 4 }
mass-limit: 900 g
hours: 12
joints:
  blocks:
    screw: ISO 10642 M5x20       # or M5: the length that does is told
    through: yoke.block-screws
    into: bearing-block.mount
  elevation:
    bearing: 608
    seat: bearing-block.bearing-seat
    shaft: 8 h6
saw-kerf: 2
`,
  record: `
record: bearing-block.part.yaml
measured:
  - { piece: 1, of: bearing-seat, size: diameter, value: 22.012, tool: bore, speed: 900 }
  - { piece: 2, of: bearing-seat, size: diameter, value: 22.016, tool: bore, speed: 900 }
times:
  - { what: load, took: 2.5 min }
changed:
  - em-6 at 2400, it sang at 3200
`,
};

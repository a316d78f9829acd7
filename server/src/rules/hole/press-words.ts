/** What is said of a hole that a drill press or bench does not take, behind its name. Words alone: they lie beside the doors. */
import type { PressLimit } from '../../process/press-limits';

export type PressTold = PressLimit | { readonly what: 'in a set-up'; readonly setup: string };

interface Told {
  /** Where it is made, by its name. */
  readonly on: string;
  /** The presses of the shop, and the one that is called most alike. */
  readonly known: string;
  readonly meant: string | undefined;
  readonly length: (mm: number) => string;
}

export function pressSentence(limit: PressTold, { on, known, meant, length }: Told): string {
  switch (limit.what) {
    case 'unknown': {
      return `is made on ${on}, which the shop does not have. ${meant ? `Did you mean ${meant}?` : known ? `It has ${known}.` : 'It lists no `drill-presses`.'} Make it on the mill, or list the press.`;
    }
    case 'no bench':
      return 'is made at the bench, and the shop file has no `bench`. Add `bench: {}` if there is one, or make it on the mill.';
    case 'tilted':
      return `is tilted. That was not checked on a drill press. Cut it on the mill, without \`made-on\`.`;
    case 'nothing by hand':
      return 'is made at the bench, but nothing of it is tapped or reamed. Delete `made-on`.';
    case 'missing':
      return `needs ${limit.wanted}, which no drill, reamer, countersink or tap in the shop does. A drill press takes no mills. Make it on the mill.`;
    case 'chuck':
      return `needs a drill of ${length(limit.needsMm)}. The chuck of ${on} takes ${length(limit.hasMm)}. Make it on the mill, or smaller.`;
    case 'throat':
      return `is ${length(limit.needsMm)} from the nearest side. The column of ${on} is ${length(limit.hasMm)} from its spindle. Make it on the mill.`;
    case 'opening':
      return `needs ${length(limit.needsMm)} between table and chuck, for part and drill. ${on} has ${length(limit.hasMm)}. Use a shorter drill, or the mill.`;
    case 'drill length':
      return `needs a drill with ${length(limit.needsMm)} of stick-out. The one in the shop has ${length(limit.hasMm)}. Use a longer drill, or the mill.`;
    case 'stroke':
      return `is drilled ${length(limit.needsMm)} deep, and the spindle of ${on} goes down ${length(limit.hasMm)}. Stop it, raise the table and the part together, and go on.`;
    case 'speed':
      return `needs at most ${Math.round(limit.rpm)} rpm, and ${on} turns ${Math.round(limit.slowest)} at its slowest. The drill gets hot and blunt. Make it on the mill, or drill it in steps.`;
    case 'tap':
      return `needs a tap of ${length(limit.needsMm)}; \`bench\` has taps to ${length(limit.hasMm)}. Tap it on the mill.`;
    case 'reamer':
      return `needs a hand reamer of ${length(limit.needsMm)}; \`bench\` has ${limit.hasMm > 0 ? `them to ${length(limit.hasMm)}` : 'none'}. Ream it on the mill.`;
    case 'in a set-up':
      return `is made on ${on}, and set-up ${limit.setup} cuts it too. Delete it from the set-up, or delete \`made-on\`.`;
    default:
      return limit satisfies never;
  }
}

/** The shop of both examples, up to what else its press is said to be. */
const SHOP = `shop: bench
machines:
  mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [60, 5000], power: 1 kW } }
vises:
  vise-100: { jaw: { width: 100, height: 32 }, opens: 110 }
parallels: [8, 12, 16]
drill-presses:
  pillar-drill: { largest: 13, throat: 150, opening: 350, stroke: 80, rpm: [500, 850, 1400, 2000, 2600]`;

/** What the page of the rule has. */
export const PRESS_PAGE = {
  summary: 'A drill press or bench does not take the hole that is made there.',
  why: 'A chuck takes drills to its size. The column stands behind the spindle, the table below it, and the spindle goes down only so far. A mill in a drill chuck works loose and flies out. Clamp the part; hands do not hold it.',
  formula:
    'On the finished part. The drill is compared with the chuck. The way from each hole to its nearest side is compared with the throat. The part’s height and the drill’s reach must fit the opening. The stick-out of the drill must reach the floor. A warning where the depth is over the stroke. Also where the slowest speed is 1.25 times the fastest of the tables. At the bench the tap and reamer by what is there.',
  bounds: 'The sizes in `drill-presses` and `bench` of the shop file. The 1.25 is rule of thumb.',
  mends: 'Make it on the mill, or as the press takes it.',
  bad: `part: foot
material: aluminium-6061-t6
body: { x: 80, y: 40, z: 12 }
features:
  screws: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 50, count: 2 } }, diameter: 14, depth: through, made-on: pillar-drill }
`,
  shop: `${SHOP} }
tools:
  em-8: { kind: end-mill, diameter: 8, reach: 24 }
  dr-14: { kind: drill, diameter: 14 }
  dr-10: { kind: drill, diameter: 10 }
`,
} as const;

/** What the page of the rule has. */
export const MARKED_PAGE = {
  summary: 'A hole on a drill press or at the bench is closer in place, or squarer, than that holds.',
  why: 'A hole that is marked out and punched lies where the punch was and the drill ran. A tap that is started by eye is out of square. What must fit others is drilled on the mill, through a jig, or together with its mate.',
  formula:
    'The `place-error` of the press against half of a position tolerance. It is also compared with what the drawing allows to each side, by its general tolerance too. The tangent of `lean` times the depth against a perpendicularity. Holes for pins and bearings are always told. Toleranced distances are in tol/as-set-up.',
  bounds: '`place-error` and `lean` of the shop file; rules of thumb where it gives none.',
  mends: 'Make it on the mill, or allow more.',
  bad: `part: foot
material: aluminium-6061-t6
tolerance: ISO 2768-m
body: { x: 80, y: 40, z: 12 }
features:
  screw: { kind: hole, face: top, at: { x: 12, y: 12 }, diameter: 5.5, depth: through, made-on: pillar-drill }
datums: { A: bottom, B: left, C: front }
tolerances:
  - { position: 0.2, of: screw, datums: [A, B, C] }
`,
  shop: `${SHOP}, place-error: 0.2 }
tools:
  em-8: { kind: end-mill, diameter: 8, reach: 24 }
  dr-5.5: { kind: drill, diameter: 5.5 }
`,
} as const;

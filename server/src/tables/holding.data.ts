/** Friction between jaws and work, and the rules of thumb for holding. Values only, each with its source. */
import type { MaterialFamily } from './materials.data';

const TABLE = 'a chuck maker’s printed table for steel parts (after VDI 3106, from memory)';

/** Of jaws on work with a rough to medium machined surface, with coolant about. */
export const JAW_FRICTION = {
  smooth: { mu: 0.1, source: TABLE },
  serrated: { mu: 0.35, source: TABLE },
} as const;

/** Against steel, from the same table; materials that are not in it count as steel. */
export const FRICTION_SHARE: Readonly<Partial<Record<MaterialFamily, number>>> = {
  aluminium: 0.95,
  copper: 0.9,
  'cast-iron': 0.8,
};

/** Clamping force over what the cut pushes with. */
export const HOLD_SAFETY = { value: 2, source: 'fixture handbooks: 2 to 2.5 for milling, from memory' } as const;

/** Shear strength over yield strength: 1/√3 by von Mises. */
export const SHEAR_SHARE = 1 / Math.sqrt(3);

/** A sawn end: how far out of square and out of flat it may be, mm. */
export const SAWN_MM = {
  value: 0.5,
  source: 'common practice, no source: a band saw wanders some tenths over a hand’s breadth',
} as const;

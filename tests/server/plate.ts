/** A plate with a bore, set up in a vise: small, and with everything that a sheet needs. */
export const plate = (name: string) => `part: ${name}
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 10 H7, depth: through }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 8, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [bore]
`;

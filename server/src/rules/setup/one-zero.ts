/** setup/one-zero – pieces of a batch held so that zero must be set anew for each. */

import { type Axis, FACE_AXIS, FACES, type Face, OPPOSITE } from '../../model/model';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { isFace } from '../../process/workholding/references';
import { setHold } from '../kit/holds';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { heightZero, setupFor, setZero } from '../kit/setups';

const NAME = 'setup/one-zero';

function* findingsOf(x: InJaws, { part }: RuleContext): Generator<Finding> {
  const { s, h, hold } = x;
  const { setup } = s;
  const all = `${part.quantity} pieces`;
  const base = { rule: NAME, severity: 'hint' as const, of: [], related: [] };
  const facts = { set_up: setup.name, quantity: part.quantity };
  const height = heightZero(s);
  if (height && height.name === s.up)
    yield {
      ...base,
      message: `${setup.name} takes its height from ${height.name}, and bars differ in thickness: for each of ${all} it must be set anew. The parallels stay where they are; zero there holds for all.`,
      span: height.span,
      facts: { ...facts, why: 'height', zero: height.name, axis: FACE_AXIS[s.up].axis },
    };
  const across = setup.zero[nameOf(h.jawAxis)];
  if (across && across.name === h.moving)
    yield {
      ...base,
      message: `${setup.name} takes ${nameOf(h.jawAxis)} from ${h.moving}, which the moving jaw presses on: it stands elsewhere on each of ${all}. The fixed jaw stays where it is; take zero from ${h.fixed}, or turn the work so that ${h.moving} is against the fixed jaw.`,
      span: across.span,
      facts: { ...facts, why: 'moving', zero: h.moving, axis: nameOf(h.jawAxis) },
    };
  const along = setup.zero[nameOf(h.alongAxis)];
  if (along && !hold.stop && isFace(along.name))
    yield {
      ...base,
      message: `${setup.name} has no stop: each of ${all} lies elsewhere along the jaws, and ${nameOf(h.alongAxis)} must be set anew. Against a stop, zero holds for all.`,
      span: hold.span,
      facts: { ...facts, why: 'stop', axis: nameOf(h.alongAxis), zero: along.name },
    };
}

function nameOf(axis: 0 | 1 | 2): Axis {
  return (['x', 'y', 'z'] as const)[axis];
}

const sample = (z: string, stop: string) => `part: guide
material: aluminium-6061-t6
quantity: 6
body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22${stop} }
    zero: { x: left, y: back, z: ${z} }
    cuts: [seat]
`;

export const oneZero: Rule = {
  name: NAME,
  severity: 'hint',
  summary: 'Pieces of a batch for which zero must be set anew each time.',
  why: 'Fixed jaw, parallels and stop stay where they are from piece to piece. With zero on them a batch is set once; with zero on the work it is set for every piece, and every setting is a chance to be wrong.',
  formula:
    'For a quantity over 1, in a vise: the height from the parallels, across from the fixed jaw’s side, along against a stop.',
  limits: [],
  bad: sample('top', ', stop: left'),
  good: sample('parallels', ', stop: left'),
  mends: 'Zero on the parallels or the fixed jaw’s side; a stop at the end that zero is taken from.',
  *find(context) {
    const { part, solid, shop } = context;
    if (part.quantity <= 1) return;
    for (const x of heldOf(part, solid, shop)) yield* findingsOf(x, context);
  },
  *mend(finding, context): Generator<Fix> {
    const s = setupFor(finding, context);
    if (!s) return;
    const { why, axis, zero } = finding.facts;
    if (why === 'height') {
      const edits = setZero(context, s.setup, axis as Axis, 'parallels');
      if (edits) yield { title: `Take ${axis} from the parallels`, safe: false, edits };
    }
    if (why === 'moving') {
      const face = zero as Face;
      const turned = setHold(context, s.setup, 'jaws', `[${face}, ${OPPOSITE[face]}]`);
      if (turned) yield { title: `Put ${face} against the fixed jaw`, safe: false, edits: turned };
      const edits = setZero(context, s.setup, axis as Axis, OPPOSITE[face]);
      if (edits) yield { title: `Take ${axis} from ${OPPOSITE[face]}`, safe: false, edits };
    }
    if (why === 'stop') {
      const ends = FACES.filter((f) => FACE_AXIS[f].axis === axis && !s.cuts.some((c) => c.face === f));
      for (const end of ends.sort((a, b) => Number(b === zero) - Number(a === zero))) {
        const edits = setHold(context, s.setup, 'stop', end);
        if (edits) yield { title: `A stop at ${end}`, safe: false, edits };
      }
    }
  },
};

import { at, entry } from '../../text/tree';
import { edited, tidying } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeEntry } from '../kit/edits';
import type { Rule } from '../kit/rule';

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
parameters:
  pitch: 36
  wall: 3
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: pitch, count: 2 } }
    diameter: 5.5
    depth: through
`;

export const unusedParameter: Rule = defineRule({
  name: 'form/unused-parameter',
  severity: 'hint',
  summary: 'No dimension uses a parameter.',
  why: 'Who changes it expects the part to change. A dimension was meant to use it and holds a bare number instead, or it is no longer needed.',
  formula: 'Each parameter is looked for in every dimension and in the other parameters.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['  wall: 3\n', '']),
  when: 'text',
  find: ({ part }) => [...part.parameters.values()].filter((p) => !p.used),
  tell: ({ name, span }) => ({
    message: `No dimension uses the parameter ${name}. Use it where its value is meant, or delete it.`,
    of: [],
    span,
    facts: { parameter: name },
  }),
  mends: 'Delete the parameter; the part stays as it is.',
  keep: ({ name }) => name,
  *mend(name, { tree }) {
    const parent = entry(tree.root, 'parameters');
    const map = at(tree.root, 'parameters');
    const gone = entry(map, name);
    if (map?.type !== 'map' || !gone || !parent) return;
    yield tidying(`Delete the parameter ${name}`, removeEntry(tree, map, gone, parent));
  },
});

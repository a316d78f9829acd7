import { at, entry } from '../../text/tree';
import { removeEntry } from '../kit/edits';
import type { Rule } from '../kit/rule';

export const unusedParameter: Rule = {
  name: 'form/unused-parameter',
  severity: 'hint',
  summary: 'A parameter that no dimension uses.',
  why: 'Whoever changes it expects the part to change. Either a dimension was meant to use it and holds a bare number instead, or it is left over.',
  limits: [],
  bad: `part: cover
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
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
parameters:
  pitch: 36
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: pitch, count: 2 } }
    diameter: 5.5
    depth: through
`,
  when: 'text',
  *find({ part }) {
    for (const parameter of part.parameters.values()) {
      if (parameter.used) continue;
      yield {
        rule: 'form/unused-parameter',
        severity: 'hint',
        message: `No dimension uses the parameter \`${parameter.name}\`. Use it where its value is meant, or remove it.`,
        of: [],
        span: parameter.span,
        related: [],
        facts: { parameter: parameter.name },
      };
    }
  },
  mends: 'The parameter is removed; the part stays as it is.',
  *mend(finding, { tree }) {
    const parent = entry(tree.root, 'parameters');
    const map = at(tree.root, 'parameters');
    const gone = entry(map, String(finding.facts.parameter));
    if (map?.type !== 'map' || !gone || !parent) return;
    yield {
      title: `Remove the parameter \`${finding.facts.parameter}\``,
      safe: true,
      edits: removeEntry(tree, map, gone, parent),
    };
  },
};

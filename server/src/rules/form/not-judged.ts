import { lettersLeftOut } from '../../geometry/solid/voids/engraving';
import { defineRule } from '../kit/define';
import { spanOf } from '../kit/message';
import type { Rule } from '../kit/rule';

export const notJudged: Rule = defineRule({
  name: 'form/not-judged',
  severity: 'error',
  summary: 'A rule was stopped before it had checked all of the part.',
  why: 'Outlines that cross each other thousands of times can need minutes of work, and real parts have none. What was not checked may be wrong, so the answer must not look clean.',
  formula:
    'Each rule counts its looks at an edge (`work`, in millions). One that needs more is stopped, and the message names it. Of an engraving 500 letters are checked, those nearest its middle. The message counts the others that may be on the part.',
  limits: [
    {
      name: 'work',
      value: 400,
      unit: 'count',
      what: 'Millions of looks at an edge of an outline that one rule may use.',
      source: 'common practice, no source: some tens of seconds on a small computer',
    },
  ],
  shop: `shop: hurried
units: mm
limits: { form/not-judged: { work: 0 } }
tools:
  mill-6: { kind: end-mill, diameter: 6, flutes: 3, reach: 20, material: carbide }
  drill-5: { kind: drill, diameter: 5, reach: 60, material: hss }
`,
  bad: `part: block
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 12 }
features:
  one: { kind: pocket, face: top, at: { x: 15, y: center }, size: { x: 16, y: 14 }, corner-radius: 4, depth: 5 }
  two: { kind: pocket, face: top, at: { x: 25, y: center }, size: { x: 16, y: 12 }, corner-radius: 4, depth: 6 }
`,
  good: `part: block
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 12 }
`,
  when: 'read',
  /** Else it is raised in the place of a rule that was stopped. */
  *find({ part, solid }) {
    for (const feature of part.features) {
      if (feature.kind !== 'engraving') continue;
      const leftOut = lettersLeftOut(feature, solid.body);
      if (leftOut > 0) yield { feature, leftOut };
    }
  },
  tell({ feature, leftOut }) {
    return {
      message: `Only the middle of this text is checked and drawn: ${leftOut.toLocaleString('en-US')} more letters may be on the part. Split it into several engravings.`,
      of: [feature.name],
      span: spanOf(feature, 'text'),
      facts: { letters_left_out: leftOut },
    };
  },
});

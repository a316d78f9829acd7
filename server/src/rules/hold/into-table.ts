/** hold/into-table – a through cut ends in the table that the work lies on. */
import type { AxisIndex } from '../../geometry/vector';
import { seatingOf, throughCuts } from '../../process/workholding/seating';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setHold } from '../kit/holds';
import type { Rule } from '../kit/rule';
import { setupsIn, setupsToJudge } from '../kit/setups';
import { held } from './samples';

/** Wherever it is. */
const EVERYWHERE = { jawFromMm: -1e5, jawToMm: 1e5 } as const;

const sample = (on: string) =>
  held({
    body: '{ x: 120, y: 80, z: 10 }',
    features: '  tie: { kind: hole, face: top, at: { x: 60, y: center }, diameter: 6, depth: through }\n',
    hold: `{ clamps: [{ x: 8, y: 40 }, { x: 112, y: 40 }], on: ${on} }`,
    cuts: '[tie]',
  });

export const intoTable: Rule = defineRule({
  name: 'hold/into-table',
  severity: 'warning',
  summary: 'A cut goes through, and the workpiece lies on the table.',
  why: 'A drill or cutter that comes out below goes into the table. That spoils the table and breaks the cutter.',
  formula:
    'A cut takes something of the lowest surface. The workpiece is clamped to the table, or is on it beside an angle plate.',
  bounds: 'Geometry: below the lowest surface there is the table.',
  limits: [],
  bad: sample('table'),
  good: sample('plate'),
  mends: 'Clamp it to a plate that may be drilled into.',
  *find(context) {
    const { part, shop } = context;
    for (const s of setupsToJudge(context)) {
      const { hold } = s.setup;
      const onTable = hold?.type === 'clamps' ? hold.on !== 'plate' : hold?.type === 'angle-plate' && !hold.out;
      const seating = onTable ? seatingOf(s, part, shop) : undefined;
      if (!seating) continue;
      const jawAxis = ((seating.upAxis + 1) % 3) as AxisIndex;
      for (const { cut } of throughCuts(seating, { jawAxis, ...EVERYWHERE })) yield { s, cut, plate: hold!.type };
    }
  },
  tell: ({ s, cut, plate }) => ({
    message: `Set-up ${s.setup.name}: ${cut.name} goes through, and the workpiece lies on the table. The ${cut.feature?.kind === 'hole' ? 'drill' : 'cutter'} would go into it. ${plate === 'clamps' ? 'Clamp it to a plate' : 'Set it higher on the angle plate, with `out`'}.`,
    of: [cut.name],
    span: cut.span,
    related: [{ span: s.setup.hold!.span, message: 'what it lies on' }],
    facts: { set_up: s.setup.name, meets: 'table' },
  }),
  keep: ({ s, plate }) => ({ setup: s.index, plate }),
  *mend({ setup, plate }, context) {
    const s = setupsIn(context)[setup];
    if (s && plate === 'clamps') yield change('Clamp it to a plate', setHold(context, s.setup, 'on', 'plate'));
  },
});

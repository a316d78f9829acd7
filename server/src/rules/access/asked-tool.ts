/** access/asked-tool – a set-up names an end mill whose shape does not make the feature. */

import type { Feature, Part, Setup } from '../../model/model';
import { operationsOf } from '../../process/operations';
import { unfitFor } from '../../process/operations/passed-over';
import { milledSeen } from '../../process/operations/seen';
import { lengthsIn } from '../../text/format';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule, RuleContext } from '../kit/rule';

interface Asked {
  readonly feature: Feature;
  readonly setup: Setup;
  readonly entry: Setup['tools'][number];
  readonly why: string;
}

function* unfit({ part, solid, shop }: RuleContext): Generator<Asked> {
  for (const setup of part.setups ?? []) {
    for (const entry of setup.tools) {
      const feature = part.featureByName.get(entry.of.name);
      const tool = shop.tools.find((t) => t.name === entry.tool.name);
      if (!feature || tool?.kind !== 'end-mill') continue;
      for (const m of milledSeen(feature, part, solid).all) {
        const reason = unfitFor(tool, m);
        if (!reason) continue;
        yield { feature, setup, entry, why: reason.why };
        break;
      }
    }
  }
}

/** The mill that would finish it if nobody asked for another. */
function unasked({ feature, entry }: Asked, { part, solid, shop }: RuleContext): string | undefined {
  const setups = part.setups!.map((s) => ({ ...s, tools: s.tools.filter((t) => t.of.name !== entry.of.name) }));
  const free: Part = { ...part, setups };
  const finish = operationsOf(feature, free, solid, shop).find((o) => o.does === 'finish');
  return finish?.does === 'finish' ? finish.tool.name : undefined;
}

const sample = (tool: string) => `part: guide
material: steel-c45
body: { x: 60, y: 30, z: 20 }
features:
  key: { kind: slot, face: top, ends: [{ x: 15, y: center }, { x: 45, y: center }], width: 8 P9, depth: 4 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    cuts: [key]
    tools: { key: ${tool} }
`;

export const askedTool: Rule = defineRule({
  name: 'access/asked-tool',
  severity: 'warning',
  summary: 'A set-up names an end mill whose shape does not make the feature.',
  why: 'The tool that a set-up names goes before any that would be chosen. One that is wider than the opening, fills it where its walls are to be finished, or does not go into its corners leaves another part than the one that is drawn.',
  formula:
    'For each end mill under `tools`: its diameter against the narrowest place, less 0.1 mm a side where the walls are to be finished, and against the inside corners; its own corner against that between wall and floor. How far it reaches is `access/reach`’s.',
  limits: [],
  bad: sample('em-8'),
  good: sample('em-6'),
  mends: 'The tool that would be chosen.',
  *find(context) {
    for (const asked of unfit(context)) yield { ...asked, better: unasked(asked, context) };
  },
  tell({ feature, setup, entry, why, better }, { part }) {
    const cure = better ? ` ${better} would do.` : '';
    return {
      message: `${setup.name} asks for ${entry.tool.name} to cut ${feature.name}, which it does not make: ${lengthsIn(why, part.units)}.${cure}`,
      of: [feature.name],
      span: entry.tool.span,
      related: [{ span: feature.nameSpan, message: 'what is cut' }],
      facts: { set_up: setup.name, tool: entry.tool.name, why, would_do_tool: better },
    };
  },
  keep: ({ entry, better }) => (better === undefined ? undefined : { span: entry.tool.span, better }),
  *mend({ span, better }) {
    yield change(`Cut it with ${better}`, { span, newText: better });
  },
});

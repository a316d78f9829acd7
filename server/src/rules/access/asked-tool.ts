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
      if (!feature || tool?.kind !== 'end-mill' || tool.roughing) continue;
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
  const finish = operationsOf(feature, { part: free, solid, shop }).find((o) => o.does === 'finish');
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
  summary: 'A set-up names an end mill that cannot make the feature.',
  why: 'The tool that a set-up names is used instead of one that would be chosen. A tool that is too wide, fills the opening or does not fit its corners makes another part.',
  formula:
    'For each end mill under `tools`, three things are compared. Its diameter must fit the narrowest place, less 0.1 mm a side where the walls are finished. It must fit the inside corners. Its own corner must be that between wall and floor. Its reach is checked by `access/reach`.',
  bounds: 'The sizes of the tool in the shop file. The 0.1 mm a side for finishing is a rule of thumb.',
  limits: [],
  bad: sample('em-8'),
  good: sample('em-6'),
  mends: 'Use the tool that would be chosen.',
  *find(context) {
    for (const asked of unfit(context)) yield { ...asked, better: unasked(asked, context) };
  },
  tell({ feature, setup, entry, why, better }, { part }) {
    const cure = better ? ` Use ${better}.` : ' Choose another tool.';
    return {
      message: `Set-up ${setup.name} names ${entry.tool.name} for ${feature.name}. The tool ${lengthsIn(why, part.units)}.${cure}`,
      has: entry.tool.name,
      needs: better,
      of: [feature.name],
      span: entry.tool.span,
      related: [{ span: feature.nameSpan, message: 'what is cut' }],
      facts: { set_up: setup.name, tool: entry.tool.name, why, would_do_tool: better },
    };
  },
  keep: ({ entry, better }) => (better === undefined ? undefined : { span: entry.tool.span, better }),
  *mend({ span, better }) {
    yield change(`Use ${better} for it`, { span, newText: better });
  },
});

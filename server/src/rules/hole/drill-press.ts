/** hole/drill-press – a hole that the place where it is made does not take. */
import type { Hole } from '../../model/model';
import { isOffMill } from '../../process/made-on';
import { pressLimits } from '../../process/press-limits';
import { nearest } from '../../tables/nearest';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField } from '../kit/fields';
import { list, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { PRESS_PAGE, type PressTold, pressSentence } from './press-words';

interface Hit {
  readonly hole: Hole & Required<Pick<Hole, 'madeOn'>>;
  readonly limit: PressTold;
}

/** Made with care, or slowly: not an error. */
const WITH_CARE: ReadonlySet<PressTold['what']> = new Set(['stroke', 'speed', 'in a set-up', 'nothing by hand']);

function* find({ part, solid, shop }: RuleContext): Generator<Hit> {
  for (const feature of part.features) {
    if (feature.kind !== 'hole' || !feature.madeOn) continue;
    const hole = { ...feature, madeOn: feature.madeOn };
    for (const limit of pressLimits(feature, { part, solid, shop })) yield { hole, limit };
    if (!isOffMill(feature)) continue;
    for (const setup of part.setups ?? [])
      if (setup.cuts.some((c) => c.name === feature.name))
        yield { hole, limit: { what: 'in a set-up', setup: setup.name } };
  }
}

export const drillPress: Rule = defineRule({
  name: 'hole/drill-press',
  ...PRESS_PAGE,
  severity: 'error',
  limits: [],
  good: edited(PRESS_PAGE.bad, ['diameter: 14', 'diameter: 10']),
  find,
  tell(hit, context) {
    const { hole, limit } = hit;
    const { part, shop, length } = context;
    const on = hole.madeOn.name;
    const presses = shop.drillPresses.map((p) => p.name);
    const words = { on, known: list(presses), meant: nearest(on, presses), length };
    const numbers =
      'needsMm' in limit
        ? { needed_mm: limit.needsMm, has_mm: limit.hasMm }
        : limit.what === 'speed'
          ? { rpm: limit.rpm, slowest_rpm: limit.slowest }
          : {};
    return {
      severity: WITH_CARE.has(limit.what) ? 'warning' : undefined,
      message: `${subjectOf(part, hole.name)} ${pressSentence(limit, words)}`,
      of: [hole.name],
      span: hole.madeOn.span,
      facts: { what: limit.what, ...numbers },
    };
  },
  keep: ({ hole }) => hole.name,
  mend: (name, { tree }) => [change('Make it on the mill', removeField(tree, name, 'made-on'))],
});

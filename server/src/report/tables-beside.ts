/** What stands beside the tables: the settings of rules, and what hands take. A shop may say both otherwise. */
import { TIMES_SOURCE, USUAL_TIMES } from '../model/shop-times';
import { RULES } from '../rules/registry';
import type { PublishedTable } from './tables/source';

export function tablesBeside(): readonly PublishedTable[] {
  return [
    {
      name: 'hand-times',
      what: 'What hands take besides cutting, minutes (`times:` of a shop).',
      rows: Object.entries(USUAL_TIMES).map(([time, { usual, what }]) => ({
        time,
        minutes: usual,
        what,
        source: TIMES_SOURCE,
      })),
    },
    {
      name: 'limits',
      what: 'Settings of the rules (`limits:` of a shop; `why RULE` tells more).',
      rows: RULES.flatMap((rule) =>
        rule.limits.map(({ name, value, unit, what, source }) => ({
          rule: rule.name,
          limit: name,
          value,
          unit,
          what,
          source,
        })),
      ),
    },
  ];
}

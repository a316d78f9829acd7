import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

/** Raised by whoever runs the rules (`run.ts`), in the place of what broke down. No text should: it has no example. */
export const checkerFailed: Rule = defineRule({
  name: 'form/checker-failed',
  severity: 'warning',
  summary: 'A piece of the checker itself broke down on this part.',
  why: 'The text is not to blame, and the other findings stand; but what the piece that failed would have found is missing, so that the part is not known to be clean. `failed_rule` names a rule that failed, `reason` what it died of.',
  limits: [],
  bad: '',
  good: '',
  when: 'read',
  mends: 'By whoever keeps the checker: please report it with the file.',
  find: () => [],
  tell: (hit: never) => hit,
});

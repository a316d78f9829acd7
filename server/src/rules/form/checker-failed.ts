import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

/** Raised by whoever runs the rules (`run.ts`), in the place of what broke down. No text should: it has no example. */
export const checkerFailed: Rule = defineRule({
  name: 'form/checker-failed',
  severity: 'warning',
  summary: 'A part of the checker itself failed.',
  why: 'The text is not to blame, and the other findings are valid. But what the failed rule would have found is missing, so the part is not known to be clean. The message names the rule and says why it failed.',
  formula: 'Each rule runs by itself. Where its own code fails, this finding names it, and all other rules go on.',
  limits: [],
  bad: '',
  good: '',
  when: 'read',
  mends: 'Report it with the file: whoever keeps the checker has to correct it.',
  find: () => [],
  tell: (hit: never) => hit,
});

/** Every rule there is. A topic folder joins its own rules in its `index.ts`; this joins the topics in table order. */

import { currentRule } from '../text/renamed';
import { RULES as access } from './access';
import { RULES as corner } from './corner';
import { RULES as cost } from './cost';
import { RULES as form } from './form';
import { RULES as hold } from './hold';
import { RULES as hole } from './hole';
import { RULES as joint } from './joint';
import type { Rule } from './kit/rule';
import { RULES as machine } from './machine';
import { RULES as safety } from './safety';
import { RULES as setup } from './setup';
import { RULES as stock } from './stock';
import { RULES as thread } from './thread';
import { RULES as tol } from './tol';
import { RULES as wall } from './wall';

/** Every rule, in the order of the rule table. */
export const RULES: readonly Rule[] = [
  ...form,
  ...corner,
  ...hole,
  ...thread,
  ...wall,
  ...access,
  ...hold,
  ...setup,
  ...tol,
  ...stock,
  ...machine,
  ...cost,
  ...joint,
  ...safety,
];

export const RULE_NAMES: readonly string[] = RULES.map((r) => r.name);

/** What a topic is about, for the table's headings. */
export const TOPICS: ReadonlyMap<string, string> = new Map([
  ['form', 'the text means a part'],
  ['corner', 'a round cutter makes round inside corners'],
  ['hole', 'drilled, bored, counterbored'],
  ['thread', 'tapped'],
  ['wall', 'enough material must be left'],
  ['access', 'a straight tool along the spindle'],
  ['hold', 'it must stay where it is'],
  ['setup', 'how it is turned, and in what order'],
  ['tol', 'what the process can hold'],
  ['stock', 'the bar it is cut from'],
  ['machine', 'what the machine can do'],
  ['cost', 'what makes it expensive'],
  ['joint', 'the parts of a job meet'],
  ['safety', 'what can hurt'],
]);

const byName = new Map(RULES.map((r) => [r.name, r]));

/** By its name, or by one that it had. */
export function ruleByName(name: string): Rule | undefined {
  return byName.get(currentRule(name));
}

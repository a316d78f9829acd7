/** Every number that a message quotes is among its facts, whatever the document's units: tried on every rule's bad example. */
import assert from 'node:assert/strict';
import { checkPart } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/kit/rule';
import { RULES } from '../../server/src/rules/registry';
import { shopOf } from './tester';

const TOPICS = ['corner', 'hole', 'thread', 'access'];

/** Numbers of a message that are quantities: not those inside a name (`em-6`, `M5`, `mount[2]`), a code span or brackets. */
function quantities(message: string): readonly number[] {
  const plain = message
    .replace(/`[^`]*`/g, '')
    .replace(/[A-Za-z][\w.-]*\d[\w.-]*/g, '')
    .replace(/\[\d+\]/g, '');
  return [...plain.matchAll(/\d+(?:\.\d+)?/g)].map((m) => Number(m[0]));
}

function missing(finding: Finding): readonly number[] {
  // What a cut takes is told in words, in the message and among the facts alike.
  const facts = Object.values(finding.facts).flatMap((v) => (typeof v === 'number' ? [v] : quantities(v)));
  const close = (a: number, b: number) => Math.abs(a - b) <= Math.max(0.06, 0.006 * Math.abs(b)) || Math.round(b) === a;
  return quantities(finding.message).filter((n) => !facts.some((f) => close(n, f) || close(n * 25.4, f)));
}

describe('numbers in messages', () => {
  for (const rule of RULES.filter((r) => TOPICS.includes(r.name.split('/')[0]!) && r.when !== 'read')) {
    it(`${rule.name} has them among its facts`, () => {
      const own = checkPart(rule.bad, shopOf(rule)).findings.filter((f) => f.rule === rule.name);
      assert.ok(own.length > 0);
      for (const finding of own) {
        assert.deepEqual(missing(finding), [], `${finding.message}\n${JSON.stringify(finding.facts)}`);
      }
    });
  }
});

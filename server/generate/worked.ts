/** Each rule's bad example checked, for its page: the finding with its numbers. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { builtinShop } from '../src/model/builtin-shop';
import { resolveShop } from '../src/model/shop';
import { plannerFindings } from '../src/planning/findings';
import { type JobPiece, jobFindings } from '../src/planning/job';
import { judgeRecord } from '../src/report/record/record';
import { checkJob, checkPart, checkRecord, checkShop } from '../src/rules/check';
import type { Finding, Rule } from '../src/rules/kit/rule';
import { recordFindings } from '../src/service/record';
import { readText } from '../src/text/read';

/** The examples of rules on whole jobs are jobs of these parts. */
const GIMBAL = fileURLToPath(new URL('../../examples/gimbal/', import.meta.url));
const read = (path: string) => readFileSync(`${GIMBAL}${path}`, 'utf8');

/** Undefined where no text makes it: the checker itself fails. */
export function workedExample(rule: Rule): Finding | undefined {
  if (rule.bad === '') return undefined;
  return findingsOf(rule).find((f) => f.rule === rule.name);
}

function findingsOf(rule: Rule): readonly Finding[] {
  if (rule.bad.startsWith('record:')) return ofRecord(rule.bad);
  if (rule.when === 'job') return ofJob(rule.bad);
  const shop = rule.shop === undefined ? builtinShop() : resolveShop(readText(rule.shop), 'example.shop.yaml');
  const checked = checkPart(rule.bad, shop);
  return rule.when === 'plan' ? plannerFindings(checked) : checked.findings;
}

function ofJob(text: string): readonly Finding[] {
  const { shop } = checkShop(read('campus.shop.yaml'));
  const { job, findings } = checkJob(text);
  const pieces = job.parts.map((entry): JobPiece => {
    const checked = checkPart(read(entry.spec.name), shop);
    return { entry, checked, quantity: entry.quantity?.value ?? checked.part.quantity };
  });
  return [...findings, ...jobFindings(job, pieces, true)];
}

/** A record of one of its parts. */
function ofRecord(text: string): readonly Finding[] {
  const own = checkRecord(text);
  const { shop } = checkShop(read('campus.shop.yaml'));
  const checked = checkPart(read(`parts/${/^record: (\S+)/.exec(text)![1]}`), shop);
  return recordFindings(own, judgeRecord(own.record, checked, ''));
}

/** The plan's page without an extension: what it is told of a part. */
import { planAnswer } from '../../server/src/service/plan/answer';
import type { PartHost } from './host';

export async function planTold(host: PartHost): Promise<object> {
  const answer = planAnswer(await host.snapshot());
  if (!answer) throw new Error('there is no plan');
  const { page, whole, refused } = answer;
  return { type: 'plan', plan: { part: 'a.part.yaml', page, whole, ...(refused !== undefined && { refused }) } };
}

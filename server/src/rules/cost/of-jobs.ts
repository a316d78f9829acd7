/** cost/over-mass, over-hours, bar-too-short – what a whole job exceeds. Found where all its parts are known (`planning/job.ts`); here is what they say. */
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

const JOB = (rest: string) => `job: gimbal flight set
shop: campus.shop.yaml
parts:
  bearing-block: { spec: parts/bearing-block.part.yaml, quantity: 2 }
${rest}`;

export const overMass: Rule = defineRule({
  name: 'cost/over-mass',
  severity: 'error',
  summary: 'All parts of the job together weigh more than its limit.',
  why: 'What flies has a fixed mass limit. Found on the scales after everything is cut, it costs holes drilled where they weaken most.',
  formula:
    'Sum over the parts of volume × density × quantity, against `mass-limit`. Only where every part of the job can be read and weighed.',
  bounds: 'The `mass-limit` of the job.',
  limits: [],
  when: 'job',
  bad: JOB('mass-limit: 100 g\n'),
  good: JOB('mass-limit: 900 g\n'),
  find: () => [],
  tell: (hit: never) => hit,
});

export const overHours: Rule = defineRule({
  name: 'cost/over-hours',
  severity: 'warning',
  summary: 'All parts of the job together need more hours than there are.',
  why: 'A shared machine is booked by the hour, and the last part is the one that is not finished. Fewer set-ups, batches without a new zero, and larger radii save more than higher speeds.',
  formula:
    'For each part: setting up and cutting the first piece, then loading and cutting each further one. Set-ups are as written, or as many as its directions need at least. The sum is compared with `hours`. A warning where its low end is over, a hint where only the high end is.',
  bounds: 'The `hours` of the job.',
  limits: [],
  when: 'job',
  bad: JOB('hours: 0.5\n'),
  good: JOB('hours: 12\n'),
  find: () => [],
  tell: (hit: never) => hit,
});

export const barTooShort: Rule = defineRule({
  name: 'cost/bar-too-short',
  severity: 'error',
  summary: 'A piece is longer than any bar of its section in the shop.',
  why: 'A bar has its length, and the saw cuts its kerf away from every piece. A piece that is longer must be ordered cut to length, or made of two.',
  formula:
    'The length of the piece along its bar and `saw-kerf`, against the longest bar of its form, section and material.',
  bounds: 'The bars in the shop file, and the `saw-kerf` of the job.',
  limits: [],
  when: 'job',
  bad: JOB('saw-kerf: 3000\n'),
  good: JOB('saw-kerf: 2\n'),
  find: () => [],
  tell: (hit: never) => hit,
});

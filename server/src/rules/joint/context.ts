/** What the rules on joints are told: the parts as the job has them, and how to speak of them. */
import type { Joint } from '../../model/joint-model';
import type { Piece, Pieces } from '../../process/joints/layers';
import type { Span } from '../../text/tree';
import type { Finding, Rule } from '../kit/rule';

export interface JointContext {
  readonly joints: readonly Joint[];
  readonly pieces: Pieces;
  limit(rule: Pick<Rule, 'name' | 'limits'>, name: string): number;
  /** In the job's units. */
  length(mm: number): string;
  /** A place in a part, told beside the joint. */
  there(piece: Piece, span: Span, message: string): Finding['related'][number];
}

/** What a rule on joints finds is found here, where all parts are known; its `find` finds nothing. */
export const OF_JOINTS = { when: 'job', find: () => [], tell: (hit: never) => hit } as const;

/** The head of an example: a job with two parts. */
export function example(joints: string): string {
  return `job: gimbal flight set
shop: campus.shop.yaml
parts:
  yoke: { spec: parts/yoke.part.yaml, quantity: 1 }
  bearing-block: { spec: parts/bearing-block.part.yaml, quantity: 2 }
  lid: { spec: faulty/lid.part.yaml, quantity: 1 }
  tub: { spec: faulty/tub.part.yaml, quantity: 1 }
joints:
${joints}`;
}

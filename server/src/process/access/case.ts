import type { Solid } from '../../geometry/types';
import type { Face, Part } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';
import type { Cut, Workpiece } from '../stock/types';
import type { Standing } from './collision';
import type { Places } from './surroundings';

/** What is handed to each way of judging. */
export interface Case {
  readonly cut: Cut;
  readonly up: Face;
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
  /** The workpiece without this cut's own volumes and only what a tool here can meet. */
  readonly place: Workpiece;
  /** Both, with no more than comes so near to the cut in plan: most verdicts need look no farther. */
  placesWithin(mm: number): Places;
  readonly topMm: number;
  readonly obstacles: readonly Standing[];
  readonly asked: Tool | undefined;
}

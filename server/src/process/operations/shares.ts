/** How the cutters that are tried for a volume share it: numbers only, and the cuts once two are chosen. */
import type { Void } from '../../geometry/types';
import type { Feature } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import type { MilledVoid } from '../milling';
import { wayIn } from '../room';
import type { Amount, Shared, Shares } from './quickest';
import { restAreaMm2 } from './rest';
import type { Finishing, Roughing } from './types';
import { type Room, restWidth, roughedIn, SPRUNG_MM } from './widths';

/** Less than this of the volume left in the corners is taken along with the wall. Common practice, no source. */
const LEAST_REST = 0.002;

export interface Volume {
  readonly m: MilledVoid;
  readonly volumeMm3: number;
  /** From its top to its floor; and as deep as one cut goes: half of it where it is cut from both sides. */
  readonly fullMm: number;
  readonly depthMm: number;
  /** Along its walls. */
  readonly wayMm: number;
  /** Walls all round. */
  readonly closed: boolean;
  readonly room: Room;
  /** Cutters that leave its narrowest place to others and work in the open. */
  readonly past: readonly Mill[];
  readonly piece: { readonly feature: Feature; readonly times: number; readonly how?: string; readonly volume: Void };
}

export class Sharing implements Shared {
  readonly #of: Volume;
  readonly #left = new Map<Mill, number>();

  constructor(of: Volume) {
    this.#of = of;
  }

  shares(large: Mill, small: Mill): Shares {
    const { m, volumeMm3, fullMm, depthMm, wayMm, room, past } = this.#of;
    const restMm3 = Math.min(volumeMm3, this.#restMm2(large, small) * fullMm);
    const open = past.includes(large);
    const { wideMm, leftMm } = roughedIn(room, large, open);
    const finishMm3 = Math.min(volumeMm3 - restMm3, wayMm * leftMm * depthMm);
    const rough: Amount | undefined =
      wideMm > 0
        ? { volumeMm3: volumeMm3 - restMm3 - finishMm3, neckMm: open ? room.widestMm : room.neckMm, wideMm }
        : undefined;
    const rest: Amount | undefined =
      restMm3 > LEAST_REST * volumeMm3
        ? { volumeMm3: restMm3, neckMm: room.neckMm, wideMm: restWidth(m, room, large, small) }
        : undefined;
    return { ...(rough && { rough }), ...(rest && { rest }), leftMm };
  }

  roughing(does: Roughing['does'], tool: Mill, amount: Amount): Roughing {
    const { piece: told, depthMm, closed, room } = this.#of;
    const enters = closed && does === 'rough' ? wayIn(tool, room.widestMm, room.longMm) : undefined;
    return { ...told, depthMm, ...amount, does, tool, ...(enters && { enters }) };
  }

  finishing(tool: Mill, leftMm: number): Finishing {
    const { piece: told, wayMm, depthMm } = this.#of;
    return { ...told, does: 'finish', tool, wayMm, depthMm, wideMm: Math.max(leftMm, SPRUNG_MM) };
  }

  /** mm² that the large cutter leaves and the small one reaches. */
  #restMm2(large: Mill, small: Mill): number {
    if (large.diameterMm <= small.diameterMm) return 0;
    return Math.max(0, this.#leftMm2(large) - this.#leftMm2(small));
  }

  #leftMm2(mill: Mill): number {
    const known = this.#left.get(mill);
    if (known !== undefined) return known;
    const { m, closed } = this.#of;
    const left = restAreaMm2(m, mill.diameterMm / 2, closed);
    this.#left.set(mill, left);
    return left;
  }
}

/** How a set-up finds its zero along an axis: from what, and how well. */
import { type Axis, FACE_AXIS, type Face, OPPOSITE, type Part, type Setup } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { SetupInTime } from '../stock/types';
import { machineOf } from '../workholding/forces';
import { isFace } from '../workholding/references';
import { errorOf } from './errors';
import type { Link } from './types';

interface Found {
  /** A face of the body or a feature. */
  readonly from: string;
  /** Between that and the set-up's zero. */
  readonly links: readonly Link[];
}

/** Undefined where the text gives no zero along this axis, one that does not lie across it, or no machine is known. */
export function zeroOf({ setup, up }: SetupInTime, axis: Axis, part: Part, shop: Shop): Found | undefined {
  const zero = setup.zero[axis];
  const way = wayOf(setup, shop);
  if (!zero || !way) return undefined;
  const of = `zero of ${setup.name}`;
  const seat = errorOf('seat', shop);
  const touched: Link = { what: `${of} from ${zero.name}`, halfMm: way.mm, source: way.how, by: 'zero' };
  if (zero.name === 'parallels') {
    if (!up || FACE_AXIS[up].axis !== axis) return undefined;
    const seated: Link = { what: `${OPPOSITE[up]} on the parallels`, halfMm: seat.mm, source: seat.source, by: 'zero' };
    return { from: OPPOSITE[up], links: [{ ...touched, what: `${of} on the parallels` }, seated] };
  }
  if (!isFace(zero.name)) return { from: zero.name, links: [touched] };
  if (FACE_AXIS[zero.name].axis !== axis) return undefined;
  return { from: zero.name, links: againstFace(zero.name, setup, part, shop) ?? [touched] };
}

/**
 * A batch whose zero is at the stop or the fixed jaw is not touched off piece by piece, unless a method says so: each
 * piece is put against it.
 */
function againstFace(face: Face, setup: Setup, part: Part, shop: Shop): readonly Link[] | undefined {
  const { hold, method } = setup;
  const stop = machineOf(setup, shop)?.zeroErrorMm.stop;
  const what = `zero of ${setup.name} from ${face}`;
  const asStop = method ? method.name === 'stop' : part.quantity > 1;
  if (hold?.stop?.name === face && asStop && stop !== undefined)
    return [{ what, halfMm: stop, source: 'each piece against the stop, by the shop', by: 'zero' }];
  const way = wayOf(setup, shop);
  if (hold?.jaws?.[0]?.name !== face || method || part.quantity < 2 || !way) return undefined;
  const seat = errorOf('seat', shop);
  return [
    { what, halfMm: way.mm, source: way.how, by: 'zero' },
    { what: `${face} against the fixed jaw`, halfMm: seat.mm, source: seat.source, by: 'zero' },
  ];
}

/** What a workshop has and takes where no method is written: an edge finder. Common practice, no source. */
const USUAL_WAY = 'edge-finder';

export interface Way {
  readonly method: string;
  readonly mm: number;
  /** Written in the set-up. */
  readonly named: boolean;
}

/** How a set-up finds its zero, and how well the machine does that: by the method that is named, else with an edge finder. */
export function wayToZero(setup: Setup, shop: Shop): Way | undefined {
  const errors = machineOf(setup, shop)?.zeroErrorMm;
  const named = setup.method && errors?.[setup.method.name];
  if (setup.method && named !== undefined) return { method: setup.method.name, mm: named, named: true };
  const mm = errors?.[USUAL_WAY];
  return mm === undefined ? undefined : { method: USUAL_WAY, mm, named: false };
}

function wayOf(setup: Setup, shop: Shop): { readonly mm: number; readonly how: string } | undefined {
  const way = wayToZero(setup, shop);
  return (
    way && { mm: way.mm, how: way.named ? `${way.method}, by the shop` : `${way.method}, as no method is written` }
  );
}

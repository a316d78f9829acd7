/** How exactly a mill puts things where no sheet says so: settings of `tol/as-set-up`. */
import type { Shop } from '../../model/shop-model';
import type { Adding } from './types';

export const ERRORS = [
  {
    name: 'cut',
    value: 0.01,
    unit: 'mm',
    what: '± by which a cut is off from the zero it is measured from',
    source: 'common practice, no source: a read-out or a ball screw, a sharp cutter and a light last pass',
  },
  {
    name: 'drilled',
    value: 0.05,
    unit: 'mm',
    what: '± by which a twist drill starts beside its place, spotted first; a reamer follows it, a boring head does not',
    source: 'common practice, no source: 0.05 spotted, 0.1 and more without',
  },
  {
    name: 'unspotted',
    value: 0.1,
    unit: 'mm',
    what: '± by which a twist drill starts beside its place where the shop has nothing to spot it with',
    source: 'common practice, no source: 0.05 spotted, 0.1 and more without',
  },
  {
    name: 'seat',
    value: 0.01,
    unit: 'mm',
    what: '± by which a piece seats on parallels or against the fixed jaw, piece after piece',
    source: 'common practice, no source: deburred, knocked down, the parallels tight',
  },
  {
    name: 'sawn',
    value: 0.5,
    unit: 'mm',
    what: '± of a length that a saw left',
    source: 'common practice, no source: a band saw wanders some tenths over a hand’s breadth',
  },
  {
    name: 'worst-case',
    value: 0,
    unit: 'count',
    what: 'How the errors of a chain are added. 0: the root of the sum of their squares; 1: all at their worst. It holds for tol/chain too.',
    source:
      'common practice: statistical for pieces that may be tried, worst case for what must fit unseen (both are told)',
  },
] as const;

export function addingOf(shop: Shop): Adding {
  return (shop.limits.get('tol/as-set-up')?.get('worst-case') ?? 0) > 0 ? 'worst' : 'likely';
}

type ErrorName = (typeof ERRORS)[number]['name'];

interface ErrorOf {
  readonly mm: number;
  /** Whether the shop's own sheet says so. */
  readonly source: string;
}

export function errorOf(name: ErrorName, shop: Shop): ErrorOf {
  const set = shop.limits.get('tol/as-set-up')?.get(name);
  if (set !== undefined) return { mm: set, source: `set in ${shop.name}` };
  return { mm: ERRORS.find((e) => e.name === name)!.value, source: 'common practice' };
}

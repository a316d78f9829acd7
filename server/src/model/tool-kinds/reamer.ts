/** Reamers: they size a drilled hole to a fit. */
import { parseFit } from '../../tables/fits';
import { map, optional, text } from '../schema/common';
import { diameter, gripped, kind, reach } from './fields';
import { byReach, inChuck, noDisc, type ToolBase, type ToolKindHome } from './kind';
import { PRACTICE, type ToolReader } from './reader';

export interface Reamer extends ToolBase {
  readonly kind: 'reamer';
  /** `H7` */
  readonly fit: string;
  readonly reachMm: number;
}

const schema = map(
  {
    kind: kind('reamer', 'Sizes a drilled hole to a fit.'),
    diameter: diameter('Nominal diameter.', '6'),
    fit: optional(text('The tolerance class it makes.', { example: 'H7', fallback: 'H7' })),
    reach: reach('four times the diameter'),
    ...gripped('hss'),
  },
  'A reamer.',
);

function read(r: ToolReader): Reamer | undefined {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const fit = r.fields.word(r.node, 'fit') ?? r.assume('fit', 'H7', PRACTICE);
  const reachMm = r.size('reach', () => 4 * d, 'four times the diameter, common practice');
  return { ...r.base(d, 'hss'), kind: 'reamer', fit, reachMm };
}

export const reamer: ToolKindHome<Reamer> = {
  form: 'reamer',
  hole: 'to-limits',
  schema,
  read,
  check: ({ fit }, tell) => {
    if (!parseFit(fit)) tell('fit', 'This `fit` is not a tolerance class. Write one like `H7`.');
  },
  reachMm: byReach,
  body: ({ diameterMm, reachMm }) => inChuck(diameterMm, reachMm),
  disc: noDisc,
};

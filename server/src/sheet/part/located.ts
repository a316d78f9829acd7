/** By what each form of feature is located: middles of its members, or the sides of what it takes away. */
import { type ByForm, ofForm } from '../../model/feature-kinds';
import type { Feature } from '../../model/model';

interface Located {
  /** What of it is dimensioned in a view. */
  readonly view: 'middles' | 'sides' | 'nothing';
  /** What the table says: its places, how far it reaches, or only its face. */
  readonly table: 'places' | 'reach' | 'face';
}

const MIDDLES: Located = { view: 'middles', table: 'places' };
const SIDES: Located = { view: 'sides', table: 'places' };
const REACH: Located = { view: 'sides', table: 'reach' };
const NOTHING: Located = { view: 'nothing', table: 'face' };

const BY_FORM: ByForm<[], Located> = {
  hole: () => MIDDLES,
  opening: () => SIDES,
  channel: () => SIDES,
  shoulder: () => REACH,
  outside: () => REACH,
  edge: () => NOTHING,
  ring: ({ in: inHole }) => (inHole ? NOTHING : MIDDLES),
  letters: () => MIDDLES,
  slope: () => REACH,
};

export function locatedBy(feature: Feature): Located {
  return ofForm(BY_FORM, feature);
}

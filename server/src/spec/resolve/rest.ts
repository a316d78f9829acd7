/** What stands on the features: datums, tolerances, setups, accepted findings. */
import type { MapEntry, MapNode } from '../../text/tree';
import type { Feature, Part } from '../model';
import type { Doc } from './doc';

export interface Known {
  readonly features: ReadonlyMap<string, MapEntry>;
  readonly featureByName: ReadonlyMap<string, Feature>;
}
type Rest = Pick<Part, 'datums' | 'tolerances' | 'setups' | 'accept'>;

export function restOf(_doc: Doc, _root: MapNode | undefined, _known: Known): Rest {
  return { datums: new Map(), tolerances: [], accept: [] };
}

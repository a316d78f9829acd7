import type { TextTree } from '../text/tree';
import type { Shop } from './shop-model';

/** Works out a shop from its text. Never throws; what could not be understood is left out and named in `problems`. */
export function resolveShop(_tree: TextTree, _uri?: string): Shop {
  throw new Error('not there yet');
}

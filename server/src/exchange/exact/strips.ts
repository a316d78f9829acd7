/** Placeholder. */
import type { Prism } from '../../geometry/prism';
import type { Room, Shape } from './kernel';

export function striped(_room: Room, _p: Prism): Shape {
  throw new Error('not yet');
}

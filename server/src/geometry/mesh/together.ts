/** Pieces as one mesh. Equal surfaces of one member are one. */
import { memo } from '../../memo';
import type { Shown } from './display';
import { joined } from './joined';
import { type ShownSurface, SurfaceList } from './traced';

interface Named {
  readonly surfaces: readonly ShownSurface[];
  /** Of each piece, what its surfaces are called among all. */
  readonly names: readonly (readonly number[])[];
}

export const namedTogether = memo((pieces: readonly Shown[]): Named => {
  const all = new SurfaceList();
  const names = pieces.map((p) => p.surfaces.map((s) => all.enter(s)));
  return { surfaces: all.list, names };
});

export const together = memo((pieces: readonly Shown[]): Shown => {
  const { surfaces, names } = namedTogether(pieces);
  return { ...joined(pieces, names), surfaces };
});

/** Faces whose own plane an edge or a slope is drawn from: while stock stands over them, nothing of it is there to be broken. */
import { type ByForm, ofForm } from '../model/feature-kinds';
import type { Face, Feature } from '../model/model';

/** `up`: only what is cut with that face up. */
export function bordersOf(feature: Feature, up?: Face): readonly Face[] {
  return [...new Set(ofForm(BORDERS, feature, up))];
}

const none = (): readonly Face[] => [];
const BORDERS: ByForm<[up: Face | undefined], readonly Face[]> = {
  edge: ({ edges }, up) =>
    edges.flatMap((e) => {
      // Where a feature comes out, the face must be there.
      if (e.type === 'rim') return e.far ? [e.face] : [];
      // Edges broken all round several faces are cut face by face.
      if (e.type === 'face') return up === undefined || e.face === up ? [e.face] : [];
      return e.faces;
    }),
  slope: ({ face, along }) => [face, along.name],
  hole: none,
  opening: none,
  channel: none,
  shoulder: none,
  outside: none,
  ring: none,
  letters: none,
};

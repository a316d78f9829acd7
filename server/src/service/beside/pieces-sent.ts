/** Pieces of a model's mesh between two threads: each goes over once, and is named by a number from then on. */
import type { Shown } from '../../geometry/mesh/display';
import type { Arrays } from '../../geometry/mesh/joined';
import type { ExactShape, Place } from '../../geometry/mesh/surface';
import type { Void } from '../../geometry/types';
import type { MadeMesh } from '../view/mesh-maker';

interface SentPiece extends Arrays {
  /** `of`: the number of the volume. */
  readonly surfaces: readonly { readonly of?: number; readonly place: Place; readonly shape: ExactShape }[];
}

export interface SentMesh {
  /** All of them in order; those that the other side has are only named. */
  readonly pieces: readonly (readonly [number, SentPiece?])[];
  readonly missing: readonly number[];
}

/** Of the side that makes them: what the other has of a model. */
export class PiecesOut {
  #known = new Map<Shown, number>();
  #count = 0;

  sent({ pieces, missing }: MadeMesh, voids: ReadonlyMap<number, Void>): SentMesh {
    const numbers = new Map([...voids].map(([id, v]) => [v, id]));
    const before = this.#known;
    this.#known = new Map();
    return {
      pieces: pieces.map((piece) => {
        const known = before.get(piece);
        const id = known ?? ++this.#count;
        this.#known.set(piece, id);
        return known === undefined ? [id, numbered(piece, numbers)] : [id];
      }),
      missing: missing.map((v) => numbers.get(v)!),
    };
  }
}

function numbered({ surfaces, ...arrays }: Shown, numbers: ReadonlyMap<Void, number>): SentPiece {
  return {
    ...arrays,
    surfaces: surfaces.map(({ of, place, shape }) => (of ? { of: numbers.get(of)!, place, shape } : { place, shape })),
  };
}

/** Of the side that asks. */
export class PiecesIn {
  #known = new Map<number, Shown>();

  /** `voids`: of the order that is answered, by number. */
  taken({ pieces, missing }: SentMesh, voids: ReadonlyMap<number, Void>): MadeMesh {
    const before = this.#known;
    this.#known = new Map(pieces.map(([id, piece]) => [id, piece ? named(piece, voids) : before.get(id)!]));
    return { pieces: [...this.#known.values()], missing: missing.map((id) => voids.get(id)!) };
  }
}

function named({ surfaces, ...arrays }: SentPiece, voids: ReadonlyMap<number, Void>): Shown {
  return {
    ...arrays,
    surfaces: surfaces.map(({ of, place, shape }) =>
      of === undefined ? { place, shape } : { of: voids.get(of)!, place, shape },
    ),
  };
}

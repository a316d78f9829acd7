/** What whoever asks for pictures holds: each is told by the one before. For the server’s askers: the extension and the page. */
import type { Mesh, PartPicture, PictureLists, ToldPicture } from './protocol';

/** `Piece`: what is kept of each piece of the mesh. */
export interface HeldPicture<Piece> {
  readonly id: string;
  readonly picture: Omit<PartPicture, 'mesh'>;
  readonly pieces: readonly Piece[];
  /** Of each piece, which of the picture's surfaces its own are. */
  readonly names: readonly (readonly number[])[];
}

/** Undefined where it is told by another picture than the one that is held. */
export function heldAfter<Piece>(
  told: ToldPicture,
  held: HeldPicture<Piece> | undefined,
  pieceOf: (mesh: Mesh) => Piece,
): HeldPicture<Piece> | undefined {
  const { id, by, lists, pieces, names, ...rest } = told;
  if (by !== undefined && by !== held?.id) return undefined;
  const list = <L extends keyof PictureLists>(name: L) =>
    lists[name].map((x) => (typeof x === 'number' ? held!.picture[name][x]! : x)) as unknown as PictureLists[L];
  return {
    id,
    picture: {
      ...rest,
      surfaces: list('surfaces'),
      features: list('features'),
      findings: list('findings'),
      setups: list('setups'),
    },
    pieces: pieces.map((p) => (typeof p === 'number' ? held!.pieces[p]! : pieceOf(p.mesh))),
    names,
  };
}

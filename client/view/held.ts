/** The pictures that the page was told, each by the one before. */
import { type Arrays, joined } from '../../server/src/geometry/mesh/joined';
import { type HeldPicture, heldAfter } from '../../server/src/service/view/held';
import type { PictureWords, ToldPicture } from '../../server/src/service/view/protocol';
import { arraysOf } from './decode';

export class HeldPictures {
  #held: HeldPicture<Arrays> | undefined;

  /** Undefined where it is told by one that is not held here: then it is to be told whole. */
  taken(told: ToldPicture): { readonly picture: PictureWords; readonly arrays: Arrays } | undefined {
    this.#held = heldAfter(told, this.#held, arraysOf);
    return this.#held && { picture: this.#held.picture, arrays: joined(this.#held.pieces, this.#held.names) };
  }
}

/** The sizes of what is chosen: asked for when it is, shown as marks, pressed to be found in the text, typed over in the picture. */
import type { PictureSizes } from '../../server/src/service/view/protocol';
import type { Mark } from './marks';
import type { ToHost } from './messages';

export class Sizing {
  readonly #tell: (message: ToHost) => void;
  readonly #changed: () => void;
  #feature: string | undefined;
  #shown: PictureSizes | undefined;

  /** `changed`: there are other sizes to be shown. */
  constructor(tell: (message: ToHost) => void, changed: () => void) {
    this.#tell = tell;
    this.#changed = changed;
  }

  /** Another feature is chosen, or none; or the part is another, and what is chosen may have other sizes. */
  of(feature: string | undefined): void {
    if (feature !== this.#feature) {
      this.#shown = undefined;
      this.#changed();
    }
    this.#feature = feature;
    if (feature !== undefined) this.#tell({ type: 'sizes', feature });
  }

  /** They came; those of what was chosen before are of no use any more. */
  came(sizes: PictureSizes | null): void {
    if (sizes && sizes.feature !== this.#feature) return;
    this.#shown = sizes ?? undefined;
    this.#changed();
  }

  get marks(): readonly Mark[] {
    const { sizes = [] } = this.#shown ?? {};
    return sizes.map(({ at, text, what, typed, job }, size): Mark => {
      if (job !== undefined) return { at, line: false, text, kind: 'size', about: `${what} of ${job}`, size };
      const about =
        typed === undefined ? `${what}: it is not written itself` : `${what}: press to find it, again to type over it`;
      return { at, line: true, text, kind: 'size', about, size, ...(typed !== undefined && { typed }) };
    });
  }

  /** Its place in the text is wanted. */
  find(size: number): void {
    const range = this.#shown?.sizes[size]?.range;
    if (range) this.#tell({ type: 'reveal', range });
  }

  type(size: number, text: string): void {
    if (!this.#shown) return;
    const { feature, version } = this.#shown;
    this.#tell({ type: 'typed', feature, size, text, version });
  }
}

/** What is chosen, and which faces are hidden. Kept by names: the faces of the next picture may have other numbers. */
import type { PictureWords, Surface } from '../../server/src/service/view/protocol';
import { surfacesOf } from './decode';
import type { Scene } from './scene';

export class Choice {
  readonly #scene: Scene;
  /** Features, members or faces of the body. */
  #names: readonly string[] = [];
  #hidden: ReadonlySet<string> = new Set();
  #surfaces: readonly Surface[] = [];

  constructor(scene: Scene) {
    this.#scene = scene;
  }

  get names(): readonly string[] {
    return this.#names;
  }

  get features(): ReadonlySet<string> {
    return new Set(this.#names.map((name) => name.replace(/\[\d+\]$/, '')));
  }

  /** The faces that are lit. */
  get faces(): ReadonlySet<number> {
    const found = new Set<number>();
    for (const name of this.#names) for (const s of surfacesOf(this.#surfaces, name)) found.add(s);
    return found;
  }

  of(names: readonly string[]): void {
    this.#names = names;
    this.#scene.light(this.faces);
  }

  show({ surfaces }: PictureWords, isOther: boolean): void {
    this.#surfaces = surfaces;
    if (isOther) {
      this.#names = [];
      this.#hidden = new Set();
    }
    this.#hide(this.#hidden);
  }

  hide(): void {
    const own = this.faces;
    if (own.size === 0) return;
    this.#hide(new Set([...this.#hidden, ...[...own].map((i) => this.#surfaces[i]!.name)]));
  }

  only(): void {
    const own = this.faces;
    if (own.size === 0) return;
    this.#hide(new Set(this.#surfaces.filter((_, i) => !own.has(i)).map((s) => s.name)));
  }

  unhide(): void {
    this.#hide(new Set());
  }

  #hide(names: ReadonlySet<string>): void {
    this.#hidden = names;
    const hidden = new Set(this.#surfaces.flatMap((s, i) => (names.has(s.name) ? [i] : [])));
    this.#scene.hidden = hidden;
    document.body.dataset.hidden = String(hidden.size);
  }
}

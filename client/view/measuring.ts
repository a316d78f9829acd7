/** Measuring: two faces or edges are pressed, one after the other; of one alone its own size is told. */
import type { Measured, MeasureTouch, PictureWords } from '../../server/src/service/view/protocol';
import { element } from './controls';
import type { ToHost } from './messages';
import type { Hit, Scene } from './scene';

export class Measuring {
  readonly #button = element<HTMLButtonElement>('measure');
  readonly #status = element('status');
  readonly #scene: Scene;
  readonly #tell: (message: ToHost) => void;
  readonly #changed: () => void;
  #first: Hit | undefined;
  #measured: Measured | null | undefined;
  /** What was pressed first, while its own size is on its way. */
  #alone = '';

  constructor(scene: Scene, tell: (message: ToHost) => void, changed: () => void) {
    this.#scene = scene;
    this.#tell = tell;
    this.#changed = changed;
    this.#button.addEventListener('click', () => this.turn());
  }

  get isOn(): boolean {
    return this.#button.getAttribute('aria-pressed') === 'true';
  }

  get measured(): Measured | null | undefined {
    return this.#measured;
  }

  turn(on = !this.isOn): void {
    this.#button.setAttribute('aria-pressed', String(on));
    this.forget();
    this.#scene.edge = undefined;
    this.#status.textContent = on ? 'Measure: press a face or an edge, then another.' : '';
    this.#changed();
  }

  /** The part is another. */
  forget(): void {
    this.#first = undefined;
    this.#measured = undefined;
  }

  came(measured: Measured | null): void {
    this.#measured = measured;
    const text = measured && `${this.#alone}${measured.text}`;
    this.#status.textContent = text ?? 'The part changed meanwhile: measure again.';
    this.#changed();
  }

  /** A face or edge was pressed. */
  pressed(hit: Hit, picture: PictureWords): void {
    const a = this.#first;
    this.#scene.edge = hit.edge;
    this.#scene.light(
      new Set([...(a && a.edge === undefined ? [a.surface] : []), ...(hit.edge === undefined ? [hit.surface] : [])]),
    );
    const one = a ?? hit;
    this.#alone = a || hit.edge !== undefined ? '' : `${picture.surfaces[hit.surface]?.name}: `;
    this.#first = a ? undefined : hit;
    this.#tell({ type: 'measure', version: picture.version, ...touched(one, 'A'), ...touched(hit, 'B') } as ToHost);
  }
}

function touched({ surface, at, edge }: Hit, which: 'A' | 'B'): Partial<MeasureTouch> {
  const low = which.toLowerCase();
  return { [low]: surface, [`at${which}`]: at, ...(edge !== undefined && { [`edge${which}`]: edge }) };
}

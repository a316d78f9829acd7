/**
 * What the view needs of whoever makes meshes: a worker thread in Node, another in a browser. Handed in with the host,
 * so that the service knows neither threads nor the library behind them.
 */
import type { Differing, SolidShape } from '../../geometry/mesh/differing';
import type { Shown } from '../../geometry/mesh/display';
import type { BodyShape, Void } from '../../geometry/types';

export interface MeshOrder {
  /** What is drawn, by any name that stays: a later order under the same name makes an earlier one needless. */
  readonly model: string;
  readonly body: BodyShape;
  /** Unchanged ones are told by being the same objects as in the last order of this model. */
  readonly voids: readonly Void[];
  /** How far a chord may stray from its arc; the maker's own where left out. */
  readonly chordMm?: number;
}

export interface MadeMesh {
  /** What did not change since the model's last order is the same object. */
  readonly pieces: readonly Shown[];
  /** Of the order's voids those that could not be drawn. */
  readonly missing: readonly Void[];
}

export interface MeshMaker {
  /** Undefined when a later order of the same model came first, or when there is nothing to draw. Rejects with `Unanswered` when it cannot be made. */
  make(order: MeshOrder): Promise<MadeMesh | undefined>;
  /** What of one solid the other has not, and the other way round. Undefined without a body. Rejects as `make` does. */
  differing(before: SolidShape, after: SolidShape): Promise<Differing | undefined>;
}

/** The mesh maker in a browser: the library is started from its bytes, and works in the worker that asks. */
import type { TriangleMaker } from '../export/triangles';
import { type ClosedMesh, closedMesh } from '../geometry/mesh/closed';
import { type Differing, differing, type SolidShape } from '../geometry/mesh/differing';
import type { Kernel } from '../geometry/mesh/handles';
import { Mesher } from '../geometry/mesh/mesher';
import { packed } from '../geometry/mesh/packed';
import type { BodyShape, Void } from '../geometry/types';
import type { MadeMesh, MeshMaker, MeshOrder } from '../service/view/mesh-maker';

/** Models that are kept ready; the one that was longest not asked for goes first. */
const MOST_MODELS = 4;
/** Thinner differences than this are between chords, mm. */
const DIFFER_CHORD_MM = 0.02;

interface Model {
  readonly mesher: Mesher;
  readonly chordMm: number | undefined;
}

export class BrowserMeshes implements MeshMaker, TriangleMaker {
  readonly #bytes: ArrayBuffer;
  #kernel: Promise<Kernel> | undefined;
  readonly #models = new Map<string, Model>();

  constructor(bytes: ArrayBuffer) {
    this.#bytes = bytes;
  }

  async make(order: MeshOrder): Promise<MadeMesh | undefined> {
    const built = this.#modelOf(order, await this.#started()).mesher.build(order.body, order.voids);
    return built && packed(built, order.voids);
  }

  async closed(body: BodyShape, voids: readonly Void[], chordMm: number): Promise<ClosedMesh | undefined> {
    return closedMesh(await this.#started(), body, voids, chordMm);
  }

  async differing(before: SolidShape, after: SolidShape): Promise<Differing | undefined> {
    return differing(await this.#started(), before, after, DIFFER_CHORD_MM);
  }

  #modelOf({ model, chordMm }: MeshOrder, kernel: Kernel): Model {
    const kept = this.#models.get(model);
    this.#models.delete(model);
    if (kept && kept.chordMm !== chordMm) kept.mesher.dispose();
    const now =
      kept?.chordMm === chordMm && kept
        ? kept
        : { mesher: new Mesher(kernel, chordMm === undefined ? {} : { chordMm }), chordMm };
    this.#models.set(model, now);
    for (const [name, old] of [...this.#models].slice(0, -MOST_MODELS)) {
      old.mesher.dispose();
      this.#models.delete(name);
    }
    return now;
  }

  #started(): Promise<Kernel> {
    this.#kernel ??= start(this.#bytes);
    return this.#kernel;
  }
}

async function start(bytes: ArrayBuffer): Promise<Kernel> {
  const { default: library } = await import('manifold-3d');
  // It asks where its file is, and then does not need it.
  const options = { wasmBinary: bytes, locateFile: (name: string) => name };
  const made = await (library as (options: object) => ReturnType<typeof library>)(options);
  made.setup();
  return made;
}

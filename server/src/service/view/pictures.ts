/**
 * Pictures of parts, and measures between their faces. Remembers the last pictures of each part so that a measure is
 * taken from the very surfaces that were shown.
 */
import type { Asker, OnGone } from '../asker';
import type { PartSnapshot } from '../snapshot';
import { measureBetween } from './measure';
import type { MadeMesh, MeshMaker, MeshOrder } from './mesh-maker';
import { missingIn, pictureOf } from './picture';
import type { Measured, MeasureRequest, Moment, PartPicture, PictureRequest } from './protocol';

interface Shot {
  readonly version: number;
  readonly made: MadeMesh;
  readonly units: 'mm' | 'in';
}

/** Versions of one model that can still be measured in. */
const MOST_SHOTS = 4;

/** Told to whoever asked for a picture that a later one has made needless. */
export class Superseded extends Error {}

type Wanted = Pick<PictureRequest, 'moment' | 'chordMm'>;

/** Finer than this costs much and shows nothing, coarser shows corners, mm. */
const FINEST_MM = 0.005;
const COARSEST_MM = 0.5;

function chordOf({ chordMm }: Wanted): { chordMm?: number } {
  if (chordMm === undefined || !(chordMm > 0)) return {};
  return { chordMm: Math.min(COARSEST_MM, Math.max(FINEST_MM, chordMm)) };
}

export class Pictures {
  readonly #maker: MeshMaker;
  readonly #shots = new Map<string, Shot[]>();
  readonly #last = new Map<string, { readonly order: MeshOrder; readonly made: MadeMesh }>();

  readonly #asker: Asker;

  constructor(maker: MeshMaker, asker: Asker) {
    this.#maker = maker;
    this.#asker = asker;
  }

  /** Null without a body, or without the set-up that the moment names. Rejects with `Superseded` when a later picture of the same thing was asked for meanwhile. */
  async picture(
    snapshot: PartSnapshot,
    version: number,
    wanted: Wanted = {},
    onGone: OnGone = () => {},
  ): Promise<PartPicture | null> {
    const { moment } = wanted;
    const { part, solid } = snapshot.checked;
    if (!part.body) return null;
    const work = moment ? await this.#asker.answer('work', snapshot, { moment }, onGone) : solid;
    if (!work) return null;
    const { body, voids } = work;
    const model = modelOf(snapshot.path, moment);
    // stepping from moment to moment adds and takes away few volumes: one model for all of them
    const order = { model: moment ? `${snapshot.path}#moment` : model, body, voids, ...chordOf(wanted) };
    const made = await this.#make(order);
    if (!made) throw new Superseded('A later picture was asked for.');
    const shots = this.#shots.get(model) ?? [];
    const others = shots.filter((s) => s.version !== version).slice(1 - MOST_SHOTS);
    this.#shots.set(model, [...others, { version, made, units: part.units }]);
    const shown = { version, made, voids, moment };
    const asked = { missing: missingIn(shown), findings: snapshot.findings, ...(moment && { moment }) };
    return pictureOf(snapshot, shown, await this.#asker.answer('told', snapshot, asked, onGone));
  }

  /** What was made last of a model serves as long as nothing of it changes: a comment does not move a triangle. */
  async #make(order: MeshOrder): Promise<MadeMesh | undefined> {
    const last = this.#last.get(order.model);
    if (
      last &&
      last.order.body === order.body &&
      last.order.voids === order.voids &&
      last.order.chordMm === order.chordMm
    )
      return last.made;
    const made = await this.#maker.make(order);
    if (made) this.#last.set(order.model, { order, made });
    return made;
  }

  /** Null when the picture it was asked of is no longer known. */
  measure(path: string, request: Omit<MeasureRequest, 'uri'>): Measured | null {
    const shot = this.#shots.get(modelOf(path, request.moment))?.find((s) => s.version === request.version);
    const a = shot?.made.surfaces[request.a];
    const b = shot?.made.surfaces[request.b];
    if (!shot || !a || !b) return null;
    return measureBetween(a.shape, request.atA, b.shape, request.atB, shot.units);
  }

  forget(path: string): void {
    for (const kept of [this.#shots, this.#last])
      for (const model of kept.keys()) if (model.startsWith(`${path}#`)) kept.delete(model);
  }
}

function modelOf(path: string, moment: Moment | undefined): string {
  return `${path}#${moment ? `${moment.setup} ${moment.when}` : ''}`;
}

/**
 * Pictures of parts, and measures between their faces. Remembers the last pictures of each part so that a measure is
 * taken from the very surfaces that were shown.
 */
import type { PartSnapshot } from '../workspace';
import { measureBetween } from './measure';
import type { MadeMesh, MeshMaker } from './mesh-maker';
import { workAt } from './moments';
import { pictureOf } from './picture';
import type { Measured, MeasureRequest, Moment, PartPicture } from './protocol';

interface Shot {
  readonly version: number;
  readonly made: MadeMesh;
  readonly units: 'mm' | 'in';
}

/** Versions of one model that can still be measured in. */
const MOST_SHOTS = 4;

/** Told to whoever asked for a picture that a later one has made needless. */
export class Superseded extends Error {}

export class Pictures {
  readonly #maker: MeshMaker;
  readonly #shots = new Map<string, Shot[]>();

  constructor(maker: MeshMaker) {
    this.#maker = maker;
  }

  /** Null without a body, or without the set-up that the moment names. Rejects with `Superseded` when a later picture of the same thing was asked for meanwhile. */
  async picture(snapshot: PartSnapshot, version: number, moment?: Moment): Promise<PartPicture | null> {
    const { part, solid } = snapshot.checked;
    if (!part.body) return null;
    const work = moment ? workAt(part, solid, moment) : solid;
    if (!work) return null;
    const { body, voids } = work;
    const model = modelOf(snapshot.path, moment);
    // stepping from moment to moment adds and takes away few volumes: one model for all of them
    const made = await this.#maker.make({ model: moment ? `${snapshot.path}#moment` : model, body, voids });
    if (!made) throw new Superseded('A later picture was asked for.');
    const shots = this.#shots.get(model) ?? [];
    const others = shots.filter((s) => s.version !== version).slice(1 - MOST_SHOTS);
    this.#shots.set(model, [...others, { version, made, units: part.units }]);
    return pictureOf(snapshot, version, made, voids, moment);
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
    for (const model of this.#shots.keys()) if (model.startsWith(`${path}#`)) this.#shots.delete(model);
  }
}

function modelOf(path: string, moment: Moment | undefined): string {
  return `${path}#${moment ? `${moment.setup} ${moment.when}` : ''}`;
}

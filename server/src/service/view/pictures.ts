/**
 * Pictures of parts, and measures between their faces. Remembers the last pictures of each part so that a measure is
 * taken from the very surfaces that were shown.
 */
import { together } from '../../geometry/mesh/together';
import { areSame } from '../../memo';
import type { OnGone } from '../asker';
import type { PartSnapshot } from '../snapshot';
import { VIEW_ANSWERS, type ViewQuestions } from './answers';
import type { MadeMesh, MeshMaker, MeshOrder } from './mesh-maker';
import { madeBy } from './moments';
import { missingIn, pictured, type Told } from './picture';
import type { Measured, MeasureRequest, PartPicture, PictureRequest, ToldPicture } from './protocol';
import type { SetUpTold } from './set-up';
import { type Pictured, toldBy, wholly } from './told';
import { measured } from './touched';

interface Shot {
  readonly version: number;
  readonly made: MadeMesh;
  readonly units: 'mm' | 'in';
}

/** Versions of one model that can still be measured in. */
const MOST_SHOTS = 4;

/** Told to whoever asked for a picture that a later one has made needless. */
export class Superseded extends Error {}

/** Pictures of one part that the next may be told by: one who asks again before the answer came holds an older one. */
const MOST_SENT = 4;
/** Another server's pictures are not this one's. */
const SINCE = performance.timeOrigin.toString(36);

type Wanted = Pick<PictureRequest, 'moment' | 'planned' | 'chordMm'>;

/** What takes long and is the same at every step through the set-ups of one text. */
interface Kept<T> {
  readonly of: readonly unknown[];
  readonly value: T;
}

/** Finer than this costs much and shows nothing, coarser shows corners, mm. */
const FINEST_MM = 0.005;
const COARSEST_MM = 0.5;

function chordOf({ chordMm }: Wanted): { chordMm?: number } {
  if (chordMm === undefined || !(chordMm > 0)) return {};
  return { chordMm: Math.min(COARSEST_MM, Math.max(FINEST_MM, chordMm)) };
}

/** How a picture is asked for. */
interface Asking {
  readonly onGone?: OnGone;
  /** The part with what is found of it by then. */
  readonly soFar?: (part: PartSnapshot) => PartSnapshot;
}

/** Whoever answers what a picture asks. */
interface ViewAsker {
  answer<Q extends keyof ViewQuestions>(
    question: Q,
    part: PartSnapshot,
    told: ViewQuestions[Q]['told'],
    onGone: OnGone,
  ): Promise<ViewQuestions[Q]['answer']>;
}

/** At once, in this thread. */
export const AT_ONCE: ViewAsker = {
  answer: async (question, part, told) => VIEW_ANSWERS[question](part, told),
};

export class Pictures {
  readonly #maker: MeshMaker;
  readonly #shots = new Map<string, Shot[]>();
  readonly #last = new Map<string, { readonly order: MeshOrder; readonly made: MadeMesh }>();

  /** Pictures that others may be told by. */
  readonly #sent = new Map<string, (Pictured & { readonly id: string })[]>();
  #count = 0;

  readonly #setUps = new Map<string, Kept<SetUpTold | null>>();
  readonly #told = new Map<string, Kept<Told>>();
  readonly #asker: ViewAsker;

  constructor(maker: MeshMaker, asker: ViewAsker) {
    this.#maker = maker;
    this.#asker = asker;
  }

  /** Null without a body, or without the set-up that the moment names. Rejects with `Superseded` when a later picture of the same thing was asked for meanwhile. */
  async picture(
    snapshot: PartSnapshot,
    version: number,
    wanted: Wanted = {},
    asking: Asking = {},
  ): Promise<PartPicture | null> {
    const made = await this.#pictured(snapshot, version, wanted, asking);
    return made && wholly(made);
  }

  /** The same told by the picture that is held; whole where that is not known any more. */
  async told(
    snapshot: PartSnapshot,
    version: number,
    wanted: Wanted,
    held: string,
    asking: Asking = {},
  ): Promise<ToldPicture | null> {
    const made = await this.#pictured(snapshot, version, wanted, asking);
    if (!made) return null;
    const known = this.#sent.get(snapshot.path) ?? [];
    const id = `${SINCE}.${++this.#count}`;
    this.#sent.set(snapshot.path, [...known.slice(1 - MOST_SENT), { ...made, id }]);
    return toldBy(
      id,
      made,
      known.find((k) => k.id === held),
    );
  }

  async #pictured(
    snapshot: PartSnapshot,
    version: number,
    wanted: Wanted,
    { onGone = () => {}, soFar = (part) => part }: Asking,
  ): Promise<Pictured | null> {
    const { moment } = wanted;
    const planned = wanted.planned === true;
    const { checked, path } = snapshot;
    const of = madeBy(checked, planned);
    if (!of?.part.body) return null;
    const setUp = moment && (await this.#setUp(snapshot, moment.setup, planned, onGone));
    if (setUp === null) return null;
    const done = moment?.pass === undefined ? undefined : setUp?.done[moment.pass - 1];
    if (moment?.pass !== undefined && !done) return null;
    const work = moment
      ? await this.#asker.answer('work', snapshot, { moment, planned, ...(done && { done }) }, onGone)
      : of.solid;
    if (!work) return null;
    const { body, voids } = work;
    const model = modelOf(path, wanted);
    // stepping from moment to moment adds and takes away few volumes: one model for all of them
    const order = { model: moment ? `${path}#moment` : model, body, voids, ...chordOf(wanted) };
    // What is found of it is told when the thread has begun to draw.
    const [made, known] = await Promise.all([this.#make(order), (async () => soFar(snapshot))()]);
    if (!made) throw new Superseded('A later picture was asked for.');
    const shots = this.#shots.get(model) ?? [];
    const others = shots.filter((s) => s.version !== version).slice(1 - MOST_SHOTS);
    this.#shots.set(model, [...others, { version, made, units: of.part.units }]);
    const shown = { version, made, voids, moment, planned, ...(setUp && { setUp }) };
    return pictured(known, shown, await this.#toldOf(known, missingIn(shown), planned, onGone));
  }

  async #setUp(snapshot: PartSnapshot, setup: number, planned: boolean, onGone: OnGone): Promise<SetUpTold | null> {
    const key = `${snapshot.path}#${setup}${planned ? ' planned' : ''}`;
    return this.#once(this.#setUps, key, [snapshot.checked], () =>
      this.#asker.answer('setUp', snapshot, { setup, planned }, onGone),
    );
  }

  async #toldOf(snapshot: PartSnapshot, missing: readonly string[], planned: boolean, onGone: OnGone): Promise<Told> {
    const { checked, findings, path } = snapshot;
    return this.#once(this.#told, `${path}#${planned ? 'planned' : ''}`, [checked, findings, missing], () =>
      this.#asker.answer('told', snapshot, { missing, findings, planned }, onGone),
    );
  }

  async #once<T>(kept: Map<string, Kept<T>>, key: string, of: readonly unknown[], ask: () => Promise<T>): Promise<T> {
    const known = kept.get(key);
    if (known && areSame(known.of, of)) return known.value;
    const told = await ask();
    kept.set(key, { of, value: told });
    return told;
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
    const shot = this.#shots.get(modelOf(path, request))?.find((s) => s.version === request.version);
    return shot ? measured(together(shot.made.pieces), request, shot.units) : null;
  }

  /** Whether somebody may look at it, and measure. */
  shows(path: string): boolean {
    return [...this.#shots.keys()].some((model) => model.startsWith(`${path}#`));
  }

  forget(path: string): void {
    for (const kept of [this.#shots, this.#last, this.#setUps, this.#told])
      for (const model of kept.keys()) if (model.startsWith(`${path}#`)) kept.delete(model);
    this.#sent.delete(path);
  }
}

function modelOf(path: string, { moment, planned }: Wanted): string {
  if (!moment) return `${path}#`;
  const { setup, when, pass = '' } = moment;
  return `${path}#${setup} ${when} ${pass}${planned ? ' planned' : ''}`;
}

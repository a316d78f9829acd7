/** A session at the editor, drawn at random: edits, files that come and go, questions in between; and whether a new service says the same. */
import { type Random, random } from '../runs';
import { type Ask, answer, assertSame, type Question, samePlans } from './answers';
import { edited } from './edits';
import { type Event, JOB, JOB_TEXT, PARTS, PATHS, partTexts, SHOPS, shopTexts, World } from './world';

/** What happens, what is asked, and what is held against a new service; all of it can be done again. */
type Step = Event | Ask | { readonly holds: Ask };

const CHEAP: readonly Question[] = ['findings', 'figures', 'hover', 'lens', 'list', 'walls'];
const DEAR: readonly Question[] = ['fixes', 'fixes', 'plan', 'planner'];
/** Plans of large parts take seconds: they are asked only of small ones. */
const SMALL = 900;

export class Session {
  readonly steps: Step[] = [];
  private readonly world = new World();
  private readonly random: Random;
  private readonly before = new Map<string, string[]>();
  /** The last text of each that could be read as a whole: who breaks a text soon has it back. */
  private readonly sound = new Map<string, string>();
  private path = PARTS[0]!;

  constructor(seed: number) {
    this.random = random(seed);
  }

  /** So many edits, each followed by a question to a new service; throws where it answers otherwise. */
  async run(edits: number): Promise<void> {
    for (const step of this.begin()) await this.take(step);
    for (let n = 0; n < edits; n++) {
      while (this.random.below(3) === 0) await this.take(this.question(this.random.pick(PATHS)));
      const event = this.event();
      await this.take(event);
      await this.remember(event.path);
      const path = this.random.below(3) > 0 ? event.path : this.random.pick(PARTS);
      await this.take({ holds: { ask: 'findings', path, at: 0 } });
      if (n % 5 === 4) await this.take({ holds: this.question(this.random.pick([...PARTS, path])) });
    }
  }

  private async take(step: Step): Promise<void> {
    this.steps.push(step);
    await apply(this.world, step);
  }

  private begin(): Step[] {
    const [parts, shops] = [partTexts(), shopTexts()];
    const steps: Step[] = [...PARTS].map((path) => ({ does: 'type', path, text: this.random.pick(parts) }));
    for (const path of SHOPS.slice(0, 2)) steps.push({ does: 'write', path, text: this.random.pick(shops) });
    steps.push({ does: 'write', path: JOB, text: JOB_TEXT });
    return steps;
  }

  private event(): Event {
    const { random } = this;
    if (random.below(5) === 0) this.path = random.pick([...PARTS, ...PARTS, ...SHOPS, JOB]);
    const { path } = this;
    const text = this.world.text(path);
    const kind = SHOPS.includes(path) ? 'shop' : path === JOB ? 'job' : 'part';
    const dice = random.below(100);
    if (text === undefined || dice < 4) {
      const texts = kind === 'shop' ? shopTexts() : kind === 'part' ? partTexts() : [JOB_TEXT];
      return { does: random.pick(['type', 'write'] as const), path, text: random.pick(texts) };
    }
    if (dice < 7) return { does: 'write', path };
    if (dice < 10 && this.world.open.has(path)) return { does: 'close', path };
    const sound = this.sound.get(path);
    if (sound !== undefined && sound !== text && dice < 60) return { does: 'type', path, text: sound };
    const undone = dice < 20 ? this.before.get(path)?.pop() : undefined;
    if (undone !== undefined) return { does: 'type', path, text: undone };
    this.before.set(path, [...(this.before.get(path) ?? []).slice(-20), text]);
    return { does: dice < 25 ? 'write' : 'type', path, text: edited(kind, text, random) };
  }

  private async remember(path: string): Promise<void> {
    const snapshot = await this.world.service.snapshot(path);
    if (snapshot && snapshot.checked.tree.problems.length === 0 && snapshot.checked.tree.root)
      this.sound.set(path, snapshot.text);
  }

  private question(path: string): Ask {
    const text = this.world.text(path) ?? '';
    const small = PARTS.includes(path) && text.length < SMALL;
    const ask = small && this.random.below(4) === 0 ? this.random.pick(DEAR) : this.random.pick(CHEAP);
    return { ask, path, at: this.random.next() };
  }
}

/** Does one step; throws where a new service would have answered otherwise. */
async function apply(world: World, step: Step): Promise<void> {
  if ('does' in step) world.happen(step);
  else if ('ask' in step) await answer(world, step);
  else {
    const { holds } = step;
    const anew = world.anew();
    await samePlans(world, anew, PARTS);
    assertSame(await answer(world, holds), await answer(anew, holds), `${holds.ask} of ${holds.path}`);
  }
}

/** The fewest steps that still end in a difference: those without which it is found too are left out. */
export async function shrunk(steps: readonly Step[]): Promise<readonly Step[]> {
  const last = steps.at(-1)!;
  const fails = async (some: readonly Step[]) => {
    const world = new World();
    try {
      for (const step of some) if (!('holds' in step)) await apply(world, step);
      await apply(world, last);
      return false;
    } catch {
      return true;
    }
  };
  let kept = steps.filter((s) => !('holds' in s));
  for (let size = Math.ceil(kept.length / 2); size >= 1; size = size > 1 ? Math.ceil(size / 2) : 0) {
    for (let at = 0; at < kept.length; ) {
      const less = [...kept.slice(0, at), ...kept.slice(at + size)];
      if (await fails(less)) kept = less;
      else at += size;
    }
    if (size === 1) break;
  }
  return [...kept, last];
}

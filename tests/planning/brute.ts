/**
 * The fewest set-ups by trying all: every assignment of what is to be cut to set-ups, every order of set-ups and of cuts in
 * them, every face up, each pair of jaws, every pair of parallels on hand. Judged by the rules as `check` runs them, of the
 * whole part as cut so far. Shares nothing with `server/src/planning`. Jaws milled to the work are tried only where plain
 * ones are the whole trouble: making them is work of its own.
 *
 * What saves work and why it leaves no plan out: what is cut is gone, by whichever way it went, so a lot tried on the same
 * workpiece is not tried again; what a tool cannot get at with all else gone, jaws or no jaws, it never can
 * (`reachedFrom`). Two more are taken on trust, and left off when `thorough`: a stop is one thing more to run into, so
 * all is tried without; and what the jaws press on is the same in whichever order it is cut.
 */

import { FACE_AXIS, FACES, type Face, OPPOSITE, type Part, type Setup } from '../../server/src/model/model';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import type { Finding } from '../../server/src/rules/kit/rule';
import { RULES } from '../../server/src/rules/registry';
import { runOne } from '../../server/src/rules/run';

interface BruteSetup {
  readonly up: Face;
  readonly jaws: readonly [Face, Face];
  readonly parallelsMm: number;
  readonly gripMm: number;
  readonly stop: Face | undefined;
  /** Jaws milled to the work's shape. */
  readonly soft: boolean;
  readonly cuts: readonly string[];
}
interface Brute {
  /** Undefined: none with as many as were allowed. */
  readonly fewest: readonly BruteSetup[] | undefined;
  /** What is cut from no face up, whatever is cut before it. */
  readonly never: readonly string[];
  readonly judged: number;
}

/** Only errors count: rules that raise none need not be asked. */
const RAISING = RULES.filter((r) => r.severity === 'error' || r.mayBeError);
const HOLDING = RAISING.filter((r) => /^(hold|setup)\//.test(r.name));
const REACHING = RAISING.filter((r) => r.name.startsWith('access/'));
/** A grip below this is none, and work must stand above the jaws. Common practice, no source. */
const LEAST_GRIP_MM = 3;
const LEAST_ABOVE_MM = 0.5;

/** What jaws milled to the work's shape cure. */
const OF_PLAIN_JAWS: ReadonlySet<string> = new Set(['hold/parallel', 'hold/drills-the-parallels']);

export function bruteFewest(checked: CheckedPart, mostSetups: number, thorough = false): Brute {
  const world = new World(checked, thorough);
  const never = world.names.filter((_, i) => world.reachedFrom[i]!.length === 0);
  if (never.length > 0) return { fewest: undefined, never, judged: world.judged };
  const all = world.names.map((_, i) => i);
  for (let n = 1; n <= mostSetups; n++) {
    const found = world.within(all, [], n);
    if (found) return { fewest: found, never, judged: world.judged };
  }
  return { fewest: undefined, never, judged: world.judged };
}

/** The set-ups as text, in the place of those that the part has. */
export function withSetups(text: string, setups: readonly BruteSetup[], vise: string): string {
  const lines = setups.map((s, i) => {
    const { parallelsMm: p, stop, gripMm, soft } = s;
    const more = `${p > 0 ? `, parallels: ${p}` : ''}${stop ? `, stop: ${stop}` : ''}`;
    return `  s${i + 1}: { up: ${s.up}, hold: { ${soft ? 'soft-jaws' : 'vise'}: ${vise}, jaws: [${s.jaws.join(', ')}], grip: ${gripMm}${more} }, cuts: [${s.cuts.join(', ')}] }\n`;
  });
  return `${text.replace(/^setups:[\s\S]*$/m, '')}setups:\n${lines.join('')}`;
}

class World {
  readonly names: readonly string[];
  readonly reachedFrom: readonly (readonly Face[])[];
  judged = 0;
  private readonly tried = new Map<string, BruteSetup | undefined>();

  constructor(
    private readonly checked: CheckedPart,
    private readonly thorough: boolean,
  ) {
    const { part } = checked;
    const raw = FACES.filter((f) => (part.stock.extra[f]?.mm ?? 0) > 0);
    // Edges of a millimetre or less are broken with a file where nothing else breaks them, and cost no set-up.
    const cut = part.features.filter((f) => f.kind !== 'chamfer' || f.size.mm > 1);
    this.names = [...raw, ...(raw.length + cut.length > 0 ? cut : part.features).map((f) => f.name)];
    this.reachedFrom = this.names.map((_, i) => FACES.filter((up) => this.everReached(i, up, raw.length)));
  }

  /** What is left, cut in at most so many set-ups after those; undefined where that cannot be. */
  within(left: readonly number[], before: readonly BruteSetup[], most: number): readonly BruteSetup[] | undefined {
    if (left.length === 0) return before;
    if (!this.enoughFaces(left, most)) return undefined;
    for (const up of FACES) {
      const can = left.filter((i) => this.reachedFrom[i]!.includes(up));
      for (let set = (1 << can.length) - 1; set > 0; set--) {
        const lot = can.filter((_, k) => set & (1 << k));
        const rest = left.filter((i) => !lot.includes(i));
        if (!this.enoughFaces(rest, most - 1)) continue;
        const made = this.make(lot, up, before);
        const plan = made && this.within(rest, [...before, made], most - 1);
        if (plan) return plan;
      }
    }
    return undefined;
  }

  /** Some so many faces see each of them: fewer never will do. */
  private enoughFaces(left: readonly number[], most: number): boolean {
    if (left.length === 0) return true;
    if (most === 0) return false;
    return this.reachedFrom[left[0]!]!.some((up) =>
      this.enoughFaces(
        left.filter((i) => !this.reachedFrom[i]!.includes(up)),
        most - 1,
      ),
    );
  }

  /** A set-up with this face up that cuts exactly these and that no rule has an error against. */
  private make(lot: readonly number[], up: Face, before: readonly BruteSetup[]): BruteSetup | undefined {
    const was = before.flatMap((s) => s.cuts.map((c) => `${c}<${s.up}`)).sort();
    const key = `${was.join()}|${up}|${lot.join()}`;
    if (this.tried.has(key)) return this.tried.get(key);
    const found = this.tryAll(lot, up, before);
    this.tried.set(key, found);
    return found;
  }

  private tryAll(lot: readonly number[], up: Face, before: readonly BruteSetup[]): BruteSetup | undefined {
    const names = lot.map((i) => this.names[i]!);
    for (const pose of this.poses(up, before)) {
      const first = this.errorsOf({ ...pose, cuts: names }, before);
      if (first.length === 0) return { ...pose, cuts: names };
      if (first.every((f) => OF_PLAIN_JAWS.has(f.rule))) {
        const milled = { ...pose, soft: true, cuts: names };
        if (this.errorsOf(milled, before).length === 0) return milled;
      }
      if (!this.thorough && first.some((f) => f.rule.startsWith('hold/') && f.rule !== 'hold/cut-free')) continue;
      // The order of cuts is all that is left to change; it does not matter to what is in the way when it is cut last.
      const hopeless = names.some((name) => {
        const last = [...names.filter((n) => n !== name), name];
        return this.errorsOf({ ...pose, cuts: last }, before).some((f) => isReaching(f) && namesIn(f).includes(name));
      });
      if (hopeless) continue;
      for (const cuts of orders(names))
        if (this.errorsOf({ ...pose, cuts }, before).length === 0) return { ...pose, cuts };
    }
    return undefined;
  }

  private *poses(up: Face, before: readonly BruteSetup[]): Generator<Omit<BruteSetup, 'cuts'>> {
    const { shop, part } = this.checked;
    const jawMm = shop.vises[0]!.jawHeightMm;
    const faced = new Set<string>(before.flatMap((s) => s.cuts));
    const k = 'xyz'.indexOf(FACE_AXIS[up].axis);
    const stock = (f: Face) => (faced.has(f) ? 0 : (part.stock.extra[f]?.mm ?? 0));
    const highMm = part.size[k]! + stock(up) + stock(OPPOSITE[up]);
    for (const fixed of FACES) {
      if (FACE_AXIS[fixed].axis === FACE_AXIS[up].axis) continue;
      if (!this.thorough && FACE_AXIS[fixed].sign < 0) continue;
      const ends = FACES.filter((f) => ![FACE_AXIS[up].axis, FACE_AXIS[fixed].axis].includes(FACE_AXIS[f].axis));
      for (const parallelsMm of [0, ...shop.parallelsMm]) {
        const gripMm = jawMm - parallelsMm;
        if (gripMm < LEAST_GRIP_MM || highMm - gripMm < LEAST_ABOVE_MM) continue;
        const stops = this.thorough ? [undefined, ...ends] : [undefined];
        for (const stop of stops) yield { up, jaws: [fixed, OPPOSITE[fixed]], parallelsMm, gripMm, stop, soft: false };
      }
    }
  }

  /** Errors about the last of these set-ups, the part being what was cut in them. */
  private errorsOf(last: BruteSetup, before: readonly BruteSetup[], only?: typeof RULES): readonly Finding[] {
    this.judged++;
    const { part, shop, solid, tree } = this.checked;
    const setups = [...before, last].map((s, i) => modelOf(s, i, part));
    const cut = new Set(setups.flatMap((s) => s.cuts.map((c) => c.name)));
    const soFar: Part = { ...part, features: part.features.filter((f) => cut.has(f.name)), setups };
    const run = (rules: typeof RULES) =>
      rules
        .flatMap((rule) => runOne(rule, { part: soFar, shop, solid, tree }, { counting: true }))
        .filter((f) => f.severity === 'error' && isOf(f, last, setups.length - 1));
    if (only) return run(only);
    const held = run(HOLDING);
    return held.length > 0 ? held : run(REACHING);
  }

  /** Whether a tool gets at it with that face up, all other features being gone and any of the faces with stock on them. */
  private everReached(item: number, up: Face, raw: number): boolean {
    const others = this.names.map((_, i) => i).filter((i) => i !== item);
    const faces = others.filter((i) => i < raw);
    for (let set = 0; set < 1 << faces.length; set++) {
      const gone = others.filter((i) => i >= raw || set & (1 << faces.indexOf(i)));
      const before = gone.map((i): BruteSetup => {
        const name = this.names[i]!;
        const face = i < raw ? (name as Face) : this.checked.part.featureByName.get(name)!.face;
        const jaw: Face = FACE_AXIS[face].axis === 'x' ? 'front' : 'left';
        return {
          up: face,
          jaws: [jaw, OPPOSITE[jaw]],
          parallelsMm: 0,
          gripMm: 5,
          stop: undefined,
          soft: false,
          cuts: [name],
        };
      });
      const jaws = FACES.filter((f) => FACE_AXIS[f].axis !== FACE_AXIS[up].axis);
      const last: BruteSetup = {
        ...{ up, jaws: [jaws[0]!, OPPOSITE[jaws[0]!]], parallelsMm: 0, gripMm: 5, stop: undefined, soft: false },
        cuts: [this.names[item]!],
      };
      // Jaws stand elsewhere when less is cut: what they are in the way of is no matter here.
      if (!this.errorsOf(last, before, REACHING).some((f) => f.rule !== 'access/jaw')) return true;
    }
    return false;
  }
}

const isReaching = (f: Finding) => f.rule.startsWith('access/');
const namesIn = (f: Finding) => f.of.map((name) => name.replace(/\[\d+\]$/, ''));

/** Said of this set-up, or of what it cuts. */
function isOf(f: Finding, { cuts }: BruteSetup, index: number): boolean {
  return f.span.block === blockOf(index) || namesIn(f).some((name) => cuts.includes(name));
}

const blockOf = (index: number) => `brute/${index}`;

function modelOf(s: BruteSetup, index: number, part: Part): Setup {
  const span = { block: blockOf(index), from: 0, to: 0 };
  const named = <T extends string>(name: T) => ({ name, span });
  const length = (mm: number) => ({ mm, text: String(mm), span });
  return {
    name: `s${index + 1}`,
    span,
    up: named(s.up),
    hold: {
      type: s.soft ? 'soft-jaws' : 'vise',
      jaws: [named(s.jaws[0]), named(s.jaws[1])],
      grip: length(s.gripMm),
      ...(s.parallelsMm > 0 && { parallels: length(s.parallelsMm) }),
      ...(s.stop && { stop: named(s.stop) }),
      span,
    },
    zero: {},
    cuts: s.cuts.map((name) => named(name)),
    cutsSpan: span,
    tools: [],
    whole: part.root,
  };
}

function* orders(names: readonly string[]): Generator<readonly string[]> {
  if (names.length <= 1) return yield names;
  for (const first of names) for (const rest of orders(names.filter((n) => n !== first))) yield [first, ...rest];
}

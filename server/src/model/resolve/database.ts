/**
 * One resolving of one document: what is asked for is worked out once, on demand, in cells that remember what they
 * looked at. A cell whose text and everything it looked at are unchanged is taken over from the resolving before, so an
 * edit costs what depends on it, and what did not change is the same object. That is no `memo`: what a cell turns on comes
 * out while it is worked out, cells may go in a circle, and what one says is counted only where it is asked for.
 */
import { areSame } from '../../memo';
import type { Quantity } from '../../text/expression';
import type { SpecProblem, Units } from '../base';
import type { Answers, Dependency, NamesDependency, Value, ValueDependency } from './dependencies';
import { type Database, Evaluation } from './evaluation';

interface Cell {
  readonly nodes: readonly unknown[];
  readonly value: unknown;
  readonly problems: readonly SpecProblem[];
  readonly dependencies: readonly Dependency[];
  /** False for a cell that met a circle: what it says depends on where the circle was entered. */
  readonly lasting: boolean;
}

export class CellDatabase implements Database {
  answers!: Answers;
  private readonly cells = new Map<string, Cell>();
  /** Keys of the cells being worked out, outermost first. */
  private readonly busy: string[] = [];
  private before: CellDatabase | undefined;

  constructor(
    readonly units: Units,
    before: CellDatabase | undefined,
  ) {
    this.before = before?.units === units ? before : undefined;
  }

  get unitMm(): number {
    return this.units === 'in' ? 25.4 : 1;
  }

  /** The value under `key`; worked out from `nodes` unless it is known, or nothing it saw before has changed. */
  cell<T>(key: string, nodes: readonly unknown[], compute: (work: Evaluation) => T, of?: string): T | 'circle' {
    const known = this.cells.get(key);
    if (known) return known.value as T;
    if (this.busy.includes(key)) return 'circle';
    this.busy.push(key);
    try {
      const old = this.before?.cells.get(key);
      if (old?.lasting && areSame(old.nodes, nodes) && old.dependencies.every((l) => this.isAsSeen(l))) {
        this.cells.set(key, old);
        return old.value as T;
      }
      const work = new Evaluation(this, of);
      const value = compute(work);
      const { problems, dependencies, lasting } = work;
      this.cells.set(key, { nodes, value, problems, dependencies, lasting });
      return value;
    } finally {
      this.busy.pop();
    }
  }

  /** Whether what was looked at is as it was. */
  private isAsSeen(look: Dependency): boolean {
    if (look.kind === 'names') return areSame(this.names(look.name), look.saw);
    return isSameValue(this.look(look.kind, look.name), look.saw);
  }

  names(of: NamesDependency['name']): readonly string[] {
    return [...(of === 'features' ? this.answers.featureNames() : this.answers.parameterNames())];
  }

  look(kind: ValueDependency['kind'], name: string): Value {
    if (kind === 'size') return this.answers.size(name);
    if (kind === 'parameter') return this.answers.parameter(name);
    const found = this.answers.feature(name);
    if (kind === 'feature' || typeof found === 'string') return found;
    return found.pattern ? found.places.length : 0;
  }

  /** The way round a circle, from `key` back to itself: `a → b → a`. */
  circle(key: string): string {
    const way = this.busy.slice(this.busy.indexOf(key)).map((k) => k.slice(k.indexOf('/') + 1));
    return [...way, way[0]].map((name) => `\`${name}\``).join(' → ');
  }

  *problems(): Iterable<SpecProblem> {
    for (const cell of this.cells.values()) yield* cell.problems;
  }

  /** Every parameter that some cell looked at. */
  usedParameters(): ReadonlySet<string> {
    const used = new Set<string>();
    for (const cell of this.cells.values())
      for (const l of cell.dependencies) if (l.kind === 'parameter') used.add(l.name);
    return used;
  }

  /** Lets go of the resolving before, so that snapshots do not hang on one another. */
  close(): void {
    this.before = undefined;
  }
}

/** Two answers alike: the same object, or quantities of the same value. */
function isSameValue(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  return 'dimension' in a && 'dimension' in b && a.dimension === b.dimension && same(a, b);
}

function same(a: object, b: object): boolean {
  return Object.is((a as Quantity).value, (b as Quantity).value);
}

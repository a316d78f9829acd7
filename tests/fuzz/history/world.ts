/** A small world: files that are on disk, those that are open, and what happens to them, as plain data that can be done again. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { RULES } from '../../../server/src/rules/registry';
import type { Host } from '../../../server/src/service/host';
import { Workspace } from '../../../server/src/service/workspace';

const ROOT = 'mem:///w';
export const PARTS = ['a', 'b', 'deep/c', 'deep/d'].map((n) => `${ROOT}/${n}.part.yaml`);
export const SHOPS = ['campus', 'other', 'deep/a b'].map((n) => `${ROOT}/${encodeURI(n)}.shop.yaml`);
export const JOB = `${ROOT}/all.job.yaml`;
export const PATHS = [...PARTS, ...SHOPS, JOB];

/** What a client tells: a document opened or edited, closed; a file written, or removed (no text). */
export interface Event {
  readonly does: 'type' | 'close' | 'write';
  readonly path: string;
  readonly text?: string;
}

/** Files and open documents, and the service that was told of each change. */
export class World {
  readonly files = new Map<string, string>();
  readonly open = new Map<string, string>();
  readonly service = new Workspace(this.host(), { roots: [ROOT] });

  happen({ does, path, text }: Event): void {
    if (does === 'type') {
      this.open.set(path, text!);
      this.service.open(path, text!);
    } else if (does === 'close') {
      this.open.delete(path);
      this.service.close(path);
    } else {
      if (text === undefined) this.files.delete(path);
      else this.files.set(path, text);
      this.service.fileChanged(path);
    }
  }

  /** The same files and documents, and a service that never knew others. */
  anew(): World {
    const other = new World();
    for (const [path, text] of this.files) other.files.set(path, text);
    for (const [path, text] of this.open) other.happen({ does: 'type', path, text });
    return other;
  }

  text(path: string): string | undefined {
    return this.open.get(path) ?? this.files.get(path);
  }

  private host(): Host {
    const { files } = this;
    const below = (folder: string) => [...files.keys()].filter((f) => f.startsWith(`${folder}/`));
    return {
      log: () => undefined,
      read: async (path) => files.get(path),
      list: async (folder) =>
        below(folder)
          .map((f) => decodeURIComponent(f.slice(folder.length + 1)))
          .filter((f) => !f.includes('/')),
      documents: async (folder) => below(folder),
    };
  }
}

const EXAMPLES = join(__dirname, '../../../examples/gimbal');
const read = (path: string) => readFileSync(join(EXAMPLES, path), 'utf8');

/** Texts of parts to begin from: the gimbal's, its faulty ones, and what shows every rule. */
export function partTexts(): readonly string[] {
  const gimbal = ['parts', 'faulty'].flatMap((f) => readdirSync(join(EXAMPLES, f)).map((name) => read(join(f, name))));
  const examples = RULES.filter((r) => r.when !== 'job' && !r.shop).flatMap((r) => [r.bad, r.good]);
  return [...gimbal, ...examples];
}

export function shopTexts(): readonly string[] {
  // The shop of `form/not-judged` allows no work at all: see `edits.ts`.
  const own = RULES.filter((r) => r.name !== 'form/not-judged').flatMap((r) => r.shop ?? []);
  return [read('campus.shop.yaml'), ...own];
}

export const JOB_TEXT = `job: all
parts:
  a: { spec: a.part.yaml, quantity: 2 }
  b: { spec: b.part.yaml }
  c: { spec: deep/c.part.yaml, quantity: 3 }
mass-limit: 200 g
hours: 2
`;

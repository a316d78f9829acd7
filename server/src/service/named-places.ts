/** Where a name stands in all documents that may say it: its own, those that include its file, jobs, parts of a shop. */
import type { Mention } from '../model/names';
import type { Span } from '../text/tree';
import { resolvePath } from './documents';
import { keyOf } from './file-key';
import { isTaken, takersOf } from './included-names';
import { mentionsOf } from './mentioned';
import type { Snapshot } from './snapshot';
import type { Workspace } from './workspace';

const OF_SHOP: ReadonlySet<string> = new Set([
  'tool',
  'holder',
  'vise',
  'v-block',
  'angle-plate',
  'machine',
  'drill-press',
  'material',
]);

/** Where a name stands, and what stands there once it is called otherwise; undefined where that stays. */
interface Place {
  readonly document: Snapshot;
  readonly span: Span;
  readonly definition: boolean;
  readonly after?: string;
}

interface Naming {
  readonly snapshot: Snapshot;
  readonly home: Snapshot | undefined;
  readonly mention: Mention;
  /** What it will be called. */
  readonly after: string;
  /** Names of documents passed on the way here: those that go in a circle end. */
  readonly passed?: Set<string>;
}

/** More names than that are a circle of files, each with a prefix of its own. */
const MOST_PASSED = 200;

/** A name everywhere: in its own documents, and in those that include its file, by what they call it. Or why that cannot be. */
export async function placesOf(workspace: Workspace, naming: Naming): Promise<readonly (Place | string)[]> {
  const { snapshot, home, mention, after, passed = new Set() } = naming;
  const key = `${home?.path} ${mention.name}`;
  if (passed.size >= MOST_PASSED || passed.has(key)) return [];
  passed.add(key);
  const found: (Place | string)[] = [];
  for (const document of await scopeOf(workspace, home?.kind === 'part' ? home : snapshot, mention))
    for (const { span, definition } of mentionsIn(document, mention)) found.push({ document, span, definition, after });
  for (const { part, spans, called } of home ? await takersOf(workspace, home, mention, after) : []) {
    for (const span of spans) found.push({ document: part, span, definition: false, after });
    for (const here of called) {
      if (here.own) found.push({ document: part, span: here.own, definition: true });
      const isSame = here.before === here.after;
      if (!isSame && isTaken(part, here.after)) return [`${part.path} has \`${here.after}\` already.`];
      const own: Mention = { ...mention, name: here.before, definition: false };
      const next = { snapshot: part, home: part, mention: own, after: here.after, passed };
      const inner = await placesOf(workspace, next);
      // what keeps its name there stays as it is
      found.push(...inner.map((p) => (isSame && typeof p !== 'string' ? without(p) : p)));
    }
  }
  return found;
}

function without({ document, span, definition }: Place): Place {
  return { document, span, definition };
}

/** A document in which a name is looked for; of a job, only what it says of that part. */
type Scope = Snapshot & { readonly as?: readonly string[] };

export function mentionsIn(document: Scope, { kind, name }: Mention): readonly Mention[] {
  const { as } = document;
  return mentionsOf(document).filter(
    (m) => m.kind === kind && m.name === name && (as === undefined || m.of === undefined || as.includes(m.of)),
  );
}

/** The document that defines a name; undefined for the built-in shop's. */
export async function homeOf(
  workspace: Workspace,
  snapshot: Snapshot,
  mention: Mention,
): Promise<Snapshot | undefined> {
  if (snapshot.kind === 'job' && mention.of !== undefined) {
    const entry = snapshot.checked.job.parts.find((p) => p.name === mention.of);
    return entry && workspace.snapshot(resolvePath(snapshot.path, entry.spec.name));
  }
  if (!OF_SHOP.has(mention.kind) || snapshot.kind !== 'part') return snapshot;
  return snapshot.shopPath === undefined ? undefined : workspace.snapshot(snapshot.shopPath);
}

/** Every document that may mention a name. */
async function scopeOf(workspace: Workspace, snapshot: Snapshot, mention: Mention): Promise<readonly Scope[]> {
  const home = await homeOf(workspace, snapshot, mention);
  if (home?.kind === 'part' && mention.kind === 'feature') return [home, ...(await jobsNaming(workspace, home))];
  if (!OF_SHOP.has(mention.kind) || !home) return [snapshot];
  const found: Snapshot[] = [home];
  for (const path of await workspace.paths('part')) {
    const part = await workspace.snapshot(path);
    if (part?.kind === 'part' && part.shopPath && keyOf(part.shopPath) === keyOf(home.path)) found.push(part);
  }
  return found;
}

/** The jobs that make a part, each with what it calls it. */
async function jobsNaming(workspace: Workspace, { path }: Snapshot): Promise<readonly Scope[]> {
  const jobs = await workspace.jobsOf(path);
  return jobs.map((job) => {
    const own = job.checked.job.parts.filter((p) => resolvePath(job.path, p.spec.name) === keyOf(path));
    return { ...job, findings: [], as: own.map((p) => p.name) };
  });
}

/** The documents that a part includes features of, with what those include in turn: read before the part is worked out. */
import { memoByValue } from '../memo';
import { readText } from '../text/read';
import { mapAt, NO_OTHERS, type Others, type OtherText, scalarAt, type TextTree } from '../text/tree';
import { kindOf, resolvePath } from './documents';
import type { FileText } from './host';

/** Files in a row that include each other; a longer row is a slip. */
const MOST_DEEP = 8;
/** Files that one part may bring in, all together. */
const MOST_FILES = 60;

export interface OtherDoor {
  /** What the host calls the document of this key. */
  name(key: string): string;
  read(key: string): Promise<FileText>;
  /** Whether the words of a document may lead there. */
  mayRead(from: string, target: string): boolean;
}

/** Why the part file that a document names cannot be had; undefined where it can. */
export async function unreadPart(
  door: OtherDoor,
  from: string,
  name: string,
  target: string,
): Promise<string | undefined> {
  if (kindOf(target) !== 'part') return `\`${name}\` is not a part file: its name must end in \`.part.yaml\`.`;
  if (!door.mayRead(from, target))
    return `\`${name}\` lies outside the open folder, where nothing is read. Open the folder that holds both.`;
  const read = await door.read(target);
  if (read === undefined) return `There is no part file \`${name}\` (looked for ${target}). Correct the path.`;
  if (typeof read === 'object') return `The part file \`${name}\` ${read.why}.`;
  return undefined;
}

const MENTIONS = /(?:^|[\s{,"'])(?:include["']?\s*:|form["']?\s*:\s*["']?blank\b)/;
const KEPT = 40;

/** Whether a text may name other files; cheap. */
export function mayInclude(text: string): boolean {
  return MENTIONS.test(text);
}

/** The names of files that a text includes, and of the part that is its blank. */
function filesIn({ root }: TextTree): readonly string[] {
  const entries = mapAt(root, 'include')?.entries ?? [];
  const blank = mapAt(root, 'stock');
  const names = [...entries.map(({ value }) => value), blank]
    .flatMap((of) => scalarAt(of, 'from')?.value ?? [])
    .map(String);
  return [...new Set(names)].filter((name) => name !== '');
}
const filesOf = memoByValue((text: string) => (mayInclude(text) ? filesIn(readText(text)) : []), KEPT);

/** `before`: what the last text of the same document had; where nothing changed it is that again. */
export async function othersOf(
  key: string,
  text: string,
  door: OtherDoor,
  before: TextTree | undefined,
): Promise<Others> {
  if (!mayInclude(text)) return NO_OTHERS;
  const gathering = new Gathering(door);
  const others = await gathering.of([key], filesIn(readText(text, before)), before?.others ?? NO_OTHERS);
  return others.size === 0 ? NO_OTHERS : others;
}

/** Keys of all the documents that a part includes, however deep. */
export function* includedKeys(key: string, others: Others): Generator<string> {
  for (const [name, other] of others) {
    const target = resolvePath(key, name);
    yield target;
    if ('text' in other) yield* includedKeys(target, other.others);
  }
}

/** Those from before, where they say the same: what came from another thread is the same object no more. */
export function othersAsBefore(others: Others | undefined, before: Others | undefined): Others | undefined {
  return others && before && isSame(others, before) ? before : others;
}

function isSame(a: Others, b: Others): boolean {
  return a.size === b.size && [...a].every(([name, other]) => isSameText(other, b.get(name)));
}

function isSameText(a: OtherText, b: OtherText | undefined): boolean {
  if (!b) return false;
  if ('why' in a || 'why' in b) return 'why' in a && 'why' in b && a.why === b.why;
  return a.path === b.path && a.text === b.text && isSame(a.others, b.others);
}

class Gathering {
  private files = 0;

  constructor(private readonly door: OtherDoor) {}

  /** `way`: the documents from the part down to the one that names these files. */
  async of(way: readonly string[], names: readonly string[], before: Others): Promise<Others> {
    const found = new Map<string, OtherText>();
    for (const name of names) found.set(name, await this.one(way, name, before.get(name)));
    return found.size === before.size && [...found].every(([name, other]) => before.get(name) === other)
      ? before
      : found;
  }

  private async one(way: readonly string[], name: string, before: OtherText | undefined): Promise<OtherText> {
    const from = way.at(-1)!;
    const target = resolvePath(from, name);
    const why = this.bounded(way, name, target) ?? (await unreadPart(this.door, from, name, target));
    const text = why === undefined ? await this.door.read(target) : undefined;
    if (typeof text !== 'string') {
      const missing = why ?? `There is no part file \`${name}\`. Correct the path.`;
      return before && 'why' in before && before.why === missing ? before : { why: missing };
    }
    const known = before && 'text' in before ? before : undefined;
    const others = await this.of([...way, target], filesOf(text), known?.others ?? NO_OTHERS);
    const path = this.door.name(target);
    return known?.text === text && known.others === others && known.path === path ? known : { path, text, others };
  }

  private bounded(way: readonly string[], name: string, target: string): string | undefined {
    if (way.includes(target))
      return way.length === 1
        ? `\`${name}\` is this part itself. Name another file.`
        : `\`${name}\` leads back to this part: the files go in a circle. Delete one of the two entries.`;
    this.files++;
    if (way.length > MOST_DEEP)
      return `\`${name}\` is the end of a row of more than ${MOST_DEEP} files. Name its file here.`;
    if (this.files > MOST_FILES)
      return `More than ${MOST_FILES} files are included, all together. Put features that belong together into one file.`;
    return undefined;
  }
}

/**
 * Two texts that grew from one, put together entry by entry: where each side touched other entries both are kept, whatever
 * lines lie beside each other; where both touched one, it stands there twice between plain conflict marks.
 *
 * An entry is a key at the left edge, or a key of a block below `features`, `parameters`, `parts` or `tools`, with the
 * comment lines right above it. Every line of the text is in exactly one entry, so that nothing is lost or made up.
 */

interface Merged {
  readonly text: string;
  /** Entries that stand there twice. */
  readonly conflicts: readonly string[];
}

/** What the sides are called beside the marks. */
interface Sides {
  readonly ours: string;
  readonly theirs: string;
}

interface Entry {
  readonly name: string;
  readonly text: string;
}

/** Sections whose entries are told apart. */
const APART: ReadonlySet<string> = new Set(['features', 'parameters', 'parts', 'tools']);
const HEAD = '';

export function mergeTexts(base: string, ours: string, theirs: string, sides: Sides): Merged {
  const [b, o, t] = [base, ours, theirs].map((text) => entriesOf(withEnd(text))) as [Entry[], Entry[], Entry[]];
  const conflicts: string[] = [];
  const inBase = new Map(b.map((e) => [e.name, e.text]));
  const inOurs = new Map(o.map((e) => [e.name, e.text]));
  const inTheirs = new Map(t.map((e) => [e.name, e.text]));
  const text = orderOf(o, t)
    .map((name) => {
      const [was, our, their] = [inBase.get(name), inOurs.get(name), inTheirs.get(name)];
      if (our === their || their === was) return our ?? '';
      if (our === was) return their ?? '';
      conflicts.push(name === HEAD ? 'its beginning' : name);
      return `<<<<<<< ${sides.ours}\n${our ?? ''}=======\n${their ?? ''}>>>>>>> ${sides.theirs}\n`;
    })
    .join('');
  return { text, conflicts };
}

function withEnd(text: string): string {
  return text === '' || text.endsWith('\n') ? text : `${text}\n`;
}

/** In our order; what they have and we have not comes after what it comes after there. */
function orderOf(ours: readonly Entry[], theirs: readonly Entry[]): string[] {
  const order = ours.map((e) => e.name);
  theirs.forEach(({ name }, i) => {
    if (order.includes(name)) return;
    const before = theirs
      .slice(0, i)
      .map((e) => e.name)
      .findLast((n) => order.includes(n));
    order.splice(before === undefined ? 0 : order.indexOf(before) + 1, 0, name);
  });
  return order;
}

function entriesOf(text: string): Entry[] {
  const lines = text.match(/[^\n]*\n/g) ?? [];
  const entries: { name: string; lines: string[] }[] = [{ name: HEAD, lines: [] }];
  /** Comments and empty lines, till it is known whose they are. */
  let loose: string[] = [];
  let section = '';
  let indent: number | undefined;
  const seen = new Set<string>();
  for (const line of lines) {
    if (/^\s*(#.*)?\r?\n$/.test(line)) {
      loose.push(line);
      continue;
    }
    const [, space = '', key] = /^( *)("[^"]*"|'[^']*'|[^\s:#'"[{&*!|>%@`-][^:]*?)\s*:(?:\s|$)/.exec(line) ?? [];
    let name: string | undefined;
    if (key !== undefined && space === '') [section, indent, name] = [key, undefined, key];
    else if (key !== undefined && APART.has(section) && (indent === undefined || indent === space.length)) {
      indent = space.length;
      name = `${section}/${key}`;
    }
    if (name !== undefined && !seen.has(name)) {
      seen.add(name);
      entries.push({ name, lines: [] });
    }
    entries.at(-1)!.lines.push(...loose, line);
    loose = [];
  }
  entries.at(-1)!.lines.push(...loose);
  return entries.map(({ name, lines: own }) => ({ name, text: own.join('') }));
}

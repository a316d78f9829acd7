/**
 * Two texts that grew from one, put together entry by entry: where each side touched other entries both are kept, whatever
 * lines lie beside each other; where both touched one, it stands there twice between plain conflict marks.
 *
 * An entry is a key at the left edge, or a key of a block below `features`, `joints`, `parameters`, `parts` or `tools`, with the
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
const APART: ReadonlySet<string> = new Set(['features', 'joints', 'parameters', 'parts', 'tools']);
const HEAD = '';

export function mergeTexts(base: string, ours: string, theirs: string, sides: Sides): Merged {
  const [b, o, t] = [base, ours, theirs].map((text) => entriesOf(withEnd(text))) as [Entry[], Entry[], Entry[]];
  const conflicts: string[] = [];
  const inBase = new Map(b.map((e) => [e.name, e.text]));
  const inOurs = new Map(o.map((e) => [e.name, e.text]));
  const inTheirs = new Map(t.map((e) => [e.name, e.text]));
  const twice = renamedByBoth(b, { ours: o, theirs: t });
  const text = orderOf(o, t)
    .map((name) => {
      if (twice.has(name)) {
        const other = twice.get(name);
        // Told where ours stands.
        if (other === undefined) return '';
        conflicts.push(`${name} and ${other}`);
        return marked(inOurs.get(name)!, inTheirs.get(other)!, sides);
      }
      const [was, our, their] = [inBase.get(name), inOurs.get(name), inTheirs.get(name)];
      if (our === their || their === was) return our ?? '';
      if (our === was) return their ?? '';
      conflicts.push(name === HEAD ? 'its beginning' : name);
      return marked(our ?? '', their ?? '', sides);
    })
    .join('');
  return { text, conflicts };
}

/** The marks end as the lines do between them. */
function marked(ours: string, theirs: string, sides: Sides): string {
  const end = (ours || theirs).endsWith('\r\n') ? '\r\n' : '\n';
  return `<<<<<<< ${sides.ours}${end}${ours}=======${end}${theirs}>>>>>>> ${sides.theirs}${end}`;
}

/**
 * One entry under two new names: both sides have taken it out, and each has put one in that is the same but for its name, or
 * that stands in its place. Ours leads to theirs; theirs to nothing.
 */
function renamedByBoth(
  base: readonly Entry[],
  { ours, theirs }: { readonly ours: readonly Entry[]; readonly theirs: readonly Entry[] },
): ReadonlyMap<string, string | undefined> {
  const found = new Map<string, string | undefined>();
  const has = (all: readonly Entry[], name: string) => all.some((e) => e.name === name);
  for (const [i, gone] of base.entries()) {
    if (has(ours, gone.name) || has(theirs, gone.name)) continue;
    const heir = (side: readonly Entry[], other: readonly Entry[]) => {
      const fresh = side.filter((e) => sectionOf(e) === sectionOf(gone) && !has(base, e.name) && !has(other, e.name));
      const before = base.slice(0, i).findLast((e) => has(side, e.name));
      const next = side[side.findIndex((e) => e.name === before?.name) + 1];
      return fresh.find((e) => saidOf(e) === saidOf(gone)) ?? fresh.find((e) => e === next);
    };
    const [our, their] = [heir(ours, theirs), heir(theirs, ours)];
    if (!our || !their || found.has(our.name) || found.has(their.name)) continue;
    found.set(our.name, their.name);
    found.set(their.name, undefined);
  }
  return found;
}

const sectionOf = ({ name }: Entry) => name.slice(0, name.indexOf('/') + 1);
/** All but its name. */
const saidOf = ({ text }: Entry) => text.replace(/^(?:\s*(?:#.*)?\r?\n)*/, '').replace(/^[^:]*/, '');

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

/**
 * A shop to start from: the everyday one that comes with the program (`schemas/everyday.shop.yaml`), less
 * what is not there; it is cut by its lines, which its layout makes sure of, so that nothing has to be read as YAML for it.
 */

/** Sections of the everyday shop that a person is asked about. */
export const SHOP_SECTIONS = ['machines', 'vises', 'v-blocks', 'angle-plates', 'tools', 'rack'] as const;
type ShopSection = (typeof SHOP_SECTIONS)[number];

export interface ShopEntry {
  readonly section: ShopSection;
  /** Its name; of a bar what it is. */
  readonly label: string;
  readonly detail: string;
  /** Its lines in the text, from the first up to before the last. */
  readonly from: number;
  readonly to: number;
}

/** What the everyday shop has, entry by entry. */
export function shopEntries(text: string): readonly ShopEntry[] {
  const lines = text.split('\n');
  const found: ShopEntry[] = [];
  let section: ShopSection | undefined;
  for (const [at, line] of lines.entries()) {
    const head = /^([a-z-]+):/.exec(line)?.[1];
    if (head !== undefined) section = SHOP_SECTIONS.find((name) => name === head);
    const entry = section && /^ {2}(?:- (.*)|([\w.-]+): ?(.*))$/.exec(line);
    if (!section || !entry) continue;
    let to = at + 1;
    while (/^ {3,}\S/.test(lines[to] ?? '')) to++;
    const [, bar, name, rest = ''] = entry;
    const label = name ?? barLabel(bar!);
    found.push({
      section,
      label,
      detail: readable(
        rest ||
          lines
            .slice(at + 1, to)
            .map((l) => l.trim())
            .join(', '),
      ),
      from: at,
      to,
    });
  }
  return found;
}

/** An entry as it is said, not as it is written: `end-mill, diameter 6, flutes 3`. */
function readable(entry: string): string {
  return entry
    .replace(/\s+#.*$/, '')
    .replace(/\[([^,\]]+), ([^,\]]+)\]/g, '$1 to $2')
    .replace(/\bkind: /, '')
    .replace(/[{}[\]]/g, ' ')
    .replace(/: /g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/ ,/g, ',')
    .trim();
}

function barLabel(bar: string): string {
  const of = (key: string) => new RegExp(`\\b${key}: ([^,}]+)`).exec(bar)?.[1]?.trim();
  const sizes = [of('width'), of('thickness'), of('diameter')].filter((s) => s !== undefined).join(' × ');
  return [of('form'), sizes, of('material')].join(' ');
}

/** The everyday shop under another name, without the entries at these lines. A section that is left empty goes with them. */
export function starterShop(text: string, name: string, without: readonly ShopEntry[] = []): string {
  const gone = new Set(without.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, i) => from + i)));
  const kept = new Set(shopEntries(text).flatMap((e) => (gone.has(e.from) ? [] : [e.section as string])));
  const asked: readonly string[] = SHOP_SECTIONS;
  const lines = text.split('\n').filter((line, at) => {
    const head = /^([a-z-]+):\s*$/.exec(line)?.[1];
    return !gone.has(at) && (head === undefined || !asked.includes(head) || kept.has(head));
  });
  const first = lines.findIndex((line) => line.startsWith('shop:'));
  const head = [
    `# What ${name} has. Correct it: sizes, speeds and what the machine can hold`,
    '# are those of an everyday workshop until then.',
    `shop: ${name.replaceAll('-', ' ')}`,
  ];
  // No money until somebody sets a rate.
  const rest = lines
    .slice(first + 1)
    .map((line) =>
      /^rates:/.test(line) ? `# What an hour costs here; without it nothing is told of money.\n# ${line}` : line,
    );
  return [...head, ...rest].join('\n').replace(/\n{3,}/g, '\n\n');
}

/**
 * Edits as people make them, and those that hurt: names changed with and without their mentions, blocks moved, doubled
 * and taken out, YAML broken, numbers, units, words, limits and the shop changed, and all of it taken back.
 */
import { RULES } from '../../../server/src/rules/registry';
import type { Random } from '../runs';

type Edit = (text: string, random: Random) => string;

/** Any edit of a text of that kind; now and then it changes nothing. */
export function edited(kind: 'part' | 'shop' | 'job', text: string, random: Random): string {
  const own = kind === 'shop' ? OF_SHOPS : kind === 'part' ? OF_PARTS : [];
  return random.pick([...COMMON, ...own])(text, random);
}

/** A name at the start of its line. */
const KEY = /^([ \t]*)([A-Za-z][\w-]*)[ \t]*:/gm;
const NUMBER = /-?\d+(\.\d+)?/g;
const WORD = /[a-z][a-z0-9-]{2,}/g;

function spot(pattern: RegExp, text: string, random: Random): RegExpExecArray | undefined {
  const all = [...text.matchAll(pattern)];
  return all.length > 0 ? random.pick(all) : undefined;
}

function splice(text: string, from: number, to: number, put: string): string {
  return text.slice(0, from) + put + text.slice(to);
}

/** One letter more, less, or another: near enough that the old name is what is meant. */
function nearName(name: string, random: Random): string {
  const at = random.below(name.length);
  return random.pick([
    `${name}${name.at(-1)}`,
    name.length > 2 ? splice(name, at, at + 1, '') : `${name}x`,
    `${name}-2`,
  ]);
}

const number: Edit = (text, random) => {
  const found = spot(NUMBER, text, random);
  if (!found) return text;
  const was = Number(found[0]);
  const by = [was + 1, was - 1, was * 2, was / 2, was + 0.1, -was, 0, was * 10, was * 1.02, was + 3];
  const now = String(Number(random.pick(by).toFixed(3)));
  return splice(text, found.index, found.index + found[0].length, now);
};

const rename: Edit = (text, random) => {
  const found = spot(KEY, text, random);
  if (!found) return text;
  const [, indent, name] = found as unknown as [string, string, string];
  const other = spot(KEY, text, random)?.[2] ?? 'other';
  const now = random.pick([nearName(name, random), nearName(other, random), other, 'seat']);
  if (random.below(3) > 0)
    return splice(text, found.index + indent.length, found.index + indent.length + name.length, now);
  return text.replace(new RegExp(`(?<![\\w-])${name}(?![\\w-])`, 'g'), now);
};

/** One of several places that say the same name says another: a mention that nothing answers to, or a name that nobody mentions. */
const mistake: Edit = (text, random) => {
  const names = [...text.matchAll(KEY)].map((m) => m[2]!);
  const places = names.flatMap((name) => {
    const all = [...text.matchAll(new RegExp(`(?<![\\w-])${name}(?![\\w-])`, 'g'))];
    return all.length > 1 ? all : [];
  });
  const place = places.length > 0 ? random.pick(places) : undefined;
  if (!place) return text;
  const now = random.pick([nearName(place[0], random), nearName(random.pick(names), random), random.pick(names)]);
  return splice(text, place.index, place.index + place[0].length, now);
};

const word: Edit = (text, random) => {
  const [here, there] = [spot(WORD, text, random), spot(WORD, text, random)];
  if (!here || !there) return text;
  return splice(text, here.index, here.index + here[0].length, random.pick([there[0], nearName(here[0], random)]));
};

/** The lines of a text, and where the entry that begins at one of them ends. */
function entryAt(lines: readonly string[], at: number): number {
  const indent = (line: string) => line.length - line.trimStart().length;
  const own = indent(lines[at]!);
  let end = at + 1;
  while (end < lines.length && (lines[end]!.trim() === '' || indent(lines[end]!) > own)) end++;
  return end;
}

const block: Edit = (text, random) => {
  const lines = text.split('\n');
  const at = random.below(lines.length);
  const end = entryAt(lines, at);
  const taken = lines.slice(at, end);
  const rest = [...lines.slice(0, at), ...lines.slice(end)];
  switch (random.below(5)) {
    case 0:
      return rest.join('\n');
    case 1:
      rest.splice(random.below(rest.length + 1), 0, ...taken);
      return rest.join('\n');
    case 2:
      lines.splice(random.below(lines.length + 1), 0, ...taken);
      return lines.join('\n');
    case 3:
      return [...lines.slice(0, at), ...taken.map((l) => `# ${l}`), ...lines.slice(end)].join('\n');
    default:
      return [...lines.slice(0, at), ...taken.map((l) => `  ${l}`), ...lines.slice(end)].join('\n');
  }
};

const broken: Edit = (text, random) => {
  const at = random.below(text.length + 1);
  const put = random.pick([
    '{',
    '}',
    '[',
    ']',
    '"',
    "'",
    ':',
    ' : ',
    '#',
    ' #',
    '\t',
    '- ',
    '\n',
    '\n\n',
    ',',
    '&a ',
    '|',
  ]);
  return random.below(2) > 0 ? splice(text, at, at, put) : splice(text, at, at + 1 + random.below(3), '');
};

const units: Edit = (text) =>
  /^units: in/m.test(text)
    ? text.replace(/^units: in/m, 'units: mm')
    : /^units: mm/m.test(text)
      ? text.replace(/^units: mm/m, 'units: in')
      : text.replace(/\n/, '\nunits: in\n');

const comment: Edit = (text, random) => {
  const lines = text.split('\n');
  lines.splice(random.below(lines.length + 1), 0, random.pick(['# a note', '', '  # a note']));
  return lines.join('\n');
};

const COMMON: readonly Edit[] = [
  number,
  number,
  number,
  rename,
  rename,
  mistake,
  mistake,
  word,
  block,
  block,
  broken,
  units,
  comment,
];

const shopLine: Edit = (text, random) => {
  const without = text.replace(/^shop:.*\n/m, '');
  const name = random.pick(['campus.shop.yaml', 'other.shop.yaml', '../campus.shop.yaml', 'nowhere.shop.yaml', '']);
  return name === '' ? without : without.replace(/\n/, `\nshop: ${name}\n`);
};

const tolerance: Edit = (text, random) => {
  const found = spot(/(diameter|depth|x|y|width): [\d.]+(?=[\s,}])/g, text, random);
  if (!found) return text;
  const end = found.index + found[0].length;
  return splice(text, end, end, random.pick([' H7', ' ±0.05', ' ±0.01', ' in', ' +0.1/0']));
};

const accept: Edit = (text, random) => {
  const rule = random.pick(RULES).name;
  const of = spot(KEY, text, random)?.[2];
  const entry = `  - { rule: ${rule}${of && random.below(2) > 0 ? `, of: ${of}` : ''}, because: tried }\n`;
  return /^accept:\n/m.test(text) ? text.replace(/^accept:\n/m, `accept:\n${entry}`) : `${text}accept:\n${entry}`;
};

const parameter: Edit = (text, random) => {
  const found = spot(/: (\d+)(?=[\s,}])/g, text, random);
  if (!found) return text;
  const name = random.pick(['wide', 'deep', 'pitch']);
  const used = splice(text, found.index + 2, found.index + found[0].length, name);
  if (random.below(3) === 0) return used;
  const entry = `  ${name}: ${found[1]}\n`;
  return /^parameters:\n/m.test(used)
    ? used.replace(/^parameters:\n/m, `parameters:\n${entry}`)
    : used.replace(/\n/, `\nparameters:\n${entry}`);
};

const material: Edit = (text, random) =>
  text.replace(/^material:.*/m, `material: ${random.pick(['pom-c', 'aluminium-6061-t6', 'aluminum', 'steel-s235'])}`);

const OF_PARTS: readonly Edit[] = [shopLine, tolerance, accept, parameter, material];

const limit: Edit = (text, random) => {
  // How much work a rule may take counts the work that is done: what is kept from before still makes it less.
  const rules = RULES.filter((r) => r.limits.length > 0 && r.name !== 'form/not-judged');
  const rule = random.pick(rules);
  const { name, value } = random.pick(rule.limits);
  const setting = `  ${rule.name}: { ${name}: ${Number((value * random.pick([0.5, 0.8, 1.5, 3])).toFixed(3))} }\n`;
  const without = text.replace(new RegExp(`^ {2}${rule.name}:.*\\n`, 'm'), '');
  return /^limits:\n/m.test(without)
    ? without.replace(/^limits:\n/m, `limits:\n${setting}`)
    : `${without}limits:\n${setting}`;
};

const shopName: Edit = (text, random) => text.replace(/^shop:.*/m, `shop: ${random.pick(['a', 'b', 'campus'])}`);

const OF_SHOPS: readonly Edit[] = [limit, limit, shopName];

/** Stock as it is ordered and noted down: `80x60x25`, `flat bar 60 x 25`, `Ø40`; material outside the body as one number. */
import type { MapEntry, MapNode, TextNode } from '../../text/tree';
import type { StockForm } from '../base';
import type { ProblemFix } from '../resolve/problem';
import { sectionKind } from '../section';
import { everydayForms } from './forms';
import { numbersOf } from './places';
import { onOneLine } from './reading';

const AXES = ['x', 'y', 'z'] as const;
const SIDES = { x: ['left', 'right'], y: ['front', 'back'], z: ['bottom', 'top'] } as const;

/** The finished body's sizes in the text's own unit, where they are plain. */
type Sizes = Readonly<Record<(typeof AXES)[number], number>>;

interface Said {
  readonly message: string;
  readonly fixes: readonly ProblemFix[];
}

/** Stock by its own sizes: written by its form, and by what stands out of the body, half on each side. */
export function everydayStock({ value }: MapEntry, body: Sizes | undefined): Said | undefined {
  if (!value) return undefined;
  const said = value.type === 'map' ? inMap(value) : inText(value);
  if (!said) return undefined;
  const texts = said.section
    ? [said.section]
    : said.round
      ? [`{ form: round-bar, diameter: ${said.round} }`]
      : bySizes(said, body);
  if (!texts || texts.length === 0) return undefined;
  return {
    message: said.section
      ? `A section is its \`form\` and its \`wall\`; its outside is the body’s. Write \`stock: ${said.section}\`.`
      : said.round
        ? `A round bar has a \`diameter\`. Write \`stock: ${texts[0]}\`.`
        : `Stock is its \`form\`, and in \`extra\` what is outside the body. Write \`stock: ${texts[0]}\`${orElse(texts)}.`,
    fixes: texts.map((text) => ({
      title: `Write \`stock: ${text}\``,
      edits: [{ span: value.span, newText: text }],
      ...(texts.length > 1 && { equal: true as const }),
    })),
  };
}

/** The same by another form. */
function orElse([, ...others]: readonly string[]): string {
  return others.map((text) => ` or \`${/form: [a-z-]+/.exec(text)![0]}\``).join('');
}

interface Ordered {
  readonly forms: readonly string[];
  readonly sizes?: readonly number[];
  readonly round?: string;
  /** Of a tube, angle, channel or tee: all of it, written out. */
  readonly section?: string;
}

function inText(node: Exclude<TextNode, MapNode>): Ordered | undefined {
  if (node.type === 'list') return sized([], numbersOf(node));
  const word = node.source.match(/\p{L}[\p{L}\s-]*\p{L}/gu)?.filter((w) => !/^(?:mm|in|x)$/i.test(w.trim()));
  const forms = word?.[0] ? everydayForms(word[0]) : [];
  if (word?.[0] && forms.length === 0) return undefined;
  const rest = (word ?? []).reduce((text, w) => text.replace(w, ''), node.source).trim();
  const section = sectioned(forms, numbersOf({ ...node, source: rest }));
  if (section || forms.some((form) => sectionKind(form as StockForm))) return section ? { forms, section } : undefined;
  const isRound = /^[øØ⌀∅]/.test(rest) || (forms.length === 1 && forms[0] === 'round-bar');
  const round = /^[øØ⌀∅]?\s*(\d+(?:[.,]\d+)?(?:\s*(?:mm|in|"))?)(?:\s*[x×]\s*\d.*)?$/.exec(rest)?.[1];
  if (isRound && round) return { forms: ['round-bar'], round: round.replace(',', '.') };
  return sized(forms, numbersOf({ ...node, source: rest }));
}

const OPEN = { tube: '', angle: ', open: [back, top]', channel: ', open: [top]', tee: ', open: [top]' } as const;

/** `tube 40 x 3`, `angle 50 x 50 x 5`: the last is the wall. */
function sectioned([form]: readonly string[], sizes: readonly string[] = []): string | undefined {
  const open = form === undefined ? undefined : (OPEN as Readonly<Record<string, string>>)[form];
  const wall = sizes.at(-1);
  if (open === undefined || wall === undefined || sizes.length < 2 || sizes.length > 3) return undefined;
  const round = form === 'tube' && sizes.length === 2 ? `, diameter: ${sizes[0]}` : '';
  return `{ form: ${form}${round}, wall: ${wall}${open} }`;
}

/** `{ x: 90, y: 60, z: 25 }`, `{ size: [90, 60, 25] }`, with a form or without. */
function inMap(map: MapNode): Ordered | undefined {
  const by = new Map(map.entries.map((e) => [String(e.key.value).toLowerCase(), e.value]));
  const form = by.get('form') ?? by.get('type') ?? by.get('shape');
  const forms = form?.type === 'scalar' ? everydayForms(form.source) : [];
  const size = by.get('size') ?? by.get('dimensions');
  if (by.has('extra') || by.has('diameter')) return undefined;
  if (size) return size.type === 'map' ? inMap(size) : sized(forms, numbersOf(size));
  const texts = AXES.map((axis) => onOneLine(by.get(axis)));
  return texts.every((t) => t !== undefined) ? sized(forms, texts as string[]) : undefined;
}

function sized(forms: readonly string[], texts: readonly string[] | undefined): Ordered | undefined {
  const sizes = texts?.map(Number);
  return sizes?.every((n) => n > 0) && (sizes.length === 3 || sizes.length === 2) ? { forms, sizes } : undefined;
}

/** Undefined where the stock is smaller than the body, or the body is not known. */
function bySizes({ forms, sizes }: Ordered, body: Sizes | undefined): readonly string[] | undefined {
  if (!sizes || !body) return undefined;
  const by = sizes.length === 3 ? sizes : asBar(sizes, body);
  const over = AXES.map((axis, i) => Number(((by[i] ?? body[axis]) - body[axis]).toFixed(6)));
  if (over.some((n) => n < 0)) return undefined;
  const extra = AXES.flatMap((axis, i) => (over[i]! > 0 ? SIDES[axis].map((side) => `${side}: ${over[i]! / 2}`) : []));
  const fit = forms.filter(
    (form) =>
      form !== 'round-bar' && !sectionKind(form as StockForm) && (form !== 'square-bar' || sizes[0] === sizes[1]),
  );
  const which = forms.length > 0 ? fit : ['flat-bar', 'block'];
  return which.map((form) => `{ form: ${form}${extra.length > 0 ? `, extra: { ${extra.join(', ')} }` : ''} }`);
}

/** A bar runs along the longest side of the body; the wider of its sizes lies along the wider of the other two. */
function asBar([a, b]: readonly number[], body: Sizes): readonly (number | undefined)[] {
  const [, wide, thin] = [...AXES].sort((p, q) => body[q] - body[p]);
  return AXES.map((axis) => (axis === wide ? Math.max(a!, b!) : axis === thin ? Math.min(a!, b!) : undefined));
}

/** Material outside the body as one number: on every face, or at the two sawn ends; as two, along one of the axes. */
export function extraTexts(node: TextNode): readonly string[] {
  const one =
    node.type === 'scalar' && /^\d+(?:\.\d+)?(?:\s*(?:mm|in|"))?$/.test(node.source) ? node.source : undefined;
  const of = (axes: readonly (typeof AXES)[number][], [a, b]: readonly string[]) =>
    `{ ${axes.flatMap((axis) => [`${SIDES[axis][0]}: ${a}`, `${SIDES[axis][1]}: ${b}`]).join(', ')} }`;
  if (one !== undefined) return [of(AXES, [one, one]), of(['x'], [one, one])];
  const two = numbersOf(node);
  return two?.length === 2 ? AXES.map((axis) => of([axis], two)) : [];
}

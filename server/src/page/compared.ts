/** Comparisons as one page: for each part what went and came in a view that turns, in flat views, and in words. */
import { type Section, sectionsOf } from '../compare/entries';
import { jobSections, jobVerdict } from '../compare/job-lines';
import type { Compared, ComparedJob, ComparedPart } from '../compare/json';
import { verdict } from '../compare/lines';
import type { Face } from '../model/faces';
import { changesOf, comparedPicture, type Shapes, type Sides } from '../service/view/compared';
import type { ComparedPicture, PictureChange } from '../service/view/protocol';
import { heading, lineLink, listing, paragraph, table, tag } from './article';
import { type PageKit, pageText } from './frame';
import { facesOf } from './part';
import { type Pair, type Shown, viewsSvg } from './views';

/** A comparison, and of what is in both what it was made from. */
export interface Held {
  readonly compared: Compared;
  readonly sides?: Sides;
  readonly shapes?: Shapes;
}
interface HeldPart extends Required<Held> {
  readonly compared: ComparedPart;
}

interface Told {
  readonly title: string;
  readonly creator: string;
  /** What each side is. */
  readonly titles: ComparedPicture['titles'];
}

export function comparedPage(all: readonly Held[], { title, creator, titles }: Told, kit: PageKit): string {
  const shown: object[] = [];
  const articles = all.map((held) => {
    if (!isWhole(held)) return onlyText(held.compared);
    const { compared, sides, shapes } = held;
    const changes = changesOf(sectionsOf(compared), sides);
    const told = { titles, verdict: verdict(compared.change), changes };
    const number = shown.push({ type: 'compared', compared: comparedPicture(sides, shapes, told) }) - 1;
    return articleOf(held, changes, number);
  });
  const head = [heading(1, title), paragraph(`${titles.before} → ${titles.after}`)];
  const article = [...head, ...articles].join('\n');
  const view = shown.length > 0 ? { view: { body: kit.bodies.compare, carried: { shown } } } : {};
  return pageText({ title, article, creator, ...view }, kit);
}

/** What a part has on both sides. */
export function pairOf({ sides, shapes }: Pick<HeldPart, 'sides' | 'shapes'>): Pair {
  const of = (side: 'before' | 'after') => {
    const { part, solid } = sides[side].checked;
    return part.body ? solid : undefined;
  };
  return { before: of('before'), after: of('after'), differing: shapes.differing };
}

/** The faces on which something changed; where none did, those that carry most. */
export function changedFaces({ compared, sides }: Pick<HeldPart, 'compared' | 'sides'>): readonly Face[] {
  const changed = compared.change.features.flatMap(({ name, wasName = name }) => {
    const feature =
      sides.after.checked.part.featureByName.get(name) ?? sides.before.checked.part.featureByName.get(wasName);
    return feature ? [feature] : [];
  });
  const faces = facesOf(changed.length > 0 ? changed : sides.after.checked.part.features);
  const isBody = compared.change.part.some((d) => d.what.startsWith('body'));
  return isBody ? [...new Set<Face>([...faces, 'top', 'front'])].slice(0, 4) : faces;
}

export function isWhole(held: Held): held is HeldPart {
  return 'change' in held.compared && held.sides !== undefined && held.shapes !== undefined;
}

function onlyText(compared: Compared): string {
  if ('jobChange' in compared) return jobArticle(compared);
  const words = 'only' in compared ? (compared.only === 'old' ? 'gone' : 'new') : verdict(compared.change);
  return heading(2, `${compared.path}: ${words}`);
}

function jobArticle({ path, jobChange }: ComparedJob): string {
  const sections = jobSections(jobChange).map(({ title, entries }) => {
    const rows = entries.map(({ word, text }) => [word === undefined ? '' : tag(word), text.replaceAll('`', '')]);
    return `${heading(3, title)}\n${table(['', 'what'], rows)}`;
  });
  return [heading(2, `${path}: ${jobVerdict(jobChange)}`), ...sections].join('\n');
}

function articleOf(held: HeldPart, changes: readonly PictureChange[], number: number): string {
  const { compared, sides } = held;
  const texts = (['before', 'after'] as const).map(
    (side) =>
      `<details open><summary>The text, ${side}</summary>${listing({ part: number, side }, sides[side].text)}</details>`,
  );
  return [
    heading(2, `${compared.path}: ${verdict(compared.change)}`),
    `<p><a href="#view" data-show="${number}">Show it in the view</a></p>`,
    viewsOf(held, number),
    ...sectionsOf(compared).map(({ title }) => sectionOf(title, changes, number)),
    texts.join('\n'),
  ].join('\n');
}

/** Before, after and both, of which one is shown at a time: by buttons that need no script. */
function viewsOf(held: HeldPart, number: number): string {
  const faces = changedFaces(held);
  const made = (['both', 'before', 'after'] as const).flatMap((show: Shown) => {
    const title = `${held.compared.path}, ${show}`;
    const svg = viewsSvg(pairOf(held), { show, faces, title, prefix: `v${number}-${show}-` });
    return svg === undefined ? [] : [{ show, svg }];
  });
  if (made.length === 0) return '';
  const buttons = made.map(
    ({ show }, i) =>
      `<input type="radio" name="s${number}" id="s${number}-${show}" class="${show}"${i === 0 ? ' checked' : ''}><label for="s${number}-${show}">${show}</label>`,
  );
  const pictures = made.map(({ show, svg }) => `<div class="drawn ${show}">${svg}</div>`);
  return `<div class="sides">\n${[...buttons, ...pictures].join('\n')}\n</div>`;
}

function sectionOf(title: Section['title'], changes: readonly PictureChange[], number: number): string {
  const rows = changes
    .filter((c) => c.section === title)
    .map(({ word, text, line }) => [
      word === '' ? '' : tag(word),
      text.replaceAll('`', ''),
      line ? lineLink({ part: number, side: line.side }, line.range.start.line) : '',
      line?.side ?? '',
    ]);
  return `${heading(3, title)}\n${table(['', 'what', 'where', 'text'], rows)}`;
}

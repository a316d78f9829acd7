/**
 * Two revisions of a part: the old one, the new one, or both upon each other, and what changed as a list to step through. Of
 * a job the list alone, in which each part leads to a comparison of its own.
 */
import type { ComparedPicture, PartPicture, PictureChange, Side } from '../../server/src/service/view/protocol';
import { placeOf } from './compare-marks';
import { bindFaces, bindKeys, bindPointer, element } from './controls';
import { arraysOf, surfacesOf } from './decode';
import type { ViewHost } from './host';
import { type Entry, List } from './list';
import type { Mark } from './marks';
import type { ToPanel } from './messages';
import { Overlay } from './overlay';
import type { Scene } from './scene';
import { onThemeChange, readColours } from './theme';

type Shown = Side | 'both';
const SHOWN: readonly Shown[] = ['before', 'after', 'both'];

export class ComparePage {
  readonly #scene: Scene;
  readonly #overlay: Overlay;
  readonly #status = element('status');
  readonly #list: List;
  #compared: ComparedPicture | undefined;
  #shown: Shown = 'both';
  /** Which change is chosen; -1: none. */
  #at = -1;

  constructor(scene: Scene, host: ViewHost) {
    this.#scene = scene;
    this.#overlay = new Overlay(document.querySelector<SVGSVGElement>('#lines')!, element('labels'), scene);
    this.#list = new List(element('list'), {
      chosen: ({ finding: change }) => this.#choose(change ?? -1),
      open: ({ finding: change }) => {
        const { line, opens } = this.#compared?.changes[change ?? -1] ?? {};
        if (opens) host.postMessage({ type: 'open', change: change! });
        else if (line) host.postMessage({ type: 'reveal', ...line });
      },
    });
    this.#bindView();
    for (const side of SHOWN) element(`show-${side}`).addEventListener('click', () => this.#show(side));
    element('back').addEventListener('click', () => host.postMessage({ type: 'back' }));
    element('earlier').addEventListener('click', () => this.#list.go(this.#at - 1));
    element('later').addEventListener('click', () => this.#list.go(this.#at + 1));
  }

  #bindView(): void {
    const scene = this.#scene;
    bindKeys(scene.canvas, scene);
    bindPointer(scene.canvas, scene, (x, y) => this.#pressed(x, y));
    const faceAgain = bindFaces(element('faces'), scene);
    scene.onDrawn = () => {
      this.#overlay.place();
      faceAgain();
    };
    new ResizeObserver(() => scene.resized()).observe(scene.canvas);
    onThemeChange(() => {
      scene.colours = readColours();
    });
  }

  heard(message: ToPanel | undefined): void {
    if (message?.type === 'compared') {
      this.#take(message.compared);
      element('of-job').hidden = message.isOfJob !== true;
    }
    if (message?.type !== 'stale') return;
    document.body.classList.add('stale');
    this.#status.textContent = message.why;
  }

  #take(next: ComparedPicture): void {
    if (this.#compared?.name !== next.name) this.#scene.eye = undefined;
    this.#compared = next;
    if (this.#at >= next.changes.length) this.#at = -1;
    document.body.classList.remove('stale');
    this.#list.show(next.changes.map(entryOf));
    element('side-titles').textContent = `${next.titles.before} → ${next.titles.after}`;
    this.#status.textContent = next.verdict;
    const summary = `${next.name}: ${next.verdict}.`;
    const said = element('said');
    if (said.textContent !== summary) said.textContent = summary;
    this.#scene.canvas.setAttribute('aria-label', summary);
    document.body.classList.toggle('in-words', !next.before && !next.after);
    const has = { before: next.before !== undefined, after: next.after !== undefined };
    for (const side of SHOWN)
      element<HTMLButtonElement>(`show-${side}`).disabled = !(side === 'both' ? has.before && has.after : has[side]);
    this.#show(has.before && has.after ? this.#shown : has.after ? 'after' : 'before');
    Object.assign(document.body.dataset, {
      part: next.name,
      changes: String(next.changes.length),
      went: (next.went?.volumeMm3 ?? 0).toFixed(3),
      came: (next.came?.volumeMm3 ?? 0).toFixed(3),
    });
  }

  /** The mesh that is drawn, and the side whose it is: of both, the new part under what went. */
  get #drawn(): { readonly picture: PartPicture; readonly side: Side } | undefined {
    const side = this.#shown === 'before' ? 'before' : 'after';
    const picture = this.#compared?.[side];
    return picture && { picture, side };
  }

  #show(side: Shown): void {
    this.#shown = side;
    const of = this.#drawn;
    if (!of) {
      this.#mark();
      return;
    }
    const { went, came } = this.#compared!;
    this.#scene.show(of.picture, arraysOf(of.picture.mesh));
    this.#scene.differing(side === 'after' ? undefined : went, side === 'before' ? undefined : came);
    for (const s of SHOWN) element(`show-${s}`).setAttribute('aria-pressed', String(s === side));
    document.body.dataset.side = side;
    this.#mark();
  }

  /** What went is not seen in the new part: then both are shown. */
  #choose(change: number): void {
    this.#at = change;
    const compared = this.#compared;
    const of = compared?.changes[change];
    const other = this.#shown === 'after' ? 'before' : 'after';
    const isUnseen = this.#shown !== 'both' && of?.[this.#shown].length === 0 && of[other].length > 0;
    if (isUnseen && compared?.before && compared.after) this.#show('both');
    else this.#mark();
    const place = compared && of && placeOf(compared, of, this.#shown);
    if (place) this.#scene.goTo(place);
  }

  #mark(): void {
    const compared = this.#compared;
    const change = compared?.changes[this.#at];
    const of = this.#drawn;
    const lit = new Set<number>();
    for (const name of change && of ? change[of.side] : [])
      for (const surface of surfacesOf(of!.picture.surfaces, name)) lit.add(surface);
    this.#scene.light(lit);
    const place = compared && change && placeOf(compared, change, this.#shown);
    this.#overlay.marks = [
      ...lumpMarks(compared, this.#shown),
      ...(place && change ? [{ at: [place], line: false, text: shortly(change), kind: 'measure' }] : []),
    ];
    document.body.dataset.lit = String(lit.size);
    const all = compared?.changes.length ?? 0;
    element('change').textContent =
      all === 0 ? 'no change' : this.#at < 0 ? `${all} to see` : `${this.#at + 1} of ${all}`;
    element<HTMLButtonElement>('earlier').disabled = this.#at <= 0;
    element<HTMLButtonElement>('later').disabled = this.#at + 1 >= all;
  }

  #pressed(x: number, y: number): void {
    const hit = this.#scene.pick(x, y);
    const of = this.#drawn;
    const surface = hit && of?.picture.surfaces[hit.surface];
    if (!surface || !of) return;
    this.#scene.canvas.focus();
    const change = this.#compared!.changes.findIndex((c) => c[of.side].includes(surface.feature ?? ''));
    this.#status.textContent = change < 0 ? `${surface.name}: as before` : surface.name;
    if (change >= 0) this.#list.go(change);
  }
}

/** The largest lumps by their word, but those of the side that is not shown. */
function lumpMarks(compared: ComparedPicture | undefined, shown: Shown): readonly Mark[] {
  const of = (word: 'went' | 'came', hidden: Shown) =>
    shown === hidden
      ? []
      : (compared?.[word]?.middles ?? [])
          .slice(0, MOST_WORDS)
          .map((middle): Mark => ({ at: [middle], line: false, text: word, kind: word }));
  return [...of('went', 'after'), ...of('came', 'before')];
}

const MOST_WORDS = 6;

function entryOf({ section, word, text, before, after }: PictureChange, i: number): Entry {
  return {
    id: `change-${i}`,
    text: word === '' ? text : `${word}: ${text}`,
    detail: section,
    kind: 'change',
    of: [...before, ...after],
    finding: i,
  };
}

function shortly({ word, text }: PictureChange): string {
  const whole = word === '' ? text : `${word}: ${text}`;
  return whole.length > MOST_LETTERS ? `${whole.slice(0, MOST_LETTERS - 1)}…` : whole;
}
const MOST_LETTERS = 60;

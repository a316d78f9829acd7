/**
 * What is written over the picture: findings where they are, the gap that is measured, zero. Plain elements and SVG lines
 * placed over the canvas after each drawing, so that letters stay crisp.
 */
import { dimensionPath } from './dimension';
import type { Mark } from './marks';
import type { Scene } from './scene';
import { spread } from './spread';
import { typeOver } from './type-over';

/** After the eye came to rest, so that turning stays quick. */
const REST_MS = 80;
/** Places that are looked behind; more would take longer than the eye waits. */
const MOST_LOOKED_BEHIND = 60;
const SVG = 'http://www.w3.org/2000/svg';

interface Drawn {
  readonly mark: Mark;
  readonly label: HTMLElement;
  readonly group: SVGGElement;
  readonly circles: readonly SVGCircleElement[];
  readonly line?: SVGPathElement;
  readonly width: number;
  readonly height: number;
}

export class Overlay {
  readonly #lines: SVGSVGElement;
  readonly #labels: HTMLElement;
  readonly #scene: Scene;
  #drawn: readonly Drawn[] = [];
  /** The label of a finding was pressed. */
  onPressed: (finding: number) => void = () => {};
  /** A size was pressed; something was typed over it. */
  onSize: (size: number) => void = () => {};
  onTyped: (size: number, text: string) => void = () => {};
  #rest: ReturnType<typeof setTimeout> | undefined;

  constructor(lines: SVGSVGElement, labels: HTMLElement, scene: Scene) {
    this.#lines = lines;
    this.#labels = labels;
    this.#scene = scene;
  }

  set marks(marks: readonly Mark[]) {
    const made = marks.map(elementsOf);
    for (const { mark, label } of made) {
      if (mark.finding !== undefined) label.addEventListener('click', () => this.onPressed(mark.finding!));
      if (mark.size !== undefined) this.#bindSize(label, mark.size, mark.typed);
    }
    this.#lines.replaceChildren(...made.map((d) => d.group));
    this.#labels.replaceChildren(...made.map((d) => d.label));
    // Measured once: sizes do not change while the eye moves.
    this.#drawn = made.map((d) => ({ ...d, width: d.label.offsetWidth, height: d.label.offsetHeight }));
    this.place();
  }

  /** Pressed once it is found in the text, again (or by Enter where it has the focus) it is typed over. */
  #bindSize(label: HTMLElement, size: number, typed: string | undefined): void {
    label.addEventListener('click', () => {
      if (typed !== undefined && label.classList.contains('found'))
        typeOver(label, typed, (text) => this.onTyped(size, text));
      for (const other of this.#labels.children) other.classList.toggle('found', other === label);
      this.onSize(size);
    });
  }

  /** The mark of the finding that is chosen in the list; none for undefined. */
  choose(finding: number | undefined): void {
    for (const { mark, label, group } of this.#drawn) {
      const on = finding !== undefined && mark.finding === finding;
      label.classList.toggle('chosen', on);
      group.classList.toggle('chosen', on);
    }
  }

  /** Puts every mark where its points are on the screen now. */
  place(): void {
    const anchors = this.#drawn.map((d) => this.#placeLines(d));
    const sized = this.#drawn.map(({ width, height }, i) => ({ ...anchors[i]!, width, height }));
    const { clientWidth, clientHeight } = this.#scene.canvas;
    const spots = spread(sized, clientWidth, clientHeight);
    this.#drawn.forEach(({ label }, i) => {
      const spot = spots[i];
      label.style.visibility = spot ? 'visible' : 'hidden';
      if (spot) label.style.transform = `translate(${Math.round(spot.x)}px, ${Math.round(spot.y)}px)`;
    });
    clearTimeout(this.#rest);
    this.#rest = setTimeout(() => this.#veil(), REST_MS);
  }

  /** Places that the part hides are drawn fainter. */
  #veil(): void {
    let left = MOST_LOOKED_BEHIND;
    for (const { mark, circles } of this.#drawn)
      for (const [k, circle] of circles.entries())
        circle.classList.toggle('behind', left-- > 0 && this.#scene.hides(mark.at[k]!));
  }

  /** Draws circles and line; answers where the label belongs. */
  #placeLines({ mark, circles, line }: Drawn): { readonly x: number; readonly y: number } {
    const places = mark.at.map((p) => this.#scene.project(p));
    circles.forEach((circle, k) => {
      circle.setAttribute('cx', places[k]!.x.toFixed(1));
      circle.setAttribute('cy', places[k]!.y.toFixed(1));
    });
    const [a, b] = [places[0]!, places[1]!];
    if (!line) return a;
    if (mark.kind === 'axis' || mark.kind === 'centre') {
      line.setAttribute('d', `M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}`);
      return b;
    }
    line.setAttribute('d', dimensionPath(a, b));
    return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  }
}

function elementsOf(mark: Mark): Drawn {
  const isButton = mark.size !== undefined;
  const label = document.createElement(isButton ? 'button' : 'div');
  if (isButton) (label as HTMLButtonElement).type = 'button';
  else label.setAttribute('aria-hidden', 'true');
  label.className = `mark ${mark.kind}${mark.quiet ? ' quiet' : ''}`;
  label.textContent = mark.text;
  if (mark.about) label.title = mark.about;
  const group = document.createElementNS(SVG, 'g');
  group.setAttribute('class', `mark ${mark.kind}`);
  const circles = (mark.line || mark.kind === 'around' ? [] : mark.at).map(() => {
    const circle = document.createElementNS(SVG, 'circle');
    circle.setAttribute('r', '6');
    return circle;
  });
  const line = mark.line ? document.createElementNS(SVG, 'path') : undefined;
  group.append(...circles, ...(line ? [line] : []));
  return { mark, label, group, circles, ...(line ? { line } : {}), width: 0, height: 0 };
}

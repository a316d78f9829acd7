/**
 * What is written over the picture: findings where they are, the gap that is measured, zero. Plain elements and SVG lines
 * placed over the canvas after each drawing, so that letters stay crisp and can be read aloud.
 */
import type { PictureFinding } from '../../server/src/service/view/protocol';
import type { Point } from './orbit';
import type { Scene } from './scene';

const SVG = 'http://www.w3.org/2000/svg';

interface Mark {
  readonly at: readonly Point[];
  /** The two points are the ends of a measured gap; else each is a place of its own. */
  readonly gap: boolean;
  readonly text: string;
  /** `error`, `warning`, `hint`, `measure`, `zero`: the style sheet's class. */
  readonly kind: string;
  readonly about?: string;
}

export class Overlay {
  readonly #lines: SVGSVGElement;
  readonly #labels: HTMLElement;
  readonly #scene: Scene;
  #marks: readonly Mark[] = [];

  constructor(lines: SVGSVGElement, labels: HTMLElement, scene: Scene) {
    this.#lines = lines;
    this.#labels = labels;
    this.#scene = scene;
  }

  set marks(marks: readonly Mark[]) {
    this.#marks = marks;
    this.#lines.replaceChildren();
    this.#labels.replaceChildren();
    for (const mark of marks) {
      const label = document.createElement('div');
      label.className = `mark ${mark.kind}`;
      label.textContent = mark.text;
      if (mark.about) label.title = mark.about;
      this.#labels.append(label);
      const line = document.createElementNS(SVG, 'g');
      line.setAttribute('class', `mark ${mark.kind}`);
      for (let i = 0; i < mark.at.length; i++) line.append(document.createElementNS(SVG, 'circle'));
      if (mark.gap) line.append(document.createElementNS(SVG, 'line'));
      this.#lines.append(line);
    }
    this.place();
  }

  /** Puts every mark where its points are on the screen now. */
  place(): void {
    this.#marks.forEach((mark, i) => {
      const places = mark.at.map((p) => this.#scene.project(p));
      const group = this.#lines.children[i]!;
      const circles = [...group.querySelectorAll('circle')];
      places.forEach((p, k) => {
        circles[k]!.setAttribute('cx', String(p.x));
        circles[k]!.setAttribute('cy', String(p.y));
        circles[k]!.setAttribute('r', mark.gap ? '2.5' : '6');
      });
      const line = group.querySelector('line');
      const [a, b] = [places[0]!, mark.gap ? places[1]! : places[0]!];
      for (const [name, value] of [
        ['x1', a.x],
        ['y1', a.y],
        ['x2', b.x],
        ['y2', b.y],
      ] as const)
        line?.setAttribute(name, String(value));
      const label = this.#labels.children[i] as HTMLElement;
      label.style.transform = `translate(${Math.round((a.x + b.x) / 2 + 9)}px, ${Math.round((a.y + b.y) / 2 - 9)}px)`;
    });
  }
}

/** Rules whose two points are the ends of what was measured. */
const GAPS = /^(wall|hole\/(near-edge|point-breaks-through))/;

/** One mark for each finding that says where it is. */
export function findingMarks(findings: readonly PictureFinding[]): readonly Mark[] {
  return findings
    .filter((f) => f.at.length > 0)
    .map((f) => ({
      at: f.at,
      gap: f.at.length === 2 && GAPS.test(f.rule),
      text: f.label ?? f.rule,
      kind: f.severity,
      about: f.message,
    }));
}

export type { Mark };

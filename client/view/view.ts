/** What the panel does: takes pictures and shows them, tells what was chosen, measured and typed. Keeps the eye over every redraw. */
import type { PictureWords } from '../../server/src/service/view/protocol';
import { centreLines, partAxes } from './centre-lines';
import { Choice } from './choice';
import { bindCut, bindFaces, bindKeys, bindPointer, element } from './controls';
import { type Arrays, arraysOf } from './decode';
import { HeldPictures } from './held';
import { bindLetters } from './keys';
import { entriesOf, List } from './list';
import { type Mark, marksOf, passShown, standing } from './marks';
import { Measuring } from './measuring';
import { eyeFrom, type ToHost, type ToPanel } from './messages';
import { type Eye, fitted, wholeView } from './orbit';
import { Overlay } from './overlay';
import type { Scene } from './scene';
import { Sizing } from './sizing';
import { Stepping } from './stepping';
import { onThemeChange, readColours } from './theme';
import { withoutText } from './without';

interface Host {
  postMessage(message: ToHost): void;
  getState(): unknown;
  setState(state: unknown): void;
}

export class View {
  readonly #scene: Scene;
  readonly #host: Host;
  readonly #overlay: Overlay;
  readonly #list: List;
  readonly #choice: Choice;
  readonly #sizing: Sizing;
  readonly #measuring: Measuring;
  readonly #stepping: Stepping;
  readonly #cut: ReturnType<typeof bindCut>;
  readonly #status = element('status');
  readonly #axes = element<HTMLInputElement>('axes');
  readonly #held = new HeldPictures();
  #picture: PictureWords | undefined;
  #remembered: Eye | undefined;

  constructor(scene: Scene, host: Host) {
    this.#scene = scene;
    this.#host = host;
    const tell = (message: ToHost) => host.postMessage(message);
    const marks = () => this.#showMarks();
    this.#overlay = new Overlay(document.querySelector<SVGSVGElement>('#lines')!, element('labels'), scene);
    this.#choice = new Choice(scene);
    this.#sizing = new Sizing(tell, marks);
    this.#measuring = new Measuring(scene, tell, marks);
    this.#list = this.#listOf();
    this.#overlay.onPressed = (finding) => this.#list.press(finding);
    this.#overlay.onSize = (size) => this.#sizing.find(size);
    this.#overlay.onTyped = (size, text) => this.#sizing.type(size, text);
    bindKeys(scene.canvas, scene);
    bindPointer(scene.canvas, scene, (x, y) => this.#pressed(x, y));
    const faceAgain = bindFaces(element('faces'), scene);
    this.#cut = bindCut(scene);
    this.#stepping = new Stepping((moment, planned) => {
      if (planned && !this.#picture?.planned) this.#status.textContent = 'The set-ups are being planned …';
      tell({ type: 'moment', ...(moment && { moment }), ...(planned && { planned }) });
    });
    scene.onDrawn = () => {
      this.#overlay.place();
      faceAgain();
      this.#remember();
    };
    new ResizeObserver(() => scene.resized()).observe(scene.canvas);
    onThemeChange(() => {
      scene.colours = readColours();
    });
    this.#bindButtons();
  }

  heard(message: ToPanel | undefined): void {
    switch (message?.type) {
      case 'picture':
        this.#show(message.picture, arraysOf(message.picture.mesh));
        return;
      case 'told': {
        const next = this.#held.taken(message.told);
        if (next) this.#show(next.picture, next.arrays);
        else this.#host.postMessage({ type: 'ready' });
        return;
      }
      case 'stale':
        document.body.classList.add('stale');
        this.#status.textContent = message.why;
        return;
      case 'cursor':
        this.#list.choose(message.feature);
        this.#overlay.choose(undefined);
        this.#light(message.feature === undefined ? [] : [message.feature]);
        return;
      case 'measured':
        this.#measuring.came(message.measured);
        return;
      case 'sizes':
        this.#sizing.came(message.sizes);
        return;
      case 'refused':
        this.#status.textContent = message.why.replaceAll('`', '');
        return;
      case 'drawing':
      case 'compared':
      case undefined:
        return;
      default:
        message satisfies never;
    }
  }

  #listOf(): List {
    return new List(element('list'), {
      chosen: ({ of, finding }) => {
        this.#light(of);
        this.#overlay.choose(finding);
      },
      open: ({ range, finding }) => {
        const at = finding === undefined ? undefined : this.#picture?.findings[finding]?.at[0];
        if (at) this.#scene.goTo(at);
        if (range) this.#host.postMessage({ type: 'reveal', range });
      },
    });
  }

  #bindButtons(): void {
    const stock = element<HTMLInputElement>('stock');
    const planned = element<HTMLInputElement>('planned');
    const keys = element<HTMLDetailsElement>('keys');
    const show = {
      hide: () => this.#choice.hide(),
      only: () => this.#choice.only(),
      unhide: () => this.#choice.unhide(),
    };
    for (const [id, act] of Object.entries(show)) element(id).addEventListener('click', act);
    stock.addEventListener('change', () => {
      this.#scene.stock = stock.checked;
    });
    this.#axes.addEventListener('change', () => this.#showMarks());
    const faces = [...element('faces').querySelectorAll('button')];
    bindLetters({
      ...Object.fromEntries(faces.map((b, i) => [String((i + 1) % faces.length), () => b.click()])),
      '[': () => this.#stepping.step(-1),
      ']': () => this.#stepping.step(1),
      p: () => planned.click(),
      m: () => this.#measuring.turn(),
      s: () => stock.click(),
      x: () => this.#axes.click(),
      c: () => this.#cut.next(),
      v: () => this.#cut.flip(),
      ',': () => this.#cut.move(-1),
      '.': () => this.#cut.move(1),
      h: show.hide,
      o: show.only,
      u: show.unhide,
      '?': () => {
        keys.open = !keys.open;
      },
      Escape: () => this.#escape(),
    });
  }

  #escape(): void {
    if (this.#measuring.isOn) {
      this.#measuring.turn(false);
      return;
    }
    this.#list.choose(undefined);
    this.#light([]);
  }

  #show(next: PictureWords, arrays: Arrays): void {
    const from = performance.now();
    const before = this.#picture;
    const scene = this.#scene;
    const other = before?.uri !== next.uri;
    // After the window was loaded again one looks from where one looked before.
    if (other) scene.eye = before ? undefined : eyeFrom(this.#host.getState(), next.uri);
    this.#picture = next;
    document.body.classList.remove('stale');
    scene.show(next, arrays);
    if (other ? next.moment : before && lieOf(before) !== lieOf(next)) this.#lieAs(next);
    this.#choice.show(next, other);
    this.#list.show(entriesOf(next));
    this.#cut.again();
    this.#measuring.forget();
    this.#status.textContent = withoutText(next);
    this.#stepping.show(next);
    this.#light(this.#choice.names);
    this.#sayAloud(next.summary.replaceAll('`', ''));
    scene.drawNow();
    const ms = performance.now() - from;
    const { triangles } = scene;
    const told = {
      part: next.name,
      version: String(next.version),
      triangles: String(triangles),
      drawnMs: ms.toFixed(1),
    };
    Object.assign(document.body.dataset, told);
    this.#host.postMessage({ type: 'drawn', version: next.version, ms, triangles });
  }

  /** Read aloud when it says something new, not on every key. */
  #sayAloud(summary: string): void {
    const said = element('said');
    if (said.textContent !== summary) said.textContent = summary;
    this.#scene.canvas.setAttribute('aria-label', summary);
  }

  /** Turned as it lies now, all of it in sight; from where one stood before the machine. */
  #lieAs({ moment, setups }: PictureWords): void {
    const { eye, everything, aspect } = this.#scene;
    if (!everything) return;
    const frame = moment && setups[moment.setup]?.frame;
    const { aroundDeg, aboveDeg } = eye ?? wholeView(everything, aspect);
    const turned = { aroundDeg, aboveDeg, reachMm: 1, at: [0, 0, 0], ...(frame && { frame }) } as const;
    this.#scene.eye = fitted(turned, everything, aspect);
  }

  /** What the editor keeps for the next time the window is loaded. */
  #remember(): void {
    const { eye } = this.#scene;
    if (!this.#picture || !eye || eye === this.#remembered || eye.frame) return;
    this.#remembered = eye;
    this.#host.setState({ uri: this.#picture.uri, eye });
  }

  #light(of: readonly string[]): void {
    this.#choice.of(of);
    document.body.dataset.lit = String(this.#choice.faces.size);
    const picture = this.#picture;
    if (!picture) return;
    const { features } = this.#choice;
    const pass = passShown(picture.moment && picture.setups[picture.moment.setup], picture.moment);
    this.#scene.cutters(standing(picture, features), pass?.ways);
    const chosen = picture.features.find((f) => features.has(f.name));
    // Of what is not cut yet there is nothing to be measured.
    const isThere = features.size === 1 && chosen && !picture.uncut?.includes(chosen.name);
    this.#sizing.of(isThere ? chosen.name : undefined);
    this.#showMarks();
  }

  #pressed(x: number, y: number): void {
    const hit = this.#measuring.isOn ? this.#scene.pickEdge(x, y) : this.#scene.pick(x, y);
    const surface = hit && this.#picture?.surfaces[hit.surface];
    if (!hit || !surface || !this.#picture) return;
    this.#scene.canvas.focus();
    if (this.#measuring.isOn) {
      this.#measuring.pressed(hit, this.#picture);
      return;
    }
    this.#status.textContent = surface.name;
    const feature = this.#picture.features.find((f) => f.name === surface.feature);
    this.#list.choose(feature?.name);
    this.#light([surface.feature ?? surface.name]);
    if (feature) this.#host.postMessage({ type: 'reveal', range: feature.nameRange });
  }

  #showMarks(): void {
    const picture = this.#picture;
    this.#overlay.marks = [
      ...marksOf(picture, this.#measuring.measured, this.#choice.features),
      ...this.#sizing.marks,
      ...(picture ? this.#axisMarks(picture) : []),
    ];
    this.#overlay.choose(this.#list.finding);
  }

  #axisMarks(picture: PictureWords): readonly Mark[] {
    const { arrays } = this.#scene;
    if (!arrays) return [];
    if (this.#axes.checked) return [...partAxes(picture), ...centreLines(picture, arrays)];
    const { faces } = this.#choice;
    return faces.size > 0 ? centreLines(picture, arrays, faces) : [];
  }
}

/** How the work lies: as it is written, or in one of the set-ups. */
function lieOf({ moment, planned }: PictureWords): string {
  return moment ? `${moment.setup}${planned ? ' planned' : ''}` : '';
}

/** The panel: takes pictures from the extension and shows them, tells it what was chosen. Keeps the eye over every redraw. */
import type { Measured, PartPicture } from '../../server/src/service/view/protocol';
import { bindCut, bindFaces, bindKeys, bindPointer, element } from './controls';
import { surfacesOf } from './decode';
import { List } from './list';
import { marksOf, passShown, standing } from './marks';
import { eyeFrom, fromHost, type ToHost } from './messages';
import { type Eye, fitted, wholeView } from './orbit';
import { Overlay } from './overlay';
import { type Hit, Scene } from './scene';
import { Stepping } from './stepping';
import { onThemeChange, readColours } from './theme';
import { withoutText } from './without';

declare function acquireVsCodeApi(): {
  postMessage(message: ToHost): void;
  getState(): unknown;
  setState(state: unknown): void;
};

const host = acquireVsCodeApi();
const scene = new Scene(element<HTMLCanvasElement>('picture'), readColours());
const overlay = new Overlay(document.querySelector<SVGSVGElement>('#lines')!, element('labels'), scene);
const status = element('status');
const said = element('said');
const measuring = element<HTMLButtonElement>('measure');
let picture: PartPicture | undefined;
let firstPick: Hit | undefined;
let measured: Measured | null | undefined;

const list = new List(element('list'), {
  chosen: ({ of, finding }) => {
    light(of);
    overlay.choose(finding);
  },
  open: ({ range, finding }) => {
    const at = finding === undefined ? undefined : picture?.findings[finding]?.at[0];
    if (at) scene.goTo(at);
    host.postMessage({ type: 'reveal', range });
  },
});
overlay.onPressed = (finding) => list.press(finding);
bindKeys(scene.canvas, scene);
bindPointer(scene.canvas, scene, pressed);
const faceAgain = bindFaces(element('faces'), scene);
const cutAgain = bindCut(element('cut-axis'), element('cut-at'), scene);
scene.onDrawn = () => {
  overlay.place();
  faceAgain();
  remember();
};
new ResizeObserver(() => scene.draw()).observe(scene.canvas);
onThemeChange(() => {
  scene.colours = readColours();
});

element<HTMLInputElement>('stock').addEventListener('change', (e) => {
  scene.stock = (e.target as HTMLInputElement).checked;
});
const measure = (on: boolean) => {
  measuring.setAttribute('aria-pressed', String(on));
  firstPick = undefined;
  measured = undefined;
  showMarks();
  status.textContent = on ? 'Measure: press one face, then another.' : '';
};
measuring.addEventListener('click', () => measure(measuring.getAttribute('aria-pressed') !== 'true'));
addEventListener('keydown', (e) => {
  if (e.key === 'Escape' && measuring.getAttribute('aria-pressed') === 'true') measure(false);
});
const stepping = new Stepping((moment, planned) => {
  if (planned && !picture?.planned) status.textContent = 'The set-ups are being planned …';
  host.postMessage({ type: 'moment', ...(moment && { moment }), ...(planned && { planned }) });
});

addEventListener('message', (event: MessageEvent<unknown>) => {
  const message = fromHost(event.data);
  switch (message?.type) {
    case 'picture':
      return show(message.picture);
    case 'stale':
      document.body.classList.add('stale');
      status.textContent = message.why;
      return;
    case 'cursor':
      list.choose(message.feature);
      overlay.choose(undefined);
      return light(message.feature === undefined ? [] : [message.feature]);
    case 'measured':
      measured = message.measured;
      status.textContent = measured?.text ?? 'The part changed meanwhile: measure again.';
      return showMarks();
    default:
      message satisfies undefined;
  }
});

function show(next: PartPicture): void {
  const from = performance.now();
  const other = picture?.uri !== next.uri;
  const moved = picture !== undefined && !other && lieOf(picture) !== lieOf(next);
  // After the window was loaded again one looks from where one looked before.
  if (other) scene.eye = picture ? undefined : eyeFrom(host.getState(), next.uri);
  picture = next;
  document.body.classList.remove('stale');
  scene.show(next);
  if (moved || (other && next.moment)) lieAs(next);
  // The same features, whose faces may have other numbers now.
  light(other ? [] : lit);
  list.show(next);
  cutAgain();
  firstPick = undefined;
  measured = undefined;
  status.textContent = withoutText(next);
  stepping.show(next);
  showMarks();
  // Read aloud when it says something new, not on every key.
  const summary = next.summary.replaceAll('`', '');
  if (said.textContent !== summary) said.textContent = summary;
  scene.canvas.setAttribute('aria-label', summary);
  scene.drawNow();
  const ms = performance.now() - from;
  Object.assign(document.body.dataset, {
    part: next.name,
    version: String(next.version),
    triangles: String(scene.triangles),
    drawnMs: ms.toFixed(1),
  });
  host.postMessage({ type: 'drawn', version: next.version, ms, triangles: scene.triangles });
}

/** How the work lies: as it is written, or in one of the set-ups. */
function lieOf({ moment, planned }: PartPicture): string {
  return moment ? `${moment.setup}${planned ? ' planned' : ''}` : '';
}

/** Turned as it lies now, all of it in sight; from where one stood before the machine. */
function lieAs({ moment, setups }: PartPicture): void {
  const { eye, everything, aspect } = scene;
  if (!everything) return;
  const frame = moment && setups[moment.setup]?.frame;
  const { aroundDeg, aboveDeg } = eye ?? wholeView(everything, aspect);
  scene.eye = fitted({ aroundDeg, aboveDeg, reachMm: 1, at: [0, 0, 0], ...(frame && { frame }) }, everything, aspect);
}

let remembered: Eye | undefined;
/** What the editor keeps for the next time the window is loaded. */
function remember(): void {
  if (!picture || !scene.eye || scene.eye === remembered || scene.eye.frame) return;
  remembered = scene.eye;
  host.setState({ uri: picture.uri, eye: scene.eye });
}

let lit: readonly string[] = [];
function litFeatures(): ReadonlySet<string> {
  return new Set(lit.map((name) => name.replace(/\[\d+\]$/, '')));
}

function light(of: readonly string[]): void {
  lit = of;
  const surfaces = new Set<number>();
  for (const name of of) for (const s of surfacesOf(picture?.surfaces ?? [], name)) surfaces.add(s);
  document.body.dataset.lit = String(surfaces.size);
  if (picture?.moment) showMarks();
  stand();
  scene.light(surfaces);
}

/** Puts the tools of this moment where they stand. */
function stand(): void {
  if (!picture) return;
  const pass = passShown(picture.moment && picture.setups[picture.moment.setup], picture.moment);
  scene.cutters(standing(picture, litFeatures()), pass?.ways);
}

function pressed(x: number, y: number): void {
  const hit = scene.pick(x, y);
  const surface = hit && picture?.surfaces[hit.surface];
  if (!hit || !surface || !picture) return;
  scene.canvas.focus();
  if (measuring.getAttribute('aria-pressed') === 'true') {
    if (!firstPick) {
      firstPick = hit;
      scene.light(new Set([hit.surface]));
      status.textContent = `From ${surface.name} …`;
      return;
    }
    scene.light(new Set([firstPick.surface, hit.surface]));
    host.postMessage({
      type: 'measure',
      version: picture.version,
      a: firstPick.surface,
      atA: firstPick.at,
      b: hit.surface,
      atB: hit.at,
    });
    firstPick = undefined;
    return;
  }
  status.textContent = surface.name;
  const feature = picture.features.find((f) => f.name === surface.feature);
  list.choose(feature?.name);
  light([surface.feature ?? surface.name]);
  if (feature) host.postMessage({ type: 'reveal', range: feature.nameRange });
}

function showMarks(): void {
  overlay.marks = marksOf(picture, measured, litFeatures());
  overlay.choose(list.finding);
}

host.postMessage({ type: 'ready' });

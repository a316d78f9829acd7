/** The panel: takes pictures from the extension and shows them, tells it what was chosen. Keeps the eye over every redraw. */
import type { Measured, Moment, PartPicture } from '../../server/src/service/view/protocol';
import { bindCut, bindFaces, bindKeys, bindPointer, element } from './controls';
import { surfacesOf } from './decode';
import { List } from './list';
import { marksOf } from './marks';
import { eyeFrom, fromHost, type ToHost } from './messages';
import { type Eye, fitted } from './orbit';
import { Overlay } from './overlay';
import { type Hit, Scene } from './scene';
import { stepAt, stepsOf } from './steps';
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
element('before').addEventListener('click', () => step(-1));
element('next').addEventListener('click', () => step(1));

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
  const fits = picture !== undefined && (picture.moment === undefined) !== (next.moment === undefined);
  // After the window was loaded again one looks from where one looked before.
  if (other) scene.eye = picture ? undefined : eyeFrom(host.getState(), next.uri);
  picture = next;
  document.body.classList.remove('stale');
  scene.show(next);
  // With the vise round it, or without it again: the way one looks is kept, the distance is not.
  if (fits && scene.eye && scene.everything) scene.eye = fitted(scene.eye, scene.everything, scene.aspect);
  // The same features, whose faces may have other numbers now.
  light(other ? [] : lit);
  list.show(next);
  cutAgain();
  firstPick = undefined;
  measured = undefined;
  status.textContent = withoutText(next);
  showStep();
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

let remembered: Eye | undefined;
/** What the editor keeps for the next time the window is loaded. */
function remember(): void {
  if (!picture || !scene.eye || scene.eye === remembered) return;
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
  scene.cutters(picture?.moment && picture.setups[picture.moment.setup], litFeatures());
  scene.light(surfaces);
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

function step(by: number): void {
  if (!picture) return;
  const steps = stepsOf(picture.setups);
  const at = Math.max(0, Math.min(steps.length - 1, stepAt(steps, picture.moment) + by));
  const moment: Moment | undefined = steps[at]!.moment;
  host.postMessage(moment ? { type: 'moment', moment } : { type: 'moment' });
}

function showStep(): void {
  const steps = stepsOf(picture?.setups ?? []);
  const at = stepAt(steps, picture?.moment);
  element('step').textContent = steps[at]!.text;
  element<HTMLButtonElement>('before').disabled = at === 0;
  element<HTMLButtonElement>('next').disabled = at === steps.length - 1;
  element('steps').hidden = steps.length < 2;
}

host.postMessage({ type: 'ready' });

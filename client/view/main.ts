/** The panel: takes pictures from the extension and shows them, tells it what was chosen. Keeps the eye over every redraw. */
import type { Measured, Moment, PartPicture } from '../../server/src/service/view/protocol';
import { bindCut, bindFaces, bindKeys, bindPointer, element } from './controls';
import { surfacesOf } from './decode';
import { List } from './list';
import { fromHost, type ToHost } from './messages';
import { findingMarks, type Mark, Overlay } from './overlay';
import { type Hit, Scene } from './scene';
import { stepAt, stepsOf } from './steps';
import { onThemeChange, readColours } from './theme';

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
  chosen: (of) => light(of),
  open: (range) => host.postMessage({ type: 'reveal', range }),
});
bindKeys(scene.canvas, scene);
bindPointer(scene.canvas, scene, pressed);
bindFaces(element('faces'), scene);
const cutAgain = bindCut(element('cut-axis'), element('cut-at'), scene);
scene.onDrawn = () => overlay.place();
new ResizeObserver(() => scene.draw()).observe(scene.canvas);
onThemeChange(() => {
  scene.colours = readColours();
});

element<HTMLInputElement>('stock').addEventListener('change', (e) => {
  scene.stock = (e.target as HTMLInputElement).checked;
});
measuring.addEventListener('click', () => {
  const on = measuring.getAttribute('aria-pressed') !== 'true';
  measuring.setAttribute('aria-pressed', String(on));
  firstPick = undefined;
  measured = undefined;
  showMarks();
  status.textContent = on ? 'Measure: press one face, then another.' : '';
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
      return light(message.feature === undefined ? [] : [message.feature]);
    case 'measured':
      measured = message.measured;
      status.textContent = measured?.text ?? 'The part changed meanwhile: measure again.';
      return showMarks();
  }
});

function show(next: PartPicture): void {
  const from = performance.now();
  const other = picture?.uri !== next.uri;
  picture = next;
  if (other) scene.eye = undefined;
  document.body.classList.remove('stale');
  scene.show(next);
  list.show(next.features, next.findings);
  cutAgain();
  firstPick = undefined;
  measured = undefined;
  status.textContent = '';
  showStep();
  showMarks();
  // Read aloud when it says something new, not on every key.
  if (said.textContent !== next.summary) said.textContent = next.summary;
  scene.canvas.setAttribute('aria-label', next.summary);
  document.body.dataset.version = String(next.version);
  document.body.dataset.triangles = String(scene.triangles);
  document.body.dataset.part = next.name;
  scene.drawNow();
  host.postMessage({ type: 'drawn', version: next.version, ms: performance.now() - from, triangles: scene.triangles });
}

function light(of: readonly string[]): void {
  const surfaces = new Set<number>();
  for (const name of of) for (const s of surfacesOf(picture?.surfaces ?? [], name)) surfaces.add(s);
  document.body.dataset.lit = String(surfaces.size);
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
  const marks: Mark[] = [...findingMarks(picture?.findings ?? [])];
  const setup = picture?.moment ? picture.setups[picture.moment.setup] : undefined;
  if (setup?.zero) marks.push({ at: [setup.zero], gap: false, text: 'zero', kind: 'zero' });
  if (measured?.at) marks.push({ at: measured.at, gap: true, text: measured.text, kind: 'measure' });
  overlay.marks = marks;
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

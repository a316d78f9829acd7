/** The view's page: of one part, or of two revisions of it. Shows pictures where they can be drawn, the drawing where not. */
import { ComparePage } from './compare';
import { element } from './controls';
import { hostOfPage, standsAlone, withoutPicture } from './host';
import { fromHost } from './messages';
import { showDrawing } from './no-picture';
import { Scene } from './scene';
import { readColours } from './theme';
import { View } from './view';

const host = hostOfPage();

function sceneIfAny(): Scene | undefined {
  try {
    return new Scene(element<HTMLCanvasElement>('picture'), readColours());
  } catch {
    return undefined;
  }
}

const scene = sceneIfAny();
if (scene) {
  const page = document.getElementById('sides') ? new ComparePage(scene, host) : new View(scene, host);
  addEventListener('message', (event: MessageEvent<unknown>) => page.heard(fromHost(event.data)));
} else if (standsAlone) {
  withoutPicture();
} else {
  document.body.classList.add('no-picture');
  addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    const message = fromHost(data);
    const status = element('status');
    if (message?.type === 'picture' || message?.type === 'told') {
      document.body.dataset.part = (message.type === 'told' ? message.told : message.picture).name;
      status.textContent = 'This machine draws no pictures (WebGL is missing): the drawing is shown.';
      host.postMessage({ type: 'drawing' });
    } else if (message?.type === 'drawing') showDrawing(message.svg);
    else if (message?.type === 'stale' || message?.type === 'refused') status.textContent = message.why;
    else if (message?.type === 'compared') status.textContent = 'This machine draws no pictures (WebGL is missing).';
  });
}
host.postMessage({ type: 'ready' });

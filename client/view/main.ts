/** The panel: shows pictures where they can be drawn, the drawing where not. */
import { element } from './controls';
import { fromHost, type ToHost } from './messages';
import { showDrawing } from './no-picture';
import { Scene } from './scene';
import { readColours } from './theme';
import { View } from './view';

declare function acquireVsCodeApi(): {
  postMessage(message: ToHost): void;
  getState(): unknown;
  setState(state: unknown): void;
};

const host = acquireVsCodeApi();

function sceneIfAny(): Scene | undefined {
  try {
    return new Scene(element<HTMLCanvasElement>('picture'), readColours());
  } catch {
    return undefined;
  }
}

const scene = sceneIfAny();
if (scene) {
  const view = new View(scene, host);
  addEventListener('message', (event: MessageEvent<unknown>) => view.heard(fromHost(event.data)));
} else {
  document.body.classList.add('no-picture');
  addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    const message = fromHost(data);
    const status = element('status');
    if (message?.type === 'picture') {
      document.body.dataset.part = message.picture.name;
      status.textContent = 'This machine draws no pictures (WebGL is missing): the drawing is shown.';
      host.postMessage({ type: 'drawing' });
    } else if (message?.type === 'drawing') showDrawing(message.svg);
    else if (message?.type === 'stale' || message?.type === 'refused') status.textContent = message.why;
  });
}
host.postMessage({ type: 'ready' });

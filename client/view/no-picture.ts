/** Where no picture can be drawn: the part's drawing in its place, read as XML, so that nothing in it runs. */
import { element } from './controls';

export function showDrawing(svg: string): void {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  if (root.localName !== 'svg') return;
  const drawing = element('drawing');
  drawing.hidden = false;
  drawing.replaceChildren(document.importNode(root, true));
}

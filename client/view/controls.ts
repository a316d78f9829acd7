/** Buttons, keys and the pointer: how the eye is moved, and what is shown. Tells what was wanted; does nothing by itself. */

import { FACES, type Face } from '../../server/src/model/faces';
import { type Eye, faceOf, fitted, fromBehind, moved, squareTo, turned, wholeView, zoomed, zoomedAt } from './orbit';
import type { Scene } from './scene';
import { type CutPlane, planeAt } from './section';

export function element<T extends HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found as T;
}

const KEYS_TURN_DEG = 15;

/** Keys on the picture. Arrow keys turn, with Shift they move; + and - go nearer and away; Home shows all. */
export function bindKeys(canvas: HTMLElement, scene: Scene): void {
  canvas.addEventListener('keydown', (e) => {
    const next = scene.eye && keyed(scene.eye, e, scene);
    if (!next) return;
    e.preventDefault();
    scene.look(next);
  });
}

function keyed(eye: Eye, e: KeyboardEvent, scene: Scene): Eye | undefined {
  const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
  if (by)
    return e.shiftKey
      ? moved(eye, by[0]! * 0.05, by[1]! * 0.05)
      : turned(eye, -by[0]! * KEYS_TURN_DEG, by[1]! * KEYS_TURN_DEG);
  if (e.key === '+' || e.key === '=') return zoomed(eye, 1.2);
  if (e.key === '-') return zoomed(eye, 1 / 1.2);
  if (e.key === 'Home' && scene.everything) return wholeView(scene.everything, scene.aspect);
  return undefined;
}

/** Dragging turns, with Shift (or the right button) it moves; the wheel goes nearer. A press without a drag is `pressed`. */
export function bindPointer(canvas: HTMLElement, scene: Scene, pressed: (x: number, y: number) => void): void {
  let from: { x: number; y: number; moves: boolean; far: boolean } | undefined;
  canvas.addEventListener('pointerdown', (e) => {
    from = { x: e.clientX, y: e.clientY, moves: e.shiftKey || e.button === 2, far: false };
    canvas.setPointerCapture(e.pointerId);
  });
  canvas.addEventListener('pointermove', (e) => {
    if (!from || !scene.eye) return;
    const [dx, dy] = [e.clientX - from.x, e.clientY - from.y];
    if (!from.far && Math.hypot(dx, dy) < 3) return;
    const side = Math.min(canvas.clientWidth, canvas.clientHeight);
    scene.look(
      from.moves ? moved(scene.eye, -dx / side, dy / side) : turned(scene.eye, (-dx * 180) / side, (dy * 180) / side),
    );
    from = { ...from, x: e.clientX, y: e.clientY, far: true };
  });
  canvas.addEventListener('pointerup', (e) => {
    const rect = canvas.getBoundingClientRect();
    if (from && !from.far) pressed(e.clientX - rect.left, e.clientY - rect.top);
    from = undefined;
  });
  canvas.addEventListener('contextmenu', (e) => e.preventDefault());
  canvas.addEventListener(
    'wheel',
    (e) => {
      e.preventDefault();
      if (!scene.eye) return;
      const { left, top, width, height } = canvas.getBoundingClientRect();
      const side = Math.min(width, height);
      const [right, up] = [(e.clientX - left - width / 2) / side, (top + height / 2 - e.clientY) / side];
      scene.look(zoomedAt(scene.eye, Math.exp(-e.deltaY / 600), right, up));
    },
    { passive: false },
  );
}

/** The row of faces to look at square on, and `all`. The one that is looked at is pressed: call what is returned after each drawing. */
export function bindFaces(row: HTMLElement, scene: Scene): () => void {
  const buttons = new Map<Face, HTMLButtonElement>();
  const button = (text: string, title: string, then: () => void) => {
    const b = document.createElement('button');
    b.type = 'button';
    b.textContent = text;
    b.title = title;
    b.dataset.look = text;
    b.addEventListener('click', then);
    row.append(b);
    return b;
  };
  for (const face of FACES)
    buttons.set(
      face,
      button(face, `Look at ${face} square on`, () => {
        const { eye, everything } = scene;
        if (eye && everything) scene.look(fitted(squareTo(face, eye), everything, scene.aspect));
      }),
    );
  button('all', 'The whole of it, from the right front', () => {
    if (scene.everything) scene.look(wholeView(scene.everything, scene.aspect));
  });
  return () => {
    const looked = scene.eye && faceOf(scene.eye);
    for (const [face, b] of buttons) b.setAttribute('aria-pressed', String(face === looked));
  };
}

interface CutControls {
  /** The part is another. */
  again(): void;
  /** Cut open square to the next axis, or put together again. */
  next(): void;
  /** The other half stays: one goes round to its cut. */
  flip(): void;
  /** By so many millimetres along the axis. */
  move(mm: number): void;
}

/** The plane that cuts the part open: an axis, how far along it as a slider and in millimetres, and which side stays. */
export function bindCut(scene: Scene): CutControls {
  const axis = element<HTMLSelectElement>('cut-axis');
  const slider = element<HTMLInputElement>('cut-at');
  const mm = element<HTMLInputElement>('cut-mm');
  const flip = element<HTMLButtonElement>('cut-flip');
  const index = () => ['x', 'y', 'z'].indexOf(axis.value);
  const put = (atMm: number) => {
    const i = index() as CutPlane['axis'];
    const { min, max } = scene.bounds!;
    const at = Math.max(min[i], Math.min(max[i], atMm));
    slider.value = String((1000 * (at - min[i])) / (max[i] - min[i]));
    mm.value = String(Number(at.toFixed(2)));
    slider.setAttribute('aria-valuetext', `${axis.value} = ${mm.value} mm`);
    scene.cut = { axis: i, atMm: at };
  };
  const set = () => {
    const { bounds } = scene;
    const isCut = index() >= 0 && bounds !== undefined;
    element('cut-where').hidden = !isCut;
    if (!isCut) scene.cut = undefined;
    else put(planeAt(index() as CutPlane['axis'], Number(slider.value) / 1000, bounds).atMm);
  };
  const turn = () => {
    if (index() >= 0 && scene.eye) scene.look(fromBehind(scene.eye, index() as CutPlane['axis']));
  };
  axis.addEventListener('change', set);
  slider.addEventListener('input', set);
  mm.addEventListener('change', () => index() >= 0 && put(Number(mm.value)));
  flip.addEventListener('click', turn);
  return {
    again: set,
    next: () => {
      axis.selectedIndex = (axis.selectedIndex + 1) % axis.options.length;
      set();
    },
    flip: turn,
    move: (by) => index() >= 0 && put(Number(mm.value) + by),
  };
}

/** A feature's map with its faces, axes and places said otherwise, wherever they stand in it. */

import { bracketed, cut } from '../../text/pieces';
import type { MapNode, ScalarNode, SpanEdit, TextNode } from '../../text/tree';
import { type Axis, FACE_AXIS, FACES, type Face } from '../faces';

/** How each word and number becomes another. */
export interface Otherwise {
  face(face: Face): Face;
  axis(axis: Axis): Axis;
  /** A coordinate along an axis that is counted from nought: as another key, or turned about nought. */
  place(axis: Axis, relative: boolean): { readonly key: Axis | Face; readonly negated: boolean };
  /** Which angles turn the other way: of a rotation in the plane, of a first place on a circle, of a lean about an axis. */
  readonly rotates: boolean;
  start(deg: number): number;
  leans(about: Axis): boolean;
}

const AXES: readonly Axis[] = ['x', 'y', 'z'];
const isAxis = (word: unknown): word is Axis => AXES.includes(word as Axis);
const isFace = (word: unknown): word is Face => FACES.includes(word as Face);
/** Places that are counted from where the feature is, once that is said. */
const DRAWN: ReadonlySet<string> = new Set(['path', 'paths', 'ends']);

/** Of a feature, or of any map that may hold faces and places (a set-up, the stock). */
export function otherwise(map: MapNode, how: Otherwise): readonly SpanEdit[] {
  const saying = new Saying(how);
  saying.map(map);
  return saying.edits;
}

/** Free words, and names of others, which no face is meant by. */
const LEFT_ALONE: ReadonlySet<string> = new Set(['note', 'text', 'because', 'vise', 'tools']);

class Saying {
  readonly edits: SpanEdit[] = [];

  constructor(private readonly how: Otherwise) {}

  map(map: MapNode): void {
    const isPlaced = map.entries.some((e) => e.key.value === 'at');
    for (const { key, value } of map.entries) if (value) this.field(String(key.value), value, isPlaced);
  }

  private field(key: string, value: TextNode, isPlaced: boolean): void {
    if (LEFT_ALONE.has(key)) return;
    if (key === 'at' || key === 'clamps') this.places(value, false);
    else if (DRAWN.has(key) && value.type === 'list') this.places(value, isPlaced);
    else if (key === 'pattern' && value.type === 'map') this.pattern(value);
    else if (key === 'islands' && value.type === 'map') this.islands(value);
    else if ((key === 'size' || key === 'extra' || key === 'overhang') && value.type === 'map') this.keys(value);
    else if (key === 'rotate' && value.type === 'scalar') this.rotation(value);
    else if (key === 'tilt' && value.type === 'map') this.tilt(value);
    else this.words(value);
  }

  private islands(node: MapNode): void {
    for (const island of node.entries) if (island.value?.type === 'map') this.map(island.value);
  }

  private rotation(value: ScalarNode): void {
    if (this.how.rotates) this.edits.push(turned(value));
  }

  private words(node: TextNode): void {
    if (node.type === 'map') this.map(node);
    else if (node.type === 'list') for (const item of node.items) this.words(item);
    else {
      const { value } = node;
      const other = isFace(value) ? this.how.face(value) : isAxis(value) ? this.how.axis(value) : value;
      if (other !== value) this.edits.push({ span: node.span, newText: String(other) });
    }
  }

  private keyed(key: ScalarNode): void {
    const { value } = key;
    const other = isFace(value) ? this.how.face(value) : isAxis(value) ? this.how.axis(value) : value;
    if (other !== value) this.edits.push({ span: key.span, newText: String(other) });
  }

  /** Sizes and pitches by their axes, stock by its faces. */
  private keys(node: MapNode): void {
    for (const { key } of node.entries) this.keyed(key);
  }

  private places(node: TextNode, relative: boolean): void {
    if (node.type === 'list') for (const item of node.items) this.places(item, relative);
    if (node.type !== 'map') return;
    for (const { key, value } of node.entries) {
      if (key.value === 'arc' && value) this.places(value, relative);
      if (isFace(key.value)) this.keyed(key);
      if (isAxis(key.value) && value?.type === 'scalar') this.coordinate(key, key.value, value, relative);
    }
  }

  private coordinate(key: ScalarNode, axis: Axis, value: ScalarNode, relative: boolean): void {
    const to = this.how.place(axis, relative);
    const isMiddle = value.value === 'center';
    const put = isMiddle ? this.how.axis(axis) : to.key;
    if (put !== key.value) this.edits.push({ span: key.span, newText: put });
    if (to.negated && !isMiddle) this.edits.push(turned(value));
  }

  private pattern(node: MapNode): void {
    for (const { key, value } of node.entries) {
      if (key.value === 'places' && value) this.places(value, false);
      else if (key.value === 'line' && value?.type === 'map') this.keys(value);
      else if (key.value === 'grid' && value?.type === 'map') this.keys(value);
      else if (key.value === 'bolt-circle' && value?.type === 'map') this.circle(value);
    }
  }

  private circle(node: MapNode): void {
    const start = node.entries.find((e) => e.key.value === 'start')?.value;
    const was = start?.type === 'scalar' ? Number(start.value) : 0;
    const is = this.how.start(was);
    if (start?.type === 'scalar') {
      if (is !== was && Number.isFinite(was)) this.edits.push({ span: start.span, newText: String(is) });
      return;
    }
    if (is === was || !node.flow) return;
    const { block, to } = node.entries.at(-1)!.span;
    this.edits.push({ span: { block, from: to, to }, newText: `, start: ${is}` });
  }

  private tilt(node: MapNode): void {
    const about = node.entries.find((e) => e.key.value === 'about')?.value;
    const angle = node.entries.find((e) => e.key.value === 'angle')?.value;
    if (about?.type !== 'scalar' || !isAxis(about.value)) return;
    if (this.how.leans(about.value) && angle?.type === 'scalar') this.edits.push(turned(angle));
    this.words(about);
  }
}

/** With the other sign. */
function turned(node: ScalarNode): SpanEdit {
  const { value, tolerance } = cut(node.source);
  const bare = /^-\s*(?:\d+(?:\.\d+)?|\([^()]*\))$/.test(value)
    ? value.slice(1).trim()
    : /^0+(?:\.0+)?$/.test(value)
      ? value
      : `-${bracketed(value)}`;
  return { span: node.span, newText: bare + tolerance };
}

export function otherEnd(face: Face): Face {
  return FACES.find((f) => f !== face && FACE_AXIS[f].axis === FACE_AXIS[face].axis)!;
}

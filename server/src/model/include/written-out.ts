/**
 * A feature of another part written out for this one: names are worked out in that part, by its body and parameters; places
 * come to lie where the group does; and what it names is called as it is here. Every node stands at the entry that brings it.
 */
import { parseDimension } from '../../text/dimension';
import { evaluate, type Quantity, toAngle, toLength } from '../../text/expression';
import { toleranceLimits } from '../../text/tolerance';
import { at, type MapEntry, type MapNode, type ScalarNode, type Span, scalarAt, type TextNode } from '../../text/tree';
import { type Axis, FACE_AXIS, FACE_PLANE, FACES, type Face, type Units } from '../base';
import type { Feature } from '../feature-kinds';
import type { Part } from '../model';
import { quote } from '../resolve/problem';
import { pick } from '../schema/pick';
import type { MapShape, Shape } from '../schema/shape';
import { axisOf, type Lay, moved, type Point, turned, turnedAngle, turnedBox } from './lay';

interface Group {
  /** The other part, with the parameters that it has here. */
  readonly there: Part;
  readonly units: Units;
  /** Where its features are told. */
  readonly seat: Span;
  /** Left out: they lie where they lay. */
  readonly lay: Lay | undefined;
  /** What a feature of it is called here; undefined for one that is not taken. */
  called(name: string): string | undefined;
}

/** What cannot be said here, in a sentence that begins with the feature. */
export class NoMeaning extends Error {}

/** Whether its places are drawn in part axes, so that `at` is how far they are shifted. */
const isDrawn = (map: MapNode) => ['path', 'paths', 'ends'].some((key) => at(map, key)?.type === 'list');

export class WrittenOut {
  private readonly lay: Lay;

  constructor(
    private readonly group: Group,
    private readonly feature: Feature,
    still: Lay,
  ) {
    this.lay = group.lay ?? still;
  }

  /** Throws `NoMeaning`. */
  entry(written: MapEntry, shape: Shape): MapEntry {
    const { seat } = this.group;
    if ('stroke' in this.feature && this.lay.deg !== 0)
      throw new NoMeaning('is text, which is not turned with the group. Write it here instead.');
    const key = this.scalar(this.group.called(this.feature.name) ?? this.feature.name, written.key);
    return { key, value: written.value && this.node(shape, written.value), span: seat };
  }

  private node(wide: Shape | undefined, node: TextNode): TextNode {
    const shape = wide && pick(wide, node);
    const span = this.group.seat;
    if (node.type === 'list') {
      const item = shape?.type === 'list' ? shape.item : undefined;
      return { ...node, span, items: node.items.map((n) => this.node(item, n)) };
    }
    if (node.type === 'scalar') return this.word(shape, node);
    if (shape?.type === 'map') return this.map(shape, node);
    const value = shape?.type === 'record' ? shape.value : undefined;
    return { ...node, span, entries: node.entries.map((e) => this.pair(e.key, e.value && this.node(value, e.value))) };
  }

  private map(shape: MapShape, node: MapNode): MapNode {
    const { title } = shape.meta;
    if (title === 'position' || title === 'corner of a path') return this.position(shape, node, false);
    if (title === 'size') return this.renamed(shape, node, (axis) => this.axis(axis));
    if (title === 'tilt') return this.tilt(shape, node);
    const drawn = isDrawn(node);
    const entries = node.entries.flatMap(({ key, value }) => {
      const word = String(key.value);
      const inner = shape.keys.get(word)?.shape;
      if (word === 'at' && value?.type === 'map' && inner?.type === 'map')
        return [this.pair(key, this.position(inner, value, drawn))];
      if (word === 'pattern' && value?.type === 'map' && inner?.type === 'map')
        return [this.pair(key, this.made(value, this.pattern(inner, value, drawn)))];
      // A box that is turned has its turn written with its size.
      if (word === 'rotate' && this.group.lay && at(node, 'size')) return [];
      return [this.pair(key, value && this.node(inner, value))];
    });
    return this.made(node, [...entries, ...this.turn(node), ...this.ofShaft(shape, node)]);
  }

  /** `rotate` of an outline with a size. */
  private turn(node: MapNode): readonly MapEntry[] {
    if (!this.group.lay || !at(node, 'size')) return [];
    const written = scalarAt(node, 'rotate');
    const deg = turnedBox(this.lay, (written && this.angle(written)) ?? 0);
    return deg === 0 ? [] : [this.pair('rotate', this.scalar(String(Number(deg.toFixed(9)))))];
  }

  /** What a keyway takes from a round body, where it is laid on another. */
  private ofShaft(shape: MapShape, node: MapNode): readonly MapEntry[] {
    const { there, lay } = this.group;
    if (!lay || !shape.keys.has('shaft') || there.body?.form !== 'round') return [];
    const { axis, diameter } = there.body;
    return [
      ...(at(node, 'along') ? [] : [this.pair('along', this.scalar(this.axis(axis)))]),
      ...(at(node, 'shaft') || at(node, 'width') ? [] : [this.pair('shaft', this.scalar(this.length(diameter.mm)))]),
    ];
  }

  private word(shape: Shape | undefined, node: ScalarNode): ScalarNode {
    if (shape?.type !== 'scalar' || node.value === null) return { ...node, span: this.group.seat };
    const { names, unit, values } = shape.meta;
    if (names === 'feature') return this.scalar(this.name(String(node.value)), node);
    if (names === 'face') return this.scalar(this.face(String(node.value)), node);
    if (isAxis(node.value) && values && 'x' in values) return this.scalar(this.axis(node.value), node);
    if (!unit || (values && String(node.value) in values)) return { ...node, span: this.group.seat };
    return this.scalar(this.value(node, unit) ?? node.source, node);
  }

  private name(name: string): string {
    const here = this.group.called(name);
    if (here !== undefined) return here;
    throw new NoMeaning(`names ${quote(name)}, which is not included. Add it to \`features\`.`);
  }

  private face(word: string): string {
    const { lay } = this.group;
    if (!lay || !FACES.some((f) => f === word)) return word;
    if (word === lay.from) return lay.to;
    throw new NoMeaning(`lies along ${word} of its own part. Write it in this part instead.`);
  }

  private axis(axis: Axis): Axis {
    return this.group.lay ? axisOf(this.group.lay, axis).axis : axis;
  }

  private tilt(shape: MapShape, node: MapNode): MapNode {
    const about = scalarAt(node, 'about');
    const lean = scalarAt(node, 'angle');
    const deg = lean && this.angle(lean);
    if (!this.group.lay || !about || !isAxis(about.value) || deg === undefined)
      return this.renamed(shape, node, (axis) => axis);
    if (!this.lay.square)
      throw new NoMeaning('is tilted, and cannot be turned but by quarters. Write it here instead.');
    const { axis, sign } = axisOf(this.lay, about.value);
    return this.made(node, [
      this.pair('about', this.scalar(axis)),
      this.pair('angle', this.scalar(String(deg * sign))),
    ]);
  }

  /** Its keys by other names, where they are axes. */
  private renamed(shape: MapShape, node: MapNode, other: (axis: Axis) => Axis): MapNode {
    const entries = node.entries.map(({ key, value }) => {
      const inner = value && this.node(shape.keys.get(String(key.value))?.shape, value);
      return this.pair(isAxis(key.value) ? other(key.value) : key, inner);
    });
    return this.made(node, entries);
  }

  private pattern(shape: MapShape, node: MapNode, drawn = false): readonly MapEntry[] {
    return node.entries.map(({ key, value }) => {
      const word = String(key.value);
      const inner = shape.keys.get(word)?.shape;
      if (word === 'places' && value?.type === 'list') return this.pair(key, this.places(inner, value.items, drawn));
      if (value?.type !== 'map' || inner?.type !== 'map') return this.pair(key, value && this.node(inner, value));
      if (word === 'bolt-circle') return this.pair(key, this.boltCircle(inner, value));
      if (!this.group.lay || this.lay.square)
        return this.pair(
          key,
          this.renamed(inner, value, (a) => this.axis(a)),
        );
      const places = this.feature.places.map((p): Point => [p.u, p.v]);
      const laid = places.map((p) => (drawn ? turned(this.lay, p) : moved(this.lay, p)));
      const items = laid.map((p) => this.made(node, this.coordinates(p)));
      return this.pair('places', { type: 'list', span: this.group.seat, flow: true, items });
    });
  }

  private places(shape: Shape | undefined, items: readonly TextNode[], drawn: boolean): TextNode {
    const each = shape?.type === 'list' && shape.item.type === 'map' ? shape.item : undefined;
    const made = items.map((n) => (each && n.type === 'map' ? this.position(each, n, drawn) : this.node(each, n)));
    return { type: 'list', span: this.group.seat, flow: true, items: made };
  }

  private boltCircle(shape: MapShape, node: MapNode): MapNode {
    const written = scalarAt(node, 'start');
    const start = written ? this.angle(written) : 0;
    if (!this.group.lay || start === undefined) return this.renamed(shape, node, (axis) => axis);
    const others = node.entries.filter((e) => e.key.value !== 'start');
    const entries = others.map((e) =>
      this.pair(e.key, e.value && this.node(shape.keys.get(String(e.key.value))?.shape, e.value)),
    );
    return this.made(node, [...entries, this.pair('start', this.scalar(String(turnedAngle(this.lay, start))))]);
  }

  /** A place, or only how far something is shifted; with what else is said of a corner there. */
  private position(shape: MapShape, node: MapNode, isShift: boolean): MapNode {
    const { from } = this.lay;
    const found = FACE_PLANE[from].map((axis) => this.coordinate(node, axis));
    const [u, v] = found;
    if (!u || !v) throw new NoMeaning('has a place that is not understood there. Correct it there.');
    const laid = isShift ? turned(this.lay, [u.mm, v.mm]) : moved(this.lay, [u.mm, v.mm]);
    const rest = node.entries.filter((e) => !this.isPlace(String(e.key.value)));
    return this.made(node, [
      ...this.coordinates(laid, [u, v]),
      ...rest.map((e) => this.pair(e.key, e.value && this.node(shape.keys.get(String(e.key.value))?.shape, e.value))),
    ]);
  }

  private isPlace(key: string): boolean {
    return isAxis(key) || FACES.some((f) => f === key);
  }

  private coordinates([u, v]: Point, from?: readonly [Along, Along]): readonly MapEntry[] {
    return FACE_PLANE[this.lay.to].map((axis, i) => {
      const text = this.length(i === 0 ? u : v);
      const old = from?.find((_, k) => axisOf(this.lay, FACE_PLANE[this.lay.from][k]!).axis === axis);
      if (!old?.limits) return this.pair(axis, this.scalar(text));
      if (!this.lay.square)
        throw new NoMeaning('has a tolerance on its place, and cannot be turned but by quarters. Turn it by 90.');
      const { sign } = axisOf(this.lay, FACE_PLANE[this.lay.from][from!.indexOf(old)]!);
      const [upper, lower] = old.limits.map((l) => l * sign);
      return this.pair(axis, this.scalar(`${text} ${this.limits(Math.max(upper!, lower!), Math.min(upper!, lower!))}`));
    });
  }

  /** Where it is along an axis of its own part. */
  private coordinate(node: MapNode, axis: Axis): Along | undefined {
    const sides = FACES.filter((f) => FACE_AXIS[f].axis === axis);
    const key = [axis, ...sides].find((k) => at(node, k));
    const written = key === undefined ? undefined : scalarAt(node, key);
    const read = written && this.read(written, axis);
    const mm = read && toLength(read.value, this.unitMm);
    if (!read || !mm?.ok) return undefined;
    const isFar = FACES.some((f) => f === key && FACE_AXIS[f].sign > 0);
    const sign = isFar ? -1 : 1;
    return {
      mm: isFar ? this.sizeOf(axis) - mm.value : mm.value,
      ...(read.limits && { limits: read.limits.map((l) => l * sign) as [number, number] }),
    };
  }

  private get unitMm(): number {
    return this.group.there.units === 'in' ? 25.4 : 1;
  }

  private sizeOf(axis: Axis): number {
    return this.group.there.size[axis === 'x' ? 0 : axis === 'y' ? 1 : 2];
  }

  private angle(node: ScalarNode): number | undefined {
    const read = this.read(node);
    const deg = read && toAngle(read.value);
    return deg?.ok ? deg.value : undefined;
  }

  /** A dimension as this part's text would have it; undefined where it may stay as it is. */
  private value(node: ScalarNode, unit: 'length' | 'angle' | 'number'): string | undefined {
    const parsed = parseDimension(node.source);
    const { there, units } = this.group;
    if (!parsed.ok || (parsed.dimension.names.length === 0 && there.units === units)) return undefined;
    const read = this.read(node);
    if (!read || (unit !== 'length' && parsed.dimension.names.length === 0)) return undefined;
    if (unit === 'number') return String(read.value.value);
    const turn = unit === 'length' ? toLength(read.value, this.unitMm) : toAngle(read.value);
    if (!turn.ok) return undefined;
    const text = unit === 'length' ? this.length(turn.value) : String(turn.value);
    const { tolerance } = parsed.dimension;
    if (!tolerance) return text;
    if (tolerance.type === 'fit' || unit === 'angle') return `${text} ${tolerance.text}`;
    return read.limits ? `${text} ${this.limits(...read.limits)}` : undefined;
  }

  private read(node: ScalarNode, axis?: Axis): { value: Quantity; limits?: [number, number] } | undefined {
    const parsed = parseDimension(node.source);
    if (!parsed.ok) return undefined;
    const { there } = this.group;
    const lookup = (name: string): Quantity | 'unknown' | 'broken' => {
      if (axis && name === 'center') return { dimension: 'length', value: this.sizeOf(axis) / 2 };
      if (name.startsWith('body.') && isAxis(name.slice(5)))
        return { dimension: 'length', value: this.sizeOf(name.slice(5) as Axis) };
      return there.parameters.get(name)?.value ?? 'unknown';
    };
    const { expression, tolerance } = parsed.dimension;
    const result = evaluate(expression, { unitMm: this.unitMm, lookup });
    if (!result.ok) return undefined;
    const limits = tolerance?.type === 'limits' ? toleranceLimits(tolerance, 'length', this.unitMm) : undefined;
    return { value: result.value, ...(limits?.ok && { limits: [limits.upper, limits.lower] }) };
  }

  /** In the units of this part. */
  private length(mm: number): string {
    return String(Number((mm / (this.group.units === 'in' ? 25.4 : 1)).toFixed(9)));
  }

  private limits(upper: number, lower: number): string {
    const signed = (mm: number) => `${mm < 0 ? '-' : '+'}${this.length(Math.abs(mm))}`;
    return `${signed(upper)}/${lower === 0 ? '-0' : signed(lower)}`;
  }

  private scalar(text: string, like?: ScalarNode): ScalarNode {
    const same = like?.source === text;
    return { type: 'scalar', span: this.group.seat, value: same ? like.value : text, source: text, quoted: false };
  }

  private pair(key: ScalarNode | string, value: TextNode | undefined): MapEntry {
    const { seat } = this.group;
    return { key: typeof key === 'string' ? this.scalar(key) : { ...key, span: seat }, value, span: seat };
  }

  private made(node: MapNode, entries: readonly MapEntry[]): MapNode {
    return { type: 'map', span: this.group.seat, flow: node.flow, entries };
  }
}

/** Where something is along an axis, in mm, with the limits of that. */
interface Along {
  readonly mm: number;
  readonly limits?: [upper: number, lower: number];
}

function isAxis(word: unknown): word is Axis {
  return word === 'x' || word === 'y' || word === 'z';
}

/** The face that a feature is cut from there, where it is cut from one. */
export function faceThere(feature: Feature): Face | undefined {
  return 'edges' in feature ? undefined : feature.face;
}

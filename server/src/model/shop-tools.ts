/**
 * Tools of a shop, from their text: each kind's fields, with what a tool of that kind usually is where the text leaves
 * something out. What the values say together is checked in `shop-checks.ts`.
 */

import { END_MILL_HELIX, END_MILL_HELIX_SOURCE } from '../tables/cutting.data';
import { BORING_HEAD_RPM } from '../tables/plunging.data';
import { findThread, nearestThread, type Thread } from '../tables/threads';
import { endMillFluteMm, jobberFluteMm, usualShankMm } from '../tables/tool-lengths';
import { type MapEntry, type MapNode, scalarAt } from '../text/tree';
import { isSound } from './header';
import { code, listed, nearest, quote, replace } from './resolve/problem';
import { TOOL_KINDS, TOOLS, type ToolKind } from './schema/tools';
import type { Fields } from './shop-fields';
import type { Mill, Tap, Tool, ToolMaterial } from './shop-model';

const PRACTICE = 'common practice';

/** One tool; undefined where it cannot be understood, which is then told. */
export function readTool(fields: Fields, entry: MapEntry): Tool | undefined {
  const name = String(entry.key.value);
  const node = entry.value;
  if (node?.type !== 'map') {
    fields.problem(
      'form/schema',
      `Tool ${quote(name)} takes a map such as \`{ kind: drill, diameter: 4.2 }\`.`,
      entry.key.span,
    );
    return undefined;
  }
  const kind = kindOf(fields, entry, node);
  if (!kind) return undefined;
  if (!isSound(fields, TOOLS[kind], node, `Tool \`${name}\``, entry.key.span)) return undefined;
  return new ToolReader(fields, entry, node, kind, name).read();
}

function kindOf(fields: Fields, entry: MapEntry, node: MapNode): ToolKind | undefined {
  const scalar = scalarAt(node, 'kind');
  const what = `Tool ${quote(String(entry.key.value))}`;
  if (!scalar) {
    fields.problem('form/schema', `${what} needs \`kind\`: ${listed(code(TOOL_KINDS))}.`, entry.key.span);
    return undefined;
  }
  const kind = TOOL_KINDS.find((k) => k === scalar.source);
  if (kind) return kind;
  const like = nearest(scalar.source, TOOL_KINDS);
  const message = like
    ? `There is no kind of tool ${quote(scalar.source)}; \`${like}\` is meant, perhaps.`
    : `There is no kind of tool ${quote(scalar.source)}. Known are ${listed(code(TOOL_KINDS), 'and')}.`;
  fields.problem('form/schema', message, scalar.span, like ? { fixes: [replace(scalar.span, like)] } : {});
  return undefined;
}

class ToolReader {
  constructor(
    private readonly fields: Fields,
    private readonly entry: MapEntry,
    private readonly node: MapNode,
    private readonly kind: ToolKind,
    private readonly name: string,
  ) {}

  read(): Tool | undefined {
    const thread = this.kind === 'tap' ? this.thread() : undefined;
    const diameterMm = thread ? thread.diameterMm : this.fields.size(this.node, 'diameter');
    if (diameterMm === undefined) return undefined;
    const before = this.fields.problems.length;
    const tool = thread ? this.tap(thread) : this.ofKind(diameterMm);
    // A field that is there but cannot be read was told of; the tool is not guessed at.
    return this.fields.problems.length > before ? undefined : tool;
  }

  private ofKind(d: number): Tool | undefined {
    switch (this.kind) {
      case 'end-mill':
        return this.endMill(d);
      case 'face-mill': {
        const fluteLengthMm = this.size('flute-length', () => d / 10, 'a tenth of the diameter, common practice');
        const reachMm = this.size('reach', () => Math.max(fluteLengthMm, d / 2), 'half the diameter, common practice');
        return this.mill(d, { fluteLengthMm, reachMm, flutes: 4, shankMm: () => 22, material: 'carbide' });
      }
      case 'corner-rounder': {
        const radius = this.fields.size(this.node, 'corner-radius') ?? 0;
        const reachMm = this.size('reach', () => radius, 'the radius it makes');
        return this.mill(d, { fluteLengthMm: radius, reachMm, flutes: 4, material: 'carbide', cornerRadiusMm: radius });
      }
      case 'engraver': {
        const fluteLengthMm = this.size('flute-length', () => 2, PRACTICE);
        const reachMm = this.size('reach', () => fluteLengthMm, 'the flute length');
        const angleDeg = this.angle('angle', 60, 180);
        return {
          ...this.mill(d, { fluteLengthMm, reachMm, flutes: 1, leastShankMm: 6, material: 'carbide' }),
          angleDeg,
        };
      }
      case 'tee-cutter':
      case 'dovetail-cutter':
      case 'ball-undercutter':
        return this.undercutter(d, this.kind);
      case 'drill':
        return this.drill(d, 'drill', jobberFluteMm(d), 'DIN 338, from memory', 118);
      case 'spot-drill':
        return this.drill(d, 'spot-drill', 2 * d, 'twice the diameter, common practice', 90);
      case 'flat-drill': {
        const fluteLengthMm = this.size('flute-length', () => 3 * d, 'three times the diameter, common practice');
        return { ...this.base(d, 'carbide'), kind: 'flat-drill', fluteLengthMm, pointDeg: 180 };
      }
      case 'reamer': {
        const fit = this.fields.word(this.node, 'fit') ?? this.assume('fit', 'H7', PRACTICE);
        const reachMm = this.size('reach', () => 4 * d, 'four times the diameter, common practice');
        return { ...this.base(d, 'hss'), kind: 'reamer', fit, reachMm };
      }
      case 'boring-head': {
        const largestMm = this.fields.size(this.node, 'largest') ?? d;
        const reachMm = this.fields.size(this.node, 'reach') ?? 0;
        return { ...this.base(d, 'carbide'), kind: 'boring-head', largestMm, reachMm };
      }
      case 'chamfer-mill':
      case 'countersink': {
        const angleDeg = this.angle('angle', 90, 179);
        const reachMm = this.size('reach', () => d, 'the diameter, common practice');
        const tipMm = this.fields.lengthFrom0(this.node, 'tip') ?? this.assume('tip', 0, 'a point', ' mm');
        return {
          ...this.base(d, this.kind === 'countersink' ? 'hss' : 'carbide'),
          kind: this.kind,
          angleDeg,
          reachMm,
          tipMm,
        };
      }
      case 'counterbore-cutter': {
        const pilotMm = this.fields.size(this.node, 'pilot');
        const reachMm = this.size('reach', () => 2 * d, 'twice the diameter, common practice');
        const base = { ...this.base(d, 'hss'), kind: 'counterbore-cutter', angleDeg: 180, reachMm, tipMm: d } as const;
        return pilotMm === undefined ? base : { ...base, pilotMm };
      }
      default:
        return undefined;
    }
  }

  private endMill(d: number): Mill {
    const fluteLengthMm = this.size('flute-length', () => endMillFluteMm(d), 'ISO 1641-1 standard series, from memory');
    const reachMm = this.size('reach', () => fluteLengthMm, 'the flute length');
    const mill = this.mill(d, { fluteLengthMm, reachMm, flutes: 3, leastShankMm: 6, material: 'carbide' });
    return { ...mill, helixDeg: this.helix(mill.material), centreCutting: this.centreCutting(mill) };
  }

  /** Slot drills and small solid cutters do; of the others from four edges on many have a hole there. */
  private centreCutting({ flutes, material }: Mill): boolean {
    const told = this.fields.word(this.node, 'centre-cutting');
    if (told !== undefined) return told === 'yes';
    const usual = flutes <= 3 || (flutes === 4 && material === 'carbide');
    this.assume('centre-cutting', usual ? 'yes' : 'no', PRACTICE);
    return usual;
  }

  private helix(material: ToolMaterial): readonly [number, number] {
    if (scalarAt(this.node, 'helix')) {
      const deg = this.fields.angle(this.node, 'helix', -1, 70) ?? 0;
      return [deg, deg];
    }
    const usual = END_MILL_HELIX[material];
    this.assume('helix', usual.join(' to '), END_MILL_HELIX_SOURCE, '°');
    return usual;
  }

  private mill(
    d: number,
    usual: {
      fluteLengthMm: number;
      reachMm: number;
      flutes: number;
      material: ToolMaterial;
      leastShankMm?: number;
      cornerRadiusMm?: number;
      shankMm?: () => number;
    },
  ): Mill {
    const kind = this.kind as Mill['kind'];
    const { fluteLengthMm, reachMm } = usual;
    const cornerRadiusMm = usual.cornerRadiusMm ?? this.fields.lengthFrom0(this.node, 'corner-radius') ?? this.square();
    const shankMm = this.shank(d, usual.leastShankMm, usual.shankMm);
    const flutes = this.flutes(usual.flutes);
    return { ...this.base(d, usual.material), kind, flutes, fluteLengthMm, reachMm, shankMm, cornerRadiusMm };
  }

  /** A corner nobody speaks of is square; only where the kind has the field is that worth a note. */
  private square(): number {
    return this.kind === 'engraver' ? 0 : this.assume('corner-radius', 0, 'a square corner', ' mm');
  }

  private undercutter(d: number, kind: 'tee-cutter' | 'dovetail-cutter' | 'ball-undercutter'): Tool {
    const base = this.base(d, kind === 'ball-undercutter' ? 'carbide' : 'hss');
    const neckMm = this.fields.size(this.node, 'neck') ?? d;
    const reachMm = this.fields.size(this.node, 'reach') ?? 0;
    const thicknessMm = kind === 'ball-undercutter' ? d : (this.fields.size(this.node, 'thickness') ?? 0);
    const flutes = this.flutes(kind === 'ball-undercutter' ? 2 : 6);
    const made = { ...base, kind, flutes, neckMm, reachMm, thicknessMm };
    return kind === 'dovetail-cutter' ? { ...made, angleDeg: this.angle('angle', 60, 90) } : made;
  }

  private drill(d: number, kind: 'drill' | 'spot-drill', flute: number, why: string, point: number): Tool {
    const fluteLengthMm = this.size('flute-length', () => flute, why);
    return { ...this.base(d, 'hss'), kind, fluteLengthMm, pointDeg: this.angle('point', point, 180) };
  }

  private tap(thread: Thread): Tap {
    const d = thread.diameterMm;
    const chamfer =
      (this.fields.word(this.node, 'chamfer') as Tap['chamfer'] | undefined) ??
      this.assume('chamfer', 'plug', PRACTICE);
    const reachMm = this.size('reach', () => 4 * d, 'four times the diameter, common practice');
    const forming = this.fields.word(this.node, 'forming') === 'yes' ? ({ forming: true } as const) : {};
    return { ...this.base(d, 'hss'), kind: 'tap', thread: thread.designation, chamfer, reachMm, ...forming };
  }

  private thread(): Thread | undefined {
    const scalar = scalarAt(this.node, 'thread');
    if (!scalar) return undefined;
    const found = findThread(scalar.source);
    if (found) return found;
    const like = nearestThread(scalar.source)?.designation;
    const message = like
      ? `There is no thread ${quote(scalar.source)} in the tables; \`${like}\` is the nearest.`
      : `There is no thread ${quote(scalar.source)} in the tables. Write it like \`M5\`, \`M8x1\` or \`1/4-20 UNC\`.`;
    this.fields.problem('thread/unknown', message, scalar.span, {
      facts: like ? { thread: scalar.source, nearest: like } : { thread: scalar.source },
      ...(like && { fixes: [replace(scalar.span, like)] }),
    });
    return undefined;
  }

  private base(diameterMm: number, usual: ToolMaterial) {
    const material =
      (this.fields.word(this.node, 'material') as ToolMaterial | undefined) ?? this.assume('material', usual, PRACTICE);
    const holder = this.fields.word(this.node, 'holder');
    const stickoutMm = this.fields.size(this.node, 'stickout');
    const mostRpm = this.mostRpm();
    const note = this.fields.word(this.node, 'note');
    return {
      name: this.name,
      span: this.entry.span,
      diameterMm,
      material,
      ...(holder !== undefined && { holder }),
      ...(stickoutMm !== undefined && { stickoutMm }),
      ...(mostRpm !== undefined && { mostRpm }),
      ...(note !== undefined && { note }),
    };
  }

  /** A boring head is out of balance: one that nobody speaks of is not turned as fast as the spindle can. */
  private mostRpm(): number | undefined {
    const key = 'largest-speed';
    if (scalarAt(this.node, key)) return this.fields.number(this.node, key, 1);
    if (this.kind !== 'boring-head') return undefined;
    return this.assume(key, BORING_HEAD_RPM.value, BORING_HEAD_RPM.source, ' rpm');
  }

  private size(key: string, usual: () => number, why: string): number {
    if (scalarAt(this.node, key)) return this.fields.size(this.node, key) ?? 0;
    return this.assume(key, usual(), why, ' mm');
  }

  private angle(key: string, usual: number, upTo: number): number {
    if (scalarAt(this.node, key)) return this.fields.angle(this.node, key, 0, upTo) ?? usual;
    return this.assume(key, usual, PRACTICE, '°');
  }

  private flutes(usual: number): number {
    if (scalarAt(this.node, 'flutes')) return this.fields.number(this.node, 'flutes', 1, true) ?? usual;
    return this.assume('flutes', usual, PRACTICE);
  }

  private shank(d: number, least = 0, usual?: () => number): number {
    const system = this.fields.units === 'in' ? 'inch' : 'metric';
    return this.size(
      'shank',
      usual ?? (() => usualShankMm(d, system, system === 'inch' && least > 0 ? 3.175 : least)),
      PRACTICE,
    );
  }

  private assume<T extends number | string>(field: string, value: T, why: string, unit = ''): T {
    return this.fields.assume(`tools/${this.name}`, this.entry.key.span, field, value, why, unit);
  }
}

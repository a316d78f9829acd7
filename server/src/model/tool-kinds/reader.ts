/** Reads the fields of one tool, with what a tool of its kind usually is where the text leaves something out. */
import type { Thread } from '../../tables/thread-form';
import { findThread, nearbyThreads, otherFamily } from '../../tables/thread-names';
import { usualShankMm } from '../../tables/tool-lengths';
import { type MapEntry, type MapNode, scalarAt } from '../../text/tree';
import { code, listed, quote, replace } from '../resolve/problem';
import type { Fields } from '../shop-fields';

export const PRACTICE = 'common practice';

/** ISO 513 groups and kin are the material's; this is what the cutter is made of. */
export type ToolMaterial = 'hss' | 'cobalt' | 'carbide';

export class ToolReader {
  constructor(
    readonly fields: Fields,
    private readonly entry: MapEntry,
    readonly node: MapNode,
    private readonly name: string,
  ) {}

  diameter(): number | undefined {
    return this.fields.size(this.node, 'diameter');
  }

  has(key: string): boolean {
    return scalarAt(this.node, key) !== undefined;
  }

  thread(): Thread | undefined {
    const scalar = scalarAt(this.node, 'thread');
    if (!scalar) return undefined;
    const found = findThread(scalar.source);
    if (found) return found;
    const near = nearbyThreads(scalar.source).map((t) => t.designation);
    const family = otherFamily(scalar.source);
    const message = family
      ? `${quote(scalar.source)} is ${family}. No part asks for such a tap. Delete this tool.`
      : near.length > 0
        ? `The tables have no thread ${quote(scalar.source)}. Write ${listed(code(near))}, the nearest.`
        : `The tables have no thread ${quote(scalar.source)}. Write it like \`M5\`, \`M8x1\` or \`1/4-20 UNC\`.`;
    this.fields.problem('thread/unknown', message, scalar.span, {
      facts: { thread: scalar.source, ...(near[0] !== undefined && { nearest: near[0] }) },
      ...(near.length > 0 && { fixes: near.map((name) => ({ ...replace(scalar.span, name), equal: true as const })) }),
    });
    return undefined;
  }

  /** `usualRpm`: what it bears where nobody says, if that is less than the spindle turns. */
  base(diameterMm: number, usual: ToolMaterial, usualRpm?: { readonly value: number; readonly source: string }) {
    const material =
      (this.fields.word(this.node, 'material') as ToolMaterial | undefined) ?? this.assume('material', usual, PRACTICE);
    const holder = this.fields.word(this.node, 'holder');
    const stickoutMm = this.fields.size(this.node, 'stickout');
    const mostRpm = this.mostRpm(usualRpm);
    const feedPerToothMm = this.fields.size(this.node, 'feed-per-tooth');
    const note = this.fields.word(this.node, 'note');
    return {
      name: this.name,
      span: this.entry.span,
      diameterMm,
      material,
      ...(holder !== undefined && { holder }),
      ...(stickoutMm !== undefined && { stickoutMm }),
      ...(mostRpm !== undefined && { mostRpm }),
      ...(feedPerToothMm !== undefined && { feedPerToothMm }),
      ...(note !== undefined && { note }),
    };
  }

  private mostRpm(usual?: { readonly value: number; readonly source: string }): number | undefined {
    const key = 'largest-speed';
    if (this.has(key)) return this.fields.number(this.node, key, 1);
    return usual && this.assume(key, usual.value, usual.source, ' rpm');
  }

  size(key: string, usual: () => number, why: string): number {
    if (scalarAt(this.node, key)) return this.fields.size(this.node, key) ?? 0;
    return this.assume(key, usual(), why, ' mm');
  }

  angle(key: string, usual: number, upTo: number): number {
    if (scalarAt(this.node, key)) return this.fields.angle(this.node, key, 0, upTo) ?? usual;
    return this.assume(key, usual, PRACTICE, '°');
  }

  flutes(usual: number): number {
    if (scalarAt(this.node, 'flutes')) return this.fields.number(this.node, 'flutes', 1, true) ?? usual;
    return this.assume('flutes', usual, PRACTICE);
  }

  shank(d: number, least = 0, usual?: () => number): number {
    const system = this.fields.units === 'in' ? 'inch' : 'metric';
    return this.size(
      'shank',
      usual ?? (() => usualShankMm(d, system, system === 'inch' && least > 0 ? 3.175 : least)),
      PRACTICE,
    );
  }

  assume<T extends number | string>(field: string, value: T, why: string, unit = ''): T {
    return this.fields.assume({ of: `tools/${this.name}`, span: this.entry.key.span, field }, value, why, unit);
  }
}

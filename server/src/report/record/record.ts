/** A record beside its part: which sizes were out, what each process holds here, what hands take here. */

import type { Part } from '../../model/model';
import type { Measured, PartRecord } from '../../model/record';
import type { Minutes } from '../../model/shop-times';
import { processOf } from '../../process/grades';
import type { CheckedPart } from '../../rules/checked-part';
import { type Size, sizesOf } from '../../rules/kit/sizes';
import { ENOUGH, type Spread, spreadOf, toleranceUnitMm } from './spread';

export interface JudgedSize {
  readonly measured: Measured;
  /** `bearing-seat diameter` */
  readonly name: string;
  readonly limitsMm: readonly [least: number, most: number];
  /** Above the most, or below the least (negative); 0 within. */
  readonly outMm: number;
  /** Made by the text as it is now; an older one had other limits. */
  readonly current: boolean;
}

interface ProcessSpread {
  readonly process: string;
  readonly spread: Spread;
}

interface TimeSpread {
  readonly what: string;
  readonly count: number;
  /** Of the middle eight of ten, minutes. */
  readonly minutes: Minutes;
}

export interface JudgedRecord {
  readonly sizes: readonly JudgedSize[];
  /** Names that the part or the shop does not have: a sentence each. */
  readonly unknown: readonly { readonly measured: Measured; readonly why: string }[];
  readonly processes: readonly ProcessSpread[];
  readonly times: readonly TimeSpread[];
}

/** `mark`: what a sheet of the part as it is now would have. */
export function judgeRecord(record: PartRecord, checked: CheckedPart, mark: string): JudgedRecord {
  const sizes = recordSizes(checked.part);
  const judged: JudgedSize[] = [];
  const unknown: { measured: Measured; why: string }[] = [];
  const deviations = new Map<string, number[]>();
  for (const measured of record.measured) {
    const found = sizes.find((s) => isOf(s, measured));
    const tool = measured.tool && checked.shop.tools.find((t) => t.name === measured.tool!.name);
    if (measured.tool && !tool) unknown.push({ measured, why: `the shop has no tool ${measured.tool.name}` });
    if (!found) {
      unknown.push({ measured, why: whyUnknown(measured, sizes, checked) });
      continue;
    }
    const [least, most] = found.limitsMm;
    const { valueMm } = measured;
    judged.push({
      measured,
      name: nameOf(measured),
      limitsMm: [least, most],
      outMm: valueMm > most ? valueMm - most : valueMm < least ? valueMm - least : 0,
      current: measured.mark === undefined || measured.mark === mark,
    });
    if (!tool) continue;
    const process = processOf(tool);
    const by = (valueMm - (least + most) / 2) / toleranceUnitMm(found.length.mm);
    deviations.set(process, [...(deviations.get(process) ?? []), by]);
  }
  return {
    sizes: judged,
    unknown,
    processes: [...deviations].map(([process, all]) => ({ process, spread: spreadOf(all) })),
    times: timesOf(record),
  };
}

interface RecordSize extends Size {
  readonly limitsMm: readonly [least: number, most: number];
}

/** What a record may name: sizes of features and body that have limits. */
export function recordSizes(part: Part): readonly RecordSize[] {
  return [...sizesOf(part)].flatMap((size) => {
    const { lowerMm, upperMm } = size.tolerance;
    if (lowerMm === undefined || upperMm === undefined) return [];
    return [{ ...size, limitsMm: [size.length.mm + lowerMm, size.length.mm + upperMm] as const }];
  });
}

function isOf({ feature, what }: Size, { of, size }: Measured): boolean {
  return feature?.name === of?.name && what === size.name;
}

function nameOf({ of, size }: Measured): string {
  return of ? `${of.name} ${size.name}` : `body ${size.name}`;
}

function whyUnknown(measured: Measured, sizes: readonly Size[], { part }: CheckedPart): string {
  const { of } = measured;
  if (of && !part.featureByName.has(of.name)) return `there is no feature ${of.name}`;
  const there = sizes.flatMap((s) => (s.feature?.name === of?.name ? [s.what] : []));
  const has = there.length > 0 ? `with a tolerance it has ${there.join(', ')}` : 'it has no size with a tolerance';
  return `${nameOf(measured)} is no size with limits: ${has}`;
}

function timesOf({ times }: PartRecord): readonly TimeSpread[] {
  const by = new Map<string, number[]>();
  for (const { what, minutes } of times) by.set(what, [...(by.get(what) ?? []), minutes]);
  return [...by].map(([what, all]) => {
    const sorted = all.toSorted((a, b) => a - b);
    const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!;
    return {
      what,
      count: all.length,
      minutes: all.length < ENOUGH ? [sorted[0]!, sorted.at(-1)!] : [at(0.1), at(0.9)],
    };
  });
}

/**
 * The kinds of features, each with its home. The record, and so every answer that depends on a kind, is complete or does
 * not compile; the schema is chosen by `kind` before anything else is looked at, so that an error names the wrong field of
 * a hole and not ten other things the hole is not.
 */

import * as z from 'zod/mini';
import { noted } from '../schema/common';
import { type Chamfer, chamfer } from './chamfer';
import { type Contour, contour } from './contour';
import { type EdgeRound, edgeRound } from './edge-round';
import { type Engraving, engraving } from './engraving';
import { type Groove, groove } from './groove';
import { type Hole, hole } from './hole';
import { type Keyway, keyway } from './keyway';
import type { FeatureForm, FeatureKindHome } from './kind';
import { type Pocket, pocket } from './pocket';
import { type Slope, slope } from './slope';
import { type Slot, slot } from './slot';
import { type Step, step } from './step';

export type { Chamfer } from './chamfer';
export type { Contour } from './contour';
export type { EdgeRound } from './edge-round';
export type { EdgeChoice } from './edges';
export type { Engraving } from './engraving';
export type { Groove } from './groove';
export type { Hole } from './hole';
export type { Keyway } from './keyway';
export type { FeatureForm } from './kind';
export type { Island, Pocket } from './pocket';
export type { Slope } from './slope';
export type { Slot } from './slot';
export type { Step } from './step';

export type Feature = Hole | Pocket | Slot | Keyway | Step | Contour | Chamfer | EdgeRound | Groove | Engraving | Slope;
export type FeatureKind = Feature['kind'];
export type OfKind<K extends FeatureKind> = Extract<Feature, { kind: K }>;

/** The kinds of each form. */
export interface Forms {
  readonly hole: Hole;
  readonly opening: Pocket;
  readonly channel: Slot | Keyway;
  readonly shoulder: Step;
  readonly outside: Contour;
  readonly edge: Chamfer | EdgeRound;
  readonly ring: Groove;
  readonly letters: Engraving;
  readonly slope: Slope;
}
type FormOf<F> = { [K in FeatureForm]: F extends Forms[K] ? K : never }[FeatureForm];

export const FEATURE_KINDS: {
  readonly [K in FeatureKind]: FeatureKindHome<OfKind<K>, FormOf<OfKind<K>>>;
} = {
  hole,
  pocket,
  slot,
  keyway,
  step,
  contour,
  chamfer,
  'edge-round': edgeRound,
  groove,
  engraving,
  slope,
};
export const KINDS = Object.keys(FEATURE_KINDS) as readonly FeatureKind[];

/** The home of a feature's kind, which answers for it. */
export function homeOf(feature: Feature): FeatureKindHome<Feature> {
  return FEATURE_KINDS[feature.kind] as FeatureKindHome<Feature>;
}

/** An answer for every form of feature: a table of these does not compile until all have one. */
export type ByForm<More extends readonly unknown[], Answer> = {
  readonly [K in FeatureForm]: (feature: Forms[K], ...more: More) => Answer;
};

export function ofForm<More extends readonly unknown[], Answer>(
  table: ByForm<More, Answer>,
  feature: Feature,
  ...more: More
): Answer {
  const answer = table[homeOf(feature).form] as (feature: Feature, ...more: More) => Answer;
  return answer(feature, ...more);
}

/** Along a centre line, as wide as its cutter or wider. */
export function isChannel(feature: Feature | undefined): feature is Forms['channel'] {
  return feature !== undefined && homeOf(feature).form === 'channel';
}

export function breaksEdges(feature: Feature | undefined): feature is Forms['edge'] {
  return feature !== undefined && homeOf(feature).form === 'edge';
}

const [first, ...rest] = Object.values(FEATURE_KINDS).map((home) => home.schema);
export const feature = noted(z.discriminatedUnion('kind', [first!, ...rest]), {
  description: 'One thing that is cut: its `kind` decides which fields it has.',
});

/** A boss that gets a thread; undefined of every other feature. */
export function threadedBoss(feature: Feature): (Contour & Required<Pick<Contour, 'thread'>>) | undefined {
  if (!('shapes' in feature) || !feature.thread) return undefined;
  return { ...feature, thread: feature.thread };
}

/** What a kind of tool says of itself on this floor: its home has all of it, or does not compile. */
import type * as z from 'zod/mini';
import type { Span } from '../../text/tree';
import type { ToolMaterial, ToolReader } from './reader';

export interface ToolBase {
  readonly name: string;
  readonly span: Span;
  readonly diameterMm: number;
  readonly material: ToolMaterial;
  readonly holder?: string;
  readonly stickoutMm?: number;
  /** Turns a minute that it bears; left out: whatever the spindle turns. */
  readonly mostRpm?: number;
  /** Feed of one tooth as the shop says; left out: the tables'. */
  readonly feedPerToothMm?: number;
  readonly note?: string;
}

/** `insteadMm`: what the field could be. */
export type Tell = (key: string, message: string, insteadMm?: number) => void;
export type InWords = (mm: number) => string;

/** A tool as a body of revolution about the spindle. */
export interface ToolBody {
  /** Of what cuts. */
  readonly cutRadiusMm: number;
  /** Of its shank, neck or arbor above that. */
  readonly shankRadiusMm: number;
  /** So far it may stand out of its holder where the shop does not say. */
  readonly mostOutMm: number;
}

/** A disc about the spindle that cuts with its rim, as thick as what it makes. */
export interface Disc {
  readonly thicknessMm: number;
  /** Of neck, arbor or flange above it, and of the nut or screw below. */
  readonly hubRadiusMm: number;
  /** How far that stands out below it. */
  readonly belowMm: number;
  /** From its upper side to where something wider than the hub begins. */
  readonly aboveMm: number;
}

/** What it does in the work; upper floors tell tools apart by it. Cones break rims and edges, heads are wider than their necks. */
export type ToolForm =
  | 'mill'
  | 'face'
  | 'corner'
  | 'letters'
  | 'head'
  | 'saw'
  | 'drill'
  | 'spot'
  | 'reamer'
  | 'bore'
  | 'tap'
  | 'thread'
  | 'cone'
  | 'seat';

/** How a round hole gets its size: as wide as the tool, to the class it is made to, to any size it is set to, or going round in it. */
export type HoleWay = 'as-wide' | 'to-limits' | 'set' | 'round';

export interface ToolKindHome<T extends ToolBase> {
  readonly form: ToolForm;
  /** Of what makes round holes to size. */
  readonly hole?: HoleWay;
  /** As written: a strict map. */
  readonly schema: z.ZodMiniObject;
  /** Undefined where it cannot be understood, which is then told. */
  read(reader: ToolReader): T | undefined;
  /** What its values say together. */
  check(tool: T, tell: Tell, mm: InWords): void;
  /** How deep it cuts, mm: a drill its flutes (chips must leave), others their reach. */
  reachMm(tool: T): number;
  body(tool: T): ToolBody;
  /** What cuts a slot from its side. */
  disc(tool: T): Disc | undefined;
}

/** So many shanks' thicknesses of a mill can be left standing out above its reach. Common practice, no source. */
const SHANKS_OUT = 3;
/** A drill, tap or reamer stands out of its chuck by so many diameters more than it cuts deep. Common practice, no source. */
const DIAMETERS_OUT = 2;

/** Held by its shank. */
export function onShank(diameterMm: number, shankMm: number, reachMm: number): ToolBody {
  return {
    cutRadiusMm: diameterMm / 2,
    shankRadiusMm: Math.max(shankMm, diameterMm) / 2,
    mostOutMm: reachMm + SHANKS_OUT * shankMm,
  };
}

/** Held in a chuck or collet by what is as thick as its cut, or thinner. */
export function inChuck(diameterMm: number, reachMm: number): ToolBody {
  return {
    cutRadiusMm: diameterMm / 2,
    shankRadiusMm: diameterMm / 2,
    mostOutMm: reachMm + DIAMETERS_OUT * diameterMm,
  };
}

export const nothingToCheck = () => {};
export const noDisc = () => undefined;
/** Of tools that say how far they reach. */
export const byReach = ({ reachMm }: { readonly reachMm: number }) => reachMm;
export const byFlutes = ({ fluteLengthMm }: { readonly fluteLengthMm: number }) => fluteLengthMm;

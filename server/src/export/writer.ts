/** What a writer of exchange files is given, and what it answers. Each format has a writer of its own beside this file. */

import type { Face } from '../model/model';
import { withoutItsShop } from '../model/unread-shop';
import type { CheckedPart } from '../rules/checked-part';
import { ruleByName } from '../rules/registry';

export interface ExportRequest {
  readonly checked: CheckedPart;
  /** How many are made, where a job says it; else as the part says. */
  readonly quantity?: number;
  /** For flat formats: which face is drawn. Left out: the writer says which it takes, or draws all. */
  readonly face?: Face;
  /** What stands in the file as the program that wrote it, and when. */
  readonly creator: string;
  readonly when: Date;
}

export interface Exported {
  readonly bytes: Uint8Array;
  /** What the user should know of the file: what the format could not carry, what was chosen for him. A sentence each. */
  readonly notes: readonly string[];
}

/** `.step`, `.stp`: with the dot, in small letters; the first is the one offered. */
export interface Writer {
  readonly extensions: readonly [string, ...string[]];
  /** In a save dialog and in the usage: what the format is for. */
  readonly title: string;
  /** One face is drawn, and the user may say which. */
  readonly perFace?: boolean;
  /** A drawing to print, with its dimensions: asked for where a format has something else under the same name. */
  readonly drawing?: true;
  /** Lengths in the file are mm. Throws `ExportError` where the part cannot be written so. */
  write(request: ExportRequest): Promise<Exported>;
}

/** The part cannot be written; the message is for the user: one sentence, with what would do. */
export class ExportError extends Error {}

/** Of several formats the one that a file's name asks for; as a drawing where that is wanted, or where it is nothing else. */
export function writerFor<W extends Writer>(name: string, writers: readonly W[], drawing = false): W | undefined {
  const dot = name.lastIndexOf('.');
  const extension = (dot < 0 ? `.${name}` : name.slice(dot)).toLowerCase();
  const named = writers.filter((w) => w.extensions.includes(extension));
  return named.find((w) => (w.drawing === true) === drawing) ?? (drawing ? undefined : named[0]);
}

/** Why a part is not to be written at all, whatever the format: a file must not lack what its text could not say. */
export function unwritable({ part, tree, solid, shop }: CheckedPart): string | undefined {
  const grave = part.problems.filter((p) => (ruleByName(p.rule)?.severity ?? 'error') === 'error');
  const broken = grave.filter((p) => p.rule !== 'stock/unknown-material').length + tree.problems.length;
  if (broken > 0)
    return `its text has ${broken === 1 ? 'an entry' : `${broken} entries`} that could not be understood; first correct what the check names`;
  const shopless = withoutItsShop(shop);
  if (shopless) return shopless;
  if (!part.body) return 'it has no `body`; write its finished size first';
  const { min, max } = solid.body.box;
  if (max.some((m, i) => !(m > min[i]!))) return 'its body has no size';
  return undefined;
}

/** What stands against making the part as it is exported: a note, or nothing. */
export function cautionOn({ findings }: CheckedPart): readonly string[] {
  const errors = findings.filter((f) => f.severity === 'error').length;
  if (errors === 0) return [];
  return [
    `the check finds ${errors === 1 ? 'an error' : `${errors} errors`} in it: as written, this shop cannot make it.`,
  ];
}

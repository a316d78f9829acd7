/** What a writer of sheets is given, and what it answers. Each format has a writer of its own. */
import type { Exported } from '../export/writer';
import type { CheckedPart } from '../rules/checked-part';

export interface SheetRequest {
  readonly checked: CheckedPart;
  /** How many are made, where a job says it; else as the part says. */
  readonly quantity?: number;
  /** Name of the part's file. */
  readonly file: string;
  /** Over the texts of part and shop and the program's version: eight hexadecimal digits. */
  readonly mark: string;
  readonly creator: string;
  readonly when: Date;
}

/** `.md`: with the dot, in small letters; the first is the one offered. */
export interface SheetWriter {
  readonly extensions: readonly [string, ...string[]];
  readonly title: string;
  /** Throws `ExportError` where the part has no sheet. */
  write(request: SheetRequest): Promise<Exported>;
}

/** What an editor and the server say to each other about records. */

/** Request: `{ uri }` of a part → `RecordStarter`, or null where there is no such part. */
export const RECORD = 'scribeline/record';

/** The text of a record to begin with. */
export interface RecordStarter {
  readonly newText: string;
}

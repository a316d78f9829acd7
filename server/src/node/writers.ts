/** The formats a part can be written in. A new one is a `Writer` in exchange/, and an entry here. */
import type { Writer } from '../exchange/writer';

export const WRITERS: readonly Writer[] = [];

/** The formats a part can be written in. A new one is a `Writer` in exchange/, and an entry here. */
import { stepWriter } from '../exchange/step';
import type { Writer } from '../exchange/writer';
import { sharedExact } from './exact-thread';

export const WRITERS: readonly Writer[] = [stepWriter(sharedExact)];

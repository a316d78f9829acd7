/** The result as the suite writes it to a file. */
import { readFileSync } from 'node:fs';
import type { Result } from './result';

/** The result, or why there is none. */
export function readResult(file: string): Result | string {
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as Result;
  } catch (error) {
    return `the suite left no result (${error instanceof Error ? error.message : String(error)})`;
  }
}

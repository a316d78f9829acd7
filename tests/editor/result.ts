/** The suite's result: the one thing by which the runner judges a run. What the editor itself reports is not believed. */

/** Names of the environment variables that the suite is told by. */
export const RESULT_FILE = 'SCRIBELINE_TEST_RESULT';
export const SIGNALS_URL = 'SCRIBELINE_TEST_SIGNALS';

export interface Result {
  readonly finished: boolean;
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
  /** As Mocha prints it. */
  readonly report: string;
  /** Why the suite could not be run to its end. */
  readonly trouble?: string;
}

/** Every condition of success, so that a run which tested nothing is no success. */
export function verdict(result: Result | string): { readonly ok: boolean; readonly line: string } {
  if (typeof result === 'string') return { ok: false, line: `editor: ${result}` };
  const counts = `editor: ${result.passed} passed, ${result.failed} failed, ${result.skipped} skipped`;
  if (!result.finished) return { ok: false, line: `${counts}; then ${result.trouble ?? 'the suite was cut off'}` };
  return { ok: result.failed === 0 && result.passed > 0, line: counts };
}

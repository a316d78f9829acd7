/** Why the picture that is shown is not that of the text, in words for the panel. */

/** Of the protocol (LSP 3.17, ErrorCodes): the text was changed meanwhile, or the request was called off. */
const OVERTAKEN: readonly unknown[] = [-32801, -32800, -32802];

const OLDER = 'what is shown is older';
export const NO_PART = `The text makes no part just now: ${OLDER}.`;
export const NO_SERVER = `The language server is not running: ${OLDER}.`;

/** Nothing where a later request gets the picture; `isShown`: there is one to be called older. */
export function pictureTrouble(failure: unknown, isShown: boolean): string | undefined {
  const { code, message } = (failure ?? {}) as { readonly code?: unknown; readonly message?: unknown };
  if (OVERTAKEN.includes(code)) return undefined;
  const why = typeof message === 'string' && message.trim() !== '' ? message.trim() : 'The picture could not be made.';
  const rest = isShown ? 'What is shown is older; the next edit tries again.' : 'The next edit tries again.';
  return `${/[.!?]$/.test(why) ? why : `${why}.`} ${rest}`;
}

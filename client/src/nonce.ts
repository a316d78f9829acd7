/** Letters that nobody guesses: for the policy of a page, and for the name of an answer on its way. */
export function nonce(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

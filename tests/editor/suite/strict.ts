/** What the cases use of Node's `assert`, for an extension host that is no Node: `bundle.ts` puts it in its place. */

class AssertionError extends Error {}

const told = (value: unknown) => (typeof value === 'string' ? `“${value}”` : (JSON.stringify(value) ?? String(value)));

function fail(message: unknown): never {
  throw message instanceof Error ? message : new AssertionError(String(message));
}

function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [keys, others] = [Object.keys(a), Object.keys(b)];
  const at = (of: object, key: string) => (of as Record<string, unknown>)[key];
  return keys.length === others.length && keys.every((key) => key in b && isSame(at(a, key), at(b, key)));
}

export const strict = {
  fail,
  ok(value: unknown, message?: unknown): asserts value {
    if (!value) fail(message ?? `${told(value)} is not true`);
  },
  equal(is: unknown, wanted: unknown, message?: unknown): void {
    if (!Object.is(is, wanted)) fail(message ?? `${told(is)} is not ${told(wanted)}`);
  },
  notEqual(is: unknown, other: unknown, message?: unknown): void {
    if (Object.is(is, other)) fail(message ?? `it is ${told(other)}`);
  },
  deepEqual(is: unknown, wanted: unknown, message?: unknown): void {
    if (!isSame(is, wanted)) fail(message ?? `${told(is)} is not ${told(wanted)}`);
  },
  match(text: string, wanted: RegExp, message?: unknown): void {
    if (!wanted.test(text)) fail(message ?? `${told(text)} does not match ${wanted}`);
  },
  doesNotMatch(text: string, other: RegExp, message?: unknown): void {
    if (other.test(text)) fail(message ?? `${told(text)} matches ${other}`);
  },
};

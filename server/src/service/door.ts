/**
 * The way in and out of the service: whatever answers a request or hears a notification is registered through it, so that
 * no answer leaves ungated and no failure leaves with a stack, whoever writes the next one.
 */
import { forEditor } from './shown';

type Handler = (...params: unknown[]) => unknown;

/**
 * The same connection, whose `on…` functions wrap the handlers they are given. `failed`: what is told of a failure in the
 * answer's place; it gets what was asked.
 */
export function behindDoor<T extends object>(connection: T, failed: (failure: unknown, params: unknown) => Error): T {
  const guarded = (handler: Handler): Handler => {
    return (...params) => {
      const refuse = (failure: unknown): never => {
        throw failed(failure, params[0]);
      };
      try {
        const answer = handler(...params);
        return answer instanceof Promise ? answer.then(forEditor, refuse) : forEditor(answer);
      } catch (failure) {
        return refuse(failure);
      }
    };
  };
  return new Proxy(connection, {
    get(target, key) {
      const value: unknown = Reflect.get(target, key);
      if (key === 'languages' || key === 'diagnostics' || key === 'inlayHint')
        return behindDoor(value as object, failed);
      if (typeof value !== 'function' || typeof key !== 'string' || !/^on(?:[A-Z]|$)/.test(key)) return value;
      return (...given: unknown[]) =>
        value.apply(
          target,
          given.map((g) => (typeof g === 'function' ? guarded(g as Handler) : g)),
        );
    },
  });
}

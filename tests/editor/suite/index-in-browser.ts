/** Entry of the suite where the extension host is a worker of the page: the result goes to the runner outside. Mocha is there, put before it by `bundle.ts`. */
import type { Result } from '../result';
import { tellResult } from './person';
import { type MochaLike, runWith } from './running';

const scope = globalThis as unknown as {
  readonly Mocha: MochaLike;
  addEventListener(type: 'unhandledrejection', heard: (event: { readonly reason: unknown }) => void): void;
};

export async function run(): Promise<void> {
  let told = Promise.resolve();
  await runWith({
    mocha: async () => scope.Mocha,
    cases: () => import('./cases'),
    write: (result: Result) => {
      told = told.then(() => tellResult(result));
    },
    onStumble: (stumble) => scope.addEventListener('unhandledrejection', ({ reason }) => stumble(reason)),
  });
  await told;
}

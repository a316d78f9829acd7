/**
 * Memory on Node: by default V8 lets its heap grow to several times what lives in it before it clears up, in every thread
 * anew, which for a server that is open all day is more than the parts themselves take.
 */
import { setFlagsFromString } from 'node:v8';

/** Half of what a thread's youngest objects may take, MB: more saves no time, less makes objects old that soon are needless. */
const YOUNG_MB = 4;
/**
 * By so much the heap grows beyond what lives in it before it clears up, percent. What V8 has for sparing memory clears up
 * twice as often, at every second keystroke on 400 features: that took a third more processor time.
 */
const GROWING = 30;
/** What lives is moved together each time all is cleared up: else a third of what a thread holds are gaps. */
const TOGETHER = '--compact-on-every-full-gc';
/** No code of the kind between interpreted and fast: in each thread that judges it takes some 5 MB, and saves no time that could be measured. */
const NO_HALF_FAST_CODE = '--no-sparkplug';
/**
 * So much of a function's code runs before it is compiled for speed, bytes: twelve times what V8 waits. Judging many unlike
 * parts shows a function new kinds of things for long, and what was compiled early is thrown away and compiled again, which
 * took a fifth of all time.
 */
const PATIENT = '--interrupt-budget=1600000';

/** Clears up earlier from now on, here and in threads that start later. Costs about a twentieth more processor time while one types. */
export function spareMemory(): void {
  setFlagsFromString(`--heap-growing-percent=${GROWING}`);
  setFlagsFromString(`--max-semi-space-size=${YOUNG_MB}`);
  setFlagsFromString(TOGETHER);
  setFlagsFromString(NO_HALF_FAST_CODE);
}

/**
 * The youngest objects are cleared up by the thread that made them, not by helpers on all processors: with so few of them
 * (`YOUNG_MB`) waiting for helpers takes longer than they save. A change on 60 features took 9 to 11 ms without them and 15
 * with them, the slowest twentieth 22 and 40.
 */
const ALONE = '--no-parallel-scavenge';

/**
 * What only counts from a process's start, for whoever starts the server: the same for its own thread's youngest objects,
 * who clears them up, and one store for what all threads take beside their heaps. On Linux each of a dozen has its own, and gives little back.
 */
export const SPARING = {
  execArgv: [`--max-semi-space-size=${YOUNG_MB}`, ALONE],
  env: { MALLOC_ARENA_MAX: '1' },
} as const;

/** Of a process that judges many files alone. */
export function judgeMany(): void {
  setFlagsFromString(PATIENT);
}

/**
 * Of a process that judges many files beside others: it clears up by itself. There are as many as processors, and helpers
 * of one would take the other's. No limit below Node's own: with 768 MB it clears up so often that it takes a sixth longer.
 */
export const POOL_FLAGS: readonly string[] = ['--single-threaded-gc', PATIENT];

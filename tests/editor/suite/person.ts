/** What only the world outside the editor can do for a case: look at the screen, press keys, click. */
import { strict as assert } from 'node:assert';
import { type Result, SIGNALS_URL } from '../result';
import type { Signal } from '../signals';

async function ask(signal: Signal): Promise<string> {
  const url = process.env[SIGNALS_URL];
  assert.ok(url, 'nobody listens outside');
  const response = await fetch(url, { method: 'POST', body: JSON.stringify(signal) });
  const body = await response.text();
  assert.ok(response.ok, body);
  return body;
}

/** How the suite stands, where it can write no file. */
export const tellResult = async (result: Result) => void (await ask({ do: 'result', result: JSON.stringify(result) }));

/** Whether a person's gestures can be made: in the browser, not on a desktop. */
export const present = process.env[SIGNALS_URL] !== undefined;

/** A picture of the screen for those who read the run; nothing where there is no screen to be had. */
export async function screenshot(name: string): Promise<void> {
  if (present) await ask({ do: 'screenshot', name });
}
export const press = (keys: string) => ask({ do: 'press', keys });
export const type = (text: string) => ask({ do: 'type', text });
export const restOn = (selector: string) => ask({ do: 'hover', selector });
export const click = (selector: string) => ask({ do: 'click', selector });
/** In the panel; `x` and `y` as shares of the element's size. */
export const clickIn = (selector: string, x?: number, y?: number) =>
  ask({ do: 'click', selector, inPanel: true, ...(x !== undefined && y !== undefined && { x, y }) });
/** In the panel; from and to as shares of the element's size. */
export const drag = (selector: string, from: readonly [number, number], to: readonly [number, number], hold?: string) =>
  ask({ do: 'drag', selector, from, to, ...(hold && { hold }) });
export const choose = (selector: string, value: string) => ask({ do: 'choose', selector, value });
export const attribute = (selector: string, name: string) => ask({ do: 'attribute', selector, name });
export const pixels = async (selector: string) =>
  JSON.parse(await ask({ do: 'pixels', selector })) as {
    share: number;
    colours: number;
    /** Changes with any pixel. */
    sum: number;
    corner: readonly number[];
  };
export const read = (selector: string, inPanel = false) => ask({ do: 'read', selector, inPanel });

/** Waits until what the selector finds is this word and nothing else, and takes it by Enter. */
export async function accept(selector: string, word: string): Promise<void> {
  await ask({ do: 'take', selector, word });
}

/** Asks again until the screen shows what is wanted; `inPanel` as for `read`. */
export async function sees(selector: string, wanted: RegExp, inPanel = false, patienceMs = 10_000): Promise<string> {
  const end = Date.now() + patienceMs;
  for (;;) {
    const text = await read(selector, inPanel);
    if (wanted.test(text)) return text;
    assert.ok(Date.now() < end, `${selector} does not show ${wanted}; it shows: ${text || 'nothing'}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/**
 * Answers a question that the editor asks in its one line at the top. Keys that are lost while another panel takes the
 * focus are typed once more: the question is still there.
 */
export async function answers(question: RegExp, text: string): Promise<void> {
  const line = '.quick-input-widget';
  await sees(line, question);
  for (let tries = 0; tries < 3; tries++) {
    await click(`${line} input[type=text]`);
    await press('ControlOrMeta+A');
    await type(text);
    await press('Enter');
    for (let waits = 0; waits < 30; waits++) {
      if (!question.test(await read(line))) return;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  assert.fail(`${question} is still asked after “${text}” and Enter`);
}

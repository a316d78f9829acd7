/** Whoever the page belongs to: the editor, or the file that the page is, where it stands alone in any browser. */
import type { PartPicture } from '../../server/src/service/view/protocol';
import { element } from './controls';
import type { ToHost, ToPanel } from './messages';

export interface ViewHost {
  postMessage(message: ToHost): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare const acquireVsCodeApi: undefined | (() => ViewHost);

/** In a file of its own, not in the editor. */
export const standsAlone = typeof acquireVsCodeApi !== 'function';

export function hostOfPage(): ViewHost {
  return typeof acquireVsCodeApi === 'function' ? acquireVsCodeApi() : fileHost();
}

/** A page of its own is read then as one without a script. */
export function withoutPicture(): void {
  document.documentElement.classList.remove('scripted');
}

/** What a page of its own carries in it. */
interface Carried {
  /** What can be shown, the first at once. */
  readonly shown: readonly ToPanel[];
  /** The workpiece at the moments of its set-ups. */
  readonly moments?: readonly PartPicture[];
}

/** Answers from what the page carries; nothing is fetched, and nothing is kept. */
function fileHost(): ViewHost {
  document.documentElement.classList.add('scripted');
  followTheme();
  const { shown, moments = [] } = JSON.parse(element('carried').textContent ?? '') as Carried;
  let part = 0;
  // As from an editor: the page listens to one kind of message only.
  const say = (data: ToPanel | undefined) => setTimeout(() => dispatchEvent(new MessageEvent('message', { data })));
  for (const link of document.querySelectorAll<HTMLElement>('[data-show]'))
    link.addEventListener('click', () => {
      part = Number(link.dataset.show);
      say(shown[part]);
    });
  return {
    postMessage(message) {
      if (message.type === 'ready') say(shown[part]);
      if (message.type === 'moment') {
        const { moment } = message;
        const found = moments.find((p) => p.moment?.setup === moment?.setup && p.moment?.when === moment?.when);
        say(found ? { type: 'picture', picture: found } : shown[part]);
      }
      if (message.type === 'reveal') offerLine(part, message);
    },
    getState: () => undefined,
    setState: () => {},
  };
}

/** The text stands in the page: its line is offered at the view's foot, so that looking at the picture is not cut short. */
function offerLine(part: number, { side = 'after', range }: Extract<ToHost, { type: 'reveal' }>): void {
  const link = document.createElement('a');
  link.href = `#p${part}-${side}-L${range.start.line + 1}`;
  link.textContent = `line ${range.start.line + 1} of the text${side === 'before' ? ' before' : ''}`;
  element('status').replaceChildren(link);
}

function followTheme(): void {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const follow = () => document.body.classList.toggle('vscode-dark', dark.matches);
  dark.addEventListener('change', follow);
  follow();
}

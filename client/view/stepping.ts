/** The row that steps through the set-ups: which one, the moment before and after, the text's set-ups or the plan's. */
import type { Moment, PictureWords } from '../../server/src/service/view/protocol';
import { element } from './controls';
import { setupText, stepped, stepText } from './steps';

/** What is asked of the extension: a moment, or without one the finished part. */
type AskMoment = (moment: Moment | undefined, planned: boolean) => void;

export class Stepping {
  readonly #ask: AskMoment;
  readonly #which = element<HTMLSelectElement>('setup');
  readonly #planned = element<HTMLInputElement>('planned');
  #picture: PictureWords | undefined;

  constructor(ask: AskMoment) {
    this.#ask = ask;
    element('before').addEventListener('click', () => this.step(-1));
    element('next').addEventListener('click', () => this.step(1));
    this.#which.addEventListener('change', () => {
      const setup = Number(this.#which.value);
      this.#go(setup < 0 ? undefined : { setup, when: 'before' });
    });
    this.#planned.addEventListener('change', () => {
      const planned = this.#planned.checked;
      this.#ask(planned ? { setup: 0, when: 'before' } : undefined, planned);
    });
  }

  step(by: 1 | -1): void {
    if (this.#picture) this.#go(stepped(this.#picture, by));
  }

  /** The first of the set-ups, or the finished part where one is shown. */
  toggle(): void {
    const { moment, setups = [] } = this.#picture ?? {};
    this.#go(moment || setups.length === 0 ? undefined : { setup: 0, when: 'before' });
  }

  show(picture: PictureWords): void {
    this.#picture = picture;
    const { setups, moment, planned = false } = picture;
    this.#which.replaceChildren(option('finished part', -1), ...setups.map((s, i) => option(setupText(s, i), i)));
    this.#which.value = String(moment?.setup ?? -1);
    this.#planned.checked = planned;
    const text = stepText(picture);
    element('step').textContent = moment ? text : '';
    element('step').title = text;
    element('set-ups').hidden = setups.length === 0;
  }

  #go(moment: Moment | undefined): void {
    this.#ask(moment, this.#planned.checked);
  }
}

function option(text: string, value: number): HTMLOptionElement {
  const made = document.createElement('option');
  made.textContent = text;
  made.value = String(value);
  return made;
}

/** The plan's page: fixed markup, its script and style by their own addresses, and nothing else may load. */
import { framedPage } from '../beside/page';

interface PageSources {
  readonly script: string;
  readonly styles: readonly string[];
  /** Where the editor serves local files from, for the policy. */
  readonly cspSource: string;
  readonly nonce: string;
}

export function pageOf({ script, styles, cspSource, nonce }: PageSources): string {
  return framedPage({
    title: 'Plan',
    may: [`style-src ${cspSource}`],
    nonce,
    style: styles.map((style) => `<link rel="stylesheet" href="${style}">`).join('\n'),
    body: `\
<header>
  <button type="button" id="write" title="Write the set-ups into the text (w)">Write</button>
  <button type="button" id="step" title="Step through the plan in the part view (s)">Step through</button>
  <button type="button" id="again" title="Plan again, of the text as it is now (p)">Plan again</button>
  <div id="under-way" hidden>
    <progress id="progress" max="1" value="0" aria-label="Planned so far"></progress>
    <span id="what" aria-live="polite"></span>
    <span id="seconds"></span>
    <button type="button" id="cancel" title="Leave it (Escape)">Cancel</button>
  </div>
  <p id="status" role="status"></p>
</header>
<main></main>
<footer><p>Keys: <kbd>w</kbd> write, <kbd>s</kbd> step through, <kbd>p</kbd> plan again, <kbd>Escape</kbd> cancel.</p></footer>`,
    script,
  });
}

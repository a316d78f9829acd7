/** The panel's page: fixed markup, its script and style by their own addresses, and nothing else may load. No text of a part is in it. */

import { framedPage } from '../beside/page';

interface PageSources {
  readonly script: string;
  readonly style: string;
  /** Where the editor serves local files from, for the policy. */
  readonly cspSource: string;
  readonly nonce: string;
}

/** What the keys and the mouse do. */
const KEYS: readonly (readonly [keys: string, what: string])[] = [
  ['drag, arrow keys', 'turn'],
  ['Shift and drag, Shift and arrow keys', 'move'],
  ['wheel, + and −', 'nearer and away'],
  ['1 to 6, 0', 'square to left, right, front, back, bottom, top; all of it'],
  ['press a face', 'its feature, with its sizes'],
  ['press a size, again', 'find it in the text, type over it'],
  ['[ and ]', 'step back and on through the set-ups'],
  ['p', 'the set-ups as planned'],
  ['m', 'measure faces and edges'],
  ['c, v', 'cut open, the other half'],
  [', and .', 'move the cut'],
  ['h, o, u', 'hide the chosen, show it alone, show all'],
  ['s, x', 'stock, axes'],
  ['Tab, then up and down', 'findings and features'],
  ['Enter', 'to the text of the one chosen'],
  ['Escape', 'stop measuring, choose nothing'],
  ['?', 'these keys'],
];

export function pageOf({ script, style, cspSource, nonce }: PageSources): string {
  return framedPage({
    title: 'Part view',
    // The editor puts its theme's colours on the page's root as style properties.
    may: [`style-src ${cspSource}`],
    nonce,
    style: `<link rel="stylesheet" href="${style}">`,
    body: BODY,
    script,
  });
}

const BODY = `\
<header>
  <div class="group" id="faces" role="group" aria-label="Look at"></div>
  <div class="group" id="steps" role="group" aria-label="Set-ups">
    <span class="group" id="set-ups" hidden>
      <button type="button" id="before" title="The moment before ([)" aria-label="The moment before">‹</button>
      <select id="setup" title="Which set-up" aria-label="Which set-up"><option value="-1">finished part</option></select>
      <button type="button" id="next" title="The moment after (])" aria-label="The moment after">›</button>
    </span>
    <label title="Step through the set-ups of the plan, written or not"><input type="checkbox" id="planned">as planned</label>
  </div>
  <div class="group">
    <label title="The bar it is cut from (s)"><input type="checkbox" id="stock">stock</label>
    <label title="The part’s axes and those of round faces (x)"><input type="checkbox" id="axes">axes</label>
  </div>
  <div class="group" role="group" aria-label="What is shown">
    <button type="button" id="hide" title="Hide the faces that are chosen (h)">hide</button>
    <button type="button" id="only" title="Show the chosen alone (o)">only</button>
    <button type="button" id="unhide" title="Show all again (u)">show all</button>
  </div>
  <div class="group">
    <label for="cut-axis">cut open</label>
    <select id="cut-axis" title="Square to which axis of the part"><option value="">no</option><option>x</option><option>y</option><option>z</option></select>
    <span class="group" id="cut-where" hidden>
      <input type="range" id="cut-at" min="0" max="1000" step="any" value="500" aria-label="Where it is cut open">
      <input type="number" id="cut-mm" step="0.1" title="Where, in mm along the axis" aria-label="Where it is cut open, mm">
      <button type="button" id="cut-flip" title="The other half, from behind the cut (v)">flip</button>
    </span>
  </div>
  <div class="group">
    <button type="button" id="measure" aria-pressed="false" title="Press one face or edge, then another (m)">measure</button>
  </div>
</header>
<main>
  <div id="step" aria-live="polite"></div>
  <div id="stage">
    <canvas id="picture" tabindex="0" role="img" aria-label="The part"></canvas>
    <svg id="lines" aria-hidden="true"></svg>
    <div id="labels"></div>
    <div id="drawing" hidden></div>
  </div>
</main>
<aside>
  <div id="list" role="listbox" tabindex="0" aria-label="Findings and features"></div>
</aside>
<footer>
  <span id="status" role="status"></span>
  <details id="keys">
    <summary>keys</summary>
    <dl>
${KEYS.map(([keys, what]) => `      <dt>${keys}</dt><dd>${what}</dd>`).join('\n')}
    </dl>
  </details>
</footer>
<div id="said" class="aloud" aria-live="polite"></div>`;

/** The markup that the view's script works on: fixed, with no word of a part in it. */

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

export const PART_BODY = `\
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

export const COMPARE_BODY = `\
<header>
  <div class="group" id="of-job" hidden>
    <button type="button" id="back" title="To the comparison of the job">‹ job</button>
  </div>
  <div class="group" id="sides" role="group" aria-label="What is shown">
    <button type="button" id="show-before" aria-pressed="false" title="The old part, and what went of it">before</button>
    <button type="button" id="show-after" aria-pressed="false" title="The new part, and what came to it">after</button>
    <button type="button" id="show-both" aria-pressed="true" title="The new part, what went, and what came">both</button>
  </div>
  <div class="group" role="group" aria-label="Changes">
    <button type="button" id="earlier" title="The change before" aria-label="The change before">‹</button>
    <span id="change" aria-live="polite"></span>
    <button type="button" id="later" title="The next change" aria-label="The next change">›</button>
  </div>
  <div class="group" id="faces" role="group" aria-label="Look at"></div>
  <div class="group key"><span class="swatch went"></span>went: only in the old part</div>
  <div class="group key"><span class="swatch came"></span>came: only in the new part</div>
</header>
<main>
  <canvas id="picture" tabindex="0" role="img" aria-label="Two revisions of a part"></canvas>
  <svg id="lines" aria-hidden="true"></svg>
  <div id="labels" aria-hidden="true"></div>
</main>
<aside>
  <div id="side-titles"></div>
  <div id="list" role="listbox" tabindex="0" aria-label="Changes"></div>
</aside>
<footer>
  <span id="status" role="status"></span>
  <details>
    <summary>keys</summary>
    <dl>
      <dt>drag, arrow keys</dt><dd>turn</dd>
      <dt>Shift and drag, Shift and arrow keys</dt><dd>move</dd>
      <dt>wheel, + and −</dt><dd>nearer and away</dd>
      <dt>press a face</dt><dd>what changed of its feature</dd>
      <dt>Tab, then up and down</dt><dd>the changes</dd>
      <dt>Enter</dt><dd>to its line in the text</dd>
    </dl>
  </details>
</footer>
<div id="said" class="aloud" aria-live="polite"></div>`;

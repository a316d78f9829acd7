/**
 * Every state of the part view and the plan in four themes and two widths: all words by WCAG AA, nothing covers anything or
 * leaves its frame. Pictures of all go to tests/artefacts/pages. A browser of its own; `npm run build` first.
 */
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { pageOf as framed } from '../../client/src/part-view/page';
import { pageOf as planPage } from '../../client/src/plan/page';
import { PART_BODY } from '../../client/view/body';
import { getBrowser } from '../editor/host';
import { example, faulty, PartHost } from './host';
import { judge, LOOKS, SHOTS, WIDTHS } from './judged';
import { look } from './look';
import { launch, openPage, settled, tell, wear } from './page';
import { planTold } from './plan-host';
import { THEMES, type ThemeName } from './themes';

const FIRST_LOOK = ['light', WIDTHS.narrow] as const;

interface State {
  readonly part: string;
  /** What is done to get there. */
  readonly act: (page: Page) => Promise<void>;
}

const chooses = (selector: string) => (page: Page) => page.click(selector);
const presses =
  (...keys: readonly string[]) =>
  async (page: Page) => {
    for (const key of keys) {
      await page.keyboard.press(key);
      await settled(page);
    }
  };

const STATES: Readonly<Record<string, State>> = {
  finished: { part: example('bearing-block'), act: async () => {} },
  sizes: { part: example('bearing-block'), act: chooses('#feature-bearing-seat') },
  'sizes-pocket': { part: example('bearing-block'), act: chooses('#feature-lightening') },
  'sizes-many': { part: example('base-plate'), act: chooses('[data-kind="feature"]:nth-of-type(4)') },
  findings: { part: faulty('holes'), act: chooses('[data-kind="error"]') },
  'put-in': { part: example('bearing-block'), act: presses(']') },
  pass: { part: example('bearing-block'), act: presses(']', ']', ']', ']') },
  'third-up': { part: example('bearing-block'), act: presses('[') },
  planned: { part: example('camera-tray'), act: presses('p', ']') },
  'cut-open': { part: example('bearing-block'), act: presses('c', 'v', '.') },
  alone: {
    part: example('bearing-block'),
    act: async (page) => {
      await page.click('#feature-bearing-seat');
      await presses('o')(page);
    },
  },
  axes: { part: example('bearing-block'), act: presses('x') },
  keys: { part: example('bearing-block'), act: presses('?') },
  measured: {
    part: example('bearing-block'),
    act: async (page) => {
      await presses('6', 'm')(page);
      const canvas = await page.locator('#picture').boundingBox();
      assert.ok(canvas);
      // On the floor of the seat, beside the hole in it.
      await page.mouse.click(canvas.x + canvas.width / 2, canvas.y + 0.62 * canvas.height);
      await page.waitForSelector('.mark.measure');
      await settled(page);
    },
  },
};

describe('the pages', function () {
  this.timeout(240_000);
  let browser: Browser;
  before(async () => {
    await mkdir(SHOTS, { recursive: true });
    browser = await launch(await getBrowser(() => {}));
  });
  after(() => browser?.close());

  const opened = async (theme: ThemeName, size: { width: number; height: number }, text: string, of = browser) => {
    const host = new PartHost(text);
    const page = await openPage({
      browser: of,
      theme,
      size,
      html: (sources) => framed({ title: 'Part view', body: PART_BODY, ...sources }),
      bundle: 'view',
      answer: (message) => host.answer(message),
    });
    await page.waitForSelector('body[data-part]');
    await settled(page);
    return { page, host };
  };

  // One page for all states: each is come to afresh, then its window and its theme change under it, as an editor's do.
  describe('the part view can be read, nothing covers anything, in four themes and two widths', () => {
    let view: Awaited<ReturnType<typeof opened>>;
    before(async () => {
      view = await opened(...FIRST_LOOK, STATES.finished!.part);
    });
    after(() => view?.page.close());
    for (const [name, { part, act }] of Object.entries(STATES))
      it(name, async () => {
        const { page, host } = view;
        host.another(part);
        await page.setViewportSize(FIRST_LOOK[1]);
        await page.reload();
        await page.waitForSelector('body[data-part]');
        await settled(page);
        await act(page);
        for (const [theme, width] of LOOKS) {
          await page.setViewportSize(WIDTHS[width]);
          await wear(page, theme);
          await settled(page);
          await judge(page, `view-${name}-${theme}-${width}`);
        }
      });
  });

  for (const theme of Object.keys(THEMES) as ThemeName[])
    it(`can be read, nothing covers anything: the plan, ${theme}`, async () => {
      const host = new PartHost(example('camera-tray'));
      const told = await planTold(host);
      for (const [width, size] of Object.entries(WIDTHS)) {
        const page = await openPage({
          browser,
          theme,
          size,
          html: ({ style, ...rest }) => planPage({ ...rest, styles: [style.replace('plan.css', 'job.css'), style] }),
          bundle: 'plan',
          answer: async () => [],
        });
        await tell(page, { type: 'progress', done: 1, of: 2, what: 'what would spare one, and what else would do' });
        await judge(page, `plan-under-way-${theme}-${width}`);
        await tell(page, { type: 'rests' });
        await tell(page, told);
        await page.waitForSelector('body[data-part]');
        await judge(page, `plan-${theme}-${width}`);
        await page.close();
      }
    });

  it('what cannot be read, covers another or leaves its frame would be told', async () => {
    const { page } = await opened('light', WIDTHS.wide, STATES.sizes!.part);
    await STATES.sizes!.act(page);
    await page.waitForSelector('button.mark.size');
    await settled(page);
    const spoil = (what: string) =>
      page.evaluate(`{ const all = [...document.querySelectorAll('button.mark.size')]; ${what} }`);
    await spoil('all[0].style.transform = all[1].style.transform');
    assert.match((await look(page)).troubles.join(), /covers/);
    await spoil("all[0].style.transform = 'translate(-40px, 10px)'");
    assert.match((await look(page)).troubles.join(), /leaves the picture/);
    await spoil(
      "document.querySelector('#status').textContent = 'dim'; document.querySelector('#status').style.color = '#999'",
    );
    const [least] = (await look(page)).words;
    assert.equal(least!.text, 'dim');
    // #999 on white: 2.85, by the formula of WCAG 2.2.
    assert.ok(Math.abs(least!.ratio - 2.85) < 0.01, `${least!.ratio}`);
    await page.close();
  });

  it('the plan’s page takes keys, and names that would act are words', async () => {
    const host = new PartHost(example('bearing-block').replaceAll('lightening', 'img-src-x'));
    const said: unknown[] = [];
    const page = await openPage({
      browser,
      theme: 'light',
      size: WIDTHS.wide,
      html: ({ style, ...rest }) => planPage({ ...rest, styles: [style] }),
      bundle: 'plan',
      answer: async (message) => {
        said.push(message);
        return [];
      },
    });
    const told = (await planTold(host)) as { plan: { page: { headline: string } } };
    const hostile = '<img src=x onerror="document.title=1">';
    told.plan.page.headline = hostile;
    await tell(page, told);
    await page.waitForSelector('body[data-part]');
    assert.equal(await page.textContent('h1'), hostile);
    assert.equal(await page.locator('main img').count(), 0);
    for (const key of ['w', 's', 'p']) await page.keyboard.press(key);
    await tell(page, { type: 'progress', done: 0, of: 2, what: '' });
    await page.waitForSelector('#cancel:visible');
    await page.keyboard.press('Escape');
    await page.waitForTimeout(100);
    assert.deepEqual(said, [
      { type: 'ready' },
      { type: 'write' },
      { type: 'step', setup: 0 },
      { type: 'again' },
      { type: 'cancel' },
    ]);
    await page.close();
  });

  it('a size that is pressed is found in the text, pressed again it is typed over, and the picture follows', async () => {
    const { page, host } = await opened('light', WIDTHS.wide, example('bearing-block'));
    await page.click('#feature-bearing-seat');
    const size = page.locator('button.mark.size', { hasText: '⌀22 H7' });
    await size.click();
    await settled(page);
    const { range } = host.heard.findLast((m) => m.type === 'reveal')!;
    const { snapshot } = { snapshot: await host.snapshot() };
    const at = snapshot.text.slice(snapshot.lines.offset(range.start), snapshot.lines.offset(range.end));
    assert.equal(at, '22 H7');
    await size.click();
    await page.keyboard.type('24');
    await page.keyboard.press('Enter');
    await page.waitForSelector('button.mark.size:has-text("⌀24 H7")');
    assert.match((await host.snapshot()).text, /diameter: 24 H7/);
    await page.locator('button.mark.size', { hasText: '⌀24 H7' }).click();
    await page.locator('button.mark.size', { hasText: '⌀24 H7' }).click();
    await page.keyboard.type('wide');
    await page.keyboard.press('Enter');
    await page.waitForSelector('#status:text-matches("needs|wide|name", "i")');
    assert.match((await host.snapshot()).text, /diameter: 24 H7/);
    await page.close();
  });

  it('hides the chosen, shows it alone, shows all; the wheel keeps what lies under the pointer', async () => {
    const { page } = await opened('light', WIDTHS.wide, example('bearing-block'));
    const hidden = async () => Number(await page.getAttribute('body', 'data-hidden'));
    await page.click('#feature-bearing-seat');
    await presses('h')(page);
    const few = await hidden();
    assert.ok(few >= 2, `${few}`);
    await presses('u', 'o')(page);
    assert.ok((await hidden()) > few);
    await presses('u')(page);
    assert.equal(await hidden(), 0);
    // The corner of a label of a size follows its place: under the pointer it stays.
    const label = page.locator('button.mark.size').first();
    const canvas = (await page.locator('#picture').boundingBox())!;
    const before = (await label.boundingBox())!;
    await page.mouse.move(before.x - 9, before.y + before.height / 2);
    await page.mouse.wheel(0, -240);
    await settled(page);
    const after = (await label.boundingBox())!;
    assert.ok(
      Math.hypot(after.x - before.x, after.y - before.y) < 25,
      `${before.x},${before.y} → ${after.x},${after.y}`,
    );
    assert.ok(canvas.width > 0);
    await page.close();
  });

  it('what is chosen is lit through the material that hides it', async () => {
    const text =
      'part: block\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 20 }, corner-radius: 5, depth: 6 }\n';
    const { page } = await opened('light', WIDTHS.wide, text);
    await page.click('[data-look="bottom"]');
    // Only what is drawn: no words, no lines of dimensions.
    await page.evaluate("for (const e of document.querySelectorAll('#labels, #lines')) e.style.opacity = '0'");
    const drawn = async () => {
      await page.mouse.move(1, 1);
      await settled(page);
      return page.locator('#picture').screenshot();
    };
    const bare = await drawn();
    assert.ok(bare.equals(await drawn()), 'the picture is not at rest');
    await page.click('#feature-seat');
    const lit = await drawn();
    assert.ok(!lit.equals(bare), 'nothing of the seat shines through from below');
    await page.screenshot({ path: join(SHOTS, 'view-lit-through.png') });
    await page.close();
  });

  it('without WebGL there is the drawing instead', async () => {
    const bare = await launch(await getBrowser(() => {}), ['--disable-3d-apis']);
    try {
      const { page } = await opened('light', WIDTHS.wide, example('bearing-block'), bare);
      await page.waitForSelector('#drawing svg');
      assert.match((await page.textContent('#status'))!, /drawing is shown/);
      assert.ok((await page.locator('#drawing svg path').count()) > 20);
      await page.screenshot({ path: join(SHOTS, 'view-no-webgl.png') });
    } finally {
      await bare.close();
    }
  });
});

/** Sheets over a real connection: pages as SVG, a PDF that reads back, and sentences where there is none. */
import assert from 'node:assert/strict';
import { XMLValidator } from 'fast-xml-parser';
import { SHEET, type SheetAnswer } from '../../server/src/service/sheet-protocol';
import { readPdf } from '../sheet/reading';
import { Client } from './client';
import { plate } from './plate';

const URI = 'file:///elsewhere/plate.part.yaml';
const TEXT = plate('plate');

describe('sheets over a connection', function () {
  this.timeout(60_000);
  let client: Client;
  before(async () => {
    client = await Client.start();
    client.open(URI, TEXT);
  });
  after(() => client.stop());

  const ask = (more: object): Promise<SheetAnswer | null> =>
    client.connection.sendRequest(SHEET, { uri: URI, as: 'svg', ...more });

  it('are pages of SVG, in the language that is asked for', async () => {
    const answer = await ask({ language: 'de', paper: 'letter' });
    assert.ok(answer && 'data' in answer && answer.data && answer.data.length >= 2);
    for (const page of answer.data) {
      assert.equal(XMLValidator.validate(page), true);
      // ANSI/ASME Y14.1: letter is 8.5 × 11 in
      assert.match(page, /width="215.9mm" height="279.4mm"/);
    }
    assert.match(answer.data.join(''), /SPANNUNG 1/);
  });

  it('are printed as PDF, with the same words', async () => {
    const answer = await ask({ as: 'pdf' });
    assert.ok(answer && 'base64' in answer && answer.base64 !== undefined);
    const pages = await readPdf(new Uint8Array(Buffer.from(answer.base64, 'base64')));
    assert.match(pages[0]!.words, /10\.000 … 10\.015/);
    assert.match(pages.map((p) => p.words).join(' '), /SET-UP 1/);
  });

  it('are refused in a sentence', async () => {
    await assert.rejects(ask({ as: 'doc' }), /`as` must be `svg` or `pdf`/);
    await assert.rejects(ask({ paper: 'a3' }), /`paper` must be one of a4, letter/);
    client.open('file:///elsewhere/bare.part.yaml', 'part: bare\n');
    const answer = await ask({ uri: 'file:///elsewhere/bare.part.yaml' });
    assert.ok(answer && 'trouble' in answer);
    assert.match(answer.trouble, /bare has no sheet/);
  });
});

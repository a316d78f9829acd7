/**
 * What is kept from one text to the next changes no answer: parts whose set-ups are written are edited at random, number by
 * number, and every finding is that of a judge that has seen nothing before. `PLANNED_EDITS=…` makes so many edits a part.
 */

import assert from 'node:assert/strict';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { numberEdits } from '../bench/edits';
import { plannedParts } from '../bench/planned';

const EDITS = Number(process.env.PLANNED_EDITS ?? 2);
/** Those with much to keep: several set-ups, pockets, slopes, outlines. */
const NAMES = /yoke|motor-mount|base-plate|reaching|holding|setup\/opposite-zero|hold\/cut-free|access\/angle/;

describe('parts with set-ups, edited', () => {
  const parts = plannedParts((name) => process.env.PLANNED_EDITS !== undefined || NAMES.test(name));
  for (const part of parts) {
    it(`${part.name}: as a fresh judge finds it`, () => {
      const next = seeded(part.name);
      let last: CheckedPart | undefined;
      for (let n = 0; n < EDITS; n++) {
        const text = edited(n === 0 || next() < 0.3 ? part.text : last!.tree.text, next);
        last = checkPart(text, part.shop, last);
        assert.deepEqual(told(last), told(checkPart(text, part.shop)), text);
      }
    }).timeout(60_000);
  }
});

/** One or two numbers of it made another: a little, a lot, or nought. */
function edited(text: string, next: () => number): string {
  let made = text;
  for (let n = next() < 0.5 ? 1 : 2; n > 0; n--) {
    const edits = numberEdits(made);
    const { start, end } = edits[Math.floor(next() * edits.length)]!;
    const value = Number(made.slice(start, end));
    const by = [0.9, 1.01, 1.1, 1.5, 0.5, 0][Math.floor(next() * 6)]!;
    const whole = /(?:count|quantity): $/.test(made.slice(0, start));
    const now = whole ? Math.max(1, Math.round(value * by)) : Number((value * by).toFixed(3));
    made = `${made.slice(0, start)}${now}${made.slice(end)}`;
  }
  return made;
}

function told({ findings, tree }: CheckedPart) {
  return findings.map(({ rule, severity, message, of, facts, at, span }) => {
    return { rule, severity, message, of, facts, at, place: tree.locate(span) };
  });
}

function seeded(name: string): () => number {
  let state = [...name].reduce((sum, c) => (sum * 31 + c.charCodeAt(0)) >>> 0, 7);
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

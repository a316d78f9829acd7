/** Help inside an expression: which function one is in, what it takes, and which of it is being written. */
import { schemaAt } from '../../model/lookup';
import { FUNCTIONS, type FunctionName } from '../../text/expression';
import type { Snapshot } from '../snapshot';
import { typingAt } from '../typing';

interface FunctionHelp {
  readonly takes: readonly string[];
  readonly what: string;
}

const FUNCTION_HELP: Readonly<Record<FunctionName, FunctionHelp>> = {
  min: { takes: ['a', 'b', '…'], what: 'The smallest of several values.' },
  max: { takes: ['a', 'b', '…'], what: 'The largest of several values.' },
  abs: { takes: ['value'], what: 'The value without its sign.' },
  sqrt: { takes: ['value'], what: 'The square root of a number, or of an area: `sqrt(a * a + b * b)` is a length.' },
  sin: { takes: ['degrees'], what: 'Of an angle in degrees: the side opposite over the longest.' },
  cos: { takes: ['degrees'], what: 'Of an angle in degrees: the side beside it over the longest.' },
  tan: { takes: ['degrees'], what: 'Of an angle in degrees: the side opposite over the one beside it.' },
};

interface SignatureHelp {
  signatures: {
    label: string;
    documentation: { kind: 'markdown'; value: string };
    parameters: { label: [number, number] }[];
  }[];
  activeSignature: number;
  activeParameter: number;
}

/** Null where the offset is in no function of a dimension. */
export function signatureAt(snapshot: Snapshot, offset: number): SignatureHelp | null {
  const typing = typingAt(snapshot.text, offset);
  if (typing?.what !== 'value' || !schemaAt(snapshot.kind, typing.path, snapshot.checked.tree.root)?.unit) return null;
  const call = openCall(typing.prefix);
  if (!call) return null;
  const { takes, what } = FUNCTION_HELP[call.name];
  const head = `${call.name}(`;
  let at = head.length;
  const parameters = takes.map((word) => {
    const label: [number, number] = [at, at + word.length];
    at += word.length + 2;
    return { label };
  });
  return {
    signatures: [
      { label: `${head}${takes.join(', ')})`, documentation: { kind: 'markdown', value: what }, parameters },
    ],
    activeSignature: 0,
    activeParameter: Math.min(call.argument, takes.length - 1),
  };
}

/** The innermost function whose bracket is open at the end of a text, and how many commas were written in it. */
function openCall(text: string): { readonly name: FunctionName; readonly argument: number } | undefined {
  const open: { name: FunctionName | undefined; argument: number }[] = [];
  for (const [i, c] of [...text].entries()) {
    if (c === '(') {
      const word = /[a-z]+\s*$/.exec([...text].slice(0, i).join(''))?.[0].trim();
      open.push({ name: FUNCTIONS.find((f) => f === word), argument: 0 });
    } else if (c === ')') open.pop();
    else if (c === ',' && open.length > 0) open.at(-1)!.argument++;
  }
  const found = open.findLast((o) => o.name !== undefined);
  return found && { name: found.name!, argument: found.argument };
}

/** Stock that comes in its shape: it is neither sawn nor bought by the metre, and a list names it with its pieces. */
import type { StockForm } from '../model/model';
import type { ReadPart } from '../rules/judging';

export interface ReadyStock {
  readonly form: StockForm;
  /** Of a blank: the file of the part that it is. */
  readonly file?: string;
  readonly pieces: number;
  /** The parts that are cut from it. */
  readonly parts: readonly string[];
}

/** Each blank once, and the casting of each part, with all its pieces. */
export function readyStock(
  made: readonly { readonly checked: ReadPart; readonly quantity: number }[],
): readonly ReadyStock[] {
  const found = new Map<string, ReadyStock>();
  for (const { checked, quantity } of made) {
    const { name, stock } = checked.part;
    const { blank, form } = stock;
    if ((!blank && form !== 'casting') || quantity < 1) continue;
    // A casting is of this part alone.
    const key = blank?.path ?? `${form} ${name}`;
    const known = found.get(key);
    const parts = [...new Set([...(known?.parts ?? []), name])];
    found.set(key, { form, ...(blank && { file: blank.file }), pieces: (known?.pieces ?? 0) + quantity, parts });
  }
  return [...found.values()];
}

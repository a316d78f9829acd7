/** Stock that comes in its shape: it is neither sawn nor bought by the metre, and a list names it with its pieces. */
import type { StockForm } from '../model/model';
import type { ReadPart } from '../rules/judging';

export interface ReadyStock {
  readonly form: StockForm;
  /** Of a blank: the file of the part that it is. */
  readonly file: string;
  readonly pieces: number;
  /** The parts that are cut from it. */
  readonly parts: readonly string[];
}

/** Each blank once, with all its pieces. */
export function readyStock(
  made: readonly { readonly checked: ReadPart; readonly quantity: number }[],
): readonly ReadyStock[] {
  const found = new Map<string, ReadyStock>();
  for (const { checked, quantity } of made) {
    const { name, stock } = checked.part;
    if (!stock.blank || quantity < 1) continue;
    const { path, file } = stock.blank;
    const known = found.get(path);
    const parts = [...(known?.parts ?? []), name];
    found.set(path, { form: stock.form, file, pieces: (known?.pieces ?? 0) + quantity, parts });
  }
  return [...found.values()];
}

/** Letters that do what the buttons do, wherever nothing is being typed. */

type Keys = Readonly<Record<string, () => void>>;

export function bindLetters(keys: Keys): void {
  addEventListener('keydown', (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || isTyping(e.target)) return;
    const act = keys[e.key];
    if (!act) return;
    e.preventDefault();
    act();
  });
}

function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLSelectElement || (target instanceof HTMLInputElement && !/checkbox|range/.test(target.type))
  );
}

/** A field in the place of a label: what is typed counts on Enter, Escape and leaving it change nothing. */
export function typeOver(label: HTMLElement, written: string, done: (text: string) => void): void {
  if (label.querySelector('input')) return;
  const before = [...label.childNodes];
  const field = document.createElement('input');
  field.value = written;
  field.setAttribute('aria-label', label.title);
  field.size = Math.max(4, written.length + 1);
  const back = () => {
    if (field.isConnected) label.replaceChildren(...before);
  };
  field.addEventListener('keydown', (e) => {
    e.stopPropagation();
    if (e.key !== 'Enter' && e.key !== 'Escape') return;
    e.preventDefault();
    const text = field.value;
    back();
    label.focus();
    if (e.key === 'Enter' && text.trim() !== written) done(text);
  });
  field.addEventListener('click', (e) => e.stopPropagation());
  field.addEventListener('blur', back);
  label.replaceChildren(field);
  field.focus();
  field.select();
}

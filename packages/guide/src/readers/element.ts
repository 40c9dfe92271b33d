type Made = Node | string | undefined;

/** An element with its attributes and what is in it; text is text, whatever stands in it. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Readonly<Record<string, string | boolean | undefined>> = {},
  ...inside: readonly Made[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    made.setAttribute(name, value === true ? '' : value);
  }
  made.append(...inside.filter((one) => one !== undefined));
  return made;
}

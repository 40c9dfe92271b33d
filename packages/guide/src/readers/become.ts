/**
 * Makes an element what another one is, in place where both are built alike: only what differs is touched, so that little is
 * laid out anew while a number is pulled, and focus stays where it is.
 * @returns what stands in the page now
 */
export function become(old: Element, made: Element): Element {
  if (old.nodeName !== made.nodeName) {
    old.replaceWith(made);
    return made;
  }
  attributesOf(old, made);
  const [is, will] = [[...old.childNodes], [...made.childNodes]];
  if (is.length !== will.length || is.some((one, i) => one.nodeName !== will[i]?.nodeName)) {
    old.replaceChildren(...will);
    return old;
  }
  for (const [i, node] of will.entries()) {
    const there = is[i];
    if (there instanceof Element && node instanceof Element) become(there, node);
    else if (there !== undefined && there.nodeValue !== node.nodeValue) {
      there.nodeValue = node.nodeValue;
    }
  }
  return old;
}

function attributesOf(old: Element, made: Element): void {
  for (const name of old.getAttributeNames()) {
    if (!made.hasAttribute(name)) old.removeAttribute(name);
  }
  for (const { name, value } of made.attributes) {
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
}

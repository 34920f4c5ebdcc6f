// Elements of the page, made one by one: no text ever becomes markup.

/**
 * Make an element.
 * @param {string} tag
 * @param {Object} given  `text` is its text, `on` its listeners by event; all else are attributes. An attribute that is
 *     null, undefined or false is left out, and true is an empty one.
 * @param {...(Node|string|null)} children
 */
export function make(tag, given = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) {
    if (name === "text") {
      element.textContent = value;
    } else if (name === "on") {
      for (const [event, listener] of Object.entries(value)) element.addEventListener(event, listener);
    } else {
      set(element, name, value);
    }
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

/** Set an attribute, or take it away when the value is null, undefined or false. */
export function set(element, name, value) {
  if (value === null || value === undefined || value === false) {
    element.removeAttribute(name);
  } else if (element.getAttribute(name) !== String(value === true ? "" : value)) {
    element.setAttribute(name, value === true ? "" : value);
  }
}

/** Change a text only when it is another one, so that nobody is read the same twice. */
export function tell(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** A button that is no part of a form. */
export function button(label, pressed, given = {}) {
  return make("button", { type: "button", text: label, on: { click: pressed }, ...given });
}

/** Bring the children of an element into this order; those that stay in their place are not touched. */
export function arrange(parent, wanted) {
  const keep = new Set(wanted);
  for (const child of [...parent.children]) if (!keep.has(child)) child.remove();
  wanted.forEach((node, place) => {
    if (parent.children[place] !== node) parent.insertBefore(node, parent.children[place] ?? null);
  });
}

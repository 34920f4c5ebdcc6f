// The marks of a message (bold, code, links ...): read apart from the page, and copied over tag by tag.

import { make } from "./elements.js";

const ALLOWED = new Set(["B", "STRONG", "I", "EM", "U", "S", "CODE", "PRE", "BLOCKQUOTE"]);
const JOINING = /https?:\/\/[^\s]+?[?&]start=([\w-]+)/g;

/**
 * The nodes of a message. A tag that is not allowed leaves its text behind, and nothing else.
 * @param {string} html
 * @param {?function(string)} onJoin  what a link to join does with its code; null shows the link as text
 */
export function marked(html, onJoin = null) {
  const read = new DOMParser().parseFromString(`<body>${html}`, "text/html");
  const into = document.createDocumentFragment();
  copy(read.body, into, onJoin);
  return into;
}

function copy(from, into, onJoin) {
  for (const node of from.childNodes) {
    if (node.nodeType === Node.TEXT_NODE) {
      into.append(...withJoining(node.data, onJoin));
    } else if (node.nodeType === Node.ELEMENT_NODE) {
      const link = node.tagName === "A" ? webAddress(node.getAttribute("href")) : null;
      if (link !== null && !(onJoin && joiningCode(link))) {
        const shown = make("a", { href: link, target: "_blank", rel: "noopener noreferrer" });
        copy(node, shown, null);
        into.append(shown, make("span", { class: "aside", text: " (leads out of this page)" }));
      } else if (link !== null) {
        into.append(node.textContent, " ", joinButton(joiningCode(link), onJoin));
      } else if (ALLOWED.has(node.tagName)) {
        const shown = make(node.tagName.toLowerCase());
        copy(node, shown, onJoin);
        into.append(shown);
      } else if (!["SCRIPT", "STYLE", "TEMPLATE"].includes(node.tagName)) {
        copy(node, into, onJoin);
      }
    }
  }
}

function webAddress(written) {
  try {
    const address = new URL(written ?? "");
    return ["http:", "https:"].includes(address.protocol) ? address.href : null;
  } catch {
    return null;
  }
}

function joiningCode(address) {
  return new URL(address).searchParams.get("start");
}

function withJoining(text, onJoin) {
  if (onJoin === null) return [text];
  const parts = [];
  let place = 0;
  for (const found of text.matchAll(JOINING)) {
    const end = found.index + found[0].length;
    parts.push(text.slice(place, end), " ", joinButton(found[1], onJoin));
    place = end;
  }
  return [...parts, text.slice(place)];
}

function joinButton(code, onJoin) {
  return make("button", {
    type: "button",
    class: "join",
    text: "Use it as the stranger",
    on: { click: () => onJoin(code) },
  });
}

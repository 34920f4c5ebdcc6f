// Pictures: small on the page, large in a dialog.

import { button, make } from "./elements.js";

const dialog = document.getElementById("picture");
const large = document.getElementById("picture-large");

document.getElementById("picture-close").addEventListener("click", () => dialog.close());
dialog.addEventListener("close", () => large.removeAttribute("src"));

/** A picture that can be opened large; `alt` says what it shows. */
export function picture(url, alt) {
  const pressed = button("", () => open(url, alt), { class: "picture" });
  pressed.append(make("img", { src: url, alt }), make("span", { class: "picture-more", text: "Open large" }));
  return pressed;
}

function open(url, alt) {
  large.src = url;
  large.alt = alt;
  dialog.showModal();
}

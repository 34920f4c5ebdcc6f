// A photo, a voice message or a file that goes along with the next message.

import { button, make } from "./elements.js";
import { size } from "./message.js";

const CHOICES = [
  { kind: "photo", label: "Photo", accept: "image/*" },
  { kind: "voice", label: "Voice message", accept: "audio/*,.ogg,.oga,.opus" },
  { kind: "document", label: "File", accept: "" },
];

export class Attachment {
  /** @param {function()} onChange  called when a file was chosen or taken off */
  constructor(onChange) {
    this.onChange = onChange;
    this.chosen = null;
    this.inputs = CHOICES.map((choice) => this.input(choice));
    this.menu = make(
      "div",
      { class: "menu kinds", role: "group", "aria-label": "What to attach", hidden: true },
      ...CHOICES.map(({ label }, place) => button(label, () => this.inputs[place].click())),
      ...this.inputs,
    );
    this.words = make("span");
    this.strip = make(
      "div",
      { class: "strip", hidden: true },
      this.words,
      button("Take it off", () => this.clear()),
    );
  }

  get open() {
    return !this.menu.hidden;
  }

  show() {
    this.menu.hidden = false;
  }

  hide() {
    this.menu.hidden = true;
  }

  clear() {
    this.chosen = null;
    this.strip.hidden = true;
    for (const input of this.inputs) input.value = "";
    this.onChange();
  }

  input({ kind, label, accept }) {
    const choose = () => {
      const file = input.files[0];
      if (!file) return;
      this.chosen = { kind, file };
      this.words.textContent = `${label}: ${file.name}, ${size(file.size)}`;
      this.strip.hidden = false;
      this.hide();
      this.onChange();
    };
    const input = make("input", {
      type: "file",
      accept: accept || null,
      hidden: true,
      "aria-label": `Choose: ${label}`,
      on: { change: choose },
    });
    return input;
  }
}

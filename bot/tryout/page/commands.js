// The commands that the bot has registered for a person, as a list to choose from.

import { button, make } from "./elements.js";

const NONE_LIKE_THAT = "No command begins like that.";
const NONE_YET = "There are no commands for this person yet.";

export class Commands {
  /**
   * @param {string} name  whose commands they are
   * @param {function(string)} onChoose  told the command with its slash
   */
  constructor(name, onChoose) {
    this.onChoose = onChoose;
    this.commands = [];
    this.begins = "";
    this.none = make("p", { class: "none" });
    this.list = make("ul");
    this.element = make(
      "div",
      { class: "menu commands", role: "group", "aria-label": `Commands of ${name}`, hidden: true },
      this.none,
      this.list,
    );
  }

  get open() {
    return !this.element.hidden;
  }

  /** Take the commands as they are registered now. */
  update(commands) {
    if (JSON.stringify(commands) === JSON.stringify(this.commands)) return;
    this.commands = commands;
    this.draw();
  }

  /** Show those that begin so; "" shows all. */
  show(begins = "") {
    this.begins = begins.toLowerCase();
    this.element.hidden = false;
    this.draw();
  }

  hide() {
    this.element.hidden = true;
  }

  draw() {
    const named = this.commands.map((each) => ({ ...each, name: `/${each.name.replace(/^\//, "")}` }));
    const fitting = named.filter((each) => each.name.startsWith(this.begins));
    this.none.hidden = fitting.length > 0;
    this.none.textContent = named.length > 0 ? NONE_LIKE_THAT : NONE_YET;
    this.list.replaceChildren(...fitting.map((each) => make("li", {}, this.choice(each))));
  }

  choice({ name, description }) {
    const pressed = button("", () => this.onChoose(name), { class: "command" });
    pressed.append(make("b", { text: name }), " ", make("span", { text: description }));
    return pressed;
  }
}

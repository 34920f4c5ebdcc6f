// The list of people: a toggle for each, with what is new for her.

import { arrange, button, make, set, tell } from "./elements.js";

export class People {
  /** @param {function(string)} onToggle  opens or closes the page of the person with that key */
  constructor(onToggle) {
    this.nav = document.getElementById("people");
    this.onToggle = onToggle;
    this.tabs = new Map();
  }

  /** Show the people of a state, pressed for those whose page is open. */
  update(people, open) {
    for (const person of people) {
      const tab = this.tabs.get(person.key) ?? this.added(person.key);
      const fresh = person.unread > 0 ? `${person.unread} new` : "";
      set(tab.pressed, "aria-pressed", open.includes(person.key) ? "true" : "false");
      set(tab.pressed, "data-who", person.role);
      tell(tab.name, person.name);
      tell(tab.role, person.role);
      tell(tab.fresh, fresh);
      tab.fresh.hidden = !fresh;
      tell(tab.heard, [person.name, person.role, fresh].filter(Boolean).join(", "));
    }
    arrange(this.nav, people.map((person) => this.tabs.get(person.key).pressed));
  }

  /** Put the focus on somebody's toggle. */
  focus(key) {
    this.tabs.get(key)?.pressed.focus();
  }

  added(key) {
    const heard = make("span", { class: "unseen" });
    const name = make("span", { class: "tab-name" });
    const role = make("span");
    const fresh = make("span", { class: "tab-new" });
    const pressed = button("", () => this.onToggle(key), { class: "tab" });
    const seen = make("span", { "aria-hidden": "true" }, name, make("span", { class: "tab-line" }, role, fresh));
    pressed.append(heard, seen);
    this.tabs.set(key, { pressed, heard, name, role, fresh });
    return this.tabs.get(key);
  }
}

// The page of one person: who she is, her messages, and what is written in her name.

import { button, make, tell } from "./elements.js";
import { look, of, send } from "./calls.js";
import { Composer } from "./composer.js";
import { hear } from "./heard.js";
import { Log } from "./log.js";

export class Panel {
  /**
   * @param {Object} person  as in the state
   * @param {Object} doings  `onClose(key)`, `canJoin()`, `onJoin(code)` and `onClock()`, which shows or hides the clock on a phone
   */
  constructor(person, doings) {
    this.person = person;
    this.seen = 0;
    this.loading = null;
    this.waiting = [];
    this.log = new Log(this.pageOf(doings), (id) => this.tellSeen(id));
    this.problem = make("p", { class: "problem", role: "alert" });
    this.composer = new Composer(
      person,
      (words) => tell(this.problem, words),
      () => this.log.toEnd(),
    );
    this.element = this.drawn(doings);
    this.update(person);
  }

  pageOf(doings) {
    const panel = this;
    return {
      get person() {
        return panel.person;
      },
      find: (id) => this.log.find(id),
      onReply: (message) => this.composer.reply(message),
      onEdit: (message) => this.composer.edit(message),
      onTap: (message, choice) => this.tap(message, choice),
      get onJoin() {
        return doings.canJoin() ? doings.onJoin : null;
      },
    };
  }

  drawn(doings) {
    const { key, name } = this.person;
    this.heading = make("h2", { id: `page-${key}`, tabindex: "-1", text: name });
    this.line = make("p", { class: "person-line" });
    this.speaks = make("p", { class: "speaks" });
    this.clockButton = button("Clock", () => doings.onClock(), { class: "narrow", "aria-expanded": "false" });
    const field = `#${this.composer.field.id}`;
    const skip = make("a", { class: "skip", href: field, text: `Skip to writing as ${name}` });
    skip.addEventListener("click", (event) => {
      event.preventDefault();
      this.composer.field.focus();
    });
    return make(
      "section",
      { class: "panel", "data-who": this.person.role, "aria-labelledby": this.heading.id },
      make(
        "div",
        { class: "panel-head" },
        button("Back to people", () => doings.onClose(key), { class: "narrow" }),
        this.clockButton,
        make("div", { class: "panel-title" }, this.heading, this.line, this.speaks),
        button("Close", () => doings.onClose(key), { class: "wide", "aria-label": `Close ${name}` }),
      ),
      skip,
      this.log.element,
      this.problem,
      this.composer.element,
    );
  }

  /** Show the person as she is in a state. */
  update(person) {
    this.person = person;
    const place = (person.zone ?? "").split("/").at(-1).replaceAll("_", " ");
    tell(this.line, `${person.role}, ${person.local}${place ? ` in ${place}` : ""}`);
    tell(this.speaks, speaking(person));
    this.speaks.hidden = this.speaks.textContent === "";
    this.composer.update(person);
  }

  /** Load all messages anew. What comes on the feed meanwhile waits, and counts after. */
  async load() {
    const turn = (this.loading = {});
    this.waiting = [];
    try {
      const { messages } = await look(of(this.person.key, "messages"));
      if (turn !== this.loading) return;
      this.loading = null;
      this.log.replace(messages);
      for (const { changed, gone } of this.waiting) this.receive(changed, gone);
    } catch (problem) {
      if (turn !== this.loading) return;
      this.loading = null;
      tell(this.problem, problem.message);
    }
  }

  /** Take what changed on the feed. */
  receive(changed, gone) {
    if (this.loading) {
      this.waiting.push({ changed, gone });
      return;
    }
    const { fresh, edited } = this.log.receive(changed, gone);
    hear(this.person.name, fresh, edited);
  }

  async tap(message, choice) {
    tell(this.problem, "");
    const { row, place } = choice;
    try {
      await send(of(this.person.key, "tap"), { message: message.id, row, place });
    } catch (problem) {
      tell(this.problem, problem.message);
    }
  }

  async tellSeen(id) {
    if (id <= this.seen || document.hidden || !this.element?.isConnected) return;
    this.seen = id;
    try {
      await send(of(this.person.key, "seen"), { message: id });
    } catch {
      this.seen = 0; // It is told again with the next message or scroll.
    }
  }
}

function speaking(person) {
  if (person.blocked) return `${person.name} has blocked the bot, so nothing reaches this page.`;
  if (person.role === "stranger") return "";
  if (person.yours) return `You speak for ${person.name} now.`;
  if (person.played) return `The story speaks for ${person.name} until you do.`;
  return `${person.name} says nothing until you do.`;
}

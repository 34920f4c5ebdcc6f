// Where something is written in somebody's name: text, a file, a reply, an edit, a command, a quick answer.

import { arrange, button, make, set, tell } from "./elements.js";
import { of, send, sendForm } from "./calls.js";
import { Attachment } from "./attachment.js";
import { Commands } from "./commands.js";
import { firstLine } from "./message.js";

export class Composer {
  /**
   * @param {Object} person  who writes
   * @param {function(string)} onProblem  told what went wrong, "" when it went well
   * @param {function()} onSent  called after something was sent
   */
  constructor(person, onProblem, onSent) {
    this.person = person;
    this.onProblem = onProblem;
    this.onSent = onSent;
    this.replyTo = null;
    this.edits = null;
    this.busy = false;
    this.attachment = new Attachment(() => this.field.focus());
    this.commands = new Commands(person.name, (name) => this.choose(name));
    this.makeParts();
    this.element = make(
      "form",
      { class: "composer", on: { submit: (event) => this.submitted(event), keydown: (event) => this.key(event) } },
      this.quick,
      this.about,
      this.attachment.strip,
      make(
        "div",
        { class: "writing-head" },
        make("label", { for: this.field.id, text: `Write as ${person.name}` }),
        make("div", { class: "row" }, this.attachButton, this.commandsButton),
      ),
      make("div", { class: "writing" }, this.field, this.sending, this.sendButton),
      this.attachment.menu,
      this.commands.element,
    );
    this.update(person);
  }

  makeParts() {
    const id = `write-${this.person.key}`;
    this.field = make("textarea", { id, rows: 2, enterkeyhint: "send", on: { input: () => this.typed() } });
    this.sendButton = make("button", { type: "submit", class: "main", text: "Send" });
    this.attachButton = button("Attach", () => this.toggle(this.attachment), { "aria-expanded": "false" });
    this.commandsButton = button("Commands", () => this.toggle(this.commands), { "aria-expanded": "false" });
    this.sending = make("span", { class: "sending", role: "status" });
    this.quick = make("div", { class: "quick", role: "group", "aria-label": "Quick answers", hidden: true });
    this.aboutWords = make("span");
    this.about = make(
      "div",
      { class: "strip", hidden: true },
      this.aboutWords,
      button("Leave it", () => this.leave()),
    );
  }

  /** Take the person's commands and typed keyboard as they are now. */
  update(person) {
    this.person = person;
    this.commands.update(person.commands ?? []);
    const labels = JSON.stringify(person.keyboard ?? []);
    if (labels === this.shownKeyboard) return;
    this.shownKeyboard = labels;
    const rows = (person.keyboard ?? []).map((row) =>
      make("div", { class: "row" }, ...row.map((label) => button(label, () => this.say(label)))),
    );
    arrange(this.quick, rows);
    this.quick.hidden = rows.length === 0;
  }

  /** Begin a reply to a message. */
  reply(message) {
    this.leave();
    this.replyTo = message;
    this.showAbout(`Reply to: ${firstLine(message)}`);
  }

  /** Begin to edit a message of one's own. */
  edit(message) {
    this.leave();
    this.edits = message;
    this.kept = this.field.value;
    this.field.value = message.text;
    this.showAbout(`Editing: ${firstLine(message)}`);
  }

  /** Put words into the field, to be looked at and sent. */
  put(words) {
    this.field.value = words;
    this.field.focus();
  }

  showAbout(words) {
    tell(this.aboutWords, words);
    this.about.hidden = false;
    this.field.focus();
  }

  leave() {
    if (this.edits) this.field.value = this.kept;
    this.replyTo = null;
    this.edits = null;
    this.about.hidden = true;
    this.field.focus();
  }

  toggle(menu) {
    const opens = !menu.open;
    this.closeMenus();
    if (opens) menu.show();
    this.showExpanded();
  }

  closeMenus() {
    this.attachment.hide();
    this.commands.hide();
    this.showExpanded();
  }

  showExpanded() {
    set(this.attachButton, "aria-expanded", String(this.attachment.open));
    set(this.commandsButton, "aria-expanded", String(this.commands.open));
  }

  choose(name) {
    this.closeMenus();
    this.put(`${name} `);
  }

  typed() {
    if (/^\/\w*$/.test(this.field.value)) this.commands.show(this.field.value);
    else this.commands.hide();
    this.showExpanded();
  }

  key(event) {
    if (event.key === "Enter" && !event.shiftKey && event.target === this.field && !event.isComposing) {
      event.preventDefault();
      this.submit();
    } else if (event.key === "Escape") {
      this.escape(event);
    }
  }

  escape(event) {
    if (this.attachment.open || this.commands.open) {
      const opener = this.attachment.open ? this.attachButton : this.commandsButton;
      const typing = event.target === this.field;
      this.closeMenus();
      if (!typing) opener.focus();
    } else if (this.replyTo || this.edits) {
      this.leave();
    } else if (this.attachment.chosen) {
      this.attachment.clear();
    }
  }

  submitted(event) {
    event.preventDefault();
    this.submit();
  }

  async submit() {
    const text = this.field.value;
    const chosen = this.attachment.chosen;
    if (text.trim() === "" && !(chosen && !this.edits)) {
      this.onProblem("Write something first.");
      this.field.focus();
    } else if (this.edits) {
      const message = this.edits.id;
      await this.tried(() => send(of(this.person.key, "edit"), { message, text }), text);
    } else if (chosen) {
      await this.tried(() => sendForm(of(this.person.key, "file"), this.form(chosen, text)), text);
    } else {
      await this.tried(() => send(of(this.person.key, "say"), { text, reply_to: this.replyTo?.id ?? null }), text);
    }
  }

  form({ kind, file }, caption) {
    const form = new FormData();
    form.set("kind", kind);
    form.set("file", file);
    form.set("caption", caption);
    if (this.replyTo) form.set("reply_to", String(this.replyTo.id));
    return form;
  }

  /** Say words that are not in the field, such as a quick answer: what is in the field stays. */
  async say(text) {
    await this.tried(() => send(of(this.person.key, "say"), { text, reply_to: null }), null);
  }

  async tried(call, text) {
    if (this.busy) return;
    this.setBusy(true);
    try {
      await call();
      this.onProblem("");
      if (!this.edits) this.onSent();
      if (text !== null) this.sent(text);
    } catch (problem) {
      this.onProblem(problem.message);
    } finally {
      this.setBusy(false);
    }
  }

  sent(text) {
    const written = this.field.value === text ? "" : this.field.value;
    this.edits = null;
    this.leave();
    this.field.value = written;
    this.closeMenus();
    if (this.attachment.chosen) this.attachment.clear();
  }

  setBusy(busy) {
    this.busy = busy;
    set(this.sendButton, "aria-disabled", busy ? "true" : "false");
    tell(this.sending, busy ? "Sending." : "");
  }
}

// One entry of a page: who wrote it and when, its words, its file, its buttons.

import { button, make, set } from "./elements.js";
import { marked } from "./markup.js";
import { picture } from "./picture.js";

const KINDS = { voice: "Voice message", video: "Video", location: "Location", contact: "Contact" };

/** The first line of a message that has words, for those who only want to know which one it is. */
export function firstLine(message) {
  const line = message.text.split("\n").find((each) => each.trim() !== "");
  return line?.trim() || message.file?.name || KINDS[message.kind] || "a message";
}

/**
 * The entry of a message. `page` is the page it stands on: its `person`, `find(id)`, and what is done on it, which is
 * `onReply(message)`, `onEdit(message)`, `onTap(message, button)` and `onJoin(code)`.
 */
export function entry(message, page) {
  const article = make("article", { class: "entry", tabindex: "-1", "data-message": message.id });
  fill(article, message, page);
  return article;
}

/** Write an entry anew after its message changed; the focus stays on the button of the same name, or on the entry. */
export function renew(article, message, page) {
  const focused = article.contains(document.activeElement) ? document.activeElement : null;
  const label = focused?.textContent;
  fill(article, message, page);
  if (focused === null) return;
  const same = [...article.querySelectorAll("button")].find((each) => each.textContent === label);
  (same ?? article).focus({ preventScroll: true });
}

function fill(article, message, page) {
  const who = message.mine ? page.person.name : "Plimsoll";
  set(article, "aria-label", `${who}, ${message.local}`);
  set(article, "data-who", message.mine ? page.person.role : "plimsoll");
  set(article, "data-slip", message.buttons.length > 0);
  article.replaceChildren(
    margin(message),
    make(
      "div",
      { class: "entry-body" },
      head(message, who, page),
      ...answered(message, page),
      ...file(message, who),
      ...words(message, page),
      ...choices(message, page),
    ),
  );
}

function margin(message) {
  const hour = message.local.split(", ").at(-1);
  const rang = !message.mine && !message.silent ? make("span", { class: "rang", text: "rang" }) : null;
  return make("div", { class: "margin" }, make("time", { datetime: message.at, text: hour }), rang);
}

function head(message, who, page) {
  const own = message.mine && message.kind === "text";
  return make(
    "div",
    { class: "entry-head" },
    make("span", { class: "who", text: who }),
    message.edited ? make("span", { class: "edited", text: "edited" }) : null,
    make(
      "span",
      { class: "entry-acts" },
      own ? button("Edit", () => page.onEdit(message), { class: "act" }) : null,
      button("Reply", () => page.onReply(message), { class: "act" }),
    ),
  );
}

function answered(message, page) {
  if (message.reply_to === null || message.reply_to === undefined) return [];
  const to = page.find(message.reply_to);
  const words = to ? `In answer to: ${firstLine(to)}` : "In answer to an earlier message";
  return [make("p", { class: "answered", text: words })];
}

function words(message, page) {
  if (!message.text && !message.html) return [];
  return [make("div", { class: "words" }, marked(message.html || "", page.onJoin))];
}

function file(message, who) {
  const kept = message.file;
  if (!kept) return KINDS[message.kind] ? [make("p", { class: "kind", text: KINDS[message.kind] })] : [];
  const title = message.text ? firstLine(message) : `${KINDS[message.kind] ?? "File"} from ${who}, ${message.local}`;
  if (message.kind === "photo") {
    return [picture(kept.url, message.text ? title : `Picture from ${who}, ${message.local}`)];
  }
  if (message.kind === "voice") {
    return [make("audio", { controls: true, preload: "metadata", src: kept.url, "aria-label": title })];
  }
  if (message.kind === "video") {
    return [make("video", { controls: true, preload: "metadata", src: kept.url, "aria-label": title })];
  }
  const link = make("a", { class: "file", href: kept.url, download: kept.name, text: kept.name });
  return [make("p", { class: "file-line" }, link, ` ${size(kept.size)}`)];
}

/** A size in bytes, in words. */
export function size(bytes) {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes < 1_000_000) return `${Math.round(bytes / 1000)} kB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}

function choices(message, page) {
  if (message.buttons.length === 0) return [];
  const rows = message.buttons.map((row) =>
    make("div", { class: "row" }, ...row.map((choice) => pressable(message, choice, page))),
  );
  return [make("div", { class: "choices" }, ...rows)];
}

function pressable(message, choice, page) {
  if (/^https?:/.test(choice.url ?? "")) {
    const words = `${choice.label} (leads out of this page)`;
    return make("a", { href: choice.url, target: "_blank", rel: "noopener noreferrer", text: words });
  }
  const waits = message.spinning.includes(choice.label);
  return button(choice.label, () => page.onTap(message, choice), waits ? { class: "waits", "aria-busy": "true" } : {});
}

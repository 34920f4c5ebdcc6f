// The feed: what changes while the page is open. It is taken up again by itself when it breaks.

import { look } from "./calls.js";

const AGAIN_MS = 2000;

/**
 * Follow the feed.
 * @param {function(Object)} onState  the state, at once and whenever it changes
 * @param {function(Object)} onMessages  messages of one person that changed or are gone
 * @param {function(string, boolean)} onLink  a sentence on the connection, and whether it was lost before
 */
export function follow(onState, onMessages, onLink) {
  let lost = false;

  function open() {
    const source = new EventSource("/feed");
    source.addEventListener("open", () => {
      if (lost) onLink("Connected again.", true);
      lost = false;
    });
    source.addEventListener("state", (event) => onState(JSON.parse(event.data)));
    source.addEventListener("messages", (event) => onMessages(JSON.parse(event.data)));
    source.addEventListener("error", () => {
      lost = true;
      onLink("The connection is lost. Trying again. What you typed stays here.", false);
      if (source.readyState === EventSource.CLOSED) {
        source.close();
        reason();
        setTimeout(open, AGAIN_MS);
      }
    });
  }

  // The browser does not say why it gave up; asking for the state does.
  async function reason() {
    try {
      await look("/state");
    } catch (problem) {
      if (lost) onLink(`${problem.message} What you typed stays here.`, false);
    }
  }

  open();
}

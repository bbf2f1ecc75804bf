/* What a session's page shows of your turns: the buttons with how far each block is. The panel itself is a script and
   a style of its own, asked for when it is first wanted or the video begins, so that a page that is only read stays
   light. It opens once both are here.

   YourTurn.open(anchor)   opens the panel at a block, as place.js does for somebody who comes back
   YourTurn.anchor()       the block whose panel is open, or null */
(() => {
  "use strict";
  const data = JSON.parse(document.getElementById("episode-data").textContent);
  const source = document.getElementById("turn-words");
  const words = JSON.parse(source.textContent);
  const of = Object.values(data.blocks).filter((block) => block.stop !== null).length;
  const video = document.getElementById("video");
  const coming = new Map();

  /* What came stays: the script would listen twice to every button. What did not come is asked for again by the next
     press. */
  const bring = (address) => {
    if (!coming.has(address)) {
      coming.set(address, new Promise((resolve, reject) => {
        const one = document.createElement(address.endsWith(".css") ? "link" : "script");
        if (one.localName === "link") one.rel = "stylesheet";
        one[one.localName === "link" ? "href" : "src"] = document.documentElement.dataset.root + address;
        one.addEventListener("load", resolve);
        one.addEventListener("error", () => {
          coming.delete(address);
          one.remove();
          reject(new Error("the panel cannot be had"));
        });
        document.head.append(one);
      }));
    }
    return coming.get(address);
  };

  const load = async () => {
    await Promise.all(source.dataset.loads.split(" ").map(bring));
    return window.TurnPanel;
  };

  const anchor = () => (window.TurnPanel ? TurnPanel.anchor() : null);

  const buttonOf = (name) => document.querySelector(`button[data-turn="${name}"]`);
  const stateOf = (button) => button.parentElement.querySelector(".turn-state");

  const open = async (name, opener, again) => {
    try {
      const panel = await load();
      if (opener && opener.dataset.turn) panel.unlock();
      if (!anchor()) panel.open(name, opener, again);
    } catch {
      const button = buttonOf(name);
      if (button) stateOf(button).textContent = words.not_there;
    }
  };

  const states = () => {
    if (anchor()) return;
    for (const button of document.querySelectorAll("button[data-turn]")) {
      const kept = Progress.turn(data.slug, button.dataset.turn);
      const through = kept && Progress.through(kept);
      const begun = kept && kept.done.length;
      button.textContent = through ? words.again : begun ? words.resume_turn : words.start_turn;
      stateOf(button).textContent = through
        ? words.done_today
        : begun ? words.part_done.replace("{n}", kept.done.length).replace("{of}", kept.need) : "";
    }
  };

  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-turn]");
    if (!button) return;
    const kept = Progress.turn(data.slug, button.dataset.turn);
    open(button.dataset.turn, button, Boolean(kept && Progress.through(kept)));
  });
  document.addEventListener("turn-reached", (event) => open(event.detail, video, false));
  document.addEventListener("turn-changed", states);
  if (video) {
    // So that it is there where the video stops, also where the network has gone meanwhile.
    video.addEventListener("play", () => load().catch(() => {}), { once: true });
    video.addEventListener("ended", () => Progress.watched(data.slug, of));
  }
  states();

  window.YourTurn = { open: (name) => open(name, buttonOf(name), false), anchor };
})();

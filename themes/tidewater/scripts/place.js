/* Where the viewer is in the session, kept in this browser, so that she finds her way back: after the browser's
   Back button, after closing the browser, and from the home page (home.js).

   Key     "<prefix>place", with the site's prefix (Needs.keep): one for the whole site
   Value   {"v": 1, "slug": …, "number": of the session, "part": from 1, "of": parts, "block": anchor,
            "open": true where the panel was, "video": seconds, "at": milliseconds}
   It goes when the session is complete. */
(() => {
  "use strict";
  // milliseconds between two notes of a playing video
  const EVERY = 5000;
  // milliseconds: after a week one begins the session again
  const KEPT = 7 * 24 * 3600 * 1000;
  const data = JSON.parse(document.getElementById("episode-data").textContent);
  const video = document.getElementById("video");
  const { number } = document.getElementById("turn-panel").dataset;
  const anchors = Object.keys(data.blocks);
  // a page that was only looked at is no place to come back to
  let touched = false;
  let noted = 0;

  const read = () => {
    const place = Needs.kept("place");
    const ours = place && place.v === 1 && place.slug === data.slug && Date.now() - place.at < KEPT && Number.isFinite(place.video);
    return ours ? place : null;
  };

  const blockNow = () => {
    if (YourTurn.anchor()) return YourTurn.anchor();
    const passed = anchors.filter((anchor) => data.blocks[anchor].at !== null && data.blocks[anchor].at <= Player.at());
    return passed[passed.length - 1] || anchors[0];
  };

  const isComplete = () => {
    const day = Progress.days(data.slug)[Progress.today()];
    return Boolean(day && day.complete);
  };

  const note = () => {
    if (!touched) return;
    noted = Date.now();
    const block = blockNow();
    const place = {
      v: 1, slug: data.slug, number: Number(number), part: anchors.indexOf(block) + 1, of: anchors.length,
      block, open: Boolean(YourTurn.anchor()), video: Player.at(), at: noted,
    };
    Needs.keep("place", isComplete() && !place.open ? null : place);
  };

  const touch = () => {
    touched = true;
    note();
  };

  /* A link to a moment goes there; a page that is loaded again shows where the viewer was. */
  const isAgain = () => {
    const [entry] = performance.getEntriesByType("navigation");
    return Boolean(entry && (entry.type === "reload" || entry.type === "back_forward"));
  };

  const comeBack = () => {
    const place = read();
    if (!place || (Player.asked && !isAgain())) return;
    if (video && place.video > 0) Player.show(place.video);
    const turn = place.open && data.blocks[place.block] && Progress.turn(data.slug, place.block);
    if (turn) YourTurn.open(place.block);
  };

  if (video) {
    video.addEventListener("play", touch);
    video.addEventListener("pause", note);
    video.addEventListener("timeupdate", () => { if (Date.now() - noted > EVERY) note(); });
    video.addEventListener("ended", note);
  }
  document.addEventListener("turn-changed", touch);
  document.addEventListener("visibilitychange", note);
  window.addEventListener("pagehide", note);
  comeBack();
})();

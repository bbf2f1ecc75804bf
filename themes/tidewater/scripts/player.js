/* The video: chapters and other times seek in the page, the current chapter is marked, and at
   each your turn the player stops by itself.

   Fires on document: "turn-reached" (detail: the block's anchor) when it stopped at your turn.
   Player.resume() plays on; Player.at() is the time in the video; Player.show(time) goes there without playing;
   Player.whenUnplayable(act) acts once no form of the video can be played.
   Player.hasFile tells that it can stop; Player.asked that the address names a moment or a part. */
(() => {
  "use strict";
  const data = JSON.parse(document.getElementById("episode-data").textContent);
  const video = document.getElementById("video");
  const hosted = document.getElementById("hosted");
  const stopping = document.getElementById("stop-at-turns");
  const turns = Object.entries(data.blocks)
    .filter(([, block]) => block.stop !== null)
    .map(([anchor, block]) => ({ anchor, at: block.stop }))
    .sort((one, other) => one.at - other.at);
  // timeupdate comes about four times a second: from here on a timer takes over
  const NEAR = 1.5;
  // timers may fire a little before their time
  const EARLY = 0.02;
  // a busy device lets the video run on: from here on one would hear the next words
  const LATE = 0.25;
  // the latest time that was seen playing
  let passed = 0;
  // where a fragment such as t=10,20 ends
  let end = null;
  let timer = 0;

  const stops = () => !stopping || stopping.checked;

  /* Stopping at your turn */

  const haltAt = (time) => {
    video.pause();
    if (video.currentTime > time + LATE) video.currentTime = time;
  };

  const stopAt = (turn) => {
    haltAt(turn.at);
    passed = Math.max(video.currentTime, turn.at);
    if (document.fullscreenElement) document.exitFullscreen();
    if (video.webkitDisplayingFullscreen) video.webkitExitFullscreen();
    document.dispatchEvent(new CustomEvent("turn-reached", { detail: turn.anchor }));
  };

  const check = () => {
    if (video.seeking) return;
    const now = video.currentTime;
    const reached = turns.find((turn) => turn.at > passed && turn.at <= now + EARLY);
    if (reached && stops()) {
      stopAt(reached);
      return;
    }
    if (end !== null && now >= end) {
      haltAt(end);
      end = null;
    }
    passed = Math.max(passed, now);
    watch();
  };

  const watch = () => {
    clearTimeout(timer);
    if (video.paused) return;
    const away = Math.min(...turns.map((turn) => turn.at).filter((at) => at > passed)) - video.currentTime;
    if (away < NEAR) timer = setTimeout(check, (1000 * Math.max(0, away)) / video.playbackRate);
  };

  const forget = () => {
    // who goes to your turn itself wants to see it
    passed = video.currentTime + EARLY;
    watch();
  };

  const ended = () => {
    const last = turns.find((turn) => turn.at > passed);
    if (last && stops()) stopAt(last);
  };

  /* Chapters */

  const links = [...document.querySelectorAll(".chapters a[data-start]")];

  const mark = (time) => {
    const current = data.chapters.findIndex(([start, until]) => time >= start && time < until);
    links.forEach((link, index) => {
      if (index !== current) link.removeAttribute("aria-current");
      else if (!link.hasAttribute("aria-current")) {
        link.setAttribute("aria-current", "true");
        showInList(link);
      }
    });
  };

  const showInList = (link) => {
    const list = link.closest("nav");
    const below = link.offsetTop + link.offsetHeight - (list.scrollTop + list.clientHeight);
    if (below > 0) list.scrollTop += below;
    else if (link.offsetTop < list.scrollTop) list.scrollTop = link.offsetTop;
  };

  /* Going to a time */

  const seek = (time) => {
    end = null;
    const go = () => { video.currentTime = time; };
    if (video.readyState >= HTMLMediaElement.HAVE_METADATA) go();
    else video.addEventListener("loadedmetadata", go, { once: true });
  };

  const load = (time) => {
    const frame = document.createElement("iframe");
    frame.src = hosted.dataset.player.replace("{seconds}", String(time));
    frame.title = hosted.dataset.title;
    frame.allow = "autoplay; fullscreen; picture-in-picture";
    // The host's player runs, remembers its own visitors and opens links beside; it cannot lead this page away.
    frame.sandbox = "allow-scripts allow-same-origin allow-popups allow-popups-to-escape-sandbox allow-presentation";
    frame.referrerPolicy = "strict-origin";
    hosted.replaceChildren(frame);
    mark(time);
  };

  const start = (time) => {
    if (hosted) {
      load(time);
      return;
    }
    seek(time);
    // the browser may want a press on the player itself
    video.play().catch(() => {});
  };

  /* Nothing of what the page offers can be played */

  const whenUnplayable = (act) => {
    // it is tried once all before it have failed
    const last = video.querySelector("source:last-of-type");
    if (last) last.addEventListener("error", act, { once: true });
    video.addEventListener("error", act, { once: true }); // the file's beginning could be read, the rest not
  };

  const keepInAddress = (time) => {
    try {
      history.replaceState(history.state, "", `#t=${time}`);
    } catch {
      // pages opened as files may not change their address
    }
  };

  const follow = (event) => {
    const link = event.target.closest("a[data-start]");
    if (!link || event.defaultPrevented || event.button || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    start(Number(link.dataset.start));
    keepInAddress(link.dataset.start);
    const stage = video || hosted;
    const top = stage.getBoundingClientRect().top;
    if (top < 0 || top > innerHeight / 2) stage.scrollIntoView({ block: "start" });
  };

  /* The address of the page: #t=125, ?t=125, ?block=first-tri-set, #first-tri-set */

  const startOf = (anchor) => {
    const place = anchor && document.getElementById(anchor);
    const link = place && place.querySelector("a[data-start]");
    return link && place.matches(".block, .item") ? { start: Number(link.dataset.start), place } : null;
  };

  const wanted = () => {
    const query = new URLSearchParams(location.search);
    const anchor = query.get("block");
    const time = MediaTime.fragment(location.hash) || MediaTime.fragment(`t=${query.get("t") || ""}`);
    return time || startOf(anchor) || startOf(MediaTime.decode(location.hash.slice(1)));
  };

  const open = () => {
    const place = wanted();
    if (!place) return;
    if (place.place && !location.hash) place.place.scrollIntoView();
    if (video) {
      seek(place.start);
      end = place.end || null;
    } else {
      hosted.querySelector("a")?.setAttribute("data-start", String(Math.floor(place.start)));
      mark(place.start);
    }
  };

  if (video) {
    const read = (event) => {
      check();
      mark(video.currentTime);
      if (event.type === "ended") ended();
    };
    // It is choosing a source, or none could be played before this script came: begin again, to hear of it.
    if (video.networkState === HTMLMediaElement.NETWORK_NO_SOURCE) video.load();
    whenUnplayable(() => { document.getElementById("no-play").hidden = false; });
    video.addEventListener("timeupdate", read);
    video.addEventListener("ended", read);
    video.addEventListener("seeking", forget);
    video.addEventListener("seeked", () => { forget(); mark(video.currentTime); });
    for (const name of ["play", "ratechange"]) video.addEventListener(name, watch);
    video.addEventListener("pause", () => clearTimeout(timer));
  }
  if (video || hosted) {
    document.addEventListener("click", follow);
    window.addEventListener("hashchange", open);
    open();
  }

  if (stopping) {
    stopping.checked = Needs.kept("stop") !== "no";
    stopping.addEventListener("change", () => {
      watch();
      Needs.keep("stop", stopping.checked ? "yes" : "no");
    });
  }

  window.Player = {
    hasFile: Boolean(video),
    whenUnplayable,
    at: () => (video ? video.currentTime : 0),
    asked: Boolean(wanted()),
    seek: start,
    show: (time) => { if (video) seek(time); },
    resume: () => {
      if (!video) return;
      video.play().catch(() => {});
      video.focus({ preventScroll: true });
    },
  };
})();

/* For somebody who comes back: the home page says where she was, or which session is next.

   It reads what place.js, progress-store.js and progress-log.js keep, and writes nothing. A newcomer's page stays
   as it is: "Start with session 1". */
(() => {
  "use strict";
  const first = document.getElementById("first-step");
  if (!first) return;
  const WEEK = 7 * 24 * 3600 * 1000; // milliseconds, as in place.js
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);

  const read = (name) => Needs.kept(name) || {};

  const sessions = [...document.querySelectorAll(".session[data-slug]")];
  const through = (turn) => Array.isArray(turn.done) && turn.done.length >= turn.need;
  const isComplete = (day) => (day.of ? Object.values(day.turns || {}).filter(through).length >= day.of : day.watched);

  const isDone = ({ dataset }) => {
    try {
      const ticked = read(`log/${dataset.slug}-1`).done;
      return Boolean(ticked) || (ticked !== false && Object.values(read(`done/${dataset.slug}`).days || {}).some(isComplete));
    } catch {
      return false; // damaged
    }
  };

  const point = (session, text) => {
    const act = first.querySelector(".act");
    const link = session.querySelector("h4 a");
    act.href = link.href;
    act.querySelector("span").textContent = text;
    const kit = first.querySelector(".first-kit");
    const needs = session.querySelector(".session-kit");
    if (kit) {
      kit.hidden = !needs;
      if (needs) kit.textContent = fill(first.dataset.fetch, { kit: needs.textContent });
    }
    const time = act.querySelector(".beside-name");
    const label = session.querySelector(".label");
    if (time) time.textContent = label ? label.textContent : "";
    flag(session);
  };

  const flag = (session) => {
    const part = session.closest("details");
    if (part) part.open = true;
    const old = document.querySelector(".flag-first");
    if (old) old.remove();
    const mark = document.createElement("p");
    mark.className = "flag flag-next";
    mark.textContent = first.dataset.here;
    (session.querySelector(".label") || session.querySelector("h4")).after(mark);
  };

  /* Whoever comes back knows what the series is: her way on comes first, with how far she is. */
  const welcome = (done) => {
    document.body.classList.add("is-returning");
    const count = first.querySelector(".first-done");
    count.hidden = !done;
    count.textContent = fill(first.dataset.done, { done, all: sessions.length });
  };

  const show = () => {
    const place = read("place");
    const age = Date.now() - place.at;
    const sound = place.v === 1 && age >= 0 && age < WEEK && [place.number, place.part, place.of].every(Number.isInteger);
    const open = sound && sessions.find((one) => one.dataset.slug === place.slug);
    if (open) {
      welcome(sessions.filter(isDone).length);
      point(open, fill(first.dataset.goOn, place));
      return;
    }
    const done = sessions.map(isDone);
    const next = sessions[done.lastIndexOf(true) + 1];
    if (!done.includes(true) || !next) return;
    welcome(done.filter(Boolean).length);
    const { number, title } = next.dataset;
    point(next, fill(first.dataset.next, { number, title }));
  };

  show();
})();

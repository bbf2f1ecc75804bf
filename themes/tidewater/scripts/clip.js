/* The moment at which an exercise is shown, played on its own page.

   Which film it is, and where the moment ends, says the page of the session: it is asked for once the viewer
   presses the button. The moment is a media fragment (#t=start,end), so the browser stops at its end by itself.
   Where the session's page cannot be had or has no film of its own, the viewer is led there. */
(() => {
  "use strict";
  const button = document.getElementById("clip-play");
  if (!button || !location.protocol.startsWith("http")) return;
  const start = Number(button.dataset.at);
  const session = new URL(button.dataset.session, location.href);

  /* Until the next exercise or part begins, or the viewer's turn. */
  const endIn = (page) => {
    const shown = [...page.querySelectorAll("[data-start]")].filter((one) => !one.closest("#transcript"));
    const data = JSON.parse(page.getElementById("episode-data").textContent);
    const turns = Object.values(data.blocks).map((block) => block.stop ?? Infinity);
    const later = [...shown.map((one) => Number(one.dataset.start)), ...turns].filter((time) => time > start);
    return Math.min(...later);
  };

  const filmOf = (page) => {
    const film = document.createElement("video");
    Object.assign(film, { controls: true, playsInline: true, width: 640, height: 360 });
    const end = endIn(page);
    for (const one of page.querySelectorAll("#video source, #video track[kind=captions]")) {
      const copy = document.importNode(one);
      const fragment = one.matches("source") ? `#t=${start}${Number.isFinite(end) ? `,${end}` : ""}` : "";
      copy.src = new URL(one.getAttribute("src"), session).href + fragment;
      film.append(copy);
    }
    return film;
  };

  const leave = () => { location.href = `${session.href}#t=${start}`; };

  const play = async () => {
    button.disabled = true;
    try {
      const answer = await fetch(session);
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      if (!page.querySelector("#video source")) throw new Error("the film is elsewhere");
      const film = filmOf(page);
      document.getElementById("clip").replaceChildren(film);
      film.focus();
      film.play().catch(() => {}); // the browser may want a press on the film itself
      button.hidden = true;
    } catch {
      leave();
    }
  };

  button.hidden = false;
  button.addEventListener("click", play);
})();

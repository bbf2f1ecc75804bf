/* Added to every page by the preview: reloads it after a save, and shows problems in the content
   above the page until they are fixed. Words come from the server; nothing here is part of the site. */
(() => {
  "use strict";
  const shown = document.currentScript.dataset.version;
  let panel = null;

  function show(problems) {
    hide();
    panel = document.createElement("section");
    panel.id = "sitegen-problems";
    panel.setAttribute("role", "alert");
    const heading = document.createElement("h2");
    heading.textContent = problems.title;
    const list = document.createElement("ul");
    for (const problem of problems.list) {
      const entry = document.createElement("li");
      const place = document.createElement("code");
      place.textContent = problem.place;
      const message = document.createElement("p");
      message.textContent = problem.message;
      const advice = document.createElement("p");
      advice.className = "advice";
      advice.textContent = problem.advice;
      entry.append(place, message, advice);
      list.append(entry);
    }
    panel.append(heading, list);
    document.body.prepend(panel);
    panel.scrollIntoView();
  }

  function hide() {
    if (!panel) return;
    panel.remove();
    panel = null;
  }

  const changes = new EventSource(`/-/changes?${location.pathname}`);
  changes.addEventListener("state", (event) => {
    const state = JSON.parse(event.data);
    if (state.problems) show(state.problems);
    else if (state.version !== shown) location.reload();
    else hide();
  });
})();

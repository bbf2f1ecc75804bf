/* The exercise index: joins words, filters and results, and keeps what is asked for in the address. */
(() => {
  "use strict";
  const finder = document.getElementById("finder");
  if (!finder) return;
  if (!window.exerciseData) {
    // The lists below do without.
    finder.querySelectorAll(".needs-scripts").forEach((element) => { element.hidden = true; });
    return;
  }

  const STEP = 20; // results drawn at once, and with each "show more"
  const PAUSE = { address: 250, voice: 700 }; // ms after the last change
  const OPEN = ["need", "pattern"]; // filters that are open from the start
  const { LISTS } = ExerciseFilter;
  const { counted, fill } = ExerciseHits;

  const part = (name) => document.getElementById(`finder-${name}`);
  const words = JSON.parse(part("script").textContent);
  const [form, filters, box, shownBox, hitList, more] = ["form", "filters", "words", "shown", "hits", "more"].map(part);
  const ticks = [...filters.querySelectorAll("input[type=checkbox]")];
  const everything = document.getElementById("every-exercise");
  const facets = [...filters.querySelectorAll("[data-list]")];

  const data = ExerciseData.read(window.exerciseData);
  const filter = ExerciseFilter.create(data);
  const hits = ExerciseHits.create(data, words, part("hit"));

  const later = (task, pause) => {
    let timer = 0;
    return () => {
      clearTimeout(timer);
      timer = setTimeout(task, pause);
    };
  };

  const put = (element, content) => {
    if (element.textContent !== content) element.textContent = content;
  };

  /* --- the form is the state, the address follows it ---------------------------------------- */

  const read = () => {
    const state = Object.fromEntries(LISTS.map((list) => [list, new Set()]));
    for (const tick of ticks) if (tick.checked) state[tick.name].add(tick.value);
    const [by, value] = shownBox.value.split(":");
    return { ...state, q: box.value.trim(), shown: by ? { by, value } : null };
  };

  const write = (query) => {
    const given = new URLSearchParams(query);
    box.value = given.get("q") || "";
    for (const tick of ticks) tick.checked = (given.get(tick.name) || "").split(",").includes(tick.value);
    const by = ["week", "episode"].find((name) => given.has(name));
    shownBox.value = by ? `${by}:${given.get(by)}` : given.get("shown") || "";
    if (shownBox.selectedIndex < 0) shownBox.value = ""; // an episode that is no more
  };

  /* Commas and colons stay readable in a link that people send to each other. */
  const queryOf = (state) => {
    const values = [["q", state.q], ...LISTS.map((list) => [list, [...state[list]].join(",")])];
    if (state.shown) values.push(state.shown.by === "never" ? ["shown", "never"] : [state.shown.by, state.shown.value]);
    const safe = (value) => encodeURIComponent(value).replace(/%20/g, "+").replace(/%2C/g, ",").replace(/%3A/g, ":");
    return values.filter(([, value]) => value).map(([name, value]) => `${name}=${safe(value)}`).join("&");
  };

  const keepInAddress = later(() => {
    const query = queryOf(read());
    try {
      history.replaceState(history.state, "", (query ? `?${query}` : location.pathname) + location.hash);
    } catch {
      // pages opened as files may not change their address
    }
  }, PAUSE.address);

  /* --- the index of words, built when it is first needed ------------------------------------ */

  let text = null;
  let indexed = false;
  const startIndex = () => {
    if (text) return;
    text = ExerciseText.create(ExerciseData.documents(data), words.ignored.split(" "));
    text.ready.then(() => {
      indexed = true;
      if (box.value.trim()) update();
    });
  };

  /* --- results ------------------------------------------------------------------------------ */

  let view = null; // {order, hits, terms, near, fitting}; null while nothing is asked for

  const drawMore = () => {
    const drawn = hitList.childElementCount;
    hitList.append(...view.order.slice(drawn, drawn + STEP).map((number) => hits.draw(number, view)));
    const left = view.order.length - hitList.childElementCount;
    more.hidden = left === 0;
    put(more.lastElementChild, counted(words.left, left));
  };

  const say = later(() => {
    const near = view && view.near ? [words.near] : [];
    put(part("status"), view ? [headline(), ...near].join(". ") : "");
  }, PAUSE.voice);

  const headline = () => (view.order.length ? counted(words.found, view.order.length) : words.none);

  const showResults = () => {
    part("results").hidden = !view;
    everything.hidden = Boolean(view);
    hitList.replaceChildren();
    if (!view) return;
    put(part("count"), headline());
    const note = view.order.length === 0 ? words.none_help : view.near ? words.near : "";
    put(part("note"), note);
    part("note").hidden = !note;
    drawMore();
  };

  /* --- filters ------------------------------------------------------------------------------ */

  const showCounts = (count) => {
    for (const tick of ticks) {
      const number = count(tick.name, tick.value);
      put(tick.parentElement.lastElementChild, String(number));
      tick.parentElement.classList.toggle("tick-none", number === 0);
    }
  };

  /* The choice of episodes may be long, so its numbers are brought up to date when it is looked at. */
  const showShownCounts = (options) => {
    for (const option of options) {
      if (option.value) put(option, `${option.dataset.name} (${passing.countShown(option.value)})`);
    }
  };

  const nameOf = (tick) => {
    const name = tick.parentElement.querySelector(".tick-name").textContent;
    return words[`chosen_${tick.name}`] ? fill(words[`chosen_${tick.name}`], { name }) : name;
  };

  const chip = (name, undo) => {
    const button = document.createElement("button");
    button.type = "button";
    button.setAttribute("aria-label", fill(words.remove, { name }));
    button.textContent = `${name} ×`;
    button.addEventListener("click", () => {
      undo();
      update();
      (part("chosen").querySelector("button") || box).focus();
    });
    const item = document.createElement("li");
    item.append(button);
    return item;
  };

  const showChosen = (state) => {
    const chosen = (n) => (n ? counted(words.chosen, n) : "");
    for (const facet of facets) put(facet.querySelector(".facet-chosen"), chosen(state[facet.dataset.list].size));
    const chips = ticks.filter((tick) => tick.checked).map((tick) => chip(nameOf(tick), () => { tick.checked = false; }));
    if (state.shown) chips.push(chip(shownBox.selectedOptions[0].dataset.name, () => { shownBox.value = ""; }));
    put(filters.querySelector(".facet-chosen"), chosen(chips.length));
    part("chosen").replaceChildren(...chips);
    part("clear").hidden = chips.length === 0 && !state.q;
  };

  const showMyNeeds = (state) => {
    const mine = window.Needs ? Needs.chosen() : [];
    part("my-needs").hidden = mine.every((need) => state.need.has(need));
    put(part("my-needs").querySelector("strong"), window.Needs ? Needs.names().join(", ") : "");
  };

  /* --- all together ------------------------------------------------------------------------- */

  let passing = null; // what the filter says

  const update = () => {
    const state = read();
    keepInAddress();
    if (state.q && !indexed) {
      finder.setAttribute("aria-busy", "true");
      everything.hidden = true;
      startIndex(); // calls again when it is ready
      return;
    }
    finder.removeAttribute("aria-busy");
    const found = state.q ? text.find(state.q) : null;
    passing = filter.apply(state, found && found.scores);
    const order = [...passing.hits.keys()];
    if (found) order.sort((one, other) => found.scores.get(other) - found.scores.get(one) || one - other);
    const fitting = LISTS.some((list) => state[list].size > 0);
    const near = Boolean(found && found.near && order.length);
    view = found || fitting || state.shown ? { order, hits: passing.hits, terms: found && found.terms, near, fitting } : null;
    showResults();
    showCounts(passing.count);
    showShownCounts(shownBox.selectedOptions);
    showChosen(state);
    showMyNeeds(state);
    say();
  };

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (view) part("count").focus();
  });
  box.addEventListener("input", update);
  filters.addEventListener("change", update);
  for (const event of ["pointerdown", "focus"]) shownBox.addEventListener(event, () => showShownCounts(shownBox.options));
  box.addEventListener("focus", startIndex);
  box.addEventListener("keydown", (event) => {
    const first = hitList.querySelector("a");
    if (event.key !== "ArrowDown" || !first) return;
    event.preventDefault();
    first.focus();
  });
  more.addEventListener("click", () => {
    const first = hitList.childElementCount;
    drawMore();
    hitList.children[first].querySelector("a").focus();
  });
  part("my-needs").addEventListener("click", () => {
    const mine = Needs.chosen();
    for (const tick of ticks) if (tick.name === "need" && mine.includes(tick.value)) tick.checked = true;
    update();
    part("count").focus();
  });
  part("clear").addEventListener("click", () => {
    write("");
    update();
    box.focus();
  });
  window.addEventListener("popstate", () => {
    write(location.search);
    update();
  });

  part("asked").hidden = false;
  for (const option of shownBox.options) option.dataset.name = option.textContent;
  const early = box.value; // typed before this script was there
  write(location.search);
  box.value = box.value || early;
  filters.firstElementChild.open = matchMedia("(min-width: 60rem)").matches;
  for (const facet of facets) facet.open = OPEN.includes(facet.dataset.list) || facet.querySelector(":checked") !== null;
  update();
  (window.requestIdleCallback || setTimeout)(startIndex);
})();

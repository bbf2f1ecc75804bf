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
  const NAMES = ["name", "also", "forms"]; // fields of what an exercise and its versions are called
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
  const answers = ExerciseAnswers.create(data.answers, words);

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

  let unknown = {}; // by filter, what the address asks for and the page does not have

  const write = (query) => {
    const given = new URLSearchParams(query);
    unknown = {};
    for (const list of LISTS) {
      const offered = new Set(ticks.filter((tick) => tick.name === list).map((tick) => tick.value));
      const strange = (given.get(list) || "").split(",").filter((value) => value && !offered.has(value));
      if (strange.length) unknown[list] = strange;
    }
    box.value = given.get("q") || "";
    for (const tick of ticks) tick.checked = (given.get(tick.name) || "").split(",").includes(tick.value);
    const by = ["week", "episode"].find((name) => given.has(name));
    shownBox.value = by ? `${by}:${given.get(by)}` : given.get("shown") || "";
    if (shownBox.selectedIndex < 0) {
      shownBox.value = "";
      unknown[by || "shown"] = [given.get(by || "shown")]; // an episode that is no more
    }
  };

  /* Commas and colons stay readable in a link that people send to each other. */
  const queryOf = (state) => {
    const values = [["q", state.q], ...LISTS.map((list) => [list, [...state[list]].join(",")])];
    if (state.shown) values.push(state.shown.by === "never" ? ["shown", "never"] : [state.shown.by, state.shown.value]);
    for (const [name, strange] of Object.entries(unknown)) {
      const known = values.find(([one]) => one === name);
      if (known) known[1] = [known[1], ...strange].filter(Boolean).join(",");
      else values.push([name, strange.join(",")]);
    }
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
    text = ExerciseText.create(ExerciseData.documents(data), `${words.ignored} ${words.pain} ${words.denial}`.split(" "));
    text.ready.then(() => {
      indexed = true;
      if (box.value.trim()) update();
    });
  };

  /* --- results ------------------------------------------------------------------------------ */

  let view = null; // {order, hits, terms, near, fitting, meant, instead}; null while nothing is asked for

  const drawMore = () => {
    const drawn = hitList.childElementCount;
    hitList.append(...view.order.slice(drawn, drawn + STEP).map((number) => hits.draw(number, view)));
    const left = view.order.length - hitList.childElementCount;
    more.hidden = left === 0;
    put(more.lastElementChild, counted(words.left, left));
  };

  const say = later(() => {
    const near = view && view.near ? [words.near] : [];
    const meant = view ? view.meant.answers.map(sentence) : [];
    put(part("status"), view ? [...meant, ...(view.instead && meant.length ? [] : [headline()]), ...near].join(". ") : "");
  }, PAUSE.voice);

  const headline = () => {
    if (view.order.length) return counted(words.found, view.order.length);
    const { answers: suggested } = view.meant;
    return view.instead && suggested.length ? counted(words.suggested, suggested.length) : words.none;
  };

  const helpFor = (state) => {
    if (view.order.length || view.instead) return view.near ? words.near : "";
    const filtered = state.shown || LISTS.some((list) => state[list].size);
    if (!filtered) return words.none_help_words;
    return state.q ? words.none_help : words.none_help_filters;
  };

  /* --- what may be meant -------------------------------------------------------------------- */

  const sentence = ({ list, name }) => fill(words[`answer_${list}`], { name });

  const choose = ({ list, value }) => {
    for (const tick of ticks) if (tick.name === list && tick.value === value) tick.checked = true;
    box.value = "";
    update();
    part("count").focus();
  };

  const drawAnswer = (answer) => {
    const item = part("answer").content.firstElementChild.cloneNode(true);
    const [button, link] = item.children;
    button.textContent = sentence(answer);
    button.addEventListener("click", () => choose(answer));
    if (answer.page) {
      link.href = `../${answer.page}`;
      link.textContent = answer.list === "need" ? words.page_need : words.page;
    } else link.remove();
    return item;
  };

  const showAnswers = ({ answers: suggested, pain }) => {
    part("answers").hidden = suggested.length === 0;
    part("answers").replaceChildren(...suggested.map(drawAnswer));
    part("care").hidden = !pain;
    put(part("care").firstElementChild, pain ? words.care : "");
  };

  /* Exercises come first, unless something hurts: then what suits the complaint does. */
  const placeAnswers = (first) => {
    if (first) part("care").before(part("answers"));
    else part("results").append(part("answers"));
  };

  const showResults = (state) => {
    part("results").hidden = !view;
    everything.hidden = Boolean(view);
    hitList.replaceChildren();
    if (!view) return;
    put(part("count"), headline());
    showAnswers(view.meant);
    placeAnswers(view.meant.pain || !view.order.length);
    const note = helpFor(state);
    put(part("note"), note);
    part("note").hidden = !note;
    drawMore();
  };

  /* --- filters ------------------------------------------------------------------------------ */

  const stayingAs = (same, changed) =>
    [same && counted(words.as_is, same), changed && counted(words.as_version, changed)].filter(Boolean).join(", ");

  const showCounts = ({ count, countAsIs }) => {
    for (const tick of ticks) {
      const number = count(tick.name, tick.value);
      const same = tick.name === "need" && number > 0 ? countAsIs(tick.value) : null;
      const told = same === null ? String(number) : stayingAs(same, number - same);
      put(tick.parentElement.lastElementChild, told);
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

  /* At the top of the page: for which needs the list is, and what of the address could not be kept. */
  const showTop = () => {
    const needs = ticks.filter((tick) => tick.checked && tick.name === "need").map(nameOf);
    part("shown-for").hidden = needs.length === 0;
    put(part("shown-for").firstElementChild, needs.length ? fill(words.shown_for, { names: needs.join(", ") }) : "");
    const strange = Object.values(unknown).flat().slice(0, 10).map((value) => `“${value.slice(0, 40)}”`);
    part("unknown").hidden = strange.length === 0;
    put(part("unknown").firstElementChild, strange.length ? fill(words.unknown, { names: strange.join(", ") }) : "");
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
    const meant = state.q ? answers.find(state.q) : { answers: [], pain: false, instead: false };
    // Beside a need only exercises that are called so are meant, not all that have a seat among their kit.
    const named = meant.answers.some(({ list }) => list === "need");
    const found = state.q ? text.find(state.q, named ? NAMES : undefined) : null;
    // What only comes near is no match for what is meant.
    const instead = meant.instead || (meant.answers.length > 0 && found && found.near);
    passing = filter.apply(state, found && !instead ? found.scores : null);
    const order = instead ? [] : [...passing.hits.keys()];
    if (found) order.sort((one, other) => found.scores.get(other) - found.scores.get(one) || one - other);
    const fitting = LISTS.some((list) => state[list].size > 0);
    const near = Boolean(found && found.near && order.length);
    view = found || fitting || state.shown ? { order, hits: passing.hits, terms: found && found.terms, near, fitting, meant, instead } : null;
    showResults(state);
    showCounts(passing);
    showTop();
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
    const first = part("results").querySelector(".answers button, .hits a"); // in the order in which they stand
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
  part("unknown").querySelector("button").addEventListener("click", () => {
    unknown = {};
    update();
    box.focus();
  });
  part("shown-for").querySelector("a").addEventListener("click", () => {
    filters.firstElementChild.open = true;
    for (const facet of facets) if (facet.dataset.list === "need") facet.open = true;
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

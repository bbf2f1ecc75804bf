/* An episode beside its film: the lines of its file, the film, and keys that change one line at a time.
   Every change is written at once by the preview; what could not be written is said, and nothing is lost. */
(() => {
  "use strict";
  const data = JSON.parse(document.getElementById("data").textContent);
  const film = document.getElementById("film");
  const list = document.getElementById("rows");
  const marked = document.getElementById("marks");
  const said = document.getElementById("said");
  const ask = document.getElementById("ask");
  const input = document.getElementById("value");
  const store = `sitegen-marks ${data.name}`;
  let rows = [];
  let seen = "";
  let chosen = "";
  let marks = JSON.parse(localStorage.getItem(store) || "[]");
  let busy = Promise.resolve();

  const clock = (seconds) => {
    const whole = Math.floor(seconds);
    const parts = [Math.floor(whole / 60) % 60, String(whole % 60).padStart(2, "0")];
    return whole < 3600 ? parts.join(":") : [Math.floor(whole / 3600), String(parts[0]).padStart(2, "0"), parts[1]].join(":");
  };
  const now = () => Math.floor(film.currentTime + 0.001);
  const isOpen = (row) => row.asked.length > 0 || (row.kind === "exercise" && row.at === null);

  /* -- what is shown */

  function line(row) {
    const entry = document.createElement("li");
    entry.id = `row-${row.id}`;
    entry.dataset.kind = row.kind;
    entry.dataset.open = isOpen(row) ? "yes" : "no";
    entry.setAttribute("role", "option");
    entry.setAttribute("aria-selected", String(row.id === chosen));
    const time = document.createElement("time");
    time.textContent = row.at === null ? "–:––" : clock(row.at);
    const name = document.createElement("span");
    const keepsPlace = row.asked.some((one) => one.text.includes("only keeps the place"));
    const amount = row.kind === "block" ? row.sets && `${row.sets} sets` : !keepsPlace && row.dose;
    name.textContent = [data.exercises[row.name] || row.name, amount].filter(Boolean).join(", ");
    entry.append(time, name);
    if (row.sure !== null) entry.append(small("sure", `  sure: ${Math.round(row.sure * 100)} in 100`));
    for (const one of row.asked) entry.append(small("asked", `${one.text}${one.at === null ? "" : ` (${clock(one.at)})`}`));
    entry.addEventListener("click", () => { choose(row.id, true); list.focus({ preventScroll: true }); });
    return entry;
  }

  function small(kind, words) {
    const part = document.createElement("span");
    part.className = kind;
    part.textContent = words;
    return part;
  }

  function show(state) {
    rows = state.rows;
    seen = state.seen;
    if (!rows.some((row) => row.id === chosen)) chosen = rows.length ? rows[0].id : "";
    list.replaceChildren(...rows.map(line));
    const open = rows.filter(isOpen).length;
    document.getElementById("left").textContent = open === 0 ? "No line is open" : open === 1 ? "1 line is open" : `${open} lines are open`;
    aim();
  }

  function showMarks() {
    localStorage.setItem(store, JSON.stringify(marks));
    marked.replaceChildren(...marks.map((at) => {
      const entry = document.createElement("li");
      const name = document.createElement("button");
      name.textContent = `${clock(at)}: name the exercise`;
      name.addEventListener("click", () => { film.currentTime = at; add(at); });
      const away = document.createElement("button");
      away.textContent = "Take away";
      away.setAttribute("aria-label", `Take the mark at ${clock(at)} away`);
      away.addEventListener("click", () => forget(at));
      entry.append(name, " ", away);
      return entry;
    }));
  }

  function forget(at) {
    marks = marks.filter((other) => other !== at);
    showMarks();
  }

  function aim() {
    for (const entry of list.children) entry.setAttribute("aria-selected", String(entry.id === `row-${chosen}`));
    const entry = document.getElementById(`row-${chosen}`);
    if (!entry) return;
    list.setAttribute("aria-activedescendant", entry.id);
    entry.scrollIntoView({ block: "nearest" });
  }

  function choose(id, go) {
    chosen = id;
    aim();
    const row = current();
    if (go && row && row.at !== null) film.currentTime = row.at;
  }

  const current = () => rows.find((row) => row.id === chosen);

  function step(by, go) {
    const place = rows.findIndex((row) => row.id === chosen) + by;
    if (rows[place]) choose(rows[place].id, go);
  }

  function toOpen() {
    const place = rows.findIndex((row) => row.id === chosen);
    const next = rows.slice(place + 1).find(isOpen) || rows[place + 1];
    if (next) choose(next.id, next.at !== null && isOpen(next));
  }

  /* -- what is changed: one request after the other, in the order of the keys */

  function send(action, wish = {}) {
    const meant = { action, row: chosen, ...wish };
    busy = busy.then(() => sendNow(meant)).catch(() => tell("The preview does not answer; is it running?"));
    return busy;
  }

  async function sendNow(meant) {
    const response = await fetch(`/-/film/${encodeURIComponent(data.name)}`, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Page-Token": data.token },
      body: JSON.stringify({ ...meant, seen }),
    });
    const state = await response.json();
    if (state.page) { location.href = state.page; return true; }
    if (state.refused) {
      tell(state.refused);
      await load();
      return false;
    }
    tell("");
    show(state);
    return true;
  }

  async function load() {
    if (!data.begun) return;
    const response = await fetch(`/-/film/${encodeURIComponent(data.name)}/rows`);
    const state = await response.json();
    if (state.refused) tell(state.refused);
    else show(state);
  }

  function tell(words) {
    said.textContent = words;
  }

  function wanted(words, value, known) {
    document.getElementById("wanted").textContent = words;
    document.getElementById("known").replaceChildren(...known.map(([id, name]) => {
      const option = document.createElement("option");
      option.value = id;
      option.label = name;
      return option;
    }));
    input.value = value;
    ask.returnValue = "";
    ask.showModal();
    input.select();
    return new Promise((done) => ask.addEventListener("close", () => done(ask.returnValue ? input.value.trim() : ""), { once: true }));
  }

  const library = () => Object.entries(data.exercises);
  const idOf = (words) => (library().find(([id, name]) => [id, name.toLowerCase()].includes(words.toLowerCase())) || [words])[0];

  async function add(at) {
    film.pause();
    const words = await wanted(`Which exercise begins at ${clock(at)}?`, "", library());
    if (!words) return;
    const written = await send(data.begun ? "new" : "begin", { value: idOf(words), at });
    if (written) forget(at);
  }

  async function give(action, words, value, known = []) {
    const found = await wanted(words, value, known);
    if (found) send(action, { value: action === "exercise" ? idOf(found) : found });
  }

  const keys = {
    " ": () => (film.paused ? film.play() : film.pause()),
    ArrowLeft: (event) => { film.currentTime -= event.shiftKey ? 15 : 3; },
    ArrowRight: (event) => { film.currentTime += event.shiftKey ? 15 : 3; },
    ArrowUp: (event) => step(-1, !event.shiftKey),
    ArrowDown: (event) => step(1, !event.shiftKey),
    h: () => send("here", { at: now() }).then((written) => written && step(1, false)),
    "-": () => shift(-1),
    "+": () => shift(1),
    "=": () => shift(1),
    y: () => send("accept").then((written) => written && toOpen()),
    e: () => give("exercise", "Which exercise is it?", current().name, library()),
    d: () => give("dose", "Its dose, as in an episode file: 8-12, 30 s, 10 each side", current().dose || ""),
    s: () => give("sets", "Sets of its block: 3, or 2-3", ""),
    t: () => send("here", { row: `${chosen.split(".")[0]}.turn`, at: now() }),
    a: () => { const row = current(); if (row && row.asked.length) send("answer", { value: row.asked[0].text }); },
    n: () => add(now()),
    m: () => { if (!marks.includes(now())) marks.push(now()); marks.sort((a, b) => a - b); showMarks(); },
    x: () => send("drop"),
    b: () => send("split"),
    j: () => send("join"),
    z: () => send("undo"),
  };
  const EMPTY = new Set([" ", "ArrowLeft", "ArrowRight", "n", "m"]);

  function shift(by) {
    const row = current();
    if (row && row.at !== null) send("here", { at: row.at + by }).then((written) => { if (written) film.currentTime = row.at + by; });
  }

  document.addEventListener("keydown", (event) => {
    if (ask.open || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.closest("button, summary, a") && [" ", "Enter"].includes(event.key)) return;
    if (press(event.key.length === 1 ? event.key.toLowerCase() : event.key, event)) event.preventDefault();
  });
  for (const button of document.querySelectorAll("[data-key]")) {
    button.addEventListener("click", (event) => press(button.dataset.key, event));
  }

  function press(key, event) {
    if (!Object.hasOwn(keys, key) || (!data.begun && !EMPTY.has(key)) || (!EMPTY.has(key) && !current() && key !== "z")) return false;
    keys[key](event);
    return true;
  }
  // The film's own keys would answer as well: all keys are the page's.
  film.addEventListener("keydown", (event) => { if (Object.hasOwn(keys, event.key)) event.preventDefault(); }, true);
  const tick = () => { document.getElementById("clock").textContent = clock(film.currentTime); };
  for (const event of ["timeupdate", "seeking", "loadedmetadata"]) film.addEventListener(event, tick);

  if (data.film) film.src = data.film;
  else tell("This episode names no film that is there: write video: {file: media/…} first.");
  if (!data.begun) {
    document.getElementById("left").textContent =
      "No episode has this film. Press N where the first exercise begins: the episode's file is written then.";
  }
  if (matchMedia("(max-width: 48rem)").matches) document.getElementById("keys").open = false;
  showMarks();
  load().then(() => { const open = rows.find(isOpen); if (open) choose(open.id, false); list.focus({ preventScroll: true }); });
})();

/* The schedule's page: the client's own days, the calendar file that follows them, printing, progress.

   Kept in this browser: own days in "<prefix>schedule" as {"v": 1, "start": date, "days": [weekday, …],
   "per_week": number or null}, and in
   "<prefix>calendar" what the last calendar file of own days was made of, as {"v": 1, "taken": …, "sequence":
   how often that changed}. */
(() => {
  "use strict";

  const source = document.getElementById("schedule-data");
  if (!source) return;
  const data = window.ScheduleData.read(source.textContent);
  const { words } = data;
  const { fill, later, monday } = window.ScheduleWords;
  const say = window.ScheduleWords.of(words, Object.fromEntries(data.sessions.map((one) => [one.number, one.title])));
  const view = window.ScheduleView.of(data, say);
  const rows = window.ProgressRows.of(data, say, (next, done) => offer(next, done));
  const form = document.getElementById("own-days");
  const status = document.getElementById("own-status");
  const reset = document.getElementById("own-reset");
  const link = document.getElementById("calendar-file");
  const follow = document.getElementById("calendar-follow");
  const boxes = [...form.elements.day];
  const trainers = { start: data.request.start, days: data.request.days, per_week: data.request.per_week };
  const DATE = /^\d{4}-\d{2}-\d{2}$/;

  /* --- the own plan --- */

  const isPlan = (plan) => Boolean(plan) && DATE.test(plan.start) && !Number.isNaN(Date.parse(plan.start))
    && Array.isArray(plan.days) && plan.days.length > 0 && plan.days.every((day) => window.ScheduleWords.WEEKDAYS.includes(day))
    && (plan.per_week === null || [1, 2, 3, 4, 5, 6, 7].includes(plan.per_week));

  const stored = (name) => {
    try {
      const kept = JSON.parse(localStorage.getItem(Needs.key(name)));
      return kept && kept.v === 1 ? kept : null;
    } catch {
      return null; // nothing kept, damaged, or storage is switched off
    }
  };

  const keep = (name, value) => {
    try {
      if (value) localStorage.setItem(Needs.key(name), JSON.stringify(value));
      else localStorage.removeItem(Needs.key(name));
    } catch {
      // the choice then holds until the page is left
    }
  };

  let own = isPlan(stored("schedule")) ? stored("schedule") : null;
  let shown = null;

  const wishes = ({ start, days, per_week }) => ({ start, days, per_week });
  const same = (plan) => JSON.stringify(wishes(plan)) === JSON.stringify(trainers);

  /* A wanted last day belongs to the trainer's own start. */
  const requestOf = (plan) => ({
    ...data.request, ...wishes(plan),
    finish_by: plan.start === trainers.start ? data.request.finish_by : null,
  });

  const ready = (plan) => plan.days.length > 0 && DATE.test(plan.start);

  const fillForm = (plan) => {
    form.elements.start.value = plan.start;
    form.elements.per_week.value = plan.per_week || "";
    boxes.forEach((box) => { box.checked = plan.days.includes(box.value); });
  };

  const show = (plan, message) => {
    const request = requestOf(plan);
    shown = ready(plan) ? planOf(plan) : { placements: [], conflicts: [] };
    view.show(shown, request);
    rows.attach();
    status.textContent = message;
    reset.hidden = !own || !ready(trainers);
    showStart(plan.start);
    link.hidden = !shown.placements.length;
    link.textContent = own ? words.files.own_calendar : words.files.calendar;
    follow?.toggleAttribute("hidden", Boolean(own)); // that address has the trainer's days
  };

  /* The field shows a date as the browser likes; in words nobody takes the ninth of July for the seventh of September. */
  const showStart = (start) => {
    document.getElementById("own-start").textContent = DATE.test(start) ? `${say.day(start)} ${start.slice(0, 4)}` : "";
  };

  const planOf = (plan) => window.Schedule.place(requestOf(plan));

  const choose = () => {
    const wanted = {
      start: form.elements.start.value,
      days: boxes.filter((box) => box.checked).map((box) => box.value),
      per_week: Number(form.elements.per_week.value) || null,
    };
    if (!ready(wanted)) {
      status.textContent = words.own.no_day;
      return;
    }
    own = same(wanted) ? null : { v: 1, ...wanted };
    keep("schedule", own);
    show(wanted, fill(words.own.done, { lead: say.lead(planOf(wanted), requestOf(wanted), data.calendar.start) }));
  };

  form.addEventListener("change", choose);
  form.addEventListener("submit", (event) => event.preventDefault());
  reset.addEventListener("click", () => {
    own = null;
    keep("schedule", null);
    fillForm(trainers);
    show(trainers, fill(words.own.trainers, { trainer: data.trainer }));
    form.elements.start.focus();
  });

  /* --- days that are past --- */

  const past = document.getElementById("past");

  const day = (plan, key) => planOf(plan).placements
    .find((one) => key === `${data.sessions.find(({ number }) => number === one.session).slug}-${one.repeat}`)?.date;

  /* The same days from a later week on, so that the session comes next week. Holidays and weeks off may push it
     further than the weeks between, so it is looked for, and a year is enough. */
  const movedOn = (plan, key) => {
    const nextWeek = later(monday(Progress.today()), 7);
    const before = day(plan, key);
    let weeks = Math.round((Date.parse(nextWeek) - Date.parse(monday(before))) / (7 * 864e5));
    for (const most = weeks + 52; weeks <= most; weeks += 1) {
      const moved = { ...wishes(plan), start: later(plan.start, 7 * weeks) };
      const date = day(moved, key);
      if (date >= nextWeek) return { plan: moved, date };
    }
    return null;
  };

  const offer = (next, done) => {
    const moved = next && movedOn(own || trainers, next.key);
    past.hidden = !moved;
    document.getElementById("plan-lead").hidden = Boolean(moved) && !done; // nothing of it is to come
    if (!moved) return;
    past.querySelector("h2").textContent = done ? words.own.when_go_on : words.own.when_start;
    past.querySelector("p").textContent = done ? fill(words.own.past_some, { session: next.name }) : words.own.past;
    const button = past.querySelector("button");
    const text = done ? words.own.go_on_next_week : words.own.start_next_week;
    button.textContent = fill(text, { session: next.name, day: say.day(moved.date) });
    button.onclick = () => take(moved.plan);
  };

  const take = (plan) => {
    own = { v: 1, ...plan };
    keep("schedule", own);
    fillForm(plan);
    show(plan, words.own.yours);
    document.getElementById("progress-next").focus();
  };

  /* --- the calendar file --- */

  /* A calendar that took an earlier file over notices the change by a higher count. */
  const nextSequence = () => {
    const kept = stored("calendar");
    const before = kept && Number.isInteger(kept.sequence) ? kept : { v: 1, taken: "", sequence: 0 };
    const taken = shown.placements.map((placed) => `${placed.session}-${placed.repeat} ${placed.date}`).join();
    const now = before.taken === taken ? before : { v: 1, taken, sequence: before.sequence + 1 };
    keep("calendar", now);
    return now.sequence;
  };

  link.addEventListener("click", (event) => {
    // The trainer's file is there to be fetched; after one of own days it would look out of date.
    if (!own && !stored("calendar")) return;
    event.preventDefault();
    shown ||= planOf(trainers);
    const text = window.ScheduleCalendar.file(data, shown, nextSequence(), new Date().toISOString());
    window.ProgressFile.save("schedule.ics", text, "text/calendar");
  });

  /* --- printing --- */

  const print = (what) => {
    document.documentElement.dataset.print = what;
    if (what === "list") rows.openNotes();
    window.print();
  };
  window.addEventListener("afterprint", () => { delete document.documentElement.dataset.print; });
  document.getElementById("print-months").addEventListener("click", () => print("months"));
  document.getElementById("print-list").addEventListener("click", () => print("list"));

  /* --- progress --- */

  const restore = (plan) => {
    if (!isPlan(plan)) return;
    own = same(plan) ? null : { v: 1, ...wishes(plan) };
    keep("schedule", own);
    fillForm(plan);
    show(plan, words.own.yours);
  };

  const keys = () => data.sessions.flatMap((one) =>
    Array.from({ length: data.request.repeats }, (_, n) => `${one.slug}-${n + 1}`));

  window.ProgressFile.of(data, {
    keys, plan: () => own && wishes(own), restore, changed: rows.attach,
  }).wire();

  if (own) {
    fillForm(own);
    show(own, words.own.yours);
  } else {
    showStart(trainers.start);
    rows.attach();
  }
})();

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
  const rows = window.ProgressRows.of(data, say, (next, done) => told(next, done));
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
    const kept = Needs.kept(name);
    return kept && kept.v === 1 ? kept : null;
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
    view.foldOver(Progress.today());
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
    const { next, done } = due;
    const plan = (done && next && beginning(wanted, next.key, wanted.start)?.plan) || wanted;
    own = same(plan) ? null : { v: 1, ...plan };
    Needs.keep("schedule", own);
    showStart(wanted.start);
    show(plan, fill(words.own.done, { lead: say.lead(planOf(plan), requestOf(plan), data.calendar.start) }));
  };

  form.addEventListener("change", choose);
  form.addEventListener("submit", (event) => event.preventDefault());
  reset.addEventListener("click", () => {
    own = null;
    Needs.keep("schedule", null);
    fillForm(trainers);
    show(trainers, fill(words.own.trainers, { trainer: data.trainer }));
    fillStart();
    form.elements.start.focus();
  });

  /* --- days that are past --- */

  const past = document.getElementById("past");
  const startLabel = form.querySelector("[data-slot=start]");
  let due = { next: null, done: 0, moved: null };

  const day = (plan, key) => planOf(plan).placements
    .find((one) => key === `${data.sessions.find(({ number }) => number === one.session).slug}-${one.repeat}`)?.date;

  /* The same wishes begun so early that a session comes on a day, or soon after it: those before it keep their
     distance. It comes the later, the later the plan begins; holidays and weeks off may make the way to it a few
     weeks longer or shorter than it is from that day on. */
  const SPARE_DAYS = 63;
  const beginning = (plan, key, from) => {
    const comes = (start) => day({ ...wishes(plan), start }, key);
    const way = comes(from);
    if (!way) return null;
    let least = -Math.round((Date.parse(way) - Date.parse(from)) / 864e5) - SPARE_DAYS;
    let most = 0;
    while (least < most) {
      const half = Math.floor((least + most) / 2);
      if (comes(later(from, half)) >= from) most = half; else least = half + 1;
    }
    // It begins with its first session: weeks are counted from there, and none shall be counted that has none.
    const start = planOf({ ...wishes(plan), start: later(from, most) }).placements[0].date;
    return { plan: { ...wishes(plan), start }, date: comes(start) };
  };

  /* Nothing is changed under the hands of somebody who is in the form. */
  const told = (next, done) => {
    const nextWeek = later(monday(Progress.today()), 7);
    due = { next, done, moved: next && next.late ? beginning(own || trainers, next.key, nextWeek) : null };
    offer(due);
    if (!form.contains(document.activeElement)) fillStart();
  };

  /* The first day of the plan or, once a session is done, that of the next one; never a week that is over. */
  const fillStart = () => {
    const { next, done, moved } = due;
    const first = moved ? moved.plan.start : (own || trainers).start;
    const start = done && next && next.date ? (moved ? moved.date : next.date) : first;
    startLabel.textContent = done && next ? words.own.start_next : words.own.start;
    form.elements.start.value = start;
    showStart(start);
  };

  const offer = ({ next, done, moved }) => {
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
    Needs.keep("schedule", own);
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
    Needs.keep("calendar", now);
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
  /* Months that are over are printed only where no other is left. */
  window.addEventListener("beforeprint", () => {
    if (!document.querySelector("#month-tables .month")) view.foldOver("");
  });
  window.addEventListener("afterprint", () => {
    delete document.documentElement.dataset.print;
    view.foldOver(Progress.today());
  });
  document.getElementById("print-months").addEventListener("click", () => print("months"));
  document.getElementById("print-list").addEventListener("click", () => print("list"));

  /* --- progress --- */

  const restore = (plan) => {
    if (!isPlan(plan)) return;
    own = same(plan) ? null : { v: 1, ...wishes(plan) };
    Needs.keep("schedule", own);
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
    view.foldOver(Progress.today());
    rows.attach();
  }
})();

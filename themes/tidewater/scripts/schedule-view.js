/* Shows a plan: fills copies of the page's templates with it, as the page was made with the trainer's.

   ScheduleView.of(data, say).show(plan, request)   data: of ScheduleData.read, say: ScheduleWords.of
                             .foldOver(today)       folds the months before today's away, none without a date */
(() => {
  "use strict";

  const MOST_CONFLICTS = 5;
  const LONG_NAME = 26; // letters; longer ones are smaller on the printed month (schedule_parts.html has it too)
  const { count, later, monday, weekday, fill } = window.ScheduleWords;

  const copy = (name, inside) => document.getElementById(`${name}-template`).content.querySelector(inside).cloneNode(true);
  const slot = (node, name) => node.querySelector(`[data-slot="${name}"]`);
  const put = (node, name, text) => { slot(node, name).textContent = text; };
  const drop = (node, name) => { const found = slot(node, name); if (found) found.remove(); };
  /* "../" on this page: where links lead is told by the title's link to the home page. */
  const root = document.querySelector(".masthead-title").getAttribute("href").replace("index.html", "");

  const of = (data, say) => {
    const sessions = new Map(data.sessions.map((one) => [one.number, one]));
    const address = (one, rest = "") => `${root}episodes/${one.slug}/${rest}index.html`;
    const kit = (one) => one.kit.join(", ");
    const { words } = data;

    const occurrence = (placed) => {
      const one = sessions.get(placed.session);
      const row = copy("occurrence", ".occurrence");
      row.dataset.key = `${one.slug}-${placed.repeat}`;
      row.dataset.date = placed.date;
      const name = say.session(placed.session, placed.repeat);
      put(row, "day", placed.date ? say.day(placed.date) : "");
      if (one.out) {
        put(row, "page", name);
        slot(row, "page").href = address(one);
        const sheet = slot(row, "sheet");
        sheet.href = address(one, "sheet/");
        sheet.setAttribute("aria-label", fill(words.list.sheet_of, { number: one.number }));
        ["name", "coming"].forEach((unused) => drop(row, unused));
      } else {
        put(row, "name", name);
        put(row, "coming", one.coming ? fill(words.list.coming, { day: one.coming }) : words.list.coming_later);
        drop(row, "page");
        drop(row, "sheet");
      }
      if (one.time) put(row, "time", one.time); else drop(row, "time");
      put(row, "kit", kit(one) || words.list.nothing);
      if (!one.out && one.released && placed.date && placed.date < one.released) {
        put(row, "early", fill(words.list.early, { day: one.coming }));
      } else drop(row, "early");
      const line = slot(row, "wait");
      for (const wait of placed.waits) {
        const own = line.cloneNode();
        own.textContent = say.wait(wait);
        line.before(own);
      }
      line.remove();
      return row;
    };

    const dayCell = (date, placed, free) => {
      const cell = copy("day", "td");
      cell.dataset.date = date;
      put(cell, "number", Number(date.slice(8)));
      if (placed) {
        const one = sessions.get(placed.session);
        drop(cell, one.out ? "coming" : "page");
        put(cell, "short", one.number);
        const name = say.session(placed.session, placed.repeat);
        put(cell, "name", name);
        slot(cell, "name").classList.toggle("long", name.length > LONG_NAME);
        if (one.out) slot(cell, "page").href = address(one);
        put(cell, "kit", one.fetch ?? kit(one));
      } else ["page", "coming", "kit"].forEach((unused) => drop(cell, unused));
      if (free) put(cell, "free", words.free[free]); else drop(cell, "free");
      return cell;
    };

    const noDay = () => {
      const cell = document.createElement("td");
      cell.className = "no-day";
      return cell;
    };

    /* ISO 8601: the week belongs to the year of its Thursday. */
    const isoWeek = (first) => {
      const thursday = later(first, 3);
      const newYear = `${thursday.slice(0, 4)}-01-01`;
      return Math.floor((Date.parse(thursday) - Date.parse(newYear)) / (7 * 864e5)) + 1;
    };

    const monthTable = (first, placed, free) => {
      const month = copy("month", ".month");
      const id = `month-${first.slice(0, 7)}`;
      month.setAttribute("aria-labelledby", id);
      month.querySelector("h3").id = id;
      put(month, "month", say.month(first));
      const inMonth = (date) => date.slice(0, 7) === first.slice(0, 7);
      for (let start = monday(first); start <= first || inMonth(start); start = later(start, 7)) {
        const row = copy("month-week", "tr");
        const number = isoWeek(start);
        const head = row.querySelector("th");
        head.textContent = number;
        head.setAttribute("aria-label", fill(words.months.week_number, { number }));
        for (let n = 0; n < 7; n++) {
          const date = later(start, n);
          row.append(inMonth(date) ? dayCell(date, placed.get(date), free.get(date)) : noDay());
        }
        month.querySelector("tbody").append(row);
      }
      return month;
    };

    const nextMonth = (first) => `${later(first, 31).slice(0, 7)}-01`;

    const freeDays = (plan, request) => {
      const free = new Map();
      for (const wait of plan.placements.flatMap((placed) => placed.waits)) {
        for (let date = wait.first; date <= wait.last; date = later(date, 1)) {
          if (request.days.includes(window.ScheduleWords.WEEKDAYS[weekday(date)])) free.set(date, wait.kind);
        }
      }
      return free;
    };

    const months = (plan, request) => {
      const placed = new Map(plan.placements.map((one) => [one.date, one]));
      const free = freeDays(plan, request);
      const dates = [...placed.keys()];
      const made = [];
      const last = dates[dates.length - 1];
      for (let first = dates.length ? `${dates[0].slice(0, 7)}-01` : ""; first && first <= last; first = nextMonth(first)) {
        made.push(monthTable(first, placed, free));
      }
      return made;
    };

    const listWeek = (start, first, placed) => {
      const week = copy("list-week", ".list-week");
      if (start) {
        const number = Math.round((Date.parse(start) - Date.parse(first)) / (7 * 864e5)) + 1;
        put(week, "week", fill(placed.length ? words.list.week : words.list.week_off, { number, days: say.week(start) }));
      } else drop(week, "week");
      const list = week.querySelector(".occurrences");
      if (placed.length) list.append(...placed.map(occurrence)); else list.remove();
      return week;
    };

    const weeks = (placements) => {
      const groups = new Map();
      for (const placed of placements) {
        const start = placed.date ? monday(placed.date) : "";
        groups.set(start, [...(groups.get(start) || []), placed]);
      }
      const [first] = groups.keys();
      const made = [];
      let due = first;
      for (const [start, placed] of groups) {
        for (; due < start; due = later(due, 7)) made.push(listWeek(due, first, []));
        made.push(listWeek(start, first, placed));
        if (start) due = later(start, 7);
      }
      return made;
    };

    const conflict = (one) => {
      const line = copy("conflict", "li");
      put(line, "text", say.conflict(one));
      const help = slot(line, "help");
      say.helps(one).forEach((text) => {
        const own = help.cloneNode();
        own.textContent = text;
        line.append(" ", own);
      });
      help.remove();
      return line;
    };

    const showConflicts = (conflicts) => {
      const section = document.getElementById("conflicts");
      const more = document.getElementById("conflicts-more");
      const rest = conflicts.length - MOST_CONFLICTS;
      section.hidden = !conflicts.length;
      section.querySelector("ul").replaceChildren(...conflicts.slice(0, MOST_CONFLICTS).map(conflict));
      more.hidden = rest <= 0;
      more.textContent = rest > 0 ? count(words.plan.more, rest) : "";
    };

    /* Sessions in order without days, where no plan can be made yet. */
    const undated = (request) => data.sessions.flatMap((one) =>
      Array.from({ length: request.repeats }, (_, n) => ({ session: one.number, repeat: n + 1, date: "", waits: [] })));

    const show = (plan, request) => {
      document.getElementById("plan-lead").textContent = say.lead(plan, request, data.calendar.start);
      showConflicts(plan.conflicts);
      const tables = months(plan, request);
      document.querySelector("#months-over div").replaceChildren();
      document.getElementById("month-tables").replaceChildren(...tables);
      document.querySelector(".months").hidden = !tables.length;
      const placed = plan.placements.length ? plan.placements : undated(request);
      document.getElementById("list-weeks").replaceChildren(...weeks(placed));
    };

    const foldOver = (today) => {
      const over = document.getElementById("months-over");
      const months = [...document.querySelectorAll(".months .month")];
      const past = months.filter((one) => one.querySelector("h3").id < `month-${today.slice(0, 7)}`);
      over.querySelector("div").append(...past);
      document.getElementById("month-tables").append(...months.filter((one) => !past.includes(one)));
      over.hidden = !past.length;
    };

    return { show, foldOver };
  };

  window.ScheduleView = { of };
})();

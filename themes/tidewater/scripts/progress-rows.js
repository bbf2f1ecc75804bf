/* Adds a tick and room for notes to every row of the list, and says what is done and what is next.

   ProgressRows.of(data, say, tell).attach()   after the list was made or remade; tell({key, name, date, late}, done) is
                                               told what comes next, whether its day is past, and how many are
                                               done; null where nothing is left */
(() => {
  "use strict";

  const { fill, monday } = window.ScheduleWords;
  const slot = (node, name) => node.querySelector(`[data-slot="${name}"]`);
  const copy = (name, inside) => document.getElementById(`${name}-template`).content.querySelector(inside).cloneNode(true);

  const of = (data, say, tell) => {
    const words = data.words.progress;
    const sessions = new Map(data.sessions.map((one) => [one.slug, one]));
    const split = (key) => {
      const at = key.lastIndexOf("-");
      return { one: sessions.get(key.slice(0, at)), repeat: Number(key.slice(at + 1)) };
    };
    const rows = () => [...document.querySelectorAll("#list-weeks .occurrence")];
    const stateOf = (key) => {
      const { one, repeat } = split(key);
      return ProgressLog.state(one.slug, repeat);
    };
    const nameOf = (key) => {
      const { one, repeat } = split(key);
      return say.session(one.number, repeat);
    };

    const warn = (kept) => {
      if (!kept) document.getElementById("progress-status").textContent = words.storage_off;
    };

    const note = (key, item, field, value) => warn(ProgressLog.change(key, (entry) => {
      entry.items[item] = { ...entry.items[item], [field]: value };
    }));

    const fillNotes = (log, key) => {
      const entry = ProgressLog.read(key);
      const items = split(key).one.items.map(([id, name, dose]) => {
        const row = copy("log-row", "tr");
        slot(row, "name").textContent = name;
        slot(row, "dose").textContent = dose;
        for (const field of ["load", "reps"]) {
          const input = slot(row, field);
          input.setAttribute("aria-label", fill(words[`${field}_of`], { name }));
          input.value = (entry.items && entry.items[id] && entry.items[id][field]) || "";
          input.addEventListener("change", () => note(key, id, field, input.value));
        }
        return row;
      });
      slot(log, "rows").replaceChildren(...items);
      const text = slot(log, "text");
      text.value = entry.text || "";
      text.onchange = () => warn(ProgressLog.change(key, (kept) => { kept.text = text.value; }));
    };

    const hasNotes = (entry) => Boolean(entry.text)
      || Object.values(entry.items || {}).some((item) => item.load || item.reps);

    const showState = (row) => {
      const { done, part } = stateOf(row.dataset.key);
      const log = row.querySelector(".log");
      slot(log, "done").checked = Boolean(done);
      const when = done ? fill(words.done_on, { day: say.day(done) })
        : part ? fill(words.part, { ...part, day: say.day(part.date) }) : "";
      slot(log, "when").textContent = when;
      row.classList.toggle("is-done", Boolean(done));
    };

    const showDays = (states) => {
      for (const cell of document.querySelectorAll("#month-tables td[data-date]")) {
        cell.classList.toggle("is-done", Boolean(states.get(cell.dataset.date)));
        cell.toggleAttribute("aria-current", false);
        if (cell.dataset.date === Progress.today()) cell.setAttribute("aria-current", "date");
      }
    };

    /* The one after the last that is done, for somebody may begin in the middle; else the first that is left. */
    const nextOf = (all) => {
      const last = all.map((one) => Boolean(one.done)).lastIndexOf(true);
      return all.slice(last + 1).find((one) => !one.done) || all.find((one) => !one.done);
    };

    const showSums = () => {
      const all = rows().map((row) => ({ row, done: stateOf(row.dataset.key).done }));
      const done = all.filter((one) => one.done).length;
      document.getElementById("progress-count").textContent = fill(words.count, { done, total: all.length });
      const next = nextOf(all);
      const date = next?.row.dataset.date;
      const dated = Boolean(date) && date >= monday(Progress.today()); // a day of an earlier week is no use to anybody
      const text = !all.length ? "" : !next ? words.all_done
        : fill(dated ? words.next : words.next_undated, {
          session: nameOf(next.row.dataset.key), day: dated ? say.day(date) : "",
        });
      document.getElementById("progress-next").textContent = text;
      const { key } = next?.row.dataset || {};
      tell(next ? { key, name: nameOf(key), date, late: Boolean(date) && !dated } : null, done);
      showDays(new Map(all.map((one) => [one.row.dataset.date, one.done])));
    };

    const attachTo = (row) => {
      const { key } = row.dataset;
      const log = copy("log", ".log");
      const session = nameOf(key);
      const tick = slot(log, "done");
      tick.setAttribute("aria-label", fill(words.done_label, { session }));
      tick.addEventListener("change", () => {
        warn(ProgressLog.change(key, (entry) => { entry.done = tick.checked ? Progress.today() : false; }));
        showState(row);
        showSums();
      });
      const notes = log.querySelector("details");
      slot(log, "summary").setAttribute("aria-label", fill(words.notes_of, { session }));
      notes.addEventListener("toggle", () => { if (notes.open) fillNotes(log, key); });
      notes.classList.toggle("has-notes", hasNotes(ProgressLog.read(key)));
      row.append(log);
      showState(row);
    };

    const attach = () => {
      rows().forEach((row) => {
        row.querySelectorAll(".log").forEach((old) => old.remove());
        attachTo(row);
      });
      showSums();
    };

    /* Notes are in the page only where they are open: before printing, those that hold something are. */
    const openNotes = () => document.querySelectorAll(".log-notes.has-notes:not([open])").forEach((notes) => {
      notes.open = true;
      fillNotes(notes.closest(".log"), notes.closest(".occurrence").dataset.key);
    });

    window.addEventListener("storage", attach);
    window.addEventListener("pageshow", (event) => { if (event.persisted) attach(); });
    window.addEventListener("beforeprint", openNotes);
    return { attach, openNotes };
  };

  window.ProgressRows = { of };
})();

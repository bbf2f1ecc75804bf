/* Saves ticks and notes to a file and takes them over from one; deletes them.

   The file is JSON: {"what": "progress of a series", "v": 1, "series": the site's address, "saved": date,
   "entries": {key: entry of progress-log.js}, "days": {slug: entry of progress-store.js},
   "plan": {"start", "days", "per_week"} of the client's own days, or null}

   ProgressFile.of(data, {keys, plan, restore, changed}).wire()
     keys() names all occurrences, plan() gives the own plan, restore(plan) takes one over, changed() shows again */
(() => {
  "use strict";

  const WHAT = "progress of a series";
  const { fill, count } = window.ScheduleWords;

  const isRecord = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
  const save = (name, text, type) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  };

  const of = (data, page) => {
    const words = data.words.progress;
    const say = (text) => { document.getElementById("progress-status").textContent = text; };
    const slugs = data.sessions.map((one) => one.slug);

    const storedDays = () => Object.fromEntries(
      slugs.map((slug) => [slug, Progress.sound(Needs.kept(`done/${slug}`))]).filter(([, kept]) => kept));

    const toFile = () => JSON.stringify({
      what: WHAT, v: 1, series: data.series, saved: Progress.today(),
      entries: ProgressLog.all(page.keys()), days: storedDays(), plan: page.plan(),
    }, null, 1);

    const keepDays = (slug, entry) => {
      const own = Progress.sound(Needs.kept(`done/${slug}`)) || { days: {} };
      if (!Needs.keep(`done/${slug}`, { v: 1, days: { ...entry.days, ...own.days } })) say(words.storage_off);
    };

    /* What the file says of a session takes the place of what was kept; days of the panel are joined. */
    const fromFile = (text) => {
      let file = null;
      try {
        file = JSON.parse(text);
      } catch {
        // said below
      }
      if (!isRecord(file) || file.what !== WHAT || file.v !== 1 || !isRecord(file.entries)) return say(words.bad_file);
      if (file.series !== data.series) return say(words.other_series);
      const keys = new Set(page.keys());
      const entries = Object.entries(file.entries).filter(([key]) => keys.has(key))
        .map(([key, entry]) => [key, ProgressLog.sound(entry)]).filter(([, entry]) => entry);
      entries.forEach(([key, entry]) => ProgressLog.write(key, entry));
      const days = Object.entries(isRecord(file.days) ? file.days : {}).filter(([slug]) => slugs.includes(slug))
        .map(([slug, entry]) => [slug, Progress.sound(entry)]).filter(([, entry]) => entry);
      days.forEach(([slug, entry]) => keepDays(slug, entry));
      page.restore(file.plan);
      page.changed();
      const sessions = new Set([...entries.map(([key]) => key.slice(0, key.lastIndexOf("-"))), ...days.map(([slug]) => slug)]);
      return say(count(words.imported, sessions.size));
    };

    const wire = () => {
      document.getElementById("progress-export").addEventListener("click", () => {
        const name = fill(words.file, { series: data.calendar.name.toLowerCase().replace(/[^a-z0-9]+/g, "-") });
        save(name, toFile(), "application/json");
      });
      const input = document.getElementById("progress-import");
      input.addEventListener("change", async () => {
        const [file] = input.files;
        if (file) fromFile(file.size < 5e6 ? await file.text() : "");
        input.value = "";
      });
      document.getElementById("progress-clear").addEventListener("click", () => {
        if (!window.confirm(words.clear_sure)) return;
        ProgressLog.clear(slugs, page.keys());
        page.changed();
        say(words.cleared);
      });
    };

    return { wire };
  };

  window.ProgressFile = { of, save };
})();

/* Load and repetitions, noted once for each exercise in the panel: they stand in the log of the schedule page.

   TurnNotes.add(slug, items, rows, words)   two fields below each row of the panel's list

   A session may be done several times: notes belong to the first time that is not done, or done today. */
(() => {
  "use strict";
  const { fill } = window.TurnWords;
  const MOST_TIMES = 100; // nobody does one session so often; ends the search where storage is odd

  const keyOf = (slug) => {
    let repeat = 1;
    while (repeat < MOST_TIMES) {
      const { done } = ProgressLog.state(slug, repeat);
      if (!done || done === Progress.today()) break;
      repeat += 1;
    }
    return `${slug}-${repeat}`;
  };

  const field = (slug, item, name, words, status) => {
    const label = document.createElement("label");
    const input = document.createElement("input");
    const kept = (ProgressLog.read(keyOf(slug)).items || {})[item.id] || {};
    input.value = kept[name] || "";
    input.maxLength = name === "load" ? 40 : 60;
    input.autocomplete = "off";
    input.inputMode = name === "load" ? "text" : "numeric";
    input.setAttribute("aria-label", fill(words[`notes_${name}_of`], { name: item.name }));
    input.addEventListener("change", () => {
      const done = ProgressLog.change(keyOf(slug), (entry) => {
        entry.items[item.id] = { load: "", reps: "", ...entry.items[item.id], [name]: input.value.trim() };
      });
      status.textContent = done ? words.notes_kept : words.notes_off;
    });
    label.append(words[`notes_${name}`], input);
    return label;
  };

  const add = (slug, items, rows, words) => rows.forEach((row, index) => {
    const item = items[index];
    if (item.skip) return;
    const notes = document.createElement("details");
    notes.className = "panel-notes";
    const summary = document.createElement("summary");
    summary.textContent = words.notes;
    const fields = document.createElement("p");
    const status = document.createElement("span");
    status.setAttribute("role", "status");
    const made = ["load", "reps"].map((name) => field(slug, item, name, words, status));
    notes.open = made.some((label) => label.querySelector("input").value);
    fields.append(...made, status);
    notes.append(summary, fields);
    row.append(notes);
  });

  window.TurnNotes = { add };
})();

/* The log on a client's own page: kept on this device, saved as one file, taken over from one.

   Kept under "plan/<code>" as the file itself: {"what": "log of a client", "v": 2, "for": code of the plan,
   "series": address, "saved": moment, "sittings": {"<slug>-<time>": {"v": 1, "done": day, "effort": 0-10,
   "text", "pain": where ("" is "somewhere"), "dizzy": true, "changed": moment,
   "items": {"exercise/variant": {"load", "reps", "effort": 0-10}}}}}. Fields without a value are left out.
   "tests": [{"test": name, "day", "result": whole number}] are field tests, one result of each a day.
   Version 1 had no effort of single exercises and no tests. */
(() => {
  "use strict";
  const data = JSON.parse(document.getElementById("plan-data").textContent);
  const { words } = data;
  const key = `plan/${data.code}`;
  const status = document.getElementById("send-status");
  const forms = [...document.querySelectorAll(".her-log[data-sitting]")];
  const testForms = [...document.querySelectorAll(".her-test")];
  const isRecord = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
  const DAY = /^\d{4}-\d{2}-\d{2}$/;

  const { short } = PlainText;
  const isEffort = (value) => Number.isInteger(value) && value >= 0 && value <= 10;
  const soundItem = (item) => {
    const found = { load: short(item.load, 40), reps: short(item.reps, 60) };
    return {
      ...Object.fromEntries(Object.entries(found).filter(([, value]) => value)),
      ...(isEffort(item.effort) ? { effort: item.effort } : {}),
    };
  };
  const soundSitting = (one) => ({
    v: 1,
    ...(DAY.test(one.done) ? { done: one.done } : {}),
    ...(isEffort(one.effort) ? { effort: one.effort } : {}),
    ...(short(one.text, 2000) ? { text: short(one.text, 2000) } : {}),
    ...(typeof one.pain === "string" ? { pain: short(one.pain, 200) } : {}),
    ...(one.dizzy === true ? { dizzy: true } : {}),
    ...(short(one.changed, 30) ? { changed: short(one.changed, 30) } : {}),
    items: Object.fromEntries(Object.entries(isRecord(one.items) ? one.items : {})
      .filter(([, item]) => isRecord(item)).map(([id, item]) => [id, soundItem(item)])),
  });

  /* What the page would have written itself of a log; null for none of this plan. */
  const sound = (log) => {
    if (!isRecord(log) || log.what !== data.what || ![1, 2].includes(log.v) || log.for !== data.code || !isRecord(log.sittings)) return null;
    const known = new Set(forms.map((form) => form.dataset.sitting));
    return Object.fromEntries(Object.entries(log.sittings)
      .filter(([id, one]) => known.has(id) && isRecord(one)).map(([id, one]) => [id, soundSitting(one)]));
  };

  const isTest = (one) => isRecord(one) && testForms.some((form) => form.dataset.test === one.test)
    && DAY.test(one.day) && Number.isInteger(one.result) && one.result >= 0 && one.result <= 999;
  const soundTests = (log) => (isRecord(log) && Array.isArray(log.tests) ? log.tests : []).filter(isTest)
    .map(({ test, day, result }) => ({ test, day, result }));
  /* Of two results of one test and day the later one in the list holds. */
  const joined = (...lists) => [...new Map(lists.flat().map((one) => [`${one.test} ${one.day}`, one])).values()].slice(-200);

  const file = () => JSON.stringify({
    what: data.what, v: 2, for: data.code, series: data.series, saved: new Date().toISOString(), sittings, tests,
  }, null, 1);

  const read = () => {
    try {
      const log = JSON.parse(localStorage.getItem(key));
      return { sittings: sound(log) || {}, tests: soundTests(log) };
    } catch {
      return { sittings: {}, tests: [] }; // nothing kept, damaged, or storage is switched off
    }
  };
  let { sittings, tests } = read();

  const keep = () => {
    try {
      localStorage.setItem(key, file());
      return true;
    } catch {
      return false; // storage is full or switched off: it holds until the page is closed
    }
  };

  const field = (form, name) => form.querySelector(`[data-field="${name}"]`);

  const showCare = (form) => {
    const hurt = field(form, "hurt").checked;
    const care = form.querySelector(".log-care");
    form.querySelector(".pain-where").hidden = !hurt;
    care.textContent = hurt || field(form, "dizzy").checked ? care.dataset.words : "";
  };

  const showDone = () => {
    for (const line of document.querySelectorAll(".days li")) {
      line.classList.toggle("is-done", Boolean((sittings[line.dataset.sitting] || {}).done));
    }
  };

  const fill = (form) => {
    const one = sittings[form.dataset.sitting] || { items: {} };
    for (const name of ["done", "text"]) field(form, name).value = one[name] || "";
    field(form, "effort").value = one.effort === undefined ? "" : String(one.effort);
    field(form, "hurt").checked = one.pain !== undefined;
    field(form, "pain").value = one.pain || "";
    field(form, "dizzy").checked = Boolean(one.dizzy);
    for (const row of form.querySelectorAll("[data-item]")) {
      const item = one.items[row.dataset.item] || {};
      for (const input of row.querySelectorAll("[data-amount]")) input.value = item[input.dataset.amount] ?? "";
    }
    showCare(form);
  };

  const amountOf = (input) => {
    const text = input.value.trim();
    return input.dataset.amount === "effort" && text ? Number(text) : text;
  };

  const take = (form) => {
    const effort = field(form, "effort").value;
    const items = [...form.querySelectorAll("[data-item]")].map((row) => [row.dataset.item, soundItem(
      Object.fromEntries([...row.querySelectorAll("[data-amount]")].map((input) => [input.dataset.amount, amountOf(input)])),
    )]).filter(([, item]) => Object.keys(item).length);
    sittings[form.dataset.sitting] = soundSitting({
      done: field(form, "done").value,
      effort: effort === "" ? null : Number(effort),
      text: field(form, "text").value.trim(),
      pain: field(form, "hurt").checked ? field(form, "pain").value.trim() : null,
      dizzy: field(form, "dizzy").checked,
      changed: new Date().toISOString(),
      items: Object.fromEntries(items),
    });
  };

  for (const form of forms) {
    fill(form);
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", () => {
      take(form);
      showCare(form);
      showDone();
      form.querySelector(".log-kept").textContent = keep() ? words.kept : words.not_kept;
    });
  }
  const fillTests = () => {
    for (const form of testForms) {
      const last = tests.filter((one) => one.test === form.dataset.test).sort((a, b) => (a.day < b.day ? -1 : 1)).pop();
      form.querySelector("[data-test-day]").value = last ? last.day : "";
      form.querySelector("[data-test-result]").value = last ? String(last.result) : "";
    }
  };
  for (const form of testForms) {
    const [day, result] = ["day", "result"].map((name) => form.querySelector(`[data-test-${name}]`));
    form.querySelector("form").addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", () => {
      const one = { test: form.dataset.test, day: day.value, result: result.value === "" ? null : Number(result.value) };
      // An empty result takes that day's away.
      tests = tests.filter((other) => other.test !== one.test || other.day !== one.day);
      if (isTest(one)) tests = joined(tests, [one]);
      form.querySelector(".log-kept").textContent = keep() ? words.kept : words.not_kept;
    });
  }
  fillTests();
  showDone();
  // Whoever has trained already has read what is to be read before.
  if (Object.values(sittings).some((one) => one.done)) document.getElementById("before").open = false;

  const blob = () => new File([file()], words.file, { type: "application/json" });
  const save = (content) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(content);
    link.download = content.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  };

  document.getElementById("save-log").addEventListener("click", () => {
    save(blob());
    status.textContent = words.saved;
  });

  const share = document.getElementById("share-log");
  if (navigator.canShare && navigator.canShare({ files: [blob()] })) {
    share.hidden = false;
    share.addEventListener("click", () => navigator.share({ files: [blob()] }).catch(() => {})); // she changed her mind
  }

  document.getElementById("load-log").addEventListener("change", async (event) => {
    const [chosen] = event.target.files;
    let log = null;
    let measured = [];
    try {
      const whole = chosen && chosen.size < 1e6 ? JSON.parse(await chosen.text()) : null;
      log = sound(whole);
      measured = soundTests(whole);
    } catch {
      // said below
    }
    event.target.value = "";
    status.textContent = log ? words.imported : words.bad;
    if (!log) return;
    // A moment more than a day to come is that of a clock which was ahead: it would win for ever.
    const tomorrow = new Date(Date.now() + 864e5).toISOString();
    const age = (one) => (one.changed && one.changed <= tomorrow ? one.changed : "");
    for (const [id, one] of Object.entries(log)) {
      const mine = sittings[id];
      if (!mine || age(one) >= age(mine)) sittings[id] = one;
    }
    tests = joined(tests, measured);
    keep();
    forms.forEach(fill);
    fillTests();
    showDone();
  });

  document.getElementById("clear-log").addEventListener("click", () => {
    if (!window.confirm(words.clear_sure)) return;
    sittings = {};
    tests = [];
    try {
      localStorage.removeItem(key);
    } catch {
      // then there is nothing kept to forget
    }
    forms.forEach(fill);
    fillTests();
    showDone();
    status.textContent = words.cleared;
  });

  const calendar = document.getElementById("save-calendar");
  if (calendar) calendar.addEventListener("click", () => save(new File([data.calendar], words.calendar, { type: "text/calendar" })));

  for (const button of document.querySelectorAll("[data-print]")) {
    button.addEventListener("click", () => {
      for (const sheet of document.querySelectorAll(".papers .sheet")) {
        sheet.classList.toggle("print-this", sheet.dataset.sheet === button.dataset.print);
      }
      document.body.classList.add("printing");
      window.print();
      document.body.classList.remove("printing");
    });
  }

  /* A link to a session opens it. */
  const unfold = () => {
    const session = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!session || !session.matches("details")) return;
    session.open = true;
    // The browser went there while it was closed; the fonts move it once more.
    document.fonts.ready.then(() => session.scrollIntoView());
  };
  window.addEventListener("hashchange", unfold);
  unfold();
})();

/* Ticks and notes of a client, kept in this browser: one entry for each time a session is done.

   Key     "<prefix>log/<slug>-<time>", with the site's prefix (Needs.keep)
   Value   {"v": 1, "done": "2026-09-11" or false, "text": …, "items": {id: {"load": …, "reps": …}}}
             done   the day it was ticked; false where a tick was taken away; left out where nothing is said

   What was done in the your-turn panel is kept by progress-store.js for each episode and day. The n-th day
   on which an episode was completed there counts as its n-th time, unless the tick was taken away here.

   ProgressLog.sound(entry)           what the page would have written itself of an entry; null for none of ours
   ProgressLog.read(key)              the entry, {} for none
   ProgressLog.change(key, edit)      edit(entry) and keep it; false where the browser keeps nothing
   ProgressLog.state(slug, repeat)    {done: date or "", part: {date, done, of} or null}
   ProgressLog.all(keys)              entries by key, those that are there
   ProgressLog.write(key, entry)      keep an entry as it is
   ProgressLog.clear(slugs, keys)     forget everything about these */
(() => {
  "use strict";

  const DATE = /^\d{4}-\d{2}-\d{2}$/;
  const place = (key) => `log/${key}`;

  /* What the browser would not keep: then it holds until the page is left. */
  const unkept = new Map();

  const isRecord = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
  const { short } = PlainText;

  const sound = (entry) => {
    if (!isRecord(entry) || entry.v !== 1) return null;
    const items = Object.entries(isRecord(entry.items) ? entry.items : {}).filter(([, item]) => isRecord(item));
    return {
      v: 1,
      ...(entry.done === false || DATE.test(entry.done) ? { done: entry.done } : {}),
      ...(short(entry.text, 2000) ? { text: short(entry.text, 2000) } : {}),
      items: Object.fromEntries(items.map(([id, item]) => [id, { load: short(item.load, 40), reps: short(item.reps, 60) }])),
    };
  };

  const read = (key) => unkept.get(key) || sound(Needs.kept(place(key))) || {};

  const write = (key, entry) => {
    const kept = Needs.keep(place(key), entry);
    if (kept) unkept.delete(key);
    else unkept.set(key, entry);
    return kept;
  };

  const change = (key, edit) => {
    const entry = { v: 1, items: {}, ...JSON.parse(JSON.stringify(read(key))) };
    edit(entry);
    return write(key, entry);
  };

  const state = (slug, repeat) => {
    const own = read(`${slug}-${repeat}`).done;
    const days = Object.entries(Progress.days(slug)).sort();
    const complete = days.filter(([, day]) => day.complete).map(([date]) => date);
    const done = own === undefined ? complete[repeat - 1] || "" : own || "";
    // A day under way belongs to the first time that is not done.
    const begun = days.filter(([, day]) => !day.complete && day.done);
    const last = !done && own === undefined && complete.length === repeat - 1 ? begun[begun.length - 1] : null;
    return { done, part: last ? { date: last[0], done: last[1].done, of: last[1].of } : null };
  };

  const all = (keys) => Object.fromEntries(keys.map((key) => [key, read(key)]).filter(([, entry]) => entry.v));

  const clear = (slugs, keys) => {
    unkept.clear();
    const names = [...keys.map(place), ...slugs.map((slug) => `done/${slug}`), "place"];
    names.forEach((name) => Needs.keep(name, null));
  };

  window.ProgressLog = { sound, read, write, change, state, all, clear };
})();

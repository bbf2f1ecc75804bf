/* What was done on which day, kept in this browser: one entry for each episode.

   Key     "<prefix>done/<slug>", with the site's prefix (Needs.keep)
   Value   {"v": 1, "days": {"2026-09-11": {"of": 3, "watched": true, "turns": {"first-tri-set": turn, …}}}}
             days     by local date, the latest 60 on which something was done
             of       how many parts of the session are your turn
             watched  there and true where the video was seen to its end
             turns    by anchor of the block: {"done": [id of a set, …], "need": 8, "rounds": 4, …}
                      where the part is through when done.length >= need;
                      "at", "clock", "rounds" and "seen" say where a turn under way stands
   A day is complete when all its turns are through or, for a session without any, when it was watched.

   What is damaged is left aside, day by day; so is what another program wrote there.

   Progress.today()            local date as year-month-day
   Progress.sound(entry)       the entry with its sound days only, null where it is none
   Progress.days(slug)         {date: {done, of, complete}}: parts that are through
   Progress.turn(slug, block)  the turn kept for today, or null
   Progress.keep(slug, of, block, turn, day)   keep it for the day on which it was begun
   Progress.watched(slug, of)  the video was seen to its end today */
(() => {
  "use strict";
  const MOST_DAYS = 60;
  const DATE = /^\d{4}-\d{2}-\d{2}$/;
  const place = (slug) => `done/${slug}`;

  const today = () => {
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  };

  const isRecord = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
  const isCount = (value) => Number.isInteger(value) && value >= 0;
  // until: of older pages
  const isClock = (clock) => isRecord(clock) && (Number.isFinite(clock.until) || Number.isFinite(clock.left));

  const isTurn = (turn) => isRecord(turn) && isCount(turn.need)
    && Array.isArray(turn.done) && turn.done.every((id) => typeof id === "string")
    && isCount(turn.at ?? 0) && isCount(turn.rounds ?? 0) && (!turn.clock || isClock(turn.clock));

  const isDay = ([date, day]) => DATE.test(date) && isRecord(day) && isCount(day.of)
    && isRecord(day.turns) && Object.values(day.turns).every(isTurn);

  const sound = (entry) => {
    if (!isRecord(entry) || entry.v !== 1 || !isRecord(entry.days)) return null;
    return { v: 1, days: Object.fromEntries(Object.entries(entry.days).filter(isDay)) };
  };

  const read = (slug) => sound(Needs.kept(place(slug))) || { v: 1, days: {} };

  const change = (slug, of, edit, date = today()) => {
    const entry = read(slug);
    const day = (entry.days[date] ||= { of, turns: {} });
    day.of = of;
    edit(day);
    for (const old of Object.keys(entry.days).sort().slice(0, -MOST_DAYS)) delete entry.days[old];
    return Needs.keep(place(slug), entry);
  };

  const through = (turn) => turn.done.length >= turn.need;

  const sum = (day) => {
    const done = Object.values(day.turns).filter(through).length;
    return { done, of: day.of, complete: day.of ? done >= day.of : Boolean(day.watched) };
  };

  window.Progress = {
    today,
    sound,
    through,
    days: (slug) => Object.fromEntries(Object.entries(read(slug).days).map(([date, day]) => [date, sum(day)])),
    turn: (slug, block) => read(slug).days[today()]?.turns[block] || null,
    keep: (slug, of, block, turn, date) => change(slug, of, (day) => { day.turns[block] = turn; }, date),
    watched: (slug, of) => change(slug, of, (day) => { day.watched = true; }),
  };
})();

/* The schedule's sentences in the browser, as sitegen/pages/schedule/sentences.py writes them.

   ScheduleWords.of(words, titles)  sayings of a plan: words are the theme's, titles by number of the session
   ScheduleWords.fill(text, values)  puts values into a text's {places}
   ScheduleWords.count(forms, n)     "one|many" with n for its # */
(() => {
  "use strict";

  const DAY_MS = 864e5;
  const WEEKDAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (place, name) => (name in values ? values[name] : place));
  const count = (forms, number) => {
    const [one, many] = forms.split("|");
    return (number === 1 || !many ? one : many).replace("#", number);
  };

  const utc = (date) => new Date(`${date}T00:00:00Z`);
  const later = (date, days) => new Date(utc(date).getTime() + days * DAY_MS).toISOString().slice(0, 10);
  /* 0 for Monday to 6 for Sunday. */
  const weekday = (date) => (utc(date).getUTCDay() + 6) % 7;
  const monday = (date) => later(date, -weekday(date));
  const clock = (minutes) => `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;

  const of = (words, titles) => {
    const { calendar } = words;
    const parts = (date) => ({ day: utc(date).getUTCDate(), month: calendar.months[utc(date).getUTCMonth()], year: utc(date).getUTCFullYear() });
    const fullDay = (date) => fill(calendar.day, parts(date));
    const day = (date) => fill(words.day, { ...parts(date), weekday: calendar.weekdays[weekday(date)] });
    const shortDay = (date) => fill(words.short_day, parts(date));
    const month = (date) => fill(words.month, parts(date));

    const week = (first) => {
      const last = later(first, 6);
      if (first.slice(0, 7) !== last.slice(0, 7)) return fill(words.days, { first: shortDay(first), last: shortDay(last) });
      return fill(words.days_in_month, { first: parts(first).day, last: parts(last).day, month: parts(first).month });
    };

    const listed = (some, last = words.and) => {
      const all = [...some];
      const end = all.pop() || "";
      return all.length ? all.join(words.between) + last + end : end;
    };

    const session = (number, repeat = 1) =>
      fill(repeat === 1 ? words.session : words.session_again, { number, title: titles[number] || "", repeat });

    const lead = (plan, request, start) => {
      const placed = plan.placements;
      if (!placed.length) return fill(words.lead_open, { sessions: count(words.sessions, request.sessions.length) });
      const sessions = count(words.sessions, placed.length);
      const [first, last] = [placed[0], placed[placed.length - 1]].map((one) => fullDay(one.date));
      if (placed.length === 1) return fill(words.lead_one, { sessions, first });
      const days = listed(words.on_weekdays.filter((_, n) => request.days.includes(WEEKDAYS[n])));
      return fill(start === null ? words.lead : words.lead_at, { sessions, first, last, days, time: start === null ? "" : clock(start) });
    };

    const wait = (one) => {
      const when = one.first === one.last ? day(one.first) : fill(words.days, { first: day(one.first), last: day(one.last) });
      const reason = one.recovery;
      if (!reason) return fill(words.wait[one.kind], { when });
      return fill(words.wait[one.kind], {
        when, muscles: listed(reason.muscles), first: session(reason.first, reason.first_repeat),
        gap: reason.gap_hours, needed: reason.needed_hours,
      });
    };

    const sayings = {
      recovery: (one) => fill(words.plan.recovery, {
        first: session(one.first, one.first_repeat), first_date: day(one.first_date),
        second: session(one.second, one.second_repeat), wanted: day(one.wanted), planned: day(one.planned),
        muscles: listed(one.muscles), gap: one.gap_hours, needed: one.needed_hours,
      }),
      horizon: (one) => fill(words.plan.horizon, {
        placed: one.placed, total: one.total, last: fullDay(one.last_day), session: session(one.session, one.repeat),
      }),
      "finish-by": (one) => fill(one.earliest ? words.plan.finish_by_earliest : words.plan.finish_by, {
        fitting: one.fitting, total: one.total, wanted: fullDay(one.wanted), earliest: one.earliest ? fullDay(one.earliest) : "",
      }),
      "no-days": (one) => {
        const reasons = listed(one.closed_by.map((kind) => words.plan.closed[kind]));
        return reasons ? fill(words.plan.no_days_closed, { reasons }) : words.plan.no_days;
      },
    };

    const helps = (one) => {
      if (one.kind !== "recovery") return [];
      const days = one.allow_days.map((name) => calendar.weekdays[WEEKDAYS.indexOf(name)]);
      return days.length ? [fill(words.plan.allow, { days: listed(days, words.or) })] : [];
    };

    return { day, fullDay, month, week, listed, session, lead, wait, conflict: (one) => sayings[one.kind](one), helps };
  };

  window.ScheduleWords = { of, fill, count, later, weekday, monday, WEEKDAYS };
})();

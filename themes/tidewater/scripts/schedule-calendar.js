/* The calendar file of a client's own days, with the words of sitegen/pages/schedule/events.py.

   ScheduleCalendar.file(data, plan, sequence, stamp)  text of the file; sequence: how often the client's plan
   was changed and taken over before; stamp: an ISO 8601 instant */
(() => {
  "use strict";

  const { fill } = window.ScheduleWords;

  const needs = () => (window.Needs ? Needs.names() : []);

  /* Where a session is; with the viewer's needs, so that it opens in her version. */
  const pageOf = (base, one) => {
    const address = `${base}episodes/${one.slug}/`;
    return needs().length ? Needs.link(address) : address;
  };

  /* What is fetched as filmed may not be what a version needs: then the entry leads to the page instead. */
  const fetchFirst = (words, one) => {
    const kit = one.kit.join(", ");
    if (needs().length) return fill(words.for_needs, { needs: needs().join(", ") });
    return kit ? fill(words.fetch, { kit }) : words.no_kit;
  };

  const description = (words, base, one, repeat) => {
    return [
      fetchFirst(words, one),
      ...(repeat > 1 ? [fill(words.again, { repeat })] : []),
      ...(one.coming ? [fill(words.coming, { day: one.coming })] : []),
      ...(one.out ? [pageOf(base, one)] : []),
      words.care,
    ].join("\n");
  };

  const reminder = (words, one, values) => {
    if (needs().length) return fill(words.reminder_needs, values);
    return fill(one.kit.length ? words.reminder : words.reminder_no_kit, values);
  };

  const event = (data, placed, sequence, stamp) => {
    const { calendar, words } = data;
    const one = data.sessions.find((session) => session.number === placed.session);
    const key = `${one.first}-${placed.repeat}`;
    const values = { series: calendar.name, number: one.number, title: one.title, kit: one.kit.join(", ") };
    return {
      uid: key + calendar.uid,
      summary: fill(words.entry.summary, values),
      description: description(words.entry, calendar.base, one, placed.repeat),
      date: placed.date,
      minutes: calendar.start,
      duration: one.minutes,
      url: one.out ? pageOf(calendar.base, one) : "",
      sequence: (calendar.sequences[key] || 0) + sequence,
      stamp,
      alarm: reminder(words.entry, one, values),
    };
  };

  const file = (data, plan, sequence, stamp) => {
    const { name, zone, zoneText } = data.calendar;
    const events = plan.placements.map((placed) => event(data, placed, sequence, stamp));
    return window.CalendarFile.make(events, { name, zone, zoneText });
  };

  window.ScheduleCalendar = { file };
})();

/* The calendar file of a client's own days, with the words of sitegen/pages/schedule/events.py.

   ScheduleCalendar.file(data, plan, sequence, stamp)  text of the file; sequence: how often the client's plan
   was changed and taken over before; stamp: an ISO 8601 instant */
(() => {
  "use strict";

  const { fill } = window.ScheduleWords;

  const description = (words, base, one, repeat) => {
    const kit = one.kit.join(", ");
    return [
      kit ? fill(words.fetch, { kit }) : words.no_kit,
      ...(repeat > 1 ? [fill(words.again, { repeat })] : []),
      ...(one.coming ? [fill(words.coming, { day: one.coming })] : []),
      ...(one.out ? [`${base}episodes/${one.slug}/`] : []),
      words.care,
    ].join("\n");
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
      url: one.out ? `${calendar.base}episodes/${one.slug}/` : "",
      sequence: (calendar.sequences[key] || 0) + sequence,
      stamp,
      alarm: fill(one.kit.length ? words.entry.reminder : words.entry.reminder_no_kit, values),
    };
  };

  const file = (data, plan, sequence, stamp) => {
    const { name, zone, zoneText } = data.calendar;
    const events = plan.placements.map((placed) => event(data, placed, sequence, stamp));
    return window.CalendarFile.make(events, { name, zone, zoneText });
  };

  window.ScheduleCalendar = { file };
})();

/* Calendar files (RFC 5545) in the browser: the same file in meaning as sitegen/pages/calendar_file.py
   makes of the same events. CalendarFile.make(events, {name, zone, zoneText}) gives text with CRLF.
   An event: {uid, summary, description, date, minutes, duration, url, sequence, stamp, alarm}, minutes
   after midnight or null for all day, stamp an ISO 8601 instant. zone: a time zone's name with zoneText,
   its VTIMEZONE; "UTC"; or null for the reader's own clock. */
(() => {
  "use strict";

  const PRODUCT = "-//sitegen//calendar//EN";
  const EVENING_MINUTES = 19 * 60;
  const DAY_MINUTES = 24 * 60;
  const MINUTE_MS = 60000;
  const MOST_OCTETS = 75;

  const escaped = (text) => text.replace(/[\\;,]/g, "\\$&").replace(/\r\n|\r|\n/g, "\\n");
  const octets = (character) => new TextEncoder().encode(character).length;

  const folded = (line) => {
    let out = "";
    let used = 0;
    for (const character of line) {
      const size = octets(character);
      if (used + size > MOST_OCTETS) {
        out += "\r\n ";
        used = 1;
      }
      out += character;
      used += size;
    }
    return out;
  };

  /* 20261025T183000: an instant's digits, as UTC or as a wall clock that is counted as if it were UTC. */
  const digits = (ms) => new Date(ms).toISOString().slice(0, 19).replace(/[-:]/g, "");
  const wallClock = (date, minutes) => Date.parse(`${date}T00:00:00Z`) + minutes * MINUTE_MS;

  /* How far a zone's wall clock is ahead of UTC at an instant. */
  const offset = (ms, zone) => {
    const options = { timeZone: zone, hourCycle: "h23", year: "numeric", month: "numeric", day: "numeric",
      hour: "numeric", minute: "numeric", second: "numeric" };
    const part = {};
    for (const { type, value } of new Intl.DateTimeFormat("en-US", options).formatToParts(ms)) part[type] = +value;
    return Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second) - ms;
  };

  /* The instant of a wall clock: the earlier of two, and as before the change where there is none. */
  const instant = (wall, zone) => {
    const before = offset(wall - DAY_MINUTES * MINUTE_MS, zone);
    const after = offset(wall + DAY_MINUTES * MINUTE_MS, zone);
    const found = [before, after].find((ahead) => offset(wall - ahead, zone) === ahead);
    return wall - (found === undefined ? before : found);
  };

  const minutesFromEvening = (event, zone) => {
    const start = wallClock(event.date, event.minutes || 0);
    const evening = wallClock(event.date, EVENING_MINUTES - DAY_MINUTES);
    if (event.minutes === null || !zone) return (start - evening) / MINUTE_MS;
    return (instant(start, zone) - instant(evening, zone)) / MINUTE_MS;
  };

  const startLine = (event, zone) => {
    if (event.minutes === null) return `DTSTART;VALUE=DATE:${event.date.replace(/-/g, "")}`;
    const local = digits(wallClock(event.date, event.minutes));
    if (zone === "UTC") return `DTSTART:${local}Z`;
    return zone ? `DTSTART;TZID=${zone}:${local}` : `DTSTART:${local}`;
  };

  const alarmLines = (event, zone) => {
    if (event.alarm === null) return [];
    const description = `DESCRIPTION:${escaped(event.alarm)}`;
    const trigger = `TRIGGER:-PT${minutesFromEvening(event, zone)}M`;
    return ["BEGIN:VALARM", "ACTION:DISPLAY", description, trigger, "END:VALARM"];
  };

  const eventLines = (event, zone) => [
    "BEGIN:VEVENT",
    `UID:${escaped(event.uid)}`,
    `DTSTAMP:${digits(Date.parse(event.stamp))}Z`,
    `SEQUENCE:${event.sequence}`,
    `SUMMARY:${escaped(event.summary)}`,
    startLine(event, zone),
    ...(event.minutes === null ? ["TRANSP:TRANSPARENT"] : []),
    ...(event.minutes !== null && event.duration !== null ? [`DURATION:PT${event.duration}M`] : []),
    ...(event.description ? [`DESCRIPTION:${escaped(event.description)}`] : []),
    ...(event.url ? [`URL:${event.url}`] : []),
    ...alarmLines(event, zone),
    "END:VEVENT",
  ];

  const make = (events, { name = "", zone = null, zoneText = "" } = {}) => {
    const timed = events.some((event) => event.minutes !== null);
    const lines = [
      "BEGIN:VCALENDAR",
      `PRODID:${PRODUCT}`,
      "VERSION:2.0",
      ...(name ? [`NAME:${escaped(name)}`, `X-WR-CALNAME:${escaped(name)}`] : []),
    ];
    const body = [...events.flatMap((event) => eventLines(event, zone)), "END:VCALENDAR"];
    const written = (some) => some.map((line) => `${folded(line)}\r\n`).join("");
    return written(lines) + (timed && zone !== "UTC" ? zoneText : "") + written(body);
  };

  window.CalendarFile = { make };
})();

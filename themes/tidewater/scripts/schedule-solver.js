/* The scheduler in the browser: the same rules and, for the same request, the same plan and reasons as
   sitegen/study/schedule (its proofs hold here too), without the advice that only a trainer can follow:
   another order, other holidays, fewer repeats. Schedule.place(request) takes and gives plain data.
   Days are counted from 1 for 0001-01-01, in UTC; no local time anywhere. */
(() => {
  "use strict";

  const WEEKDAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
  const DAY_MS = 864e5;
  const DAY_OF_1970 = 719163;
  const LAST_DAY = 3652059; // 9999-12-31
  const START = { index: -1, inWeek: 0, skipped: 0, recent: [] };

  const toDay = (text) => Date.parse(`${text}T00:00:00Z`) / DAY_MS + DAY_OF_1970;
  const toText = (day) => new Date((day - DAY_OF_1970) * DAY_MS).toISOString().slice(0, 10);
  const weekday = (day) => (day - 1) % 7;
  const range = (from, to) => Array.from({ length: Math.max(to - from, 0) }, (_, i) => from + i);
  const otherDays = (request) => WEEKDAYS.filter((name) => !request.days.includes(name));

  /* Training days */

  const holidaysOf = (request, start, last) => {
    const off = new Set();
    for (const holiday of request.holidays) {
      const end = Math.min(toDay(holiday.last), last);
      for (let day = Math.max(toDay(holiday.first), start); day <= end; day++) off.add(day);
    }
    return off;
  };

  const trainingDays = (request) => {
    const start = toDay(request.start);
    const last = Math.min(start + request.horizon_days, LAST_DAY);
    const wanted = new Set(request.days.map((name) => WEEKDAYS.indexOf(name)));
    const off = holidaysOf(request, start, last);
    const monday = start - weekday(start);
    const every = request.deload_every;
    const weekOf = (day) => Math.floor((day - monday) / 7);
    const days = range(start, last + 1).filter((day) => wanted.has(weekday(day)));
    const closed = days.map((day) => {
      if (off.has(day)) return "holiday";
      return every && (weekOf(day) + 1) % every === 0 ? "deload" : "";
    });
    const open = range(0, days.length).filter((position) => !closed[position]);
    const week = open.map((position) => weekOf(days[position]));
    const perWeek = Math.min(request.per_week || wanted.size, wanted.size);
    const nextWeek = new Array(week.length).fill(week.length);
    for (let i = week.length - 2; i >= 0; i--) nextWeek[i] = week[i + 1] === week[i] ? nextWeek[i + 1] : i + 1;
    const spare = [];
    while (spare.length < week.length) {
      const openDays = nextWeek[spare.length] - spare.length;
      for (let i = 0; i < openDays; i++) spare.push(Math.max(openDays - perWeek, 0));
    }
    const recoveryDays = Math.ceil(request.recovery_hours / 24);
    return { days, closed, open, week, nextWeek, spare, perWeek, recoveryDays, last, day: (i) => days[open[i]] };
  };

  /* Placing on the earliest day */

  const shares = (one, other) => {
    for (const muscle of one) if (other.has(muscle)) return true;
    return false;
  };
  const recoveringFrom = (hard, session, state) =>
    state.recent.find((near) => shares(hard[session], hard[near.session]));
  const isFull = (days, state) => state.index >= 0 && state.inWeek >= days.perWeek;
  const firstFree = (days, state) => (isFull(days, state) ? days.nextWeek[state.index] : state.index + 1);

  const skip = (days, state, first, index) => {
    let week = state.index >= 0 ? days.week[state.index] : -1;
    let { skipped } = state;
    let lost = 0;
    let firstLost = -1;
    for (let passed = first; passed < index; passed++) {
      skipped = days.week[passed] === week ? skipped + 1 : 1;
      week = days.week[passed];
      if (skipped > days.spare[passed]) {
        lost++;
        if (firstLost < 0) firstLost = passed;
      }
    }
    return { skipped: days.week[index] === week ? skipped : 0, lost, firstLost };
  };

  const stillNear = (days, hard, session, day, recent) => {
    const kept = recent.filter((near) => near.day + days.recoveryDays > day + 1);
    return hard[session].size && days.recoveryDays > 1 ? [{ day, session }, ...kept] : kept;
  };

  const placeNext = (days, hard, session, state) => {
    const first = firstFree(days, state);
    const earlier = recoveringFrom(hard, session, state);
    const rested = earlier ? earlier.day + days.recoveryDays : 0;
    let index = first;
    while (index < days.open.length && days.day(index) < rested) index++;
    if (index === days.open.length) return null;
    const { skipped, lost, firstLost } = skip(days, state, first, index);
    const sameWeek = state.index >= 0 && days.week[index] === days.week[state.index];
    const recent = stillNear(days, hard, session, days.day(index), state.recent);
    return { index, inWeek: sameWeek ? state.inWeek + 1 : 1, skipped, recent, lost, firstLost };
  };

  const placeInOrder = (days, hard, order) => {
    const steps = [];
    let state = START;
    for (const session of order) {
      const step = placeNext(days, hard, session, state);
      if (!step) break;
      steps.push(step);
      state = step;
    }
    return steps;
  };

  const layOut = (request) => {
    const days = trainingDays(request);
    const hard = request.sessions.map((session) => new Set(session.muscles));
    const order = hard.flatMap((_, session) => new Array(request.repeats).fill(session));
    const steps = placeInOrder(days, hard, order);
    const occurrenceOn = new Map(steps.map((step, occurrence) => [days.day(step.index), occurrence]));
    const complete = steps.length === order.length;
    const dayOf = (occurrence) => days.day(steps[occurrence].index);
    return {
      request, days, hard, order, steps, occurrenceOn, complete, dayOf,
      finish: complete && steps.length ? toText(dayOf(steps.length - 1)) : null,
      before: (occurrence) => (occurrence ? steps[occurrence - 1] : START),
      name: (occurrence) => [request.sessions[order[occurrence]].number, (occurrence % request.repeats) + 1],
    };
  };

  /* Saying why */

  const recovering = (layout, occurrence, day) => {
    const session = layout.order[occurrence];
    const earlier = recoveringFrom(layout.hard, session, layout.before(occurrence));
    const [first, repeat] = layout.name(layout.occurrenceOn.get(earlier.day));
    return {
      first, first_repeat: repeat, first_date: toText(earlier.day),
      muscles: layout.request.sessions[earlier.session].muscles.filter((m) => layout.hard[session].has(m)),
      gap_hours: (day - earlier.day) * 24, needed_hours: layout.request.recovery_hours,
    };
  };

  const waits = (layout, occurrence) => {
    const { days } = layout;
    const before = layout.before(occurrence);
    const begin = before.index >= 0 ? days.open[before.index] + 1 : 0;
    const freeFrom = days.open[firstFree(days, before)];
    const runs = [];
    for (let position = begin; position < days.open[layout.steps[occurrence].index]; position++) {
      const kind = days.closed[position] || (position < freeFrom ? "week-full" : "recovery");
      if (!runs.length || runs[runs.length - 1].kind !== kind) runs.push({ kind, run: [] });
      runs[runs.length - 1].run.push(days.days[position]);
    }
    return runs.map(({ kind, run }) => ({
      kind, first: toText(run[0]), last: toText(run[run.length - 1]), days: run.length,
      recovery: kind === "recovery" ? recovering(layout, occurrence, run[0]) : null,
    }));
  };

  const placement = (layout, occurrence) => {
    const [session, repeat] = layout.name(occurrence);
    return { session, repeat, date: toText(layout.dayOf(occurrence)), waits: waits(layout, occurrence) };
  };

  /* Days lost to recovery, and what would help */

  const withDay = (layout, day) => ({
    ...layout.request, days: [...layout.request.days, day], per_week: layout.days.perWeek,
  });

  const recoveryConflict = (layout, occurrence, allowDays) => {
    const step = layout.steps[occurrence];
    const wanted = layout.days.day(step.firstLost);
    const reason = recovering(layout, occurrence, wanted);
    const [second, repeat] = layout.name(occurrence);
    return {
      kind: "recovery", ...reason, second, second_repeat: repeat,
      wanted: toText(wanted), planned: toText(layout.dayOf(occurrence)), lost_days: step.lost,
      allow_days: allowDays,
    };
  };

  const costlyOccurrences = (layout) => range(0, layout.steps.length).filter((occurrence) => layout.steps[occurrence].lost);

  const recoveryConflicts = (layout) => {
    const costly = costlyOccurrences(layout);
    if (!costly.length || !layout.request.keep_pace) return [];
    const others = otherDays(layout.request).map((day) => ({
      day, left: new Set(costlyOccurrences(layOut(withDay(layout, day)))),
    }));
    const helping = (occurrence) => others.filter(({ left }) => !left.has(occurrence)).map(({ day }) => day);
    return costly.map((occurrence) => recoveryConflict(layout, occurrence, helping(occurrence)));
  };

  /* Wishes that cannot be met at all */

  const finishBy = (layout) => {
    const { request } = layout;
    if (request.finish_by === null) return [];
    const wanted = toDay(request.finish_by);
    const fitting = layout.steps.filter((_, occurrence) => layout.dayOf(occurrence) <= wanted).length;
    if (fitting === layout.order.length) return [];
    const [session, repeat] = layout.name(fitting);
    return [{
      kind: "finish-by", wanted: request.finish_by, earliest: layout.finish, session, repeat,
      fitting, total: layout.order.length,
    }];
  };

  const horizon = (layout) => {
    if (layout.complete) return [];
    const occurrence = layout.steps.length;
    const [session, repeat] = layout.name(occurrence);
    const free = firstFree(layout.days, layout.before(occurrence));
    const daysLeft = free < layout.days.open.length;
    return [{
      kind: "horizon", session, repeat, placed: occurrence, total: layout.order.length,
      last_day: toText(layout.days.last),
      recovery: daysLeft ? recovering(layout, occurrence, layout.days.day(free)) : null,
    }];
  };

  const limitConflicts = (layout) => {
    if (!layout.order.length) return [];
    if (layout.days.open.length) return [...horizon(layout), ...finishBy(layout)];
    return [{ kind: "no-days", closed_by: ["holiday", "deload"].filter((kind) => layout.days.closed.includes(kind)) }];
  };

  const place = (request) => {
    const layout = layOut(request);
    const conflicts = [...limitConflicts(layout), ...recoveryConflicts(layout)];
    return {
      placements: layout.steps.map((_, occurrence) => placement(layout, occurrence)),
      conflicts, per_week: layout.days.perWeek, complete: layout.complete,
      kept: !conflicts.length, finish: layout.finish,
    };
  };

  window.Schedule = { place };
})();

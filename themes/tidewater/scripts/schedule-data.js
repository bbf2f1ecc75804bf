/* The page's data as the scripts use it: what sessions refer to by position is put in its place.

   ScheduleData.read(text)  see sitegen/pages/schedule/script_data.py; afterwards each session has its "first" slug, "kit"
   as names and "items" as [id, name, dose], and the request has its sessions */
(() => {
  "use strict";

  const pairs = (flat) => Array.from({ length: flat.length / 2 }, (_, n) => [flat[2 * n], flat[2 * n + 1]]);

  const read = (text) => {
    const data = JSON.parse(text);
    const sessions = data.sessions.map((one) => ({
      first: one.slug,
      ...one,
      muscles: one.muscles.map((place) => data.muscles[place]),
      kit: one.kit.map((place) => data.pieces[place]),
      items: pairs(one.items).map(([exercise, dose]) => [...data.exercises[exercise], data.doses[dose]]),
    }));
    const wishes = sessions.map(({ number, muscles }) => ({ number, muscles }));
    return { ...data, sessions, request: { ...data.request, sessions: wishes } };
  };

  window.ScheduleData = { read };
})();

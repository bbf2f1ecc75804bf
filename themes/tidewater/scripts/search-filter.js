/* Which exercises pass the filters, and how many each further choice would leave.

   ExerciseFilter.create(data)        data as ExerciseData.read gives it
     .apply(state, candidates)        {hits, count, countAsIs, countShown}; countAsIs(need): of the exercises that a
                                      need leaves, how many stay as they are; candidates: Map or Set of exercise
                                      numbers, or null for all
   ExerciseFilter.LISTS               the filters that are lists of ticks

   A state is {pattern, muscle, kit, home, need, part, kind} with a Set of values each, and `shown`: null
   or {by: "week" | "episode" | "never", value}. Values are the words in the address.

   All ticks speak of one form, the exercise itself or a variant: a form has to pass them together.
   Within a list one tick is enough; but all needs have to be met, and what is at home has to be
   enough for the form. A hit lists the places of the forms that pass. */
(() => {
  "use strict";

  const LISTS = ["pattern", "muscle", "kit", "home", "need", "part", "kind"];
  const NO_KIT = "_none";
  const KINDS = ["regression", "progression", "substitution"];

  /* Values as places in a list, so that counting is adding to an array. */
  const numbered = (values) => new Map(values.map((value, place) => [value, place]));

  const valuesOf = (data) => {
    const ids = (table) => numbered(table.map((one) => one.id));
    const kit = numbered([...data.kit.map((piece) => piece.id), NO_KIT]);
    return { pattern: ids(data.patterns), muscle: ids(data.muscles), kit, home: kit, need: ids(data.needs), part: numbered(data.parts), kind: numbered(KINDS) };
  };

  /* The values of each form by list. A variant that is another exercise is found there by what it is. */
  const readForms = (data) => {
    const noKit = data.kit.length;
    const met = (form) =>
      data.needs.flatMap((need, place) => (need.avoids.some((demand) => form.demands.includes(demand)) ? [] : [place]));
    return data.exercises.map((exercise) =>
      exercise.forms.map((form) => ({
        pattern: form.link ? [] : [form.pattern],
        muscle: form.link ? [] : [...new Set([...form.prime, ...form.assist])],
        kit: form.link ? [] : form.kit.length ? form.kit : [noKit],
        home: form.kit,
        need: met(form),
        part: form.parts,
        kind: form.change ? [form.change - 1] : [],
      })),
    );
  };

  /* "broom-handle:a-mop-handle" is a stand-in, which is as good as the piece. */
  const pieceOf = (value) => value.split(":")[0];

  /* For each exercise where it is shown, as values of the filter. */
  const readShown = (data) =>
    data.exercises.map((exercise) => {
      if (!exercise.shown.length) return new Set(["never"]);
      const episodes = exercise.shown.map(([place]) => data.episodes[place]);
      return new Set(episodes.flatMap((episode) => [`episode:${episode.slug}`, `week:${episode.week}`]));
    });

  /* Counts each exercise once for a value, however many of its forms have it. */
  const tally = (size) => {
    const counts = new Int32Array(size);
    const last = new Int32Array(size).fill(-1);
    const add = (place, exercise) => {
      if (last[place] === exercise) return;
      last[place] = exercise;
      counts[place] += 1;
    };
    return { counts, add };
  };

  const create = (data) => {
    const forms = readForms(data);
    const shown = readShown(data);
    const values = valuesOf(data);

    const chosenIn = (list, ticked) => {
      const places = [...ticked].map((value) => values[list].get(list === "home" ? pieceOf(value) : value));
      return new Set(places.filter((place) => place !== undefined));
    };

    /* Only lists in which something is ticked are asked. */
    const testsFor = (chosen) => {
      const tests = {
        any: (list) => (form) => form[list].some((place) => chosen[list].has(place)),
        home: (form) => form.home.every((place) => chosen.home.has(place)),
        need: (form) => [...chosen.need].every((place) => form.need.includes(place)),
      };
      return LISTS.filter((list) => chosen[list].size).map((list) => [list, tests[list] || tests.any(list)]);
    };

    const apply = (state, candidates = null) => {
      const chosen = Object.fromEntries(LISTS.map((list) => [list, chosenIn(list, state[list])]));
      const tests = testsFor(chosen);
      const tallies = Object.fromEntries(LISTS.map((list) => [list, tally(values[list].size)]));
      const asIs = new Int32Array(values.need.size);
      const place = state.shown && (state.shown.by === "never" ? "never" : `${state.shown.by}:${state.shown.value}`);
      const fitting = new Map(); // exercises with forms that pass, wherever they are shown
      let enough = 0; // exercises for which what is at home will do

      /* What one more piece at home makes possible: nothing is missing, or only that piece. */
      const lackingOf = (form) => form.home.filter((piece) => !chosen.home.has(piece));
      const countHome = (lacking, exercise) => {
        if (lacking.some((pieces) => pieces.length === 0)) enough += 1;
        else for (const pieces of lacking) if (pieces.length === 1) tallies.home.add(pieces[0], exercise);
      };

      /* A form counts for a list if it passes all others; a need more has to be met along with the rest. */
      const countForm = (form, exercise, failed) => {
        for (const list of failed ? [failed] : LISTS) {
          if (list === "home" || (failed && list === "need")) continue;
          for (const value of form[list]) tallies[list].add(value, exercise);
        }
      };

      const failedBy = (form) => {
        let failed = "";
        for (const [list, passes] of tests) {
          if (passes(form)) continue;
          if (failed) return null; // more than one
          failed = list;
        }
        return failed;
      };

      const look = (exercise) => {
        const counted = !place || shown[exercise].has(place);
        const passing = [];
        const lacking = [];
        forms[exercise].forEach((form, number) => {
          const failed = failedBy(form);
          if (failed === null) return;
          if (!failed) passing.push(number);
          if (!counted) return;
          if (!failed || failed === "home") lacking.push(lackingOf(form));
          countForm(form, exercise, failed);
          if (!failed && number === 0) for (const need of form.need) asIs[need] += 1; // the exercise itself
        });
        if (passing.length) fitting.set(exercise, passing);
        countHome(lacking, exercise);
      };

      for (const exercise of forms.keys()) if (!candidates || candidates.has(exercise)) look(exercise);
      const hits = place ? new Map([...fitting].filter(([exercise]) => shown[exercise].has(place))) : fitting;
      const count = (list, value) => {
        const at = values[list].get(list === "home" ? pieceOf(value) : value);
        return (at === undefined ? 0 : tallies[list].counts[at]) + (list === "home" ? enough : 0);
      };
      const countAsIs = (need) => asIs[values.need.get(need)] || 0;
      const countShown = (value) => [...fitting.keys()].filter((exercise) => shown[exercise].has(value)).length;
      return { hits, count, countAsIs, countShown };
    };

    return { apply };
  };

  window.ExerciseFilter = { create, LISTS };
})();

/* Which exercises pass the filters, and how many each further choice would leave.

   ExerciseFilter.create(data)        data as ExerciseData.read gives it
     .apply(state, candidates)        {hits, count, countShown}; candidates: Map or Set of exercise
                                      numbers, or null for all
   ExerciseFilter.LISTS               the filters that are lists of ticks

   A state is {pattern, muscle, kit, home, need, kind} with a Set of values each, and `shown`: null
   or {by: "week" | "episode" | "never", value}. Values are the words in the address.

   All ticks speak of one form, the exercise itself or a variant: a form has to pass them together.
   Within a list one tick is enough; but all needs have to be met, and what is at home has to be
   enough for the form. A hit lists the places of the forms that pass. */
(() => {
  "use strict";

  const LISTS = ["pattern", "muscle", "kit", "home", "need", "kind"];
  const NO_KIT = "_none";
  const KINDS = ["", "regression", "progression", "substitution"];

  const readForms = (data) => {
    const idsIn = (table, places) => places.map((place) => table[place].id);
    const met = (form) => data.needs.filter((need) => !need.avoids.some((demand) => form.demands.includes(demand)));
    return data.exercises.map((exercise) =>
      exercise.forms.map((form) => {
        const pieces = idsIn(data.kit, form.kit);
        // A variant that is another exercise is found there by what it is.
        const own = (values) => (form.link ? [] : values);
        return {
          pieces,
          pattern: own(idsIn(data.patterns, [form.pattern])),
          muscle: own([...new Set(idsIn(data.muscles, [...form.prime, ...form.assist]))]),
          kit: own(pieces.length ? pieces : [NO_KIT]),
          need: met(form).map((need) => need.id),
          kind: form.change ? [KINDS[form.change]] : [],
        };
      }),
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
  const tally = () => {
    const counts = new Map();
    return {
      add: (value, exercise) => {
        const known = counts.get(value);
        if (!known) counts.set(value, { count: 1, last: exercise });
        else if (known.last !== exercise) {
          known.count += 1;
          known.last = exercise;
        }
      },
      of: (value) => (counts.has(value) ? counts.get(value).count : 0),
    };
  };

  const tests = (state) => {
    const home = new Set([...state.home].map(pieceOf));
    const needs = [...state.need];
    const any = (list) => (state[list].size ? (form) => form[list].some((value) => state[list].has(value)) : () => true);
    return {
      missing: (form) => form.pieces.filter((piece) => !home.has(piece)),
      passes: {
        pattern: any("pattern"),
        muscle: any("muscle"),
        kit: any("kit"),
        kind: any("kind"),
        home: home.size ? (form) => form.pieces.every((piece) => home.has(piece)) : () => true,
        need: needs.length ? (form) => needs.every((need) => form.need.includes(need)) : () => true,
      },
    };
  };

  const create = (data) => {
    const forms = readForms(data);
    const shown = readShown(data);
    const pieces = [NO_KIT, ...data.kit.map((piece) => piece.id)];

    const apply = (state, candidates = null) => {
      const { missing, passes } = tests(state);
      const counts = Object.fromEntries(LISTS.map((list) => [list, tally()]));
      const place = state.shown && (state.shown.by === "never" ? "never" : `${state.shown.by}:${state.shown.value}`);
      const fitting = new Map(); // exercises with forms that pass, wherever they are shown

      /* What one more piece at home makes possible: nothing is missing, or only that piece. */
      const countHome = (form, exercise) => {
        const lacking = missing(form);
        if (lacking.length === 0) pieces.forEach((piece) => counts.home.add(piece, exercise));
        if (lacking.length === 1) counts.home.add(lacking[0], exercise);
      };

      /* A form counts for a list if it passes all others; a need more has to be met along with the rest. */
      const countForm = (form, exercise, failed) => {
        for (const list of failed ? [failed] : LISTS) {
          if (list === "home") countHome(form, exercise);
          else if (list !== failed || list !== "need") form[list].forEach((value) => counts[list].add(value, exercise));
        }
      };

      const look = (exercise) => {
        const counted = !place || shown[exercise].has(place);
        forms[exercise].forEach((form, number) => {
          const [failed, another] = LISTS.filter((list) => !passes[list](form));
          if (another) return;
          if (!failed) fitting.set(exercise, [...(fitting.get(exercise) || []), number]);
          if (counted) countForm(form, exercise, failed);
        });
      };

      for (const exercise of forms.keys()) if (!candidates || candidates.has(exercise)) look(exercise);
      const hits = place ? new Map([...fitting].filter(([exercise]) => shown[exercise].has(place))) : fitting;
      return {
        hits,
        count: (list, value) => counts[list].of(list === "home" ? pieceOf(value) : value),
        countShown: (value) => [...fitting.keys()].filter((exercise) => shown[exercise].has(value)).length,
      };
    };

    return { apply };
  };

  window.ExerciseFilter = { create, LISTS };
})();

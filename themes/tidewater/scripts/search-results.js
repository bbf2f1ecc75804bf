/* Draws found exercises.

   ExerciseHits.create(data, words, template)   words: the page's strings for scripts
     .draw(number, view)                        a copy of the template for the exercise with that number

   A view is {hits, terms, fitting}: the places of the forms that pass the filters by exercise, the
   terms that were found (to be marked) or null, and whether any filter speaks of forms. */
(() => {
  "use strict";

  const MOST = 4; // showings and versions named in a result
  const KINDS = ["", "regression", "progression", "substitution"];

  const counted = (forms, n) => {
    const [one, many] = forms.split("|");
    return (n === 1 || !many ? one : many).replace("{n}", n);
  };

  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);

  const clock = (seconds) => {
    const two = (number) => String(number).padStart(2, "0");
    const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
    return h ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
  };

  const link = (address, pieces) => {
    const a = document.createElement("a");
    a.href = address;
    a.append(...pieces);
    return a;
  };

  /* The text in pieces, the words that were found as elements. */
  const marked = (text, terms) => {
    if (!terms) return [text];
    return text.split(/([\p{L}\p{M}\p{N}]+)/u).map((piece, place) => {
      if (place % 2 === 0 || !ExerciseText.terms(piece).some((term) => terms.has(term))) return piece;
      const mark = document.createElement("mark");
      mark.textContent = piece;
      return mark;
    });
  };

  const joined = (groups, between) => groups.flatMap((group, place) => (place ? [between, ...group] : group));

  const create = (data, words, template) => {
    const pageOf = (exercise, place = "") => `${exercise.id}/index.html${place && `#${place}`}`;

    const facts = (exercise, terms) => {
      const [main] = exercise.forms;
      const named = (table, places) => places.map((place) => table[place].label).join(", ");
      const lines = [named(data.patterns, [main.pattern]), named(data.muscles, main.prime), named(data.kit, main.kit)];
      return joined(lines.filter(Boolean).map((line) => marked(line, terms)), " · ");
    };

    const also = (exercise, terms) =>
      exercise.also.length ? [`${words.also} `, ...marked(exercise.also.join(", "), terms)] : [];

    const form = (exercise, one, terms) => {
      const name = one.id ? marked(one.name, terms) : [words.itself];
      const kind = one.change ? ` (${words[KINDS[one.change]]})` : "";
      return { found: name.filter((piece) => piece instanceof Element).length, pieces: [link(pageOf(exercise, one.id), name), kind] };
    };

    /* The forms that pass the filters; without filters all variants, those with the most found words first. */
    const forms = (exercise, places, terms) => {
      const chosen = places ? places.map((place) => exercise.forms[place]) : exercise.forms.slice(1);
      if (!chosen.length) return [];
      const lines = chosen.map((one) => form(exercise, one, terms));
      if (!places) lines.sort((one, other) => other.found - one.found);
      const left = lines.length - MOST;
      const rest = left > 0 ? [`, ${counted(words.further, left)}`] : [];
      return [`${places ? words.fits : words.versions} `, ...joined(lines.slice(0, MOST).map((line) => line.pieces), ", "), ...rest];
    };

    const shown = (exercise) => {
      if (!exercise.shown.length) return [words.never];
      const places = exercise.shown.slice(0, MOST).map(([place, at]) => {
        const episode = data.episodes[place];
        const page = `../episodes/${episode.slug}/index.html`;
        // An episode that is only planned has no time to go to.
        if (at === null) return [link(page, [fill(words.in_plan, { number: episode.number })])];
        return [link(`${page}#t=${at}`, [fill(words.at, { number: episode.number, clock: clock(at) })])];
      });
      const left = exercise.shown.length - MOST;
      const rest = left > 0 ? [", ", link(pageOf(exercise, "shown"), [counted(words.further, left)])] : [];
      return [`${words.shown} `, ...joined(places, ", "), ...rest];
    };

    /* Of the form that the filters have found, or of the exercise as it is filmed. */
    const picture = (hit, exercise, places) => {
      const one = exercise.forms[places ? places[0] : 0];
      const image = hit.querySelector("img");
      if (!one.drawn) {
        image.remove();
        return;
      }
      image.alt = fill(words.drawing, { name: one.name || exercise.name });
      image.src = `${exercise.id}/drawings.svg#${one.id || "_main"}`;
    };

    const draw = (number, view) => {
      const exercise = data.exercises[number];
      const hit = template.content.firstElementChild.cloneNode(true);
      const lines = {
        name: [link(pageOf(exercise), marked(exercise.name, view.terms))],
        also: also(exercise, view.terms),
        facts: facts(exercise, view.terms),
        forms: forms(exercise, view.fitting ? view.hits.get(number) : null, view.terms),
        shown: shown(exercise),
      };
      picture(hit, exercise, view.fitting ? view.hits.get(number) : null);
      for (const line of hit.querySelectorAll("[data-line]")) {
        const pieces = lines[line.dataset.line];
        if (pieces.length) line.append(...pieces);
        else line.remove();
      }
      return hit;
    };

    return { draw };
  };

  window.ExerciseHits = { create, counted, fill };
})();

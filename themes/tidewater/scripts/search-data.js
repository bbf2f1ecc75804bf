/* Reads exercises/find.js, whose rows of numbers point into tables, into records.

   ExerciseData.read(raw)         {patterns, muscles, kit, needs, parts, answers, episodes, exercises}
   ExerciseData.documents(data)   what search-text.js indexes, one document per exercise */
(() => {
  "use strict";

  const pairs = (flat) => flat.flatMap((value, place) => (place % 2 ? [] : [[value, flat[place + 1]]]));

  const form = ([id, name, change, pattern, prime, assist, kit, demands, link, parts, drawn]) => ({
    id,
    name,
    change,
    pattern,
    prime,
    assist,
    kit,
    demands,
    link: Boolean(link),
    parts,
    drawn: Boolean(drawn),
  });

  const read = (raw) => ({
    patterns: raw.patterns.map(([id, label, words]) => ({ id, label, words })),
    muscles: raw.muscles.map(([id, label, words]) => ({ id, label, words })),
    kit: raw.kit.map(([id, label, standIns]) => ({ id, label, words: [label, ...standIns].join(" ") })),
    needs: raw.needs.map(([id, avoids]) => ({ id, avoids })),
    parts: raw.parts,
    answers: raw.answers.map(([list, value, name, page, ...words]) => ({ list, value, name, page, words })),
    episodes: raw.episodes.map(([slug, number, title, week]) => ({ slug, number, title, week })),
    exercises: raw.exercises.map(([id, name, also, forms, shown]) => ({
      id,
      name,
      also,
      forms: forms.map(form),
      shown: pairs(shown),
    })),
  });

  const documents = (data) => {
    const wordsOf = (table, places) => [...new Set(places.flat())].map((place) => table[place].words).join(" ");
    return data.exercises.map((exercise, id) => {
      const forms = exercise.forms.filter((one) => !one.link); // another exercise is found as itself
      return {
        id,
        name: exercise.name,
        also: exercise.also.join(" "),
        forms: forms.map((one) => one.name).join(" "),
        prime: wordsOf(data.muscles, forms.map((one) => one.prime)),
        assist: wordsOf(data.muscles, forms.map((one) => one.assist)),
        pattern: wordsOf(data.patterns, forms.map((one) => one.pattern)),
        kit: wordsOf(data.kit, forms.map((one) => one.kit)),
      };
    });
  };

  window.ExerciseData = { read, documents };
})();

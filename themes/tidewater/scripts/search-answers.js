/* What a query means that is no exercise's name: "sore knees" a need, "no equipment" what is at home, "tummy" a muscle.

   ExerciseAnswers.create(answers, words)   answers as ExerciseData.read gives them; words: pain, denial, ignored, filler
     .find(query)                           {answers, pain, instead}: the best first; whether something hurts; and
                                            whether they stand instead of exercises, because exercises named like
                                            a complaint are the last to offer

   Every word that is left without those of complaint and denial has to match an answer: by what it is called, by
   what people say, or by everyday words around it, in this order of worth. A word matches by its beginning, or
   with one slip where nothing begins so. With a complaint or a denial only needs and an empty home are meant:
   nobody with a sore back asks to train it. */
(() => {
  "use strict";

  const WORTH = [6, 3, 2]; // of a word of the name, of what people say, of everyday words
  const BEGUN = 0.7; // of that, where only the beginning is typed
  const SLIPPED = 0.4;
  const SHORTEST = 3; // letters that a beginning needs
  const SLIP_FROM = 5; // letters from which a slip is forgiven
  const NEAR_BEST = 0.7; // share of the best answer's worth below which another is left out
  const EACH = 3; // most answers of one kind
  const MOST = 5; // and of all kinds
  const LISTS = ["need", "home", "part", "muscle", "pattern", "kit"];
  const CARING = ["need", "home"];

  const termsOf = (text) => [...new Set(ExerciseText.tokens(text).flatMap(ExerciseText.terms))];

  const create = (answers, words) => {
    const setOf = (text) => new Set(termsOf(text));
    const [pain, denial, ignored] = [words.pain, words.denial, `${words.ignored} ${words.filler}`].map(setOf);
    const known = answers.map((answer) => {
      const worth = new Map();
      answer.words.forEach((text, place) => {
        for (const term of termsOf(text)) if (!ignored.has(term)) worth.set(term, Math.max(worth.get(term) || 0, WORTH[place]));
      });
      return { answer, worth };
    });

    const isIn = (set) => (word) => ExerciseText.terms(word).some((term) => set.has(term));

    const score = (worth, forms, slips) => {
      let best = 0;
      for (const [term, points] of worth) {
        for (const form of forms) {
          if (term === form) best = Math.max(best, points);
          else if (form.length >= SHORTEST && term.startsWith(form)) best = Math.max(best, points * BEGUN);
          else if (slips && form.length >= SLIP_FROM && ExerciseText.slips(form, term, 1) <= 1) best = Math.max(best, points * SLIPPED);
        }
      }
      return best;
    };

    /* For each answer what one word is worth to it. */
    const scoresOf = (word, among) => {
      const forms = ExerciseText.terms(word);
      const plain = among.map(({ worth }) => score(worth, forms, false));
      return plain.some(Boolean) ? plain : among.map(({ worth }) => score(worth, forms, true));
    };

    const ranked = (among, totals) => {
      const best = Math.max(0, ...totals);
      const kept = among.map(({ answer }, place) => ({ answer, total: totals[place] })).filter(({ total }) => total > 0 && total >= best * NEAR_BEST);
      const rank = ({ answer }) => LISTS.indexOf(answer.list);
      kept.sort((one, other) => rank(one) - rank(other) || other.total - one.total);
      const counts = {};
      const few = ({ answer }) => (counts[answer.list] = (counts[answer.list] || 0) + 1) <= EACH;
      return kept.filter(few).slice(0, MOST).map(({ answer }) => answer);
    };

    const find = (query) => {
      const typed = ExerciseText.words(query);
      const hurts = typed.some(isIn(pain));
      const complains = hurts || typed.some(isIn(denial));
      const asked = typed.filter((word) => ![pain, denial, ignored].some((set) => isIn(set)(word)));
      if (!asked.some((word) => word.length >= SHORTEST)) return { answers: [], pain: hurts, instead: hurts && !asked.length };
      const among = complains ? known.filter(({ answer }) => CARING.includes(answer.list)) : known;
      const scores = asked.map((word) => scoresOf(word, among));
      let totals = among.map((_, place) => (scores.every((one) => one[place]) ? scores.reduce((sum, one) => sum + one[place], 0) : 0));
      // "bad knees, no equipment": no single answer, but each word has one.
      const each = complains && !totals.some(Boolean) && scores.every((one) => one.some(Boolean));
      if (each) totals = among.map((_, place) => Math.max(...scores.map((one) => one[place])));
      const found = ranked(among, totals);
      return { answers: found, pain: hurts, instead: complains && found.length > 0 };
    };

    return { find };
  };

  window.ExerciseAnswers = { create };
})();

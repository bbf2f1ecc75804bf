/* Finds exercises by words, forgiving of what a thumb does to them.

   ExerciseText.words(text)         the words of a text
   ExerciseText.tokens(text)        the same, with "push-up" also as one word
   ExerciseText.terms(word)         the forms a word is looked up by
   ExerciseText.slips(typed, term, most)  fewest slips between what is typed and a beginning of a term
   ExerciseText.create(documents)   a searcher; its index grows in slices, so that the page stays quick
     .ready                         a promise that the index is complete
     .find(query, fields)           {scores: Map of document id to score, terms: Set, near} or null for no words;
                                    fields: names of those looked through, all where left out

   A document is {id, name, also, forms, prime, assist, pattern, kit}, all but the id texts. Every word of
   the query has to match, in any order. A word matches by its beginning; where nothing begins so, by
   what is spelt almost so; `near` tells. The index is MiniSearch's (see vendor/). */
(() => {
  "use strict";

  const BOOST = { name: 6, also: 4, forms: 2, prime: 3, assist: 1, pattern: 2, kit: 1 };
  const SLICE = 40; // documents indexed before the page may draw again

  const LETTERS = { ß: "ss", æ: "ae", œ: "oe", ø: "o", đ: "d", ð: "d", ł: "l", þ: "th", ı: "i" };
  const UMLAUTS = { ä: "ae", ö: "oe", ü: "ue" };
  const WORD = /[\p{L}\p{M}\p{N}]+(?:['’-][\p{L}\p{M}\p{N}]+)*/gu;

  const lower = (text) => text.normalize("NFC").toLowerCase();

  /* Without accents: "Überkopfdrücken" is "uberkopfdrucken". */
  const fold = (text) =>
    text
      .normalize("NFKD")
      .replace(/\p{M}+/gu, "")
      .replace(/[ßæœøđðłþı]/g, (letter) => LETTERS[letter]);

  /* One form for singular and plural; a rule of thumb that only has to be the same on both sides. */
  const singular = (word) => {
    if (word.length < 3 || !word.endsWith("s") || /(ss|us|is)$/.test(word)) return word;
    return /(s|x|z|ch|sh)es$/.test(word) ? word.slice(0, -2) : word.slice(0, -1);
  };

  /* A word with an umlaut is found by "u" and by "ue". */
  const workOut = (word) => {
    const plain = lower(word);
    const spelt = plain.replace(/[äöü]/g, (letter) => UMLAUTS[letter]);
    return [...new Set([singular(fold(plain)), singular(fold(spelt))])];
  };

  const known = new Map(); // the same few thousand words come again and again
  const terms = (word) => {
    if (!known.has(word)) known.set(word, workOut(word));
    return known.get(word);
  };

  const parts = (word) => word.replace(/['’]/g, "").split("-");
  const words = (text) => (text.normalize("NFC").match(WORD) || []).flatMap(parts);

  /* "push-up" is indexed as push, up and pushup. */
  const tokens = (text) =>
    (text.normalize("NFC").match(WORD) || []).flatMap((word) => {
      const pieces = parts(word);
      return pieces.length > 1 ? [...pieces, pieces.join("")] : pieces;
    });

  /* Fewest slips (a letter wrong, missing, too many, or two swapped) between `typed` and any
     beginning of `term`; more than `most` counts as Infinity. */
  const slips = (typed, term, most) => {
    let before = [];
    let last = Array.from({ length: term.length + 1 }, (_, column) => column);
    for (let row = 1; row <= typed.length; row += 1) {
      const line = [row];
      for (let column = 1; column <= term.length; column += 1) {
        const same = typed[row - 1] === term[column - 1];
        let cost = Math.min(last[column - 1] + (same ? 0 : 1), last[column] + 1, line[column - 1] + 1);
        const swapped = row > 1 && column > 1 && typed[row - 1] === term[column - 2] && typed[row - 2] === term[column - 1];
        if (swapped) cost = Math.min(cost, before[column - 2] + 1);
        line.push(cost);
      }
      if (Math.min(...line) > most) return Infinity;
      before = last;
      last = line;
    }
    const fewest = Math.min(...last);
    return fewest > most ? Infinity : fewest;
  };

  const create = (documents, ignored = []) => {
    const vocabulary = new Set();
    const skip = new Set(ignored.flatMap(terms));
    const index = new MiniSearch({
      fields: Object.keys(BOOST),
      tokenize: tokens,
      processTerm: (word) => {
        const forms = terms(word);
        forms.forEach((form) => vocabulary.add(form));
        return forms;
      },
      searchOptions: { boost: BOOST, combineWith: "OR", tokenize: (text) => [text], processTerm: (text) => text },
    });
    const ready = index.addAllAsync(documents, { chunkSize: SLICE });

    const lookUp = (forms, options) => {
      const hits = index.search({ queries: forms }, options);
      return hits.length ? hits : null;
    };

    /* The beginnings that come nearest to what is typed, from words of three letters on. */
    const closest = (form) => {
      const most = form.length > 6 ? 2 : 1;
      let best = most;
      let found = [];
      for (const term of vocabulary) {
        if (term.length < 3 || term.length < form.length - most) continue;
        const count = slips(form, term, best);
        if (count > best) continue;
        if (count < best) found = [];
        best = count;
        found.push(term);
      }
      return found;
    };

    /* "towelrow": both halves are words of the index. */
    const halves = (form) => {
      for (let cut = 3; cut <= form.length - 2; cut += 1) {
        const pair = [form.slice(0, cut), form.slice(cut)];
        if (pair.every((half) => vocabulary.has(singular(half)))) return pair.map(singular);
      }
      return null;
    };

    const nearly = (forms, within) => {
      const [form] = forms;
      if (form.length < 4) return null;
      const pair = halves(form);
      const beginnings = () => {
        const near = closest(form);
        return near.length ? lookUp(near, { ...within, prefix: false }) : null;
      };
      return (
        (pair && lookUp(pair, { ...within, combineWith: "AND" })) ||
        lookUp(forms, { ...within, fuzzy: 1, prefix: true }) ||
        beginnings() ||
        (form.length > 5 ? lookUp(forms, { ...within, fuzzy: 2 }) : null)
      );
    };

    const findWord = (within) => (word) => {
      const forms = terms(word);
      // A single letter begins a word of nearly everything: only names count.
      const fields = word.length === 1 ? { fields: ["name"] } : within;
      const exact = lookUp(forms, { ...fields, prefix: true });
      return { hits: exact || nearly(forms, within) || [], near: !exact };
    };

    const find = (query, fields = Object.keys(BOOST)) => {
      const typed = words(query);
      const meant = typed.filter((word) => !terms(word).some((form) => skip.has(form)));
      const asked = meant.length ? meant : typed;
      return asked.length ? together(asked.map(findWord({ fields }))) : null;
    };

    return { ready, find };
  };

  /* Documents that every word finds; where there are none, those that most words find. */
  const together = (found) => {
    const tally = new Map();
    const matched = new Set();
    for (const { hits } of found) {
      for (const hit of hits) {
        const seen = tally.get(hit.id) || { count: 0, score: 0 };
        tally.set(hit.id, { count: seen.count + 1, score: seen.score + hit.score });
        hit.terms.forEach((term) => matched.add(term));
      }
    }
    const most = Math.max(0, ...[...tally.values()].map((one) => one.count));
    const scores = new Map();
    for (const [id, one] of tally) if (one.count === most) scores.set(id, one.score);
    return { scores, terms: matched, near: most < found.length || found.some((one) => one.near) };
  };

  window.ExerciseText = { words, terms, tokens, slips, create };
})();

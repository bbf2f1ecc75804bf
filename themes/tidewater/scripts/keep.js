/* On a session's page: keeping it on this device, with or without its film, and removing it again.

   A kept session is compared with the site on each visit; where it has changed, the copy is renewed and the
   page says so. The sizes are those of what was fetched, and for films what the server tells. */
(() => {
  "use strict";
  const box = document.getElementById("keep");
  if (!box || !window.Keeping || !Keeping.possible) return;
  const words = JSON.parse(document.getElementById("keep-words").textContent);
  const part = (name) => box.querySelector(`[data-part=${name}]`);
  const video = document.getElementById("video");
  const { slug, title } = box.dataset;
  const pages = box.dataset.pages.split(" ");
  const language = document.documentElement.lang;
  // {address, bytes}: the form of the film that this browser plays
  let film = null;

  const size = (bytes) => {
    const small = bytes < 1e6;
    const number = new Intl.NumberFormat(language, { maximumFractionDigits: small || bytes > 1e7 ? 0 : 1 });
    return `${number.format(small ? Math.ceil(bytes / 1e3) : bytes / 1e6)} ${small ? "kB" : "MB"}`;
  };
  const day = (when) => new Intl.DateTimeFormat(language, { dateStyle: "long" }).format(new Date(when));
  const say = (text) => { part("says").textContent = text; };

  /* The smallest film that can be played: it is for a phone in a kitchen. */
  const findFilm = async () => {
    const sources = video ? [...video.querySelectorAll("source")].filter((one) => video.canPlayType(one.type) || !one.type) : [];
    const sizes = await Promise.all(sources.map(async (one) => {
      const head = await fetch(one.src, { method: "HEAD" });
      return { address: one.src, bytes: Number(head.headers.get("Content-Length")) };
    }));
    sizes.sort((one, other) => (one.bytes || Infinity) - (other.bytes || Infinity));
    film = sizes[0] || null;
  };

  const show = (note) => {
    part("summary").textContent = note ? words.kept : words.keep;
    part("about").textContent = note
      ? words.kept_about.replace("{day}", day(note.when)).replace("{size}", size(note.bytes))
      : words.about;
    part("keep").hidden = Boolean(note);
    part("drop").hidden = !note;
    part("with-film").hidden = Boolean(note) || !film;
    box.hidden = false;
  };

  const put = async (withFilm) => {
    const found = await Keeping.collect(withFilm ? [...pages, film.address] : pages);
    const when = new Date().toISOString();
    const note = {
      slug, title, when, bytes: found.bytes, film: withFilm ? film.address : "",
      line: words.line.replace("{day}", day(when)), again: words.again,
    };
    await Keeping.keep(note, found);
    return note;
  };

  const tellSizes = async () => {
    if (!box.open || !part("keep").disabled) return;
    try {
      await findFilm();
      const found = await Keeping.collect(pages);
      part("sizes").textContent = words.sizes.replace("{size}", size(found.bytes));
      if (film) part("film-label").textContent = film.bytes ? words.film.replace("{size}", size(film.bytes)) : words.film_unknown;
      part("with-film").hidden = !film;
      part("keep").disabled = false;
    } catch {
      say(words.no_network);
    }
  };

  const keep = async () => {
    const withFilm = Boolean(film && part("film").checked);
    part("keep").disabled = true;
    say(words.keeping);
    try {
      show(await put(withFilm));
      part("sizes").textContent = "";
      say(words.done);
    } catch (error) {
      part("keep").disabled = false;
      say(error.name === "QuotaExceededError" ? words.no_room : words.failed);
    }
  };

  const drop = async () => {
    await Keeping.drop(slug);
    show(null);
    say(words.dropped);
    tellSizes();
  };

  const renew = async (note) => {
    try {
      if (!(await Keeping.changed(slug, pages))) return;
      if (note.film) await findFilm();
      show(await put(Boolean(note.film && film)));
      say(words.renewed);
      box.open = true;
    } catch {
      // no network: the copy stays as it is, and the page has said of which day it is
    }
  };

  part("keep").addEventListener("click", keep);
  part("drop").addEventListener("click", drop);
  box.addEventListener("toggle", tellSizes);
  Keeping.list().then((notes) => {
    const note = notes.find((one) => one.slug === slug);
    show(note);
    if (note) renew(note);
  // storage is switched off: the page offers nothing
  }).catch(() => {});
})();

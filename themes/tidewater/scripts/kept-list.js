/* The sessions kept on this device: to open, to remove. */
(() => {
  "use strict";
  const list = document.getElementById("kept-list");
  const none = document.getElementById("kept-none");
  const words = JSON.parse(document.getElementById("keep-words").textContent);
  const root = document.documentElement.dataset.root;
  const day = (when) => new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: "long" }).format(new Date(when));

  const entry = (note) => {
    const line = document.createElement("li");
    const link = document.createElement("a");
    link.href = `${root}episodes/${note.slug}/index.html`;
    link.textContent = note.title;
    const about = document.createElement("p");
    about.textContent = (note.film ? words.of_day_film : words.of_day).replace("{day}", day(note.when));
    const button = document.createElement("button");
    button.type = "button";
    button.className = "act act-plain";
    button.textContent = words.drop_named.replace("{title}", note.title);
    button.addEventListener("click", () => Keeping.drop(note.slug).then(show));
    line.append(link, about, button);
    return line;
  };

  const show = async () => {
    const notes = Keeping.possible ? await Keeping.list() : [];
    list.replaceChildren(...notes.map(entry));
    none.hidden = notes.length > 0;
  };

  show().catch(() => { none.hidden = false; }); // storage is switched off: nothing is kept
})();

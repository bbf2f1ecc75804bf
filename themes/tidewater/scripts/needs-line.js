/* Says at the top of a page for which needs it is shown, and wherever it matters that a need was lost: one that
   the series does not offer any more, or that a link misspells (Needs.lost).

   Elements with data-needs-chosen or data-needs-lost hold a text with {names}; it stands in their first span, or
   in themselves, and they are hidden while there is nothing to say. In the line at the top a button goes on
   without what was lost, and a link to "#needs" opens the choice. */
(() => {
  "use strict";
  if (!window.Needs) return;
  const quoted = (id) => `“${id}”`;
  const tell = (element, text, names) => {
    element.hidden = names.length === 0;
    const place = element.querySelector("span") || element;
    place.textContent = names.length ? text.replace("{names}", () => names.join(", ")) : "";
  };

  const show = () => {
    for (const one of document.querySelectorAll("[data-needs-chosen]")) tell(one, one.dataset.needsChosen, Needs.names());
    for (const one of document.querySelectorAll("[data-needs-lost]")) tell(one, one.dataset.needsLost, Needs.lost().map(quoted));
    if (window.Sheet) Sheet.fit();
  };

  const openChoice = () => {
    const choice = document.getElementById("needs");
    // a link to a folded part does not unfold it
    if (choice) choice.open = true;
  };

  document.querySelectorAll(".needs-forget").forEach((button) => button.addEventListener("click", Needs.forget));
  document.querySelectorAll("a[href='#needs']").forEach((link) => link.addEventListener("click", openChoice));
  Needs.onChange(show);
  if (Needs.chosen().length || Needs.lost().length) show();
})();

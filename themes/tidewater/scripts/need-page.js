/* On the page of a need: a button that makes every page of the site show its versions. */
(() => {
  "use strict";
  const place = document.querySelector(".need-choose");
  if (!place || !window.Needs) return;
  const button = place.querySelector("button");
  const done = place.querySelector("[role=status]");
  const need = button.dataset.need;

  const show = () => {
    const chosen = Needs.chosen().includes(need);
    button.disabled = chosen;
    done.textContent = chosen ? done.dataset.done : "";
  };

  button.addEventListener("click", () => Needs.set([...Needs.chosen(), need]));
  Needs.onChange(show);
  show();
})();

/* In the table of all needs: only the columns of the chosen ones, or all where none is chosen. */
(() => {
  "use strict";
  const table = document.querySelector(".coverage");
  const boxes = [...document.querySelectorAll(".need-list input[name=need]")];
  if (!table || !window.Needs) return;

  const show = () => {
    const chosen = new Set(Needs.chosen());
    boxes.forEach((box, place) => {
      const hidden = chosen.size > 0 && !chosen.has(box.value);
      for (const row of table.rows) row.cells[place + 1].hidden = hidden;
    });
  };

  Needs.onChange(show);
  show();
})();

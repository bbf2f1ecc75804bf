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

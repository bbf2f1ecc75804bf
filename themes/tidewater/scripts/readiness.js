/* Says what the answers to the questions before the first session mean. The outcome of every combination of
   answers stands in the page (study/readiness.py made it): this only looks it up. Nothing is kept or sent. */
(() => {
  "use strict";
  const form = document.getElementById("readiness-form");
  const outcome = document.getElementById("readiness-outcome");
  const texts = JSON.parse(outcome.dataset.outcomes);
  const asking = JSON.parse(outcome.dataset.asking);
  const start = document.getElementById("readiness-start");
  const ask = document.getElementById("readiness-ask");
  const questions = [...new Set([...form.elements].map((one) => one.name).filter(Boolean))];

  const show = () => {
    const answers = questions.map((name) => form.elements[name].value);
    const complete = answers.every(Boolean);
    outcome.textContent = complete ? texts[answers.join("")] : outcome.dataset.incomplete;
    if (complete) lead(asking.includes(answers.join("")));
  };

  /* On the public page: the way to the first session, or to the sheet that a doctor is shown. */
  const lead = (isAsking) => {
    if (!start) return;
    start.hidden = isAsking !== false;
    ask.hidden = !isAsking;
  };

  document.getElementById("readiness-show").addEventListener("click", show);
  form.addEventListener("change", () => {
    outcome.textContent = "";
    lead(null);
  });
  lead(null);
  form.addEventListener("submit", (event) => event.preventDefault());
})();

/* A sheet for somebody's needs: each exercise in the form that Needs.choose finds, before it is printed.

   <script type="application/json" id="sheet-data"> holds {blocks: [[{forms, own}]], kit, words}; the
   first form of an item is the one that stands on the page already. Elements with data-item show the item with that index. */
(() => {
  "use strict";
  const source = document.getElementById("sheet-data");
  if (!source || !window.Needs) return;
  const { blocks, clocked, kit, words } = JSON.parse(source.textContent);
  const rows = [...document.querySelectorAll("[data-item]")];
  const heads = [...document.querySelectorAll(".sheet-head, .weeks th[scope=rowgroup]")];
  const originals = rows.map((row) => row.cloneNode(true));
  const line = document.getElementById("sheet-adapted");
  const list = document.querySelector(".sheet-kit");
  const filmedKit = list && list.cloneNode(true);

  const element = (name, className, ...content) => {
    const made = document.createElement(name);
    if (className) made.className = className;
    made.append(...content);
    return made;
  };

  const marked = (html) => {
    const span = document.createElement("span");
    span.innerHTML = html; // made and escaped by the build
    return span;
  };

  const part = (className, label, content) => element("span", `part ${className}`, element("b", "", label), " ", content);

  const parts = ({ form, again }, filmed) => {
    const made = [];
    if (form.cue) made.push(part("cue", words.do, marked(form.cue)));
    if (form.avoid) {
      const slip = part("slip", words.avoid, marked(form.avoid));
      if (form.fix) slip.append(element("span", "fix", " ", element("b", "", words.fix), " ", marked(form.fix)));
      made.push(slip);
    }
    if (form.care) made.push(part("item-care", words.item_care, form.care));
    if (form.plan) made.push(part("plan", words.plan, form.plan));
    const instead = form.name === filmed ? [words.adjusted] : [element("b", "", words.instead_of), ` ${filmed}.`];
    const said = [...(form.said || []), ...(again ? [words.again] : [])];
    if (form.less) said.push(words.changes.replace("{changes}", form.less.join(words.comma)));
    made.push(element("span", "part instead", ...instead, ...said.flatMap((text) => [" ", text])));
    return made.flatMap((one) => [one, " "]);
  };

  const fields = () => [document.createElement("i"), document.createElement("i")];

  const setSides = (box, sides) => {
    if (box.classList.contains("two") === (sides === 2)) return;
    box.classList.toggle("two", sides === 2);
    const tick = box.querySelector(".tick");
    const side = (letter) => [element("span", "side", letter), ...fields()];
    box.replaceChildren(tick, ...(sides === 2 ? [...side(words.left), ...side(words.right)] : fields()));
  };

  /* Name, dose, load, tempo and effort, as the build writes them; four weeks side by side have no room for the
     last two, unless a limit changed something. */
  const what = (form, withFacts) => {
    const head = element("b", "", element("span", "name", form.name));
    if (form.dose) head.append(" · ", element("span", "amount", form.dose));
    const load = form.load ? [element("span", "load", ` · ${form.load}`)] : [];
    const facts = (withFacts ? form.facts || [] : []).flatMap((fact) => [" · ", element("span", "keep", fact)]);
    return [head, ...load, ...facts];
  };

  const show = (row, choice) => {
    const { form } = choice;
    const filmed = row.querySelector(".name").textContent;
    const place = row.querySelector(".parts");
    row.querySelector(".what").replaceChildren(...what(form, Boolean(place) || Boolean(form.less)));
    if (place) place.replaceChildren(...parts(choice, filmed));
    row.querySelectorAll(".set").forEach((box) => setSides(box, form.sides));
    row.querySelectorAll(".fields").forEach((field) => field.classList.toggle("two", form.sides === 2));
  };

  const leaveOut = (row) => {
    const name = row.querySelector(".name").textContent;
    row.querySelector(".what").replaceChildren(element("b", "", name), `: ${words.gap}`);
    row.querySelectorAll(".parts, .sets, .ticks, .fields, .tick").forEach((one) => one.remove());
  };

  const showKit = (ids) => {
    const label = filmedKit.querySelector("b").cloneNode(true);
    const pieces = ids.flatMap((id) => {
      const { name, or } = kit[id];
      const piece = element("span", "piece", element("i", "box"), `\u00a0${name}`);
      if (or.length) piece.append(` (${words.or} ${or[0]}`);
      if (or.length > 1) piece.append(element("span", "more", words.comma + or.slice(1).join(words.comma)));
      if (or.length) piece.append(")");
      return [" ", piece];
    });
    list.replaceChildren(label, ...(pieces.length ? pieces : [` ${words.no_kit}`]));
  };

  const adapt = () => {
    const needs = Needs.names();
    const choices = blocks.flatMap((items) => Needs.choose(items));
    const chosen = choices.map((choice) => choice.form);
    rows.forEach((row, index) => {
      row.replaceChildren(...originals[index].cloneNode(true).childNodes);
      const choice = choices[Number(row.dataset.item)];
      if (!choice.form) leaveOut(row);
      else if (!choice.filmed) show(row, choice);
    });
    heads.forEach((head, index) => {
      head.querySelector(".paced")?.remove();
      if (clocked[index] && Needs.unhurried()) head.append(element("b", "paced", ` ${words.paced}`));
    });
    line.hidden = needs.length === 0;
    line.textContent = needs.length ? words.adapted.replace("{needs}", needs.join(" · ")) : "";
    const has = Needs.has();
    const pieces = new Set(chosen.flatMap((form) => (form ? form.kit || [] : [])).filter((id) => !has.has(id)));
    if (list && needs.length) showKit([...pieces]);
    else if (list) list.replaceChildren(...filmedKit.cloneNode(true).childNodes);
    document.fonts.ready.then(() => window.Sheet.fit());
  };

  Needs.onChange(adapt);
  if (Needs.chosen().length) adapt();
})();

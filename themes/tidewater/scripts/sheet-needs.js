/* A sheet for somebody's needs: each exercise in the form that Needs.choose finds, before it is printed.

   <script type="application/json" id="sheet-data"> holds {items: [{forms, own}], kit, words}; the first
   form is the one that stands on the page already. Elements with data-item show the item with that index. */
(() => {
  "use strict";
  const source = document.getElementById("sheet-data");
  if (!source || !window.Needs) return;
  const { items, kit, words } = JSON.parse(source.textContent);
  const rows = [...document.querySelectorAll("[data-item]")];
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

  const put = (row, selector, text) => {
    const found = row.querySelector(selector);
    if (found) found.textContent = text;
  };

  const part = (className, label, content) => element("span", `part ${className}`, element("b", "", label), " ", content);

  const parts = (form, filmed) => {
    const made = [];
    if (form.cue) made.push(part("cue", words.do, marked(form.cue)));
    if (form.avoid) {
      const slip = part("slip", words.avoid, marked(form.avoid));
      if (form.fix) slip.append(element("span", "fix", " ", element("b", "", words.fix), " ", marked(form.fix)));
      made.push(slip);
    }
    if (form.plan) made.push(part("plan", words.plan, form.plan));
    made.push(part("instead", words.instead_of, filmed));
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

  const show = (row, form) => {
    const filmed = row.querySelector(".name").textContent;
    put(row, ".name", form.name);
    put(row, ".amount", form.dose || "");
    if (form.bare) row.querySelectorAll(".load").forEach((load) => load.remove());
    const place = row.querySelector(".parts");
    if (place) place.replaceChildren(...parts(form, filmed));
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
    const chosen = items.map((item) => Needs.choose(item).form);
    rows.forEach((row, index) => {
      row.replaceChildren(...originals[index].cloneNode(true).childNodes);
      const form = chosen[Number(row.dataset.item)];
      if (!form) leaveOut(row);
      else if (form !== items[Number(row.dataset.item)].forms[0]) show(row, form);
    });
    line.hidden = needs.length === 0;
    line.textContent = needs.length ? words.adapted.replace("{needs}", needs.join(" · ")) : "";
    if (list && needs.length) showKit([...new Set(chosen.flatMap((form) => (form ? form.kit || [] : [])))]);
    else if (list) list.replaceChildren(...filmedKit.cloneNode(true).childNodes);
    document.fonts.ready.then(() => window.Sheet.fit());
  };

  Needs.onChange(adapt);
  if (Needs.chosen().length) adapt();
})();

/* A sheet for somebody's needs: each exercise in the form that Needs.choose finds, before it is printed.

   <script type="application/json" id="sheet-data"> holds {blocks: [[{forms, own}]], kit, words}; the
   first form of an item is the one that stands on the page already. Elements with data-item show the item with that index.
   The poses of a form are views of the drawings beside its page; a form without is shown without, never with the
   picture of another form. */
(() => {
  "use strict";
  const source = document.getElementById("sheet-data");
  if (!source || !window.Needs) return;
  const { blocks, paced, kit, words } = JSON.parse(source.textContent);
  const root = document.documentElement.dataset.root;
  const rows = [...document.querySelectorAll("[data-item]")];
  const heads = [...document.querySelectorAll(".sheet-head .sheet-how, .weeks th[scope=rowgroup]")];
  const tallies = [...document.querySelectorAll(".sheet-block, .weeks tbody")].map((block) => block.querySelector(".tally"));
  const asBuilt = new Map([...heads, ...tallies.filter(Boolean)].map((one) => [one, one.cloneNode(true)]));
  const rowsAsBuilt = new Map(); // what stands in a row, once another form takes its place
  const line = document.getElementById("sheet-adapted");
  const list = document.querySelector(".sheet-kit");
  const filmedKit = list && list.cloneNode(true);
  const MOST_COLUMNS = 4;

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

  const pace = (facts) => {
    const kept = facts.flatMap((fact, index) => [index ? " · " : "", element("span", "unbroken", fact)]);
    return element("span", "part pace", ...kept);
  };

  const factsOf = (form) => [form.tempo, form.effort].filter(Boolean);

  const parts = ({ form, own, again }, filmed) => {
    const facts = factsOf(form);
    const made = facts.length ? [pace(facts)] : [];
    if (form.cue) made.push(element("span", "part cue", marked(form.cue)));
    if (form.note) made.push(element("span", "part note", marked(form.note)));
    if (form.avoid) {
      const slip = part("slip", words.avoid, marked(form.avoid));
      if (form.fix) slip.append(element("span", "sheet-fix", " ", element("b", "", words.fix), " ", marked(form.fix)));
      made.push(slip);
    }
    if (form.care) made.push(part("item-care", words.item_care, form.care));
    if (form.plan) made.push(part("plan", words.plan, form.plan));
    const instead = form.name === filmed ? [words.adjusted] : [element("b", "", words.instead_of), ` ${filmed}.`];
    const harder = form.harder && (own ? words.chosen : form.harder);
    const said = [...(harder ? [harder] : []), ...(form.said || []), ...(again ? [words.again] : [])];
    if (form.less) said.push(words.changes.replace("{changes}", form.less.join(words.comma)));
    made.push(element("span", "part instead", ...instead, ...said.flatMap((text) => [" ", text])));
    return made.flatMap((one) => [one, " "]);
  };

  /* A box to write a set into: what the filmed dose says of this very set is left out. */
  const setSides = (box, sides) => {
    const count = box.querySelector("b").cloneNode(true);
    box.classList.toggle("two", sides === 2);
    if (sides !== 2) return box.replaceChildren(element("span", "set-head", count));
    const left = element("i", "", count, ` ${words.left}`);
    return box.replaceChildren(element("span", "sides", left, element("i", "", words.right)));
  };

  /* Name, dose and load, as the build writes them; the load in words, for no vessels are drawn of it. */
  const what = (form) => {
    const made = [element("b", "name", form.name)];
    if (form.dose) made.push(element("b", "within", " · ", element("span", "amount", form.dose)));
    if (form.load) made.push(element("span", "load", ` · ${form.load}`));
    return made;
  };

  /* Four weeks side by side have no room for tempo and effort, unless a limit changed something. */
  const whatInWeeks = (form) => {
    const facts = (form.less ? factsOf(form) : []).flatMap((fact) => [" · ", element("span", "unbroken", fact)]);
    return [...what(form), ...facts];
  };

  const dose = ([figures, rest]) => {
    if (!figures) return [element("b", "in-words", rest)];
    const many = figures.length > 3 ? " many" : "";
    return [element("b", `figures${many}`, figures), " ", element("span", "", rest)];
  };

  const pose = (form, view) => {
    const [page, name] = form.page.split("#");
    const image = element("img", `drawing ${view}`);
    image.alt = view === "key" ? form.shows : "";
    image.src = `${root}${page.replace("index.html", "drawings.svg")}#${name || "_main"}.${view}`;
    return image;
  };

  const draw = (place, form) => {
    // Beside what is only ticked off there is room for one: the pose that tells most.
    const views = (form.poses || []).filter((view) => view === "key" || place.matches(".pics"));
    place.replaceChildren(...views.map((view) => pose(form, view)));
  };

  const show = (row, choice) => {
    const { form } = choice;
    const filmed = row.querySelector(".name").textContent;
    const place = row.querySelector(".parts");
    row.querySelector(".what").replaceChildren(...(place ? what(form) : whatInWeeks(form)));
    row.querySelectorAll(".pics, .pic").forEach((pictures) => draw(pictures, form));
    row.querySelectorAll(".sheet-dose").forEach((one) => one.replaceChildren(...dose(form.amount)));
    row.querySelectorAll(".held").forEach((held) => held.replaceChildren());
    if (place) place.replaceChildren(...parts(choice, filmed));
    row.querySelectorAll(".set").forEach((box) => setSides(box, form.sides));
    row.querySelectorAll(".fields").forEach((field) => field.classList.toggle("two", form.sides === 2));
  };

  const leaveOut = (row) => {
    const name = row.querySelector(".name").textContent;
    row.querySelector(".what").replaceChildren(element("b", "", name), `: ${words.gap}`);
    row.querySelectorAll(".parts, .pics, .pic, .sheet-dose, .held, .sets, .ticks, .fields, .tick").forEach((one) => one.remove());
  };

  const restoreRow = (row) => {
    if (rowsAsBuilt.has(row)) row.replaceChildren(...rowsAsBuilt.get(row));
  };

  /* A copy of the row as it was built, for another form to stand in. Drawings are most of a row's bytes: they are not
     copied, for none of them is of another form. */
  const blankRow = (row) => {
    if (!rowsAsBuilt.has(row)) rowsAsBuilt.set(row, [...row.childNodes]);
    const copies = rowsAsBuilt.get(row).map((one) => one.cloneNode(!(one.matches?.(".pics, .pic, .held"))));
    row.replaceChildren(...copies);
  };

  const showKit = (ids) => {
    const label = filmedKit.querySelector("b").cloneNode(true);
    const pieces = ids.flatMap((id) => {
      const { name, or } = kit[id];
      const text = element("span", "piece-words", element("i", "box"), "\u00a0", element("b", "", name));
      if (or.length) text.append(` ${words.or} ${or[0]}`);
      if (or.length > 1) text.append(element("span", "more", words.comma + or.slice(1).join(words.comma)));
      return [element("span", "piece", text), " "];
    });
    const inColumns = element("span", "pieces", ...(pieces.length ? pieces : [words.no_kit]));
    list.className = `sheet-kit kit-columns-${Math.min(ids.length, MOST_COLUMNS)}`;
    list.replaceChildren(label, " ", inColumns);
  };

  const restoreKit = () => {
    list.className = filmedKit.className;
    list.replaceChildren(...filmedKit.cloneNode(true).childNodes);
  };

  const restore = (one) => one.replaceChildren(...asBuilt.get(one).cloneNode(true).childNodes);

  /* The line beside a block's name: rounds at one's own pace where the video goes by the clock, and as many boxes
     to count them. */
  const showCourse = (head, tally, course) => {
    restore(head);
    if (tally) restore(tally);
    if (!course) return;
    head.replaceChildren(head.querySelector("h2, b"), ` ${course.how}`, element("b", "paced", ` ${words.paced}`));
    if (!tally) return;
    const boxes = [...tally.querySelectorAll(".round")].slice(0, course.rounds);
    tally.replaceChildren(tally.querySelector("b"), ...boxes.flatMap((box) => [" ", box]));
  };

  const adapt = () => {
    const needs = Needs.names();
    const choices = blocks.flatMap((items) => Needs.choose(items));
    const chosen = choices.map((choice) => choice.form);
    for (const row of rows) {
      const choice = choices[Number(row.dataset.item)];
      if (choice.filmed) restoreRow(row);
      else {
        blankRow(row);
        if (choice.form) show(row, choice);
        else leaveOut(row);
      }
    }
    heads.forEach((head, index) => showCourse(head, tallies[index], Needs.unhurried() ? paced[index] : null));
    line.hidden = needs.length === 0;
    // it asks to choose what she has chosen
    document.querySelectorAll(".sheet-others").forEach((one) => { one.hidden = needs.length > 0; });
    line.textContent = needs.length ? words.adapted.replace("{needs}", needs.join(" · ")) : "";
    const has = Needs.has();
    const pieces = new Set(chosen.flatMap((form) => (form ? form.kit || [] : [])).filter((id) => !has.has(id)));
    if (list && needs.length) showKit([...pieces]);
    else if (list) restoreKit();
    window.Sheet.fit();
  };

  /* What was printed beforehand is as filmed: whoever has a need, be it one that is not offered any more, gets none of it. */
  const offerFiles = () => {
    const hers = Needs.chosen().length > 0 || Needs.lost().length > 0;
    document.querySelectorAll(".made-as-filmed").forEach((one) => { one.hidden = hers; });
  };

  offerFiles();
  Needs.onChange(offerFiles);
  Needs.onChange(adapt);
  if (Needs.chosen().length) adapt();
})();

/* What a viewer has to avoid, kept in this browser and shared by every page of the site.

   Needs.chosen()        sorted ids of the chosen needs
   Needs.set(ids)        choose these; unknown ids are dropped
   Needs.onChange(fn)    call fn after every change, also after one in another tab
   Needs.avoided()       Set of the demands to avoid
   Needs.choose(item)    {form, reasons, own} for an item of the page's data, or {form: null, reasons}
   Needs.link(address)   the address with the choice in it, to send to somebody
   Needs.words(demands)  demands as a reader says them
   Needs.names()         names of the chosen needs
   Needs.key(name)       the site's own storage key for a name

   The page holds the series' needs in <script type="application/json" id="needs-data">. A form
   with data-needs is a choice: its checkboxes named "need" follow the state and change it.
   Storage: "<address of the site>needs" holds a JSON list of ids; "?needs=a,b" overrides it. */
(() => {
  "use strict";
  const source = document.getElementById("needs-data");
  const data = source ? JSON.parse(source.textContent) : { prefix: location.host + "/", needs: {}, words: {} };
  const listeners = [];
  const key = (name) => data.prefix + name;
  const known = (ids) => [...new Set(ids)].filter((id) => Object.hasOwn(data.needs, id)).sort();

  const stored = () => {
    try {
      const ids = JSON.parse(localStorage.getItem(key("needs")));
      return Array.isArray(ids) ? known(ids) : [];
    } catch {
      return []; // nothing stored, damaged, or storage is switched off
    }
  };

  const store = () => {
    try {
      localStorage.setItem(key("needs"), JSON.stringify(ids));
    } catch {
      // the choice then holds for this page only
    }
  };

  const asked = new URLSearchParams(location.search).get("needs");
  let ids = asked === null ? stored() : known(asked.split(","));
  if (asked !== null) store();

  const withChoice = (address) => {
    const url = new URL(address, location.href);
    url.searchParams.delete("needs");
    // Commas stay readable in a link that people send to each other.
    const rest = url.search ? `${url.search}&` : "?";
    url.search = `${rest}needs=${ids.join(",")}`;
    return url.href;
  };

  const tell = () => listeners.forEach((listener) => listener());

  const set = (wanted) => {
    ids = known(wanted);
    store();
    if (asked !== null) {
      try {
        history.replaceState(history.state, "", withChoice(location.href)); // or a reload would bring the old choice back
      } catch {
        // pages opened as files may not change their address
      }
    }
    tell();
  };

  const avoided = () => new Set(ids.flatMap((id) => data.needs[id].avoids));

  const choose = (item) => {
    const avoid = avoided();
    const fits = (form) => form.demands.every((demand) => !avoid.has(demand));
    const own = new Set(ids.filter((id) => id in item.own).map((id) => item.own[id]));
    const reasons = item.forms[0].demands.filter((demand) => avoid.has(demand));
    const chosen = item.forms.find((form, index) => own.has(index) && fits(form));
    return { form: chosen || item.forms.find(fits) || null, reasons, own: Boolean(chosen) };
  };

  window.addEventListener("storage", (event) => {
    if (event.key !== key("needs")) return;
    ids = stored();
    tell();
  });

  window.Needs = {
    chosen: () => [...ids],
    set,
    onChange: (listener) => listeners.push(listener),
    avoided,
    choose,
    link: withChoice,
    words: (demands) => demands.map((demand) => data.words[demand] || demand),
    names: () => ids.map((id) => data.needs[id].name),
    key,
  };

  for (const form of document.querySelectorAll("form[data-needs]")) {
    const boxes = [...form.querySelectorAll("input[name=need]")];
    const show = () => boxes.forEach((box) => { box.checked = ids.includes(box.value); });
    form.addEventListener("change", () => set(boxes.filter((box) => box.checked).map((box) => box.value)));
    listeners.push(show);
    show();
  }
})();

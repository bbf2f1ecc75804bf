/* What a viewer has to avoid, kept in this browser and shared by every page of the site.

   Needs.chosen()        sorted ids of the chosen needs
   Needs.set(ids)        choose these; unknown ids are dropped
   Needs.lost()          what was chosen or asked for that the series does not offer (any more): nothing is
                         fitted to it, and every page says so until the viewer has chosen again
   Needs.forget()        go on without what was lost
   Needs.onChange(fn)    call fn after every change, also after one in another tab
   Needs.choose(items)   for the items of one block in the page's data, their choices:
                         {form, filmed, own, again, reasons, rather}; form is null where nothing fits, filmed true
                         where nothing changes, own where the trainer chose it, again where another item of
                         the block gets the same; reasons are the avoided demands of the item as filmed,
                         rather those that one rather does without
                         (a form's "less" says what the viewer's limits changed in it, its "harder" that it is
                         harder than in the video, or may be; where the trainer chose it, nothing easier was sought)
   Needs.care(form, others)  the short forms of what to mind in a form, as one text, and the line of an element with
                         who does it in another form, if there is one; "" for nothing or no form
   Needs.serves(kind, choices)  false where a block of that kind trains none of what it is for any more
   Needs.link(address)   the address with the choice in it, to send to somebody
   Needs.words(demands)  demands as a reader says them
   Needs.has()           ids of kit that is there for these needs without being fetched
   Needs.tells(demand)   whether the forms of the page's data tell of a demand
   Needs.untold()        the demands of a form of which nothing, or not all, is told
   Needs.names()         names of the chosen needs
   Needs.session()       longest session in seconds; Infinity without such a limit
   Needs.unhurried()     true where nothing is done against the clock
   Needs.kept(name)      what the browser keeps under a name of the site: plain data, or a text that is no JSON;
                         null for nothing, and where storage is switched off
   Needs.keep(name, value)  keep it, or forget it where it is null; false where the browser keeps nothing

   The choice is that of sitegen/study/suitability.py. Forms come in order; what a limit makes of one is worked
   out by the build, so that all that is left to do here is to pick (see sitegen/pages/adaptation.py).

   The page holds the series' needs in <script type="application/json" id="needs-data">. A form
   with data-needs is a choice: its checkboxes named "need" follow the state and change it.
   Storage: "<address of the site>needs" holds a JSON list of ids; "?needs=a,b" overrides it. Lost ids stay in
   it and in links, for the next page and the next reader have to be told as well. */
(() => {
  "use strict";
  const source = document.getElementById("needs-data");
  const data = source ? JSON.parse(source.textContent) : { prefix: location.host + "/", needs: {}, words: {} };
  const listeners = [];
  const key = (name) => data.prefix + name;
  const LONGEST = 40; // of what somebody else's link may make the page say, characters
  // lost needs that are named
  const MOST = 10;

  const has = (table, id) => Object.prototype.hasOwnProperty.call(table || {}, id);

  /* A need that was renamed goes on under its present id. */
  const present = (id) => (has(data.renamed, id) ? data.renamed[id] : id);

  const isKnown = (id) => has(data.needs, id);

  const sortOut = (asked) => {
    const given = [...new Set(asked.map((id) => present(String(id).trim())).filter(Boolean))].sort();
    const lost = given.filter((id) => !isKnown(id)).map((id) => id.slice(0, LONGEST));
    return { ids: given.filter(isKnown), lost: lost.slice(0, MOST) };
  };

  const kept = (name) => {
    let text = null;
    try {
      text = localStorage.getItem(key(name));
      return JSON.parse(text);
    } catch {
      return text; // a plain text, damaged, or storage is switched off
    }
  };

  const keep = (name, value) => {
    try {
      if (value === null) localStorage.removeItem(key(name));
      else localStorage.setItem(key(name), typeof value === "string" ? value : JSON.stringify(value));
      return true;
    } catch {
      return false; // storage is full or switched off
    }
  };

  const store = () => keep("needs", [...ids, ...lost]);

  /* What is no list is damaged: it is told as a need that was lost. */
  const stored = () => {
    const before = kept("needs");
    if (before === null) return sortOut([]);
    const damaged = typeof before === "string" ? before : JSON.stringify(before);
    return sortOut(Array.isArray(before) ? before : [damaged]);
  };

  const asked = new URLSearchParams(location.search).get("needs");
  let { ids, lost } = asked === null ? stored() : sortOut(asked.split(","));
  if (asked !== null) store();

  const withChoice = (address) => {
    const url = new URL(address, location.href);
    url.searchParams.delete("needs");
    // Commas stay readable in a link that people send to each other.
    const rest = url.search ? `${url.search}&` : "?";
    url.search = `${rest}needs=${[...ids, ...lost].map(encodeURIComponent).join(",")}`;
    return url.href;
  };

  const tell = () => listeners.forEach((listener) => listener());

  const changed = () => {
    store();
    if (asked !== null) {
      try {
        // or a reload would bring the old choice back
        history.replaceState(history.state, "", withChoice(location.href));
      } catch {
        // pages opened as files may not change their address
      }
    }
    tell();
  };

  const set = (wanted) => {
    ids = sortOut(wanted).ids;
    changed();
  };

  const forget = () => {
    lost = [];
    changed();
  };

  /* --- the choice of forms ------------------------------------------------------------------ */

  const LIMITS = { effort: ["effort", "max_sets"], load: ["load", "load_share"], speed: ["speed"], hold: ["hold"] };

  const all = (name) => new Set(ids.flatMap((id) => data.needs[id][name] || []));

  /* Of limits of one kind the strictest holds: they are numbered from it. */
  const strictest = (name) => Math.min(...ids.map((id) => data.needs[id].limits?.[name] ?? Infinity));

  const wishes = () => {
    const level = (name) => (strictest(name) === Infinity ? "" : strictest(name));
    const levels = Object.entries(LIMITS).map(([kind, names]) => [kind, names.map(level).join("/")]);
    const joints = [...all("joints")].sort();
    return { avoid: all("avoids"), rather: all("rather"), joints, levels: Object.fromEntries(levels) };
  };

  /* A form as the limits leave it; null where one of them cannot be kept in it. What limits of several kinds
     make of the same field together comes last, the most of them at the end. */
  const within = (form, levels) => {
    const { together = {}, ...kinds } = form.limits || {};
    let left = form;
    for (const [kind, results] of Object.entries(kinds)) {
      const change = results[levels[kind]];
      if (change === null) return null;
      if (change) left = { ...left, ...change, less: [...(left.less || []), ...change.less] };
    }
    const held = new Set(Object.entries(levels).map((pair) => pair.join(":")));
    for (const [names, change] of Object.entries(together)) {
      if (names.split(" ").every((name) => held.has(name))) left = { ...left, ...change };
    }
    return left;
  };

  const counted = (demands, set) => demands.filter((demand) => set.has(demand)).length;

  /* Of equals the form filmed, then what is not much easier, then what asks less of the joints that are spared. */
  const onJoints = (one, other, joints) => {
    if (!joints.length || one.index === 0 || other.index === 0) return 0;
    const place = (option, joint) => (option.form.joints || [])[joint] || 0;
    const easier = (one.form.easier || 0) - (other.form.easier || 0);
    return easier || joints.reduce((decided, joint) => decided || place(one, joint) - place(other, joint), 0);
  };

  const optionsOf = (item, { avoid, rather, joints, levels }) => {
    const own = new Set(ids.filter((id) => id in item.own).map((id) => item.own[id]));
    const fitting = item.forms.flatMap((form, index) => {
      const left = counted(form.demands, avoid) ? null : within(form, levels);
      const meant = ids.some((id) => (form.for || []).includes(id)) ? 0 : 1;
      return left ? [{ form: left, index, own: own.has(index), meant, rather: counted(form.demands, rather) }] : [];
    });
    const tier = (option) => option.form.tier || 0;
    fitting.sort(
      (one, other) =>
        one.meant - other.meant || tier(one) - tier(other) || one.rather - other.rather || onJoints(one, other, joints) || one.index - other.index,
    );
    const chosen = fitting.filter((option) => option.own);
    const others = fitting.filter((option) => !option.own);
    const gentle = others.filter((option) => !option.form.harder);
    return [...chosen, ...(gentle.length || chosen.length ? gentle : others)];
  };

  const same = (option) => option.form.is || option.form.page;

  /* How many of these lists at most can have an option of their own beside what is taken (Kuhn). */
  const matched = (lists, taken) => {
    const owner = new Map();
    const place = (list, tried) => list.some((option) => {
      const key = same(option);
      if (taken.has(key) || tried.has(key)) return false;
      tried.add(key);
      if (owner.has(key) && !place(owner.get(key), tried)) return false;
      owner.set(key, list);
      return true;
    });
    return lists.filter((list) => place(list, new Set())).length;
  };

  /* An exercise of its own for every item, as far as there are enough of them (sitegen/study/distinct_forms.py). */
  const apart = (lists) => {
    const settled = (list) => list.length > 0 && (list[0].index === 0 || list[0].own);
    const taken = new Set(lists.filter(settled).map((list) => same(list[0])));
    return lists.map((list, place) => {
      if (!list.length || settled(list)) return list[0] || null;
      const rest = lists.slice(place + 1).filter((other) => other.length && !settled(other));
      const repeats = (option) =>
        (taken.has(same(option)) ? 1 : 0) + rest.length - matched(rest, new Set([...taken, same(option)]));
      const counts = list.map(repeats);
      const choice = list[counts.indexOf(Math.min(...counts))];
      taken.add(same(choice));
      return choice;
    });
  };

  const choose = (items) => {
    const asked = wishes();
    const chosen = apart(items.map((item) => optionsOf(item, asked)));
    const shown = chosen.filter(Boolean).map(same);
    return chosen.map((choice, place) => {
      const reasons = items[place].forms[0].demands.filter((demand) => asked.avoid.has(demand));
      const rather = items[place].forms[0].demands.filter((demand) => asked.rather.has(demand));
      if (!choice) return { form: null, filmed: false, own: false, again: false, reasons, rather };
      const { form, index, own } = choice;
      const again = index > 0 && shown.filter((one) => one === same(choice)).length > 1;
      return { form, filmed: index === 0 && !form.less, own: own && index > 0, again, reasons, rather };
    });
  };

  const serves = (kind, choices) => kind !== "strength" || choices.some(({ form }) => form && !form.other);

  const care = (form, others) => {
    const shorts = ((form && form.cautions) || []).map(([, short]) => short);
    return [...shorts, ...(others ? [others.textContent] : [])].join(" ");
  };

  window.addEventListener("storage", (event) => {
    if (event.key !== key("needs")) return;
    ({ ids, lost } = stored());
    tell();
  });

  window.Needs = {
    chosen: () => [...ids],
    set,
    lost: () => [...lost],
    forget,
    onChange: (listener) => listeners.push(listener),
    choose,
    care,
    serves,
    unhurried: () => strictest("speed") !== Infinity,
    session: () => Math.min(...ids.map((id) => data.needs[id].session ?? Infinity)),
    link: withChoice,
    words: (demands) => demands.map((demand) => data.words[demand] || demand),
    has: () => all("has"),
    tells: (demand) => demand in data.words,
    untold: () => data.untold,
    names: () => ids.map((id) => data.needs[id].name),
    kept,
    keep,
  };

  for (const form of document.querySelectorAll("form[data-needs]")) {
    const boxes = [...form.querySelectorAll("input[name=need]")];
    const show = () => boxes.forEach((box) => { box.checked = ids.includes(box.value); });
    form.addEventListener("change", () => set(boxes.filter((box) => box.checked).map((box) => box.value)));
    listeners.push(show);
    show();
  }
})();

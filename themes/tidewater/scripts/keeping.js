/* What is kept on this device for a time without a network: one cache for each session (Cache API), read by
   the service worker (offline-worker.js).

   A cache is named "kept <root of the site> <when> <session>"; it holds the session's pages with all that they
   load, and under "kept.json" {slug, title, when, bytes, film, line, again}: film is the address of the film or
   "", line and again are what a page says while it is shown from here. A cache counts once that note is in it.

   Keeping.possible                  whether this browser can, and the page comes from a server
   await Keeping.list()              those notes, the latest first
   await Keeping.collect(addresses)  {addresses: [absolute address, response], bytes}: pages with what they load;
                                     throws where one cannot be had from the network
   await Keeping.keep(note, found)   puts them away in the place of what was kept of the session before
   await Keeping.drop(slug)          removes a session; after the last one nothing is left behind
   await Keeping.changed(slug, ...)  whether a page at the site differs from the one kept */
(() => {
  "use strict";
  const root = new URL(document.documentElement.dataset.root || ".", location.href).href;
  const SHELF = `kept ${root} `;
  const NOTE = `${root}kept.json`;

  const place = (address) => new URL(address, location.href).href.split(/[?#]/, 1)[0].replace(/\/index\.html$/, "/");

  const slugOf = (name) => name.slice(name.lastIndexOf(" ") + 1);
  const shelves = async () => (await caches.keys()).filter((name) => name.startsWith(SHELF)).sort().reverse();

  const noteOf = async (name) => {
    const found = await (await caches.open(name)).match(NOTE);
    return found ? found.json() : null;
  };

  const list = async () => (await Promise.all((await shelves()).map(noteOf))).filter(Boolean);

  /* Getting everything */

  const get = async (address) => {
    const response = await fetch(place(address));
    // What the service worker shows for want of a network is no answer of the site.
    if (!response.ok || response.headers.get("X-Kept")) throw new Error(`cannot be had: ${address}`);
    return response;
  };

  const LOADED = "link[rel~=stylesheet], link[rel~=icon], link[rel=manifest], script[src], img[src], picture > source, video[poster], track[src]";

  const loadedBy = async (address, response) => {
    const type = response.headers.get("Content-Type") || "";
    const text = type.startsWith("text/html") || type.startsWith("text/css") ? await response.clone().text() : "";
    const found = type.startsWith("text/css") ? [...text.matchAll(/url\("?([^")]+)"?\)/g)].map((match) => match[1]) : [];
    let later = [];
    if (type.startsWith("text/html")) {
      const page = new DOMParser().parseFromString(text, "text/html");
      for (const one of page.querySelectorAll(LOADED)) {
        found.push(["href", "src", "srcset", "poster"].map((name) => one.getAttribute(name)).find(Boolean));
      }
      // What a script of the page may load later, below the site's root.
      later = [...page.querySelectorAll("[data-loads]")].flatMap((one) => one.dataset.loads.split(" "));
    }
    const own = found.filter((one) => !/^(?:data|https?|mailto):/.test(one));
    return [...own.map((one) => place(new URL(one, address).href)), ...later.map((one) => root + one)];
  };

  const collect = async (addresses) => {
    const responses = new Map();
    let wanted = [...new Set(addresses.map(place))];
    while (wanted.length) {
      const got = await Promise.all(wanted.map(async (address) => [address, await get(address)]));
      got.forEach(([address, response]) => responses.set(address, response));
      const more = await Promise.all(got.map(([address, response]) => loadedBy(address, response)));
      wanted = [...new Set(more.flat())].filter((address) => !responses.has(address));
    }
    const sizes = await Promise.all([...responses.values()].map(async (one) => (await one.clone().blob()).size));
    return { responses: [...responses], bytes: sizes.reduce((sum, size) => sum + size, 0) };
  };

  /* Putting away and removing */

  const forget = async (slug, but) => {
    const old = (await shelves()).filter((name) => slugOf(name) === slug && name !== but);
    await Promise.all(old.map((name) => caches.delete(name)));
  };

  const keep = async (note, found) => {
    const name = `${SHELF}${note.when} ${note.slug}`;
    const cache = await caches.open(name);
    try {
      await navigator.serviceWorker.register(`${root}offline.js`, { scope: root });
      await Promise.all(found.responses.map(([address, response]) => cache.put(address, response.clone())));
      await cache.put(NOTE, new Response(JSON.stringify(note), { headers: { "Content-Type": "application/json" } }));
    } catch (error) {
      // whole or not at all: what was kept before stays
      await caches.delete(name);
      await leave();
      throw error;
    }
    await forget(note.slug, name);
    // a wish
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
  };

  const leave = async () => {
    if ((await list()).length) return;
    await Promise.all((await shelves()).map((name) => caches.delete(name)));
    const worker = await navigator.serviceWorker.getRegistration(root);
    if (worker && worker.scope === root) await worker.unregister();
  };

  const drop = async (slug) => {
    await forget(slug);
    await leave();
  };

  const changed = async (slug, addresses) => {
    const name = (await shelves()).find((one) => slugOf(one) === slug);
    const cache = await caches.open(name);
    const differs = async (address) => {
      const kept = await cache.match(place(address));
      return !kept || (await kept.text()) !== (await (await get(address)).text());
    };
    return (await Promise.all(addresses.map(differs))).some(Boolean);
  };

  const possible = Boolean(window.isSecureContext && navigator.serviceWorker && window.caches && location.protocol.startsWith("http"));
  window.Keeping = { possible, list, get, collect, keep, drop, changed };
})();

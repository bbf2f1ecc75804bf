/* The site's service worker (W3C, Service Workers): shows what viewers keep on their device while there is no
   network. It is installed only once somebody keeps a session (keeping.js) and goes with the last one.

   Nothing old is shown unasked. Files whose address changes with their bytes come from the device. Everything
   else is asked for first; only where no answer comes, what is kept is shown, with the line that says so and of
   which day it is. A page that is not kept gives way to the list of those that are. */
"use strict";

const SCOPE = self.registration.scope;
const SHELF = `kept ${SCOPE} `; // begins the name of each cache; several sites may share one origin
const NAMED_BY_BYTES = /\/(?:assets|media)\/[^?#]*\.[0-9a-f]{10}\.\w+$/;
const PATIENCE = 4000; // milliseconds: a network that takes longer for a page's beginning is as good as none
const LIST = `${SCOPE}kept/`;

const place = (address) => address.split(/[?#]/, 1)[0].replace(/\/index\.html$/, "/");

const find = async (address) => {
  const names = (await caches.keys()).filter((name) => name.startsWith(SHELF)).sort().reverse(); // newest first
  for (const name of names) {
    const cache = await caches.open(name);
    const response = await cache.match(place(address));
    if (response) return { response, cache };
  }
  return null;
};

/* RFC 9110, section 14: players ask for parts, and Safari plays nothing without them. */
const partOf = async (response, range) => {
  const wanted = /^bytes=(\d*)-(\d*)$/.exec(range);
  const bytes = await response.blob();
  const tail = wanted && !wanted[1];
  const first = tail ? Math.max(0, bytes.size - Number(wanted[2])) : Number(wanted ? wanted[1] : 0);
  const last = wanted && wanted[2] && !tail ? Math.min(Number(wanted[2]), bytes.size - 1) : bytes.size - 1;
  if (!wanted || first > last) return new Response(null, { status: 416, headers: { "Content-Range": `bytes */${bytes.size}` } });
  return new Response(bytes.slice(first, last + 1), {
    status: 206,
    headers: {
      "Content-Type": response.headers.get("Content-Type") || "",
      "Content-Range": `bytes ${first}-${last}/${bytes.size}`,
      "Content-Length": String(last - first + 1),
    },
  });
};

const whole = (kept, request) => {
  const range = request.headers.get("Range");
  return range ? partOf(kept.response, range) : kept.response;
};

const escaped = (text) => text.replace(/[&<"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

/* The page as kept, with the line that tells so. */
const told = async (kept) => {
  const type = kept.response.headers.get("Content-Type") || "";
  const headers = { "Content-Type": type, "X-Kept": "yes" };
  if (!type.startsWith("text/html")) return new Response(await kept.response.blob(), { headers });
  const about = await (await kept.cache.match(`${SCOPE}kept.json`)).json();
  const again = `<a href="">${escaped(about.again)}</a>`;
  const line = `<p class="kept-line" role="status">${escaped(about.line)} ${again}</p>`;
  const text = await kept.response.text();
  return new Response(text.replace("<main", () => `${line}<main`), { headers });
};

const fromNetwork = (request, isKept) => {
  if (!isKept) return fetch(request);
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), PATIENCE);
  // A navigation cannot be given a signal: its address is asked for as any other's.
  const asked = request.mode === "navigate" ? fetch(request.url, { signal: stop.signal }) : fetch(request, { signal: stop.signal });
  return asked.finally(() => clearTimeout(timer));
};

const answer = async (request) => {
  const kept = await find(request.url);
  if (kept && NAMED_BY_BYTES.test(place(request.url))) return whole(kept, request);
  try {
    const response = await fromNetwork(request, Boolean(kept));
    if (response.status < 500 || !kept) return response;
  } catch (error) {
    if (!kept && request.mode !== "navigate") throw error;
  }
  if (kept) return told(kept);
  return (await find(LIST)) ? Response.redirect(LIST) : Response.error(); // its links would not hold elsewhere
};

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(SCOPE)) event.respondWith(answer(request));
});

// Leads on from an old address with what was behind it: a link to a moment of a video
// (?t=125) goes on working. Runs before the page's own immediate refresh, which knows nothing of it.
(() => {
  const link = document.getElementById("new");
  if (!link) return;
  const there = new URL(link.href);
  if (location.search) there.search = location.search;
  if (location.hash) there.hash = location.hash;
  location.replace(there);
})();

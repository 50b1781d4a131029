// Asks for the plan while the modules still come: the one slow answer begins first. What a chosen member or session is, the
// address says; whose plan was the last here, only the store knows, and main.js asks anew where this was another's.
(() => {
  const query = new URLSearchParams(location.search), now = new Date(), two = number => String(number).padStart(2, "0");
  const asked = new URLSearchParams({day: `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`});
  for (const name of ["member", "session"]) if (query.get(name)) asked.set(name, query.get(name));
  const path = `/day/api/plan?${asked}`;
  self.early = {path, answer: fetch(path, {cache: "no-store", redirect: "error"})};
  self.early.answer.catch(() => {});
})();

// Begins what is slow while the modules still come: asks for the plan, and reads what the phone keeps. What a chosen member or
// session is, the address says; whose plan was the last here, only the store knows, and main.js asks anew where this was
// another's. Where there is no store yet, none is made here: store.js does that.
(() => {
  const query = new URLSearchParams(location.search), now = new Date(), two = number => String(number).padStart(2, "0");
  const asked = new URLSearchParams({day: `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`});
  for (const name of ["member", "session"]) if (query.get(name)) asked.set(name, query.get(name));
  self.kept = new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error("it does not answer")), 5000), asked = indexedDB.open("day", 1), failed = error => { clearTimeout(late); reject(error); };
    asked.onupgradeneeded = () => asked.transaction.abort();
    asked.onerror = event => { event.preventDefault(); failed(asked.error); };
    asked.onblocked = () => failed(new Error("another tab holds an older version"));
    asked.onsuccess = () => {
      const base = asked.result, tx = base.transaction(["outbox", "sent", "snap", "meta"], "readonly"), found = {base};
      const read = (name, request) => { request.onsuccess = () => { found[name] = request.result; }; };
      for (const name of ["outbox", "sent", "snap"]) read(name, tx.objectStore(name).getAll());
      for (const name of ["last", "draft"]) read(name, tx.objectStore("meta").get(name));
      tx.oncomplete = () => { clearTimeout(late); resolve(found); };
      tx.onabort = () => { base.close(); failed(tx.error || new Error("it was broken off")); };
    };
  });
  self.kept.catch(() => {});
  const path = `/day/api/plan?${asked}`;
  self.early = {path, answer: fetch(path, {cache: "no-store", redirect: "error"})};
  self.early.answer.catch(() => {});
  try { self.localStorage.getItem("day-gone"); } catch { /* main.js asks again, and goes on without */ }  // the first reading of it takes long
})();

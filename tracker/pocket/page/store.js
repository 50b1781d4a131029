// All that the phone keeps: acts until the log has them, what became of them, the newest plan. Nothing else touches IndexedDB.
// An act counts as kept when its transaction is complete, not before; nothing is taken out before the log has named its id.

const NAME = "day", PATIENCE = 5000, KEPT_DAYS = 3;
let base = null;

export const can = {
  worker: "serviceWorker" in navigator && isSecureContext,
  locks: "locks" in navigator && isSecureContext,
  persist: Boolean(navigator.storage && navigator.storage.persist),
  wake: "wakeLock" in navigator,
};

export function newId() {  // without a secure context there is no randomUUID
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, each => each.toString(16).padStart(2, "0")).join("");
}

function opened() {
  if (base) return Promise.resolve(base);
  return new Promise((resolve, reject) => {
    let asked;
    const late = setTimeout(() => reject(new Error("it does not answer")), PATIENCE);
    try { asked = indexedDB.open(NAME, 1); } catch (error) { clearTimeout(late); reject(error); return; }
    asked.onupgradeneeded = () => {
      const made = asked.result;
      made.createObjectStore("outbox", {keyPath: "seq"});
      made.createObjectStore("sent", {keyPath: "id"});
      made.createObjectStore("snap", {keyPath: "member.id"});
      made.createObjectStore("meta");
    };
    asked.onerror = () => { clearTimeout(late); reject(asked.error || new Error("refused")); };
    asked.onblocked = () => { clearTimeout(late); reject(new Error("another tab holds an older version")); };
    asked.onsuccess = () => {
      clearTimeout(late);
      resolve(held(asked.result));
    };
  });
}

function held(opened) {
  base = opened;
  base.onclose = () => { base = null; };  // a phone drops what lay in the background
  base.onversionchange = () => { base.close(); base = null; };
  return base;
}

// All that the first drawing needs, in one reading, which the shell has begun already.
export async function first() {
  const early = self.kept;
  self.kept = null;
  if (early) try {
    const found = await early;
    held(found.base);
    return found;
  } catch { /* there is no store yet, or it was refused: asked once more, with whatever that says */ }
  return within(["outbox", "sent", "snap", "meta"], "readonly", async tx => {
    const all = name => answer(tx.objectStore(name).getAll());
    const meta = name => answer(tx.objectStore("meta").get(name));
    const [outbox, sent, snap, last, draft] = await Promise.all([all("outbox"), all("sent"), all("snap"), meta("last"), meta("draft")]);
    return {outbox, sent, snap, last, draft};
  });
}

async function within(stores, mode, work, again = true) {
  const from = await opened();
  let tx;
  try {
    tx = from.transaction(stores, mode, mode === "readwrite" ? {durability: "strict"} : {});
  } catch (error) {
    base = null;
    if (again && error.name === "InvalidStateError") return within(stores, mode, work, false);
    throw error;
  }
  const done = new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error("it does not answer")), PATIENCE);
    tx.oncomplete = () => { clearTimeout(late); resolve(); };
    tx.onabort = tx.onerror = () => { clearTimeout(late); reject(tx.error || new DOMException("it was broken off", "AbortError")); };
  });
  let result;
  try { result = work(tx); } catch (error) { done.catch(() => {}); try { tx.abort(); } catch { /* it has ended */ } throw error; }
  const [value] = await Promise.all([Promise.resolve(result).catch(error => { done.catch(() => {}); throw error; }), done]);
  return value;
}

const answer = request => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

// Keep one act: its place in the order is taken in the same transaction.
export function keep(act) {
  return within(["outbox", "meta"], "readwrite", async tx => {
    const meta = tx.objectStore("meta");
    const seq = ((await answer(meta.get("seq"))) || 0) + 1;
    meta.put(seq, "seq");
    const whole = {...act, seq};
    tx.objectStore("outbox").put(whole);
    return whole;
  });
}

export const outbox = () => within(["outbox"], "readonly", tx => answer(tx.objectStore("outbox").getAll()));
export const sent = () => within(["sent"], "readonly", tx => answer(tx.objectStore("sent").getAll()));
export const recall = name => within(["meta"], "readonly", tx => answer(tx.objectStore("meta").get(name)));
export const remember = (name, value) => within(["meta"], "readwrite", tx => { tx.objectStore("meta").put(value, name); });
export const keepPlan = plan => within(["snap", "meta"], "readwrite", tx => {
  tx.objectStore("snap").put(plan);
  tx.objectStore("meta").put(plan.member.id, "last");
});

// Whoever signs out leaves no plan behind, and nothing of theirs that the log has; what it has not stays, and is shown to
// nobody else.
export const forget = () => within(["snap", "sent", "meta"], "readwrite", tx => {
  tx.objectStore("snap").clear();
  tx.objectStore("sent").clear();
  tx.objectStore("meta").delete("last");
  tx.objectStore("meta").delete("draft");
});

// The log has answered: what it has goes out of the outbox, in one transaction with what became of it.
export function settle(acts, results) {
  const by = new Map(results.map(each => [each.id, each]));
  return within(["outbox", "sent"], "readwrite", async tx => {
    const out = tx.objectStore("outbox"), kept = tx.objectStore("sent");
    for (const act of acts) {
      const found = by.get(act.id);
      if (!found) continue;
      kept.put({...act, result: found});
      out.delete(act.seq);
    }
    const old = Date.now() - KEPT_DAYS * 86400000;
    for (const each of await answer(kept.getAll())) if (each.at < old && !refused(each) && !each.result.changed) kept.delete(each.id);
  });
}

// What the log said of an act has been read; the act itself stays what it was.
export const seen = id => within(["sent"], "readwrite", async tx => {
  const kept = tx.objectStore("sent"), act = await answer(kept.get(id));
  if (act) kept.put({...act, result: {...act.result, changed: false}});
});

// Whether a touch finds room: some kilobytes are written and taken away, so that a full phone is found out before the touch.
export async function room() {
  await remember("room", "0".repeat(32768));
  await within(["meta"], "readwrite", tx => { tx.objectStore("meta").delete("room"); });
}

export const refused = act => act.result && (act.result.r === "parked" || act.result.r === "clash");
export const dismiss = id => within(["sent"], "readwrite", tx => { tx.objectStore("sent").delete(id); });

let named = null;
export function device() {
  return named ||= nameIt().catch(error => { named = null; throw error; });
}

async function nameIt() {
  const known = await recall("device");
  if (known) return known;
  const made = newId();
  await remember("device", made);
  return made;
}

// One sender at a time; where the browser has no locks, a lease in the database that ends by itself.
export async function alone(work) {
  if (can.locks) return navigator.locks.request("day-send", {ifAvailable: true}, held => held ? work() : undefined);
  const me = newId(), now = Date.now();
  const mine = await within(["meta"], "readwrite", async tx => {
    const meta = tx.objectStore("meta"), lease = await answer(meta.get("lease"));
    if (lease && lease.until > now && lease.until < now + 20000) return false;
    meta.put({owner: me, until: now + 15000}, "lease");
    return true;
  });
  if (!mine) return undefined;
  try { return await work(); } finally {
    await within(["meta"], "readwrite", async tx => {
      const meta = tx.objectStore("meta"), lease = await answer(meta.get("lease"));
      if (lease && lease.owner === me) meta.delete("lease");
    });
  }
}

export async function lasting() {  // whether the browser promises not to clear it away
  if (!can.persist) return null;
  try { return (await navigator.storage.persisted()) || (await navigator.storage.persist()); } catch { return false; }
}

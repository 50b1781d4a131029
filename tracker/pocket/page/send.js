// Hands kept acts over, in order, one post at a time; what the log has not named stays kept.

import * as store from "./store.js";

const PATIENCE = 15000, MOST = 20, LONGEST = 60000;
let wait = 1000, timer = 0, running = false, wanted = false;

export const line = {reached: null, at: null, trouble: "", skew: null};

// The answer that the shell asked for, once, where it is to what is asked now.
async function early(path) {
  const one = self.early;
  self.early = null;
  return one && one.path === path ? one.answer : null;
}

export async function ask(path, options = {}, patience = PATIENCE) {
  const stop = new AbortController(), late = setTimeout(() => stop.abort(), patience);
  try {
    const found = await early(path) || await fetch(path, {...options, cache: "no-store", signal: stop.signal, redirect: "error"});
    if (!(found.headers.get("content-type") || "").startsWith("application/json")) throw new Error("another page answered");
    return {status: found.status, said: await found.json()};
  } finally { clearTimeout(late); }
}

// Why the log lets nobody in here: a phone that is not paired hears a text, one where nobody is signed in a record.
export const shutBy = said => typeof said === "string" ? "pair" : "sign in";
export const shut = () => line.trouble === "pair" || line.trouble === "sign in";

export function post(user, device, acts) {
  const body = JSON.stringify({f: 1, user, device, sent_at: Date.now(), acts});
  return ask("/day/api/acts", {method: "POST", body, headers: {"content-type": "application/json", "tidemark-day": "1"}});
}

// Send all that is kept. `changed` is called whenever something of it came into the log.
export async function handOver(changed) {
  if (running) { wanted = true; return; }
  running = true;
  clearTimeout(timer);
  try {
    let more = true;
    while (more) { wanted = false; more = (await store.alone(() => through(changed))) || wanted; }
  } catch { later(changed); } finally { running = false; }
}

async function through(changed) {
  const device = await store.device(), away = new Set();  // members who are not the one that signed in
  for (;;) {
    const all = await store.outbox(), kept = all.filter(each => !away.has(each.user));
    if (!kept.length) {
      wait = 1000;
      if (all.length) { line.trouble = "other user"; changed(false); later(changed); }
      return false;
    }
    const user = kept[0].user, acts = kept.filter(each => each.user === user).slice(0, MOST);
    let found;
    try { found = await post(user, device, acts); } catch { line.reached = false; changed(false); later(changed); return false; }
    line.reached = true;
    if (found.status === 403 && found.said.error === "other user") { away.add(user); continue; }  // nobody else waits for them
    line.trouble = found.status === 401 ? shutBy(found.said) : {403: "other user", 426: "reload", 413: "too much"}[found.status] || "";
    if (found.status !== 200) { line.trouble ||= found.said.words || "log"; changed(false); later(changed); return false; }
    await store.settle(acts, found.said.results);
    line.at = Date.now();
    wait = 1000;
    changed(true);
  }
}

function later(changed) {
  clearTimeout(timer);
  timer = setTimeout(() => handOver(changed), wait * (0.75 + Math.random() / 2));
  wait = Math.min(wait * 2, LONGEST);
}
export const soon = () => { wait = 1000; };

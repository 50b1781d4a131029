// The day page: keeps each touch first, draws what is next, hands over.

import * as store from "./store.js";
import * as send from "./send.js";
import * as draw from "./view.js";
import {cutOff, dayOf, reading, stand, time} from "./next.js";

const query = new URLSearchParams(location.search), $ = id => document.getElementById(id);
const ui = {menu: false, open: "", fields: {}, pick: {}, mend: "", passed: passed(), freeOpen: false, first: !/(^|; )tidemark-first=pages/.test(document.cookie), sound: flag("sound"), vibration: flag("vibration"), lasting: null, fresh: null};
let plan = null, out = [], sent = [], storeBroken = false, unkept = null, trouble = "", memory = [], view = null, busy = false, wake = null, beeped = 0, phase = "";
const others = "BroadcastChannel" in self ? new BroadcastChannel("day") : null;

function flag(name) { try { return localStorage.getItem(`day-${name}`) !== "off"; } catch { return true; } }
function setFlag(name, on) { ui[name] = on; try { localStorage.setItem(`day-${name}`, on ? "on" : "off"); } catch { /* then for this time only */ } }

// What was passed over, for this day alone: nothing that the log has to know.
function passed() { try { const known = JSON.parse(localStorage.getItem("day-passed")); return new Set(known?.day === dayOf() ? known.keys : []); } catch { return new Set(); } }
function keepPassed() { try { localStorage.setItem("day-passed", JSON.stringify({day: dayOf(), keys: [...ui.passed]})); } catch { /* then until it is closed */ } shut(); show(); $("day").focus(); }

// Whether a phone that opens the bare address lands here: the server asks this cookie.
function first(on) { ui.first = on; document.cookie = `tidemark-first=pages; path=/; samesite=lax; max-age=${on ? 0 : 34560000}`; }

async function look() {
  if (!storeBroken) {
    try { [out, sent] = await Promise.all([store.outbox(), store.sent()]); } catch { storeBroken = true; }
  }
}

function show() {
  const today = dayOf(), acts = [...sent, ...out, ...memory].sort((one, other) => one.seq - other.seq);
  const user = plan && plan.member.id;
  view = {
    plan, ui, today, kept: out.length, line: send.line, storeBroken, unkept, trouble, can: store.can,
    refusedActs: sent.filter(each => store.refused(each) && each.user === user),
    answered: new Set(acts.filter(each => each.kind === "answer").map(each => each.body.question)),
    now: plan ? stand(plan, acts, today, ui.passed) : null,
  };
  const held = document.activeElement && document.activeElement.id, opened = [...document.querySelectorAll("details[open]")].map(each => each.id);
  put($("top"), draw.top(view));
  put($("day"), draw.main(view));
  for (const id of opened) if (id && $(id)) $(id).open = true;
  if (held && document.activeElement.id !== held) ($(held) || {focus() {}}).focus({preventScroll: true});
  tick();
}

function put(box, html) { if (box.shown !== html) { box.innerHTML = html; box.shown = html; } }

function say(words) { $("said").textContent = words; }

// Keep a touch: on the phone first, then shown, then sent.
async function touch(kind, body, words) {
  if (busy || !plan) return false;
  busy = true;
  const moment = new Date();
  const act = {f: 1, id: store.newId(), user: plan.member.id, kind, body, at: moment.getTime(), tz: -moment.getTimezoneOffset(), date: dayOf(moment)};
  try {
    if (storeBroken) throw new Error("nothing is kept here");
    out.push(await store.keep(act));
    after(kind, words, "Kept", body);
    send.soon();
    handOver();
    if (others) others.postMessage("kept");
    return true;
  } catch (error) {
    return await straight(act, words, error);
  } finally { busy = false; }
}

// Nothing can be kept: the touch counts only where the log takes it now.
async function straight(act, words, error) {
  const full = error && error.name === "QuotaExceededError";
  act.seq = Date.now();
  try {
    const found = await send.post(act.user, ui.device ||= store.newId(), [act]);
    if (found.status !== 200) throw new Error(found.said.words || "the log does not take it");
    send.line.reached = true;
    memory.push({...act, result: found.said.results[0]});
    unkept = null;
    after(act.kind, words, "Saved", act.body);
    refresh();
    return true;
  } catch {
    unkept = {act, words, why: `${full ? "This phone is full" : "This browser keeps nothing"}, and the log is not reached. Write it down, or try again with a connection.`};
    show();
    say(`Not kept and not logged: ${words}`);
    return false;
  }
}

const shut = () => { if ($("more")) $("more").open = false; };
const BESIDE = new Set(["start", "tap", "stop", "away", "answer", "weigh"]);
function after(kind, words, how, body = {}) {
  if (!BESIDE.has(kind) && !body.beside) ui.fields = {};  // a score or a note that was begun stays
  ui.open = ""; ui.mend = ""; ui.scoreWants = ui.rateWants = ui.bodyWants = "";
  beeped = 0;
  shut();
  show();
  say(`${how}: ${words}`);
}

const handOver = () => storeBroken ? undefined : send.handOver(async saved => {
  await look();
  show();
  if (saved && !out.length) { say("All saved"); refresh(); if (others) others.postMessage("saved"); }
});

async function refresh() {
  const member = query.get("member") || (plan ? plan.member.id : "");
  const asked = new URLSearchParams({day: dayOf(), ...(member ? {member} : {}), ...(query.get("session") ? {session: query.get("session")} : {})});
  try {
    const found = await send.ask(`/day/api/plan?${asked}`, {}, plan ? 15000 : 60000);  // with nothing to show, nothing is gained by giving up
    send.line.reached = true;
    if (found.status === 200 && found.said.member) {
      plan = found.said; trouble = "";
      if (send.line.trouble === "sign in") send.line.trouble = "";
      if (!storeBroken) await store.keepPlan(plan).catch(() => {});
    } else if (found.status === 401) { send.line.trouble = "sign in"; if (!out.length) plan = null; }
    else if (found.status === 404 || found.status === 503) trouble = found.said.words || "";
    else if (found.said.nobody) { plan = null; trouble = ""; }
  } catch {
    send.line.reached = false;
    if (!plan) setTimeout(refresh, 3000);
  }
  await look();
  show();
}

// Without a body mass the log takes no set of a lift that moves the body: it is asked for before the touch, not after.
function heavyEnough(lift) {
  if (!lift.body || plan.body_known || view.now.weighed) return true;
  ui.bodyWants = "Type the body mass first: without it the set can't be logged.";
  ui.open = "";
  show();
  say(ui.bodyWants);
  $("body_mass").focus();
  return false;
}

// What a touch says of a set.
function setOf(line, outcome, reps) {
  const f = ui.fields, load = String(f.load ?? line.load ?? "").replace(",", ".").trim();
  if (!load || Number.isNaN(Number(load))) return null;
  const words = f.load === undefined && line.load_words ? line.load_words : `${load} ${line.unit}`;
  const ending = ["th", "st", "nd", "rd"], n = reps + 1, nth = `${n}${n % 100 > 10 && n % 100 < 14 ? "th" : ending[n % 10] || "th"}`;
  const said = outcome === "missed" ? `${words}, ${reps ? `${reps} made, ` : ""}the ${nth} missed` : `${reps} × ${words}`;
  const body = {lift: line.lift, load, unit: line.unit, reps, outcome, step: view.now.next.session.id, planned: line.planned, number: line.number, key: line.key, words: `${line.title}: ${said}`, said};
  if (f.rir) body.rir = f.rir;
  if (f.note) body.note = f.note;
  return body;
}

const acts = {
  async done() {
    const line = draw.picked(view.now.next.line, ui), reps = Math.round(Number(ui.fields.reps_done ?? line.reps));
    if (!heavyEnough(line)) return;
    const body = setOf(line, "done", reps);
    if (!body || !(reps > 0)) return say("Say the load and the repetitions first."), $("load") && $("load").focus();
    if (await touch("set", body, body.words)) delete ui.pick[line.key], buzz(30);
  },
  missed() { if (!heavyEnough(view.now.next.line)) return; ui.open = "missed"; show(); ($(`reps_${Math.max(0, view.now.next.line.reps - 1)}`) || {focus() {}}).focus(); },
  change() { ui.open = "change"; show(); $("load").focus({preventScroll: true}); },
  undo(on) { return touch("undo", {of: on.dataset.of, words: "taken back", said: "taken back"}, "taken back"); },
  begin(on) { const one = find(on.dataset.session); scrollTo({top: 0}); return touch("begin", {step: one.id, words: `${one.title} begun`, said: `${one.title} begun`}, `${one.title} is on`); },
  start() {
    const {piece, session} = view.now.next, count = Number(ui.fields.count ?? 10);
    awake();
    return touch("start", {piece: piece.id, step: session.id, count_in: count, words: "clock started"}, "The clock is started");
  },
  stop() { return touch("stop", {of: view.now.clock.id, words: "clock stopped"}, "The clock is stopped"); },
  score() {
    const {piece, session} = view.now.next, body = scored(piece);
    if (!body) { ui.scoreWants = piece.sides.length && !ui.fields.side ? "Say first which of the two numbers is yours." : "Say first how far it went, or how long it took."; show(); return say(ui.scoreWants); }
    return touch("score", {...body, piece: piece.id, step: session.id, words: `${piece.title}: ${body.said}`}, `${piece.title}: ${body.said}`);
  },
  rate() {
    if (ui.fields.rating === undefined) { ui.rateWants = "Touch a number from 0 to 10 first."; show(); return say(ui.rateWants); }
    const body = {step: view.now.next.session.id, rating: Number(ui.fields.rating), words: `rated ${ui.fields.rating} of 10`, said: `rated ${ui.fields.rating} of 10`};
    if (Number(ui.fields.minutes) > 0) body.minutes = Math.round(Number(ui.fields.minutes));
    if (ui.fields.note) body.note = ui.fields.note;
    return touch("rate", body, body.words);
  },
};

function scored(piece) {
  const f = ui.fields, clock = view.now.clock && view.now.clock.piece === piece.id ? view.now.clock : null, body = {};
  if (piece.sides.length) { if (!f.side) return null; body.side = f.side; }
  if (f.swaps) body.swaps = f.swaps;
  if (f.note) body.note = f.note;
  const loads = Object.fromEntries(piece.movements.map((each, at) => [at, String(f[`used_${at}`] ?? "").replace(",", ".").trim(), each.unit]).filter(each => each[1]).map(([at, load, unit]) => [at, /[a-z]/i.test(load) ? load : `${load} ${unit}`]));
  if (Object.keys(loads).length) body.loads = loads;
  if (clock) {
    body.clock = clock.id;
    if (piece.taps !== 0 && clock.taps.length) body.splits = clock.taps.map(each => time(Math.round((each - clock.zero) / 1000))).join(" ");
  }
  const at = clock ? reading(clock, piece.clock, Date.now()) : null, cut = cutOff(clock, piece, Date.now());
  if (piece.way === "time" && cut && !f.way) return null;
  const ran = at && at.phase === "over" && !cut ? time(at.shown) : "";
  const way = f.way ?? "finished", said = String(f.time ?? ran).trim();
  if (piece.way === "done") return {...body, text: "done", said: "done"};
  if (piece.way === "kept") return f.finished === undefined ? null : {...body, text: `${f.finished}/${piece.most}`, said: `${f.finished} of ${piece.most}`};
  if (piece.way === "number" || piece.way === "load" || piece.way === "each") { const text = String(f.amount ?? "").trim(); return text ? {...body, text, said: text} : null; }
  if (piece.way === "time" && way === "finished") return said ? {...body, text: said, said} : null;
  if (!piece.rounds) return way === "cap" ? {...body, text: "cap", said: "ran into the cap"} : {...body, text: said ? `stopped at ${said}` : "stopped", said: "stopped early"};
  const one = piece.rounds.length === 1 || piece.taps === 0;
  const rounds = f.finished ?? (clock && clock.taps.length ? clock.taps.length : one && (f.moves !== undefined || f.more !== undefined) ? 0 : undefined);
  if (rounds === undefined) return null;
  const round = piece.rounds.find(each => each.n === Number(rounds)), moves = Number(f.moves ?? 0), of = round && round.reps[moves];
  const more = Math.min(Math.max(0, Math.round(Number(f.more ?? 0)) || 0), of ? Math.max(0, of[0] - 1) : 0);
  const words = `${round ? round.words : rounds}${moves ? `, ${round.moves[moves][1]}` : ""}${more ? `, ${more} ${of[1]}` : ""}`;
  const text = piece.way === "rounds" ? "" : way === "cap" ? "{place} at the cap" : said ? `stopped at ${said}, {place}` : "stopped, {place}";
  return {...body, place: [Number(rounds), moves, more], text, said: words};
}

const find = id => plan.sessions.find(each => each.id === id);

const dos = {
  menu() { ui.menu = !ui.menu; show(); },
  more_rounds() { ui.fields.moreRounds = true; show(); },
  close() { ui.open = ""; ui.fields = {}; show(); },
  pick(on) { const key = view.now.next.line.key; if (on.dataset.at === "") delete ui.pick[key]; else ui.pick[key] = Number(on.dataset.at); show(); },
  pass() { const {line, session} = view.now.next; for (const each of session.lines) if (each.lift === line.lift && each.withheld?.length) ui.passed.add(each.key); keepPassed(); },
  later() { const {line, session} = view.now.next; for (const each of session.lines) if (each.lift === line.lift) ui.passed.add(each.key); keepPassed(); },
  piece_first() { for (const each of view.now.next.session.lines) ui.passed.add(each.key); keepPassed(); },
  to_sets() { for (const each of view.now.next.session.lines) ui.passed.delete(each.key); keepPassed(); },
  back(on) { return touch("undo", {of: on.dataset.of, words: "taken back", said: "taken back", beside: true}, "turned round"); },
  move(on) { const one = view.now.next.session, to = on.dataset.to, words = `${one.title} moved to ${draw.dayWords(to)}`; return touch("move", {step: one.id, to, words, said: words}, words); },
  weigh() {
    const load = String(ui.fields.body_mass ?? "").replace(",", ".").trim(), unit = plan.member.unit, words = `body mass ${load} ${unit}`;
    if (!(Number(load) > 0)) { ui.bodyWants = "Type the body mass first."; show(); return say(ui.bodyWants); }
    return touch("weigh", {load, unit, words, said: words}, words);
  },
  effort(on) {
    const row = view.now.sets.find(each => each.id === on.dataset.id), n = on.dataset.n, words = `${n === "5" ? "5 or more" : n} left in reserve`;
    return touch("change", {...(row.act ? {of: row.act} : {set: row.id}), rir: n, told: words, beside: true}, words);
  },
  warm(on) { return touch("warm", {step: on.dataset.step, words: "warm-up done", said: "warm-up done"}, "warm-up done"); },
  skip(on) { const one = find(on.dataset.session); return touch("skip", {step: one.id, words: `${one.title} left out`, said: `${one.title} left out`}, `${one.title} left out`); },
  end(on) { return touch("end", {step: on.dataset.step, words: "session ended", said: "session ended"}, "session ended"); },
  end_test(on) { return touch("end", {step: on.dataset.step, planned: view.now.next.line.planned, words: "test ended", said: "test ended"}, "test ended"); },
  enough(on) {
    const session = view.now.next.session, line = session.lines.find(each => each.done && each.done.id === on.dataset.id), row = line.done, how = on.dataset.how;
    const words = how === "hurt" ? "it hurts: no more of it today" : "enough of it today";
    return touch("after", {...(row.act ? {of: row.act} : {set: row.id}), how, lift: line.lift, step: session.id, words, said: words}, words);
  },
  leave() { return touch("leave", {step: view.now.next.session.id, words: "left without a rating", said: "left without a rating"}, "left without a rating"); },
  tap() { buzz(30); return touch("tap", {of: view.now.clock.id, words: "round"}, `Round ${view.now.clock.taps.length + 1}`); },
  away() { return touch("away", {of: view.now.clock.id, words: "clock put away"}, "The clock is put away"); },
  answer(on) { const ask = plan.asks.find(each => each.key === on.dataset.ask), one = ask.answers[Number(on.dataset.n)]; return touch("answer", {question: ask.key, says: one.says, words: one.words}, one.words); },
  mend(on) { ui.mend = ui.mend === on.dataset.id ? "" : on.dataset.id; ui.fields = {}; show(); },
  mend_keep(on) {
    const row = view.now.sets.find(each => each.id === on.dataset.id), f = ui.fields, unit = row.unit;
    const load = String(f.mend_load ?? row.load).replace(",", "."), reps = Math.round(Number(f.mend_reps ?? row.reps));
    const said = `${row.outcome === "missed" ? "missed, " : ""}${reps} × ${load} ${unit}`, lift = row.words.split(": ")[0];
    const body = {...(row.act ? {of: row.act} : {set: row.id}), load, unit, reps, rir: f.rir ?? row.rir ?? "", note: f.note ?? row.note, words: `${lift}: ${said}`, said};
    return touch("change", body, body.words);
  },
  async free_log() {
    const f = ui.fields, lift = plan.lifts.find(each => each.id === f.free_lift) || plan.lifts[0];
    const load = String(f.free_load ?? lift.load).replace(",", ".").trim(), reps = Math.round(Number(f.free_reps ?? lift.reps));
    if (!heavyEnough(lift)) return;
    if (!load || Number.isNaN(Number(load)) || !(reps > 0)) return say("Say the load and the repetitions first.");
    const said = `${reps} × ${load} ${lift.unit}`;
    return touch("set", {lift: lift.id, load, unit: lift.unit, reps, outcome: "done", words: `${lift.title}: ${said}`, said}, `${lift.title}: ${said}`);
  },
  sound() { setFlag("sound", !ui.sound); show(); if (ui.sound) beep(); },
  vibration() { setFlag("vibration", !ui.vibration); show(); buzz(60); },
  async sure(on) {
    const act = sent.find(each => each.id === on.dataset.id);
    await store.dismiss(act.id);
    await look();
    return touch(act.kind, {...act.body, sure: true}, act.body.words);
  },
  async drop(on) { await store.dismiss(on.dataset.id); await look(); show(); },
  async retry() { const held = unkept; unkept = null; await touch(held.act.kind, held.act.body, held.words); },
  drop_unkept() { unkept = null; show(); },
  first() { first(!ui.first); show(); },
  all_pages() { first(false); },
  fresh() { if (ui.fresh) ui.fresh.postMessage("take over"); },
  async sign_out() {
    const some = out.length === 1 ? "1 touch is" : `${out.length} touches are`;
    if (out.length && !confirm(`${some} kept here and not in the log yet. What is kept stays on this phone for you alone. Sign out all the same?`)) return;
    if (!storeBroken) await store.forget().catch(() => {});
    location.href = "/auth/logout";
  },
  async to_file() {
    const text = JSON.stringify({f: 1, device: await store.device().catch(() => store.newId()), user: plan.member.id, acts: out});
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], {type: "application/json"}));
    link.download = `waiting-${dayOf()}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  },
};

document.addEventListener("click", event => {
  const on = event.target.closest("button, a");
  if (!on || !view) return;
  const data = on.dataset;
  if (data.act && acts[data.act]) acts[data.act](on);
  else if (data.do && dos[data.do]) dos[data.do](on);
  else if (data.reps !== undefined) { const body = setOf(draw.picked(view.now.next.line, ui), "missed", Number(data.reps)); if (body) touch("set", body, body.words); }
  else if (data.stepOf) step(data.stepOf, Number(data.by));
  else for (const name of ["finished", "moves", "rating", "rir", "side", "count", "way"]) if (data[name] !== undefined) { ui.fields[name] = data[name]; if (name === "finished") delete ui.fields.moves, delete ui.fields.more; if (name === "moves") delete ui.fields.more; show(); break; }
  for (const name of Object.keys(data)) if (name.startsWith("swap-")) { ui.fields.swaps = {...ui.fields.swaps, [name.slice(5)]: data[name]}; show(); }
});

function step(id, by) {
  const near = id === "load" && view.now.next.line ? view.now.next.line.near : id === "free_load" ? (plan.lifts.find(each => each.id === ui.fields.free_lift) || plan.lifts[0]).near : null;
  const now = Number(String($(id).value || 0).replace(",", ".")) || 0;
  let value;
  if (near && near.length) {
    const loads = near.map(each => Number(each.load)), found = by > 0 ? loads.find(each => each > now) : loads.filter(each => each < now).at(-1);
    const gap = loads.length > 1 ? Math.abs(loads[1] - loads[0]) : 2.5;
    value = found ?? now + by * gap;
  } else value = id.includes("load") ? now + by * 2.5 : Math.max(0, now + by);
  ui.fields[id] = String(Math.round(value * 1000) / 1000);
  $(id).value = ui.fields[id];
}

document.addEventListener("input", event => {
  const name = event.target.dataset && event.target.dataset.field;
  if (name) ui.fields[name] = event.target.value;
  if (name === "free_lift") { delete ui.fields.free_load; delete ui.fields.free_reps; show(); }
});
document.addEventListener("toggle", event => { if (event.target.id === "free") ui.freeOpen = event.target.open; }, true);
document.addEventListener("change", async event => {
  if (event.target.id !== "from_file" || !event.target.files[0]) return;
  try {
    const found = await event.target.files[0].text().then(JSON.parse).catch(() => null);
    if (!found || !found.user || !Array.isArray(found.acts)) throw new Error("it is none that this page saved. Choose one that is called waiting-….json.");
    for (let at = 0; at < found.acts.length; at += 20) {
      const got = await send.post(found.user, found.device, found.acts.slice(at, at + 20));
      if (got.status !== 200) throw new Error(got.said.words);
    }
    say(`Taken in: ${found.acts.length}`);
    refresh();
  } catch (error) { trouble = `The file was not taken in: ${error.message}`; show(); say(trouble); }
});

// Time that passes: only texts change, nothing is drawn anew.
function tick() {
  if (!view || !view.now) return;
  const {clock, next} = view.now, rest = $("rest");
  if (clock && next.piece && clock.piece === next.piece.id && $("clock_face")) {
    const at = reading(clock, next.piece.clock, Date.now()), names = {ready: "get ready", work: next.piece.clock.intervals ? `interval ${at.interval + 1} of ${next.piece.clock.intervals}` : "go", rest: "rest", over: "stopped"};
    $("clock_face").textContent = at.phase === "ready" ? String(at.shown) : time(at.shown);
    $("clock_phase").textContent = names[at.phase];
    const rows = next.piece.now, n = next.piece.clock.intervals ? at.interval : clock.taps.length;
    const what = rows.length ? rows[next.piece.clock.intervals && rows.length > 1 ? n % rows.length : Math.min(n, rows.length - 1)] : "";
    const round = !next.piece.clock.intervals && next.piece.taps !== 0 && rows.length > 1 ? `Round ${n + 1}: ` : "";
    $("clock_now").textContent = at.phase === "over" ? "" : at.phase === "rest" ? "" : round + what;
    const many = next.piece.clock.intervals, ahead = n + (at.phase === "ready" ? 0 : 1), row = many && rows.length > 1 ? ahead % rows.length : Math.min(ahead, rows.length - 1);
    const more = rows.length && at.phase !== "over" && at.phase !== "ready" && (many ? ahead < many : rows.length > 1 && (next.piece.taps === null || ahead < next.piece.taps));
    $("clock_then").textContent = more ? `then: ${rows[row]}` : "";
    const told = `${at.phase} ${at.interval}`;
    const before = phase;
    phase = told; // before anything is drawn: drawing ticks too
    if (before && before !== told) { signal(); if (at.phase === "over" && clock.stopped === null) show(); }
  } else phase = "";
  const newest = view.now.sets.filter(each => view.now.on && view.now.on.lines.some(line => line.done && (line.done.id === each.id))).at(-1) || view.now.sets.at(-1);
  const line = newest && view.now.on && view.now.on.lines.find(each => each.done && each.done.id === newest.id);
  const past = newest ? (Date.now() - Date.parse(newest.at)) / 1000 : Infinity;
  if (!rest) return;
  rest.hidden = !(next.kind === "set" && past < 900 && !view.now.hurts.has(newest.lift));
  if (rest.hidden) return;
  const wanted = line && line.rest_s, left = wanted ? wanted - past : null;
  rest.textContent = left === null ? `${time(past)} since the last set` : left > 0 ? `Rest ${time(Math.ceil(left))}` : `Rest is over, ${time(-left)} ago`;
  rest.classList.toggle("over", left !== null && left <= 0);
  if (left !== null && left <= 0 && left > -3 && beeped !== newest.id) { beeped = newest.id; signal(); }
}

let audio = null;
function beep() {
  if (!ui.sound) return;
  try {
    audio ||= new AudioContext();
    const tone = audio.createOscillator(), loud = audio.createGain(), now = audio.currentTime;
    tone.frequency.value = 880; loud.gain.setValueAtTime(0.18, now); loud.gain.exponentialRampToValueAtTime(0.001, now + 0.35);
    tone.connect(loud).connect(audio.destination); tone.start(); tone.stop(now + 0.4);
  } catch { /* a phone that has no sound now */ }
}
function buzz(ms) { if (ui.vibration && navigator.vibrate) navigator.vibrate(ms); }
function signal() { beep(); buzz([120, 80, 120]); }
async function awake() { if (store.can.wake && !wake) try { wake = await navigator.wakeLock.request("screen"); wake.addEventListener("release", () => { wake = null; }); } catch { wake = null; } }

function again() { if (document.visibilityState === "visible") { send.soon(); look().then(show); handOver(); refresh(); if (view && view.now && view.now.clock && view.now.clock.stopped === null) awake(); } }
addEventListener("online", again);
addEventListener("pageshow", event => { if (event.persisted) again(); });
document.addEventListener("visibilitychange", again);
setInterval(() => tick(), 250);
setInterval(() => { if (document.visibilityState === "visible" && (out.length || send.line.reached === false)) { send.soon(); handOver(); if (!out.length) refresh(); } }, 15000);
if (others) others.onmessage = async message => { await look(); if (message.data === "saved") refresh(); else show(); };

async function worker() {
  if (!store.can.worker) return;
  try {
    const held = await navigator.serviceWorker.register("/day/sw.js", {scope: "/day/", updateViaCache: "none"});
    const newer = one => { if (one && navigator.serviceWorker.controller) one.addEventListener("statechange", () => { if (one.state === "installed") { ui.fresh = one; show(); } }); };
    if (held.waiting && navigator.serviceWorker.controller) { ui.fresh = held.waiting; show(); }
    held.addEventListener("updatefound", () => newer(held.installing));
    const begun = navigator.serviceWorker.controller;
    navigator.serviceWorker.addEventListener("controllerchange", () => { if (begun) location.reload(); });
  } catch { store.can.worker = false; }
}

async function begin() {
  try {
    const [known, last] = await Promise.all([store.snaps(), store.recall("last"), look()]);
    const wanted = (query.get("member") || "").toLowerCase();
    plan = known.find(each => wanted ? each.member.id === wanted || each.member.name.toLowerCase() === wanted : each.member.id === last) || null;
    if (plan) show();
    await store.device();  // writes: a browser that refuses is found out before the first touch
  } catch { storeBroken = true; }
  if (storeBroken) show();
  await refresh();
  handOver();
  worker();
  ui.lasting = await store.lasting();
}
begin();

// The day page: keeps each touch first, draws what is next, hands over.

import * as store from "./store.js";
import * as send from "./send.js";
import * as draw from "./view.js";
import {asLast, besides, cutOff, dayOf, dayOn, eachField, eachSaid, eachTime, farFrom, interval, reading, runs, stand, time, times, tooMany, typedLoad} from "./next.js";

const query = new URLSearchParams(location.search), $ = id => document.getElementById(id);
const ui = {gone: gone(), menu: false, open: "", fields: {}, pick: {}, mend: "", passed: passed(), freeOpen: false, first: !/(^|; )tidemark-first=pages/.test(document.cookie), sound: flag("sound"), vibration: flag("vibration"), lit: flag("lit"), freeAsked: 0, lasting: null, fresh: null};
let plan = null, out = [], sent = [], storeBroken = false, unkept = null, trouble = "", memory = [], view = null, busy = false, wake = null, beeped = 0, phase = "";
const BOUNCE_MS = 600, TRAINING_MS = 30 * 60000;
const DRAFTED = /^(each_\d+|used_\d+|time|amount|finished|moves|more_reps|moreRounds|side|way|swaps|ones_\d+|note|partner)$/;
let draft = null;
const others = "BroadcastChannel" in self ? new BroadcastChannel("day") : null;

function flag(name) { try { return localStorage.getItem(`day-${name}`) !== "off"; } catch { return true; } }
function setFlag(name, on) { ui[name] = on; try { localStorage.setItem(`day-${name}`, on ? "on" : "off"); } catch { /* then for this time only */ } }

// What was passed over, for this day alone: nothing that the log has to know.
function passed() { try { const known = JSON.parse(localStorage.getItem("day-passed")); return new Set(known?.day === dayOf() || known?.day === dayOf(new Date(Date.now() - 4 * 3600000)) ? known.keys : []); } catch { return new Set(); } }
function keepPassed() { try { localStorage.setItem("day-passed", JSON.stringify({day: view.today, keys: [...ui.passed]})); } catch { /* then until it is closed */ } shut(); show(); $("day").focus(); }

function gone() { try { return localStorage.getItem("day-gone"); } catch { return null; } }

// Whether a phone that opens the bare address lands here: the server asks this cookie.
function first(on) { ui.first = on; document.cookie = `tidemark-first=pages; path=/; samesite=lax; max-age=${on ? 0 : 34560000}`; }

// The day that is written on, which goes on over midnight while somebody trains.
const known = () => [...sent, ...out, ...memory].sort((one, other) => one.seq - other.seq);
const dayNow = (moment = new Date()) => dayOn(plan, known(), ui.gone, moment);

async function look() {
  if (!storeBroken) {
    try { [out, sent] = await Promise.all([store.outbox(), store.sent()]); } catch { storeBroken = true; }
  }
}

function show() {
  const today = dayNow(), acts = known();
  if (view && view.today !== today) ui.passed.clear();
  const user = plan && plan.member.id;
  view = {
    plan, ui, today, calendar: dayOf(), kept: out.length, line: send.line, storeBroken, unkept, trouble, can: store.can,
    refusedActs: sent.filter(each => store.refused(each) && each.user === user), oldest: out.length ? out[0].at : null,
    changedActs: sent.filter(each => each.result?.changed && each.user === user),
    answered: new Set(acts.filter(each => each.kind === "answer").map(each => each.body.question)),
    now: plan ? stand(plan, acts, today, ui.passed) : null,
  };
  drafted();
  const held = document.activeElement && document.activeElement.id, typing = caret(document.activeElement), opened = [...document.querySelectorAll("details[open]")].map(each => each.id);
  put($("top"), draw.top(view));
  parts($("day"), draw.main(view));
  fold();
  if (plan && !ui.drawn) { ui.drawn = true; performance.mark("day drawn"); }
  for (const id of opened) if (id && $(id)) $(id).open = true;
  if (held && document.activeElement.id !== held) {
    ($(held) || {focus() {}}).focus({preventScroll: true});
    if (typing && $(held)) $(held).setSelectionRange(...typing);  // who types goes on where they were
  }
  tick();
  awake();
}

// What was typed of a score is kept as it is typed, so that no reload and no touch beside it loses an interval's time; it goes
// with the score. One draft is kept, of the piece that is next.
const draftKey = () => view.now?.next.piece && !ui.mend ? [plan.member.id, view.today, view.now.next.session.id, view.now.next.piece.id].join(" ") : "";
function drafted() { const key = draftKey(); if (key && draft?.key === key) ui.fields = {...draft.fields, ...ui.fields}; }
function keepDraft() {
  const key = draftKey();
  if (!key) return;
  draft = {key, fields: Object.fromEntries(Object.entries(ui.fields).filter(([name]) => DRAFTED.test(name)))};
  if (!storeBroken) store.remember("draft", draft).catch(() => {});
}
function dropDraft() { draft = null; if (!storeBroken) store.remember("draft", null).catch(() => {}); }

// Where load and Done would lie below the first screen, the warm-up before them is shut until a hand opens it, and with large
// letters what is done with it as well.
function fold() {
  const warm = $("warm_box"), done = $("done"), load = done && document.querySelector(".next .big");
  if (!warm || !load || ui.warm !== undefined) return;
  const below = () => load.getBoundingClientRect().bottom + scrollY + done.offsetHeight > innerHeight;
  if (!below()) return;
  ui.warm = warm.open = false;
  if (below()) { ui.shut = true; warm.parentElement.classList.add("shut"); }
}

// What is selected in a field of text; null elsewhere.
function caret(box) { return box && box.tagName === "INPUT" && box.selectionStart !== null ? [box.selectionStart, box.selectionEnd] : null; }

function put(box, html) { if (box.shown !== html) { box.innerHTML = html; box.shown = html; } }

// Each part has a box of its own, which takes no place: what did not change stays as it is, with its layout.
function parts(box, rows) {
  if (box.children.length !== rows.length || !box.children[0].matches(".part")) box.replaceChildren(...rows.map(() => Object.assign(document.createElement("div"), {className: "part"})));
  rows.forEach((html, at) => put(box.children[at], html));
}

function say(words) { $("said").textContent = words; }

// Keep a touch: on the phone first, then shown, then sent.
async function touch(kind, body, words) {
  if (busy || !plan) return false;
  busy = true;
  const begun = BESIDE.has(kind) || body.beside ? {} : ui.fields;  // a score or a note that was begun stays
  if (begun === ui.fields) ui.fields = begun.free_lift ? {free_lift: begun.free_lift} : {};  // at once: what is typed from here on belongs to the next touch
  const moment = new Date();
  const act = {f: 1, id: store.newId(), user: plan.member.id, kind, body, at: moment.getTime(), tz: -moment.getTimezoneOffset(), date: dayNow(moment)};
  try {
    if (storeBroken) throw new Error("nothing is kept here");
    out.push(await store.keep(act));
    ui.full = false;
    if (kind === "score") dropDraft();
    after(words, "Kept");
    send.soon();
    handOver();
    if (others) others.postMessage("kept");
    return true;
  } catch (error) {
    return await straight(act, words, error, begun);
  } finally { busy = false; }
}

const isFull = error => Boolean(error) && error.name === "QuotaExceededError";

// Nothing can be kept: the touch counts only where the log takes it now.
async function straight(act, words, error, begun) {
  const full = isFull(error);
  ui.full ||= full;
  act.seq = Date.now();
  try {
    const found = await send.post(act.user, ui.device ||= store.newId(), [act]);
    if (found.status !== 200) throw new Error(found.said.words || "the log does not take it");
    send.line.reached = true;
    memory.push({...act, result: found.said.results[0]});
    if (kind === "score") dropDraft();
    unkept = null;
    after(words, "Saved");
    refresh();
    return true;
  } catch {
    unkept = {act, words, why: `${full ? "This phone is full" : "This browser keeps nothing"}, and the log is not reached. Write it down, or try again with a connection.`};
    ui.fields = {...begun, ...ui.fields};
    show();
    say(`Not kept and not logged: ${words}`);
    return false;
  }
}

const shut = () => { if ($("more")) $("more").open = false; };
const BESIDE = new Set(["interval", "start", "tap", "stop", "away", "answer", "weigh"]);
function after(words, how) {
  ui.open = ""; ui.mend = ""; ui.freeAsked = 0; ui.far = null; ui.scoreWants = ui.rateWants = ui.bodyWants = "";
  beeped = 0;
  shut();
  show();
  say(`${how}: ${words}`);
}

// The log does not let this phone in any more: what can be read goes, in other tabs too once they ask. What waits stays, for
// it is nowhere else; it is shown to nobody until whoever made it is back.
async function shutOut(said = null) {
  if (said) send.line.trouble = send.shutBy(said);
  plan = null;
  say("");  // what was touched last stands there in words
  if (!storeBroken) await store.forget().catch(() => {});
  sent = [];
  if (others) others.postMessage("shut");
}

const handOver = () => storeBroken ? undefined : send.handOver(async saved => {
  if (plan && send.shut()) await shutOut();
  await look();
  show();
  if (saved && !out.length) { say("All saved"); refresh(); if (others) others.postMessage("saved"); }
});

async function refresh(kept = null) {
  const member = query.get("member") || (plan ? plan.member.id : ""), day = dayNow();
  const asked = new URLSearchParams({day, ...(member ? {member} : {}), ...(query.get("session") ? {session: query.get("session")} : {})});
  try {
    const found = await send.ask(`/day/api/plan?${asked}`, {}, plan ? 15000 : 60000);  // with nothing to show, nothing is gained by giving up
    await kept;  // a plan is never drawn without what was touched since
    send.line.reached = true;
    if (kept && found.status === 200 && dayNow() !== day) return refresh();  // what this phone keeps says that the day before goes on
    if (found.status === 200 && found.said.member) {
      plan = found.said; trouble = "";
      if (send.shut()) send.line.trouble = "";
      if (kept) show();  // the first drawing waits for no writing
      if (!storeBroken) await store.keepPlan(plan).catch(() => {});
    } else if (found.status === 401) await shutOut(found.said);
    else if (found.status === 404 || found.status === 503) trouble = found.said.words || "";
    else if (found.said.nobody) { plan = null; trouble = ""; }
  } catch {
    await kept;
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
function setOf(line, outcome, reps, left = ui.fields.rir) {
  const f = ui.fields, typed = typedLoad(f.load ?? line.load, line.unit);
  if (!typed) return null;
  const {load, unit} = typed, words = f.load === undefined && line.load_words ? line.load_words : `${load} ${unit}`;
  const ending = ["th", "st", "nd", "rd"], n = reps + 1, nth = `${n}${n % 100 > 10 && n % 100 < 14 ? "th" : ending[n % 10] || "th"}`;
  const said = outcome === "missed" ? `${words}, ${reps ? `${reps} made, ` : ""}the ${nth} missed` : `${times(line, reps)}${words}${left ? `, ${left === "6" ? "6 or more" : left} left` : ""}`;
  const body = {lift: line.lift, load, unit, reps, outcome, step: view.now.next.session.id, planned: line.planned, number: line.number, key: line.key, ...(line.each_side ? {each_side: true} : {}), words: `${line.title}: ${said}`, said};
  if (left) body.rir = left;
  if (f.note) body.note = f.note;
  return body;
}

// A load far off is asked about at once, with its field open and what was typed in it; said a second time it is meant.
function meant(field, body, again) {
  const key = `${field} ${body.lift} ${body.load} ${body.unit}`, usual = farFrom(plan, body.lift, body);
  if (ui.far?.key === key && ui.far.sure) { body.sure = true; return true; }
  if (!usual) { ui.far = null; return true; }
  ui.far = {field, key, again, words: `${body.load} ${body.unit} is far from the usual ${usual}. Correct it, or log it as it is. Nothing is logged yet.`};
  ui.fields[field] ??= body.load;
  if (field === "load") ui.open = "change";
  show();
  say(ui.far.words);
  $(field).focus({preventScroll: true});
  $(field).select();
  return false;
}

function missedAt(reps) {
  const body = setOf(asLast(draw.picked(view.now.next.line, ui), view.now.next.session, view.now), "missed", reps);
  if (body && meant("load", body, () => missedAt(reps))) touch("set", body, body.words);
}

const acts = {
  async done(on) {
    const line = asLast(draw.picked(view.now.next.line, ui), view.now.next.session, view.now), reps = Math.round(Number(ui.fields.reps_done ?? (line.uncounted ? 0 : line.reps)));
    if (!heavyEnough(line)) return;
    const body = setOf(line, "done", reps, on?.dataset?.left);
    if (body && reps > 0 && !meant("load", body, () => acts.done(on))) return;
    if (!body || !(reps > 0)) return say("Say the load, such as 62.5 or 95 lb, and the repetitions first."), $("load") && $("load").focus();
    if (await touch("set", body, body.words)) delete ui.pick[line.key], buzz(30);
  },
  missed() { if (!heavyEnough(view.now.next.line)) return; ui.open = "missed"; show(); ($(`reps_${Math.max(0, view.now.next.line.reps - 1)}`) || {focus() {}}).focus(); },
  change() { ui.open = "change"; show(); $("load").focus({preventScroll: true}); },
  undo(on) { return touch("undo", {of: on.dataset.of, words: "taken back", said: "taken back"}, "taken back"); },
  begin(on) { const one = find(on.dataset.session); scrollTo({top: 0}); return touch("begin", {step: one.id, words: `${one.title} begun`, said: `${one.title} begun`}, `${one.title} is on`); },
  start() {
    const {piece, session} = view.now.next, count = Number(ui.fields.count ?? 10);
    return touch("start", {piece: piece.id, step: session.id, count_in: count, words: "clock started"}, "The clock is started");
  },
  stop() { return touch("stop", {of: view.now.clock.id, words: "clock stopped"}, "The clock is stopped"); },
  score() {
    const {piece, session} = view.now.next, body = scored(piece);
    if (body && body.wants) { ui.scoreWants = body.wants; show(); $("more_reps").focus({preventScroll: true}); return say(body.wants); }
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
  const first = Object.fromEntries(piece.movements.map((each, at) => [at, each.here]).filter(each => each[1]));
  if (f.swaps || Object.keys(first).length) body.swaps = {...first, ...f.swaps};
  if (f.note) body.note = f.note;
  if (f.partner) body.partner = f.partner;
  const loads = Object.fromEntries(piece.movements.map((each, at) => [at, String(f[`used_${at}`] ?? "").replace(",", ".").trim(), each.unit]).filter(each => each[1]).map(([at, load, unit]) => [at, /[a-z]/i.test(load) ? load : `${load} ${unit}`]));
  if (Object.keys(loads).length) body.loads = loads;
  const ones = Object.fromEntries(piece.movements.map((each, at) => [at, each]).filter(([at, each]) => each.two && (!(f.swaps || {})[at] || f.swaps[at] === (each.here ?? each.name)) && (f[`ones_${at}`] ?? (each.one_here ? "one" : "two")) === "one").map(([at]) => [at, true]));
  if (Object.keys(ones).length) body.ones = ones;
  if (clock) {
    body.clock = clock.id;
    if (piece.taps !== 0 && clock.taps.length && !piece.clock.each) body.splits = clock.taps.map(each => time(Math.round((each - clock.zero) / 1000))).join(" ");
  }
  const at = clock ? reading(clock, piece.clock, Date.now()) : null, cut = cutOff(clock, piece, Date.now());
  if (piece.way === "time" && cut && !f.way) return null;
  const ran = at && at.phase === "over" && !cut ? time(at.shown) : "";
  const way = f.way ?? "finished", said = String(f.time ?? ran).trim();
  if (piece.way === "done") return {...body, text: "done", said: "done"};
  if (piece.way === "kept") return f.finished === undefined ? null : {...body, text: `${f.finished}/${piece.most}`, said: `${f.finished} of ${piece.most}`};
  if (piece.way === "each" && eachField(piece)) { const text = eachSaid(piece, clock, f); return text ? {...body, text, said: text} : null; }
  if (piece.way === "number" || piece.way === "load" || piece.way === "each") { const text = String(f.amount ?? (clock && piece.clock.each ? eachTime(clock, piece.clock).join(", ") : "")).trim(); return text ? {...body, text, said: text} : null; }
  if (piece.way === "time" && way === "finished") return said && /[1-9]/.test(said) ? {...body, text: said, said} : null;
  if (!piece.rounds) return way === "cap" ? {...body, text: "cap", said: "ran into the cap"} : {...body, text: said ? `stopped at ${said}` : "stopped", said: "stopped early"};
  const one = piece.rounds.length === 1 || piece.taps === 0;
  const rounds = f.finished ?? (clock && clock.taps.length ? clock.taps.length : one && (f.moves !== undefined || f.more_reps !== undefined) ? 0 : undefined);
  if (rounds === undefined) return null;
  const round = piece.rounds.find(each => each.n === Number(rounds)), moves = Number(f.moves ?? 0), of = round && round.reps[moves];
  const more = of ? Number(String(f.more_reps ?? "").trim() || 0) : 0, wants = of ? tooMany(piece, round, moves, more) : "";
  if (wants) return {wants};
  const words = `${round ? round.words : rounds}${moves ? `, ${round.moves[moves][1]}` : ""}${more ? `, ${more} ${more === 1 && of[2] || of[1]}` : ""}`;
  const text = piece.way === "rounds" ? "" : way === "cap" ? "{place} at the cap" : said ? `stopped at ${said}, {place}` : "stopped, {place}";
  return {...body, place: [Number(rounds), moves, more], text, said: words};
}

const find = id => plan.sessions.find(each => each.id === id);

const dos = {
  menu() { ui.menu = !ui.menu; show(); },
  done_left(on) { return acts.done(on); },
  as_it_is() { ui.far.sure = true; return ui.far.again(); },
  more_rounds() { ui.fields.moreRounds = true; keepDraft(); show(); },
  close() { ui.open = ""; ui.fields = {}; show(); },
  pick(on) { const key = view.now.next.line.key; if (on.dataset.at === "") delete ui.pick[key]; else ui.pick[key] = Number(on.dataset.at); show(); },
  pass() { const {line, session} = view.now.next; for (const each of session.lines) if (each.lift === line.lift && each.withheld?.length) ui.passed.add(each.key); keepPassed(); },
  later() { const {line, session} = view.now.next; for (const each of session.lines) if (each.lift === line.lift) ui.passed.add(each.key); keepPassed(); },
  piece_first() { for (const each of view.now.next.session.lines) ui.passed.add(each.key); keepPassed(); },
  to_sets() { for (const each of view.now.next.session.lines) ui.passed.delete(each.key); keepPassed(); },
  back(on) { return touch("undo", {of: on.dataset.of, words: "taken back", said: "taken back", beside: true}, "turned round"); },
  move(on) { const one = view.now.next.session, to = on.dataset.to, words = `${one.title} moved to ${draw.dayWords(to)}`; return touch("move", {step: one.id, to, words, said: words}, words); },
  weigh() {
    const {load, unit} = typedLoad(ui.fields.body_mass, plan.member.unit) || {}, words = `body mass ${load} ${unit}`;
    if (!(Number(load) > 0)) { ui.bodyWants = "Type the body mass first."; show(); return say(ui.bodyWants); }
    return touch("weigh", {load, unit, words, said: words}, words);
  },
  effort(on) {
    const row = view.now.sets.find(each => each.id === on.dataset.id), n = on.dataset.n, words = on.dataset.said.startsWith("RPE") ? on.dataset.said : `${n === "6" ? "6 or more" : n} left in reserve`;
    return touch("change", {...(row.act ? {of: row.act} : {set: row.id}), rir: n, told: words, beside: true}, words);
  },
  warm(on) {
    const how = on.dataset.how, words = {done: "warm-up done", out: "warm-up left out", open: "warm-up open again"}[how];
    return touch("warm", {step: on.dataset.step, how, words, said: words}, words);
  },
  // All that is ticked by now goes along with each touch; `task` is empty for a whole round.
  tick(on) {
    const {piece, session} = view.now.next, {rounds, movements, done} = piece.ticks, at = Number(on.dataset.round), task = on.dataset.task;
    const others = done.filter(each => each[0] !== at || task !== "" && each[1] !== Number(task));
    const all = movements.map((_, n) => [at, n]), off = task !== "" && done.some(each => each[0] === at && each[1] === Number(task));
    const now = task === "" ? [...others, ...all] : off ? others : [...others, [at, Number(task)]];
    const what = task === "" ? rounds > 1 ? `round ${at + 1}` : "all of it" : movements[Number(task)], words = off ? `not ticked: ${what}` : `ticked: ${what}`;
    buzz(30);
    return touch("tick", {piece: piece.id, step: session.id, done: now, words, said: words, beside: true}, words);
  },
  // A set on the way up to the heavy one is none that the session waits for: it is logged beside the plan.
  on_the_way() {
    const line = asLast(draw.picked(view.now.next.line, ui), view.now.next.session, view.now), reps = Math.round(Number(ui.fields.reps_done ?? line.reps));
    if (!heavyEnough(line)) return;
    const body = setOf(line, "done", reps);
    if (body && reps > 0 && !meant("load", body, dos.on_the_way)) return;
    if (!body || !(reps > 0)) return say("Say the load, such as 62.5 or 95 lb, and the repetitions first."), $("load") && $("load").focus();
    const {step, planned, number, key, ...beside} = body;
    return touch("set", beside, body.words);
  },
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
  set_clock(on) {
    const {line, session} = view.now.next, words = `clock started: every ${time(line.every_s)}`;
    beep();  // so that a browser that wants a touch before any sound has had one
    return touch("interval", {step: session.id, lift: line.lift, every_s: line.every_s, sets: Number(on.dataset.sets), words, said: words}, words);
  },
  away() { return touch("away", {of: view.now.clock.id, words: "clock put away"}, "The clock is put away"); },
  carry() {
    const {line, session} = view.now.next, change = session.changes.get(line.lift), how = change.taken ? "as asked" : "take";
    const words = change.taken ? `as asked: ${line.ways.asked}` : `goes on with ${line.ways.then}`;
    const says = {carry: how, step: session.id, lift: line.lift, load: change.load, unit: change.unit};
    return touch("answer", {question: `carry ${session.id} ${line.lift} ${change.load} ${change.unit} ${how}`, says, words}, words);
  },
  safety(on) { const {line} = view.now.next, one = line.safety[Number(on.dataset.n)]; return touch("answer", {question: `safety ${line.key}`, says: one.says, words: one.words}, one.words); },
  answer(on) { const ask = draw.asked(view).find(each => each.key === on.dataset.ask), one = ask.answers[Number(on.dataset.n)]; return touch("answer", {question: ask.key, says: one.says, words: one.words}, one.words); },
  mend(on) { ui.mend = ui.mend === on.dataset.id ? "" : on.dataset.id; ui.fields = {}; show(); },
  mend_keep(on) {
    const row = view.now.sets.find(each => each.id === on.dataset.id), f = ui.fields, typed = typedLoad(f.mend_load ?? row.load, row.unit), reps = Math.round(Number(f.mend_reps ?? row.reps));
    if (!typed || !(reps >= 0)) return say("Say the load as a number, such as 62.5 or 95 lb, and the repetitions."), $("mend_load").focus();
    const {load, unit} = typed;
    const said = `${row.outcome === "missed" ? "missed, " : ""}${times(row, reps)}${load} ${unit}`, lift = row.words.split(": ")[0];
    if (load !== row.load && !meant("mend_load", {lift: row.lift, load, unit}, () => dos.mend_keep(on))) return;
    const body = {...(row.act ? {of: row.act} : {set: row.id}), load, unit, reps, ...(ui.far?.sure ? {sure: true} : {}), ...(f.keepmax === "yes" ? {keep_max: true} : {}), rir: f.rir ?? row.rir ?? "", note: f.note ?? row.note, words: `${lift}: ${said}`, said};
    return touch("change", body, body.words);
  },
  remove(on) {
    const row = view.now.sets.find(each => each.id === on.dataset.id);
    return touch("remove", {...(row.act ? {of: row.act} : {set: row.id}), ...(ui.fields.keepmax === "yes" ? {keep_max: true} : {}), words: `removed ${row.words}`, said: `removed ${row.said}`, lift: row.lift}, `removed ${row.words}`);
  },
  async free_log() {
    const f = ui.fields, lift = besides(plan, view.now, f.free_lift);
    const typed = typedLoad(f.free_load ?? lift.load, lift.unit), reps = Math.round(Number(f.free_reps ?? lift.reps));
    if (!heavyEnough(lift)) return;
    if (!typed || !(reps > 0)) return say("Say the load, such as 62.5 or 95 lb, and the repetitions first."), $("free_load").focus();
    const {load, unit} = typed, said = `${times(lift, reps)}${load} ${unit}`;
    if (f.free_load === undefined && f.free_reps === undefined && (ui.freeAsked || lift.said && view.now.last) && Date.now() - Math.max(ui.freeAsked, lift.said && view.now.last ? view.now.last.at : 0) < BOUNCE_MS) return;  // a finger that bounces
    if (f.free_load === undefined && f.free_reps === undefined && !ui.freeAsked && !lift.said) {  // nobody has said these numbers yet
      ui.freeAsked = Date.now();
      show();
      return say(`Nothing is logged yet. Touch again to log ${lift.title}: ${said}`);
    }
    const body = {lift: lift.id, load, unit, reps, outcome: "done", ...(lift.each_side ? {each_side: true} : {}), words: `${lift.title}: ${said}`, said};
    if (!meant("free_load", body, dos.free_log)) return;
    if (f.free_note) body.note = f.free_note;
    return touch("set", body, body.words);
  },
  lit() { setFlag("lit", !ui.lit); show(); },
  sound() { setFlag("sound", !ui.sound); show(); if (ui.sound) beep(); },
  vibration() { setFlag("vibration", !ui.vibration); show(); buzz(60); },
  async sure(on) {
    const act = sent.find(each => each.id === on.dataset.id);
    await store.dismiss(act.id);
    await look();
    return touch(act.kind, {...act.body, sure: true}, act.body.words);
  },
  async fix(on) {
    const act = sent.find(each => each.id === on.dataset.id), was = act.body, typed = typedLoad(ui.fields[`fix_${act.id}`] ?? was.load, was.unit);
    if (!typed) return say("Say the load as a number, such as 62.5 or 95 lb."), $(`fix_${act.id}`).focus();
    const words = `${typed.load} ${typed.unit}`, before = `${was.load} ${was.unit}`, said = String(was.said ?? "").includes(before) ? was.said.replace(before, words) : `${was.reps} × ${words}`;
    await store.dismiss(act.id);
    await look();
    return touch(act.kind, {...was, ...typed, said, words: `${was.words.split(": ")[0]}: ${said}`}, said);
  },
  async seen(on) { await store.seen(on.dataset.id); await look(); show(); },
  async drop(on) { await store.dismiss(on.dataset.id); await look(); show(); },
  async retry() { const held = unkept; unkept = null; await touch(held.act.kind, held.act.body, held.words); },
  drop_unkept() { unkept = null; show(); },
  first() { first(!ui.first); show(); },
  new_day() { ui.gone = dayOf(); try { localStorage.setItem("day-gone", ui.gone); } catch { /* then until it is closed */ } show(); refresh(); },
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
  if (event.target.closest("#stop > summary")) ui.stop = !$("stop").open;  // by hand, whatever the day opens by itself
  if (event.target.closest("#warm_box > summary")) ui.warm = !$("warm_box").open;
  const on = event.target.closest("button, a");
  if (!on || !view) return;
  const data = on.dataset;
  if (data.act && acts[data.act]) acts[data.act](on);
  else if (data.do && dos[data.do]) dos[data.do](on);
  else if (data.reps !== undefined) missedAt(Number(data.reps));
  else if (data.stepOf) step(data.stepOf, Number(data.by));
  else for (const name of ["finished", "moves", "rating", "rir", "side", "count", "way", "keepmax"]) if (data[name] !== undefined) { ui.fields[name] = data[name]; if (name === "finished") delete ui.fields.moves, delete ui.fields.more_reps; if (name === "moves") delete ui.fields.more_reps; keepDraft(); show(); break; }
  if (data.ones !== undefined) { ui.fields[`ones_${data.at}`] = data.ones; keepDraft(); show(); }
  for (const name of Object.keys(data)) if (name.startsWith("swap-")) { ui.fields.swaps = {...ui.fields.swaps, [name.slice(5)]: data[name]}; keepDraft(); show(); }
});

function step(id, by) {
  const near = id === "load" && view.now.next.line ? view.now.next.line.near : id === "free_load" ? (plan.lifts.find(each => each.id === ui.fields.free_lift) || plan.lifts[0]).near : null;
  const now = Number(typedLoad($(id).value, "")?.load ?? 0);
  let value;
  if (near && near.length) {
    const loads = near.map(each => Number(each.load)), found = by > 0 ? loads.find(each => each > now) : loads.filter(each => each < now).at(-1);
    const gap = loads.length > 1 ? Math.abs(loads[1] - loads[0]) : 2.5;
    value = found ?? now + by * gap;
  } else value = id.includes("load") ? now + by * 2.5 : Math.max(0, now + by);
  ui.fields[id] = String(Math.round(value * 1000) / 1000);
  if (id.startsWith("free_")) unask();
  keepDraft();
  $(id).value = ui.fields[id];
}

function unask() { ui.freeAsked = 0; if ($("free_log")) $("free_log").textContent = "Log it"; }

document.addEventListener("input", event => {
  const name = event.target.dataset && event.target.dataset.field;
  if (name) ui.fields[name] = event.target.value, keepDraft();
  if (name && name.startsWith("free_")) unask();
  if (name === "free_lift") { delete ui.fields.free_load; delete ui.fields.free_reps; show(); }
});
document.addEventListener("toggle", event => { if (event.target.id === "free") ui.freeOpen = event.target.open; }, true);
document.addEventListener("change", async event => {
  if (event.target.id !== "from_file" || !event.target.files[0]) return;
  try {
    const found = await event.target.files[0].text().then(JSON.parse).catch(() => null);
    if (!found || !found.user || !Array.isArray(found.acts)) throw new Error("it is none that this page saved. Choose one that is called waiting-….json.");
    const refused = [];
    for (let at = 0; at < found.acts.length; at += 20) {
      const some = found.acts.slice(at, at + 20), got = await send.post(found.user, found.device, some);
      if (got.status !== 200) throw new Error(got.said.words || "the log does not take it now. Try again; what is in already stays once.");
      for (const each of got.said.results) if (each.r === "parked" || each.r === "clash") refused.push(`${some.find(act => act.id === each.id)?.body?.words || each.id}: ${each.words}`);
    }
    const words = `Taken in from the file: ${found.acts.length - refused.length} of ${found.acts.length}`;
    trouble = "";
    ui.fromFile = refused.length ? `${words}. Not taken in: ${refused.join("; ")}` : `${words}.`;
    await refresh();
    say(ui.fromFile);
  } catch (error) { trouble = `The file was not taken in: ${error.message}`; show(); say(trouble); }
});

// Time that passes: only texts change, nothing is drawn anew.
function tick() {
  if (!view || !view.now) return;
  const calendar = dayOf();
  if ((calendar !== view.calendar || calendar !== view.today) && dayNow() !== view.today) { show(); refresh(); return; }
  const {clock, next} = view.now, rest = $("rest");
  if (clock && next.piece && clock.piece === next.piece.id && $("clock_face")) {
    const at = reading(clock, next.piece.clock, Date.now()), names = {ready: "get ready", work: next.piece.clock.intervals ? `interval ${at.interval + 1} of ${next.piece.clock.intervals}` : "go", rest: "rest", over: "stopped"};
    $("clock_face").textContent = at.phase === "ready" ? String(at.shown) : time(at.shown);
    $("clock_phase").textContent = names[at.phase];
    const rows = next.piece.now, n = next.piece.clock.intervals ? at.interval : clock.taps.length;
    const what = rows.length ? rows[next.piece.clock.intervals && rows.length > 1 ? n % rows.length : Math.min(n, rows.length - 1)] : "";
    const round = !next.piece.clock.intervals && next.piece.taps !== 0 && rows.length > 1 ? `Round ${n + 1}: ` : "";
    const all = round && next.piece.taps !== null && n >= next.piece.taps ? "All rounds are done" : "";
    $("clock_now").textContent = at.phase === "over" ? "" : at.phase === "rest" ? "" : all || round + what;
    const many = next.piece.clock.intervals, ahead = n + (at.phase === "ready" ? 0 : 1), row = many && rows.length > 1 ? ahead % rows.length : Math.min(ahead, rows.length - 1);
    const more = rows.length && at.phase !== "over" && at.phase !== "ready" && (many ? ahead < many : rows.length > 1 && (next.piece.taps === null || ahead < next.piece.taps));
    $("clock_then").textContent = more ? `then: ${rows[row]}` : "";
    const told = `${at.phase} ${at.interval}`;
    const before = phase;
    phase = told; // before anything is drawn: drawing ticks too
    if (before && before !== told) { signal(); if (at.phase === "over" && clock.stopped === null || next.piece.clock.each || before.startsWith("ready")) show(); }
  } else phase = "";
  const newest = view.now.sets.filter(each => view.now.on && view.now.on.lines.some(line => line.done && (line.done.id === each.id))).at(-1) || view.now.sets.at(-1);
  const line = newest && view.now.on && view.now.on.lines.find(each => each.done && each.done.id === newest.id);
  const past = newest ? (Date.now() - Date.parse(newest.at)) / 1000 : Infinity;
  if (!rest) return;
  if (view.now.setClock && runs(view.now.setClock, Date.now())) {
    const clock = view.now.setClock, at = interval(clock, Date.now()), left = time(at.left);
    rest.hidden = false;
    rest.textContent = at.n === clock.sets ? `Last interval, ${left} left` : `Interval ${at.n} of ${clock.sets}, next in ${left}`;
    rest.classList.toggle("over", at.n > 1 && at.into < 5);
    const round = `${clock.zero} ${at.n}`;
    if (at.n > 1 && at.into < 3 && beeped !== round) { beeped = round; signal(); }
    return;
  }
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

// The screen stays on while a clock runs, and from the first set on until all is done; half an hour without a touch is no training.
let asking = false;
async function awake() {
  if (!store.can.wake || asking) return;
  const now = view && view.now, runs = now && now.clock && now.clock.stopped === null && now.next.piece && reading(now.clock, now.next.piece.clock, Date.now()).phase !== "over";
  const newest = now && Math.max(...now.sets.map(each => Date.parse(each.at)), -Infinity), going = now && now.next.kind !== "nothing" && Date.now() - newest < TRAINING_MS;
  const wanted = ui.lit && (runs || going) && document.visibilityState === "visible";
  if (wanted === Boolean(wake)) return;
  asking = true;
  try {
    if (wanted) { wake = await navigator.wakeLock.request("screen"); wake.addEventListener("release", () => { wake = null; }); }
    else await wake.release();
  } catch { wake = null; } finally { asking = false; }
}

function again() { if (document.visibilityState === "visible") { send.soon(); look().then(show); handOver(); refresh(); } }
addEventListener("online", again);
addEventListener("pageshow", event => { if (event.persisted) again(); });
document.addEventListener("visibilitychange", again);
setInterval(() => tick(), 250);
setInterval(awake, 60000);
setInterval(() => { if (document.visibilityState === "visible" && (out.length || send.line.reached === false)) { send.soon(); handOver(); if (!out.length) refresh(); } }, 15000);
if (others) others.onmessage = async message => { await look(); if (message.data === "saved" || (message.data === "shut" && plan)) refresh(); else show(); };

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

// The kept plan stands there before anything is asked of the log; what is not needed for it comes behind the first drawing.
async function begin() {
  const kept = store.first().then(found => {
    [out, sent, draft] = [found.outbox, found.sent, found.draft ?? null];
    const wanted = (query.get("member") || "").toLowerCase();
    plan = found.snap.find(each => wanted ? each.member.id === wanted || each.member.name.toLowerCase() === wanted : each.member.id === found.last) || null;
    if (plan) show();
  }).catch(() => { storeBroken = true; });
  const broken = error => { if (isFull(error)) ui.full = true; else storeBroken = true; };
  kept.then(() => storeBroken || store.room().then(store.device)).catch(broken).then(() => (storeBroken || ui.full) && show());  // a browser that refuses to write is found out before the first touch
  if (!query.get("member")) await kept;  // whose plan was the last here says whose is asked for
  await refresh(kept);
  handOver();
  worker();
  ui.lasting = await store.lasting();
  if (ui.lasting === false) show();
}
begin();

// What is next, from the plan and from what was touched since: the plan brings every load, here is only the order of things.

import {carry, hold, reset} from "./carry.js";

export function dayOf(moment = new Date()) {
  const two = number => String(number).padStart(2, "0");
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}

// The day that is written on: the phone's own, but whoever trains over midnight stays on the day on which they began, until
// two hours after the last touch, or until they say that it is the next one (`gone`). Both limits are choices of ours.
const EARLY_H = 4, RUNS_ON = 2 * 3600000;
export function dayOn(plan, acts, gone, moment = new Date()) {
  const today = dayOf(moment), before = dayOf(new Date(moment.getFullYear(), moment.getMonth(), moment.getDate() - 1, 12));
  if (!plan || moment.getHours() >= EARLY_H || gone === today) return today;
  const mine = acts.filter(each => each.user === plan.member.id && !bad(each));
  if (mine.some(each => each.date === today) || plan.day === today && plan.sets.length) return today;
  const touched = [...mine.filter(each => each.date === before).map(each => each.at), ...(plan.day === before ? plan.sets.map(each => Date.parse(each.at)) : [])];
  return touched.some(each => moment - each < RUNS_ON) ? before : today;
}

// A session of the plan with all of it that is written on here. What follows another load, the loads around a set and the
// choices of a piece are only read, and are most of a plan: they are not copied.
const own = record => record && {...record};
const copied = session => ({
  ...session, warm_up: own(session.warm_up), lines: session.lines.map(line => ({...line, done: own(line.done)})),
  pieces: session.pieces.map(piece => ({...piece, ticks: own(piece.ticks)})),
});

// plan: as the log gave it; acts: those of this phone in their order, kept or saved; today: the phone's own day; passed: the
// keys of lines that somebody went past: nothing is logged of them. Those without an offer here still stand on Today, all
// others come again once the rest of the session is done.
export function stand(plan, acts, today, passed) {
  const day = {sessions: plan.sessions.map(copied), sets: plan.sets.map(each => ({...each}))};
  for (const session of day.sessions) reset(session);
  const mine = acts.filter(each => each.user === plan.member.id && !bad(each));
  const held = standings(mine), undone = {has: id => held.has(id) && !held.get(id).on};
  const there = id => Boolean(plan.touches[id]);
  const since = mine.filter(each => !there(each.id) || plan.touches[each.id].undone && held.get(each.id).on && !there(held.get(each.id).by));
  for (const line of day.sessions.flatMap(each => each.lines)) if (passed.has(line.key)) line[line.withheld?.length ? "left" : "later"] = true;
  const lines = new Map(day.sessions.flatMap(each => each.lines.map(line => [line.key, line])));
  const pieces = new Map(day.sessions.flatMap(each => each.pieces.map(piece => [`${each.id} ${piece.id}`, piece])));
  const sessions = new Map(day.sessions.map(each => [each.id, each]));
  let on = plan.day === today ? plan.on : null;
  if (plan.day !== today) day.sets = [];

  for (const [id, touch] of Object.entries(plan.touches))  // taken back on this phone, and the plan does not know it yet
    if (undone.has(id) && !there(held.get(id).by)) {
      for (const made of touch.made) forget(day, made);
      reopen(mine.find(each => each.id === id), sessions, pieces);
    }

  const done = new Map(day.sets.map(each => [each.id, each])), hurts = new Set(plan.day === today ? plan.hurts : []);
  let weighed = null;
  const setClocks = plan.day === today && plan.set_clock ? [{...plan.set_clock, zero: Date.parse(plan.set_clock.started)}] : [];
  const made = new Map();  // an act of this phone: what stands there of it
  for (const act of mine) {
    const touch = plan.touches[act.id];
    const found = touch && touch.made.map(each => done.get(each)).find(Boolean);
    if (found) { found.act = act.id; made.set(act.id, found); }
  }
  for (const act of since) {
    if (undone.has(act.id)) continue;
    const body = act.body, session = sessions.get(body.step);
    if (act.kind === "set" && act.date === today || act.kind === "set" && lines.has(body.key)) {
      const row = {
        id: act.id, act: act.id, lift: body.lift, each_side: body.each_side || false, kept: !act.result, words: body.words, said: body.said, outcome: body.outcome, reps: body.reps,
        load: body.load, unit: body.unit, rir: body.rir ?? null, note: body.note || "", at: new Date(act.at).toISOString(), key: body.key,
      };
      const line = lines.get(body.key);
      if (line && line.test) (line.tries ||= []).push(row);
      else if (line && !line.done) line.done = row;
      if (act.date === today) day.sets.push(row);
      made.set(act.id, row);
    } else if (act.kind === "change") {
      const row = made.get(body.of) || done.get(body.set);
      if (row) { Object.assign(row, pick(body, ["load", "unit", "reps", "rir", "note", "outcome"])); row.said = body.said || row.said; row.words = body.words || row.words; }
    } else if (act.kind === "remove") {
      const row = made.get(body.of) || done.get(body.set);
      if (row) forget(day, row.id);
    } else if (act.kind === "begin" && session) { if (act.date === today) on = body.step; session.due = act.date; }
    else if (act.kind === "move" && session) { session.due = body.to; if (on === body.step && body.to !== today) on = null; }
    else if (act.kind === "interval" && act.date === today) setClocks.push({...body, zero: act.at});
    else if (act.kind === "weigh") weighed = {load: body.load, unit: body.unit};
    else if (act.kind === "after" && session) {
      for (const line of session.lines) if (line.lift === body.lift && !line.done) line.left = true;
      if (body.how === "hurt") hurts.add(body.lift);
    }
    else if (act.kind === "skip" && session) session.skipped = true;
    else if (act.kind === "end" && session) {
      if (body.planned) for (const line of session.lines.filter(each => each.planned === body.planned)) line.done = {words: "ended", said: "ended"};
      else { session.over = true; session.to_end = false; }
    } else if (act.kind === "warm" && session && session.warm_up) Object.assign(session.warm_up, warmed(act));
    else if (act.kind === "score") {
      const piece = pieces.get(`${body.step} ${body.piece}`);
      if (piece) { piece.done = true; piece.score = body.said; piece.act = act.id; }
    } else if ((act.kind === "rate" || act.kind === "leave") && session) { session.answered = true; session.rating = body.rating ?? null; }
  }
  for (const act of since) if (act.kind === "answer" && act.date === today && !undone.has(act.id)) answered(act.body.says, lines);
  for (const act of since)
    if (act.kind === "set" && act.body.outcome === "missed" && act.date === today && !undone.has(act.id))
      for (const session of day.sessions) for (const line of session.lines) if (line.lift === act.body.lift && !line.done) hold(session, line, act.body);
  for (const session of day.sessions) {
    const said = since.filter(each => each.kind === "answer" && !undone.has(each.id) && each.body.says?.carry && each.body.says.step === session.id);
    session.changes = carry(session, [...(session.carries || [])].reverse().concat(said.map(each => each.body.says)), at => dayOf(new Date(at)) === today);
  }
  ticked(mine, undone, there, pieces, today);
  for (const line of lines.values()) if (line.test && !line.done && !line.withheld?.length) attempt(line);
  const open = day.sessions.filter(each => !each.skipped);
  const finished = each => !set(each) && !piece(each) && (each.answered || empty(each));
  let now = open.find(each => each.id === on);
  const due = open.filter(each => each.due === today);
  if (!now || finished(now)) now = due.find(each => !finished(each) && each.id !== on) || now || (plan.day !== today ? due[0] : undefined);
  const next = of(now);
  const touched = mine.filter(each => !undone.has(each.id) && each.date === today && UNDO.has(each.kind)).at(-1);
  return {
    stale: new Set(since.filter(each => each.kind === "set" && each.body.outcome === "missed" && !undone.has(each.id)).map(each => each.body.lift)),
    next, on: now || null, sets: day.sets, last: touched ? {...touched, of: held.get(touched.id).by} : null, clock: clockOf(mine, held),
    back: back(mine, held, today), hurts, weighed, setClock: next.line && setClocks.filter(each => each.step === next.session.id && each.lift === next.line.lift).at(-1) || null,
    then: now ? then(now, next) : [],
    ahead: open.filter(each => each !== now && each.due >= today && !finished(each)),
    missed: open.filter(each => each !== now && each.due < today && !finished(each)),
  };
}

const UNDO = new Set(["set", "change", "remove", "score", "rate", "begin", "warm", "tick", "end", "skip", "leave", "after", "move", "weigh"]);
const ON_THE_SPOT = new Set(["undo", "remove", "begin", "end", "skip", "leave", "after", "move", "away", "stop"]);
const LONG = 10 * 60000;

const warmed = act => ({done: !act.body.how || act.body.how === "done", out: act.body.how === "out"});

// Before a test it was said who or what stands by: as the log would have it then, or with neither still nothing to be lifted.
function answered(says, lines) {
  const line = says?.safety && [...lines.values()].find(each => each.safety && !each.done && each.planned === says.planned);
  const told = line && line.safety.find(each => each.says.safety === says.safety)?.told;
  if (!told) return;
  if (says.safety === "neither") line.withheld = [told];
  else Object.assign(line, structuredClone(line.answered), {withheld: [], notes: [...line.answered.notes, told]});
}

// Each act says all that is ticked by then of a piece without a score: the newest that stands counts, where the plan does not
// know all of them as they stand here.
function ticked(acts, undone, there, pieces, today) {
  for (const [key, piece] of pieces) {
    if (!piece.ticks) continue;
    const mine = acts.filter(each => each.kind === "tick" && each.date === today && `${each.body.step} ${each.body.piece}` === key);
    if (mine.every(each => there(each.id) && !undone.has(each.id))) continue;
    const newest = mine.filter(each => !undone.has(each.id)).at(-1);
    if (newest || mine.some(each => there(each.id))) piece.ticks.done = newest?.body.done ?? [];
  }
}

// Of each act whether it stands, and which act is to be taken back to turn that round: what was taken back can be put back,
// and that again be taken back, each by an act of its own.
function standings(acts) {
  const undoing = new Map(acts.filter(each => each.kind === "undo").map(each => [each.body.of, each.id])), found = new Map();
  for (const id of new Set([...acts.map(each => each.id), ...undoing.keys()])) {
    let by = id, on = true;
    for (const seen = new Set(); undoing.has(by) && !seen.has(by); on = !on) { seen.add(by); by = undoing.get(by); }
    found.set(id, {on, by});
  }
  return found;
}

// The newest touch, where it did something that nobody wants by a stray touch: it can be turned round where it happened.
function back(acts, held, today) {
  const last = acts.at(-1);
  if (!last || last.date !== today || Date.now() - last.at > LONG || !ON_THE_SPOT.has(last.kind)) return null;
  let of = last;
  while (of && of.kind === "undo") of = acts.find(each => each.id === of.body.of);
  const stands = of ? held.get(of.id).on : false;
  return {of: last.id, stands, words: of ? told(of) : last.body.words, undid: last.kind === "undo"};
}
export const told = act => act.body.told || act.body.said || act.body.words || act.kind;
const bad = act => act.result && (act.result.r === "parked" || act.result.r === "clash");
const pick = (from, names) => Object.fromEntries(names.filter(each => each in from).map(each => [each, from[each]]));
const soon = each => each.over ? undefined : each.lines.find(line => !line.done && !line.left && !line.later);
const later = each => each.over ? undefined : each.lines.find(line => !line.done && !line.left);
const set = each => soon(each) || (piece(each) ? undefined : later(each));
const piece = each => each.over ? undefined : each.pieces.find(one => !one.done);
const empty = each => !each.lines.length && !each.pieces.length && !each.over;

function of(session) {
  if (!session) return {kind: "nothing", title: ""};
  const line = set(session), one = piece(session);
  if (line) return {kind: "set", title: line.title, line, session};
  if (one) return {kind: "piece", title: one.title, piece: one, session};
  if (!session.answered && !session.to_end && !empty(session)) return {kind: "rating", title: session.title, session};
  return {kind: "nothing", title: "", session};
}

function then(session, next) {
  const found = [];
  const rest = session.over ? [] : session.lines.filter(each => !each.done && !each.left && each !== next.line);
  for (const line of rest.filter(each => !each.later)) {
    const last = found.at(-1);
    if (last && line.turn !== null && last.turn === line.turn) last.rows.push(line);
    else if (line.turn !== null) found.push({title: "In turn", turn: line.turn, rows: [line], times: 1});
    else if (last && last.title === line.title && last.words === line.asked) last.times += 1;
    else found.push({title: line.title, words: line.asked, times: 1});
  }
  for (const each of found.filter(one => one.rows)) {
    const lifts = new Map();
    for (const line of each.rows) lifts.set(`${line.asked} ${line.title}`, (lifts.get(`${line.asked} ${line.title}`) || 0) + 1);
    each.words = [...lifts].map(([words, n]) => n > 1 ? `${n} sets of ${words}` : words).join(", ");
  }
  for (const one of session.over ? [] : session.pieces.filter(each => !each.done && each !== next.piece)) found.push({title: one.title, words: one.scheme, times: 1});
  for (const line of rest.filter(each => each.later)) {
    const last = found.at(-1);
    if (last && last.title === line.title && last.late) last.times += 1;
    else found.push({title: line.title, words: `${line.asked}, passed over`, times: 1, late: true});
  }
  if (next.kind !== "rating" && next.kind !== "nothing" && !session.answered) found.push({title: "How hard it was", words: "0 to 10", times: 1});
  return found;
}

// The next attempt of a test, as the log worked it out beforehand; where it has none for what was tried, none is proposed.
function attempt(line) {
  const tried = [...line.tried, ...(line.tries || [])], at = kind => tried.filter(each => (each.outcome === "missed") === kind).map(each => Number(each.load));
  const made = at(false), missed = at(true), low = missed.length ? Math.min(...missed, Number(tried.at(-1).load)) : null;
  const found = line.ahead[`${made.length ? Math.max(...made) : ""}|${low ?? ""}`];
  line.which = `Attempt ${tried.length + 1}`;
  Object.assign(line, {load: null, load_words: "", discs: [], made: "", chance: "", proposal: missed.length ? "After a miss nothing heavier is proposed." : ""}, found);
  if (missed.length > 1) line.proposal = "Two attempts missed: a good place to end (common practice). Nothing heavier is proposed.";
  if (!found) line.near = [];
}

function forget(day, id) {
  day.sets = day.sets.filter(each => each.id !== id);
  for (const session of day.sessions) for (const line of session.lines) {
    if (line.done && line.done.id === id) line.done = null;
    line.tried = line.tried.filter(each => each.id !== id);
    if (line.tries) line.tries = line.tries.filter(each => each.id !== id);
  }
}

// What a saved touch had ended is open again, before the log says so.
function reopen(act, sessions, pieces) {
  const session = act && sessions.get(act.body.step), piece = act && pieces.get(`${act.body.step} ${act.body.piece}`);
  if (!session) return;
  if (act.kind === "score" && piece) piece.done = false;
  else if (act.kind === "rate" || act.kind === "leave") session.answered = false;
  else if (act.kind === "end" && !act.body.planned) session.over = false;
  else if (act.kind === "warm" && session.warm_up) session.warm_up.done = session.warm_up.out = false;
  else if (act.kind === "after") for (const line of session.lines) if (line.lift === act.body.lift) line.left = false;
}

// The clock of this phone: the newest start that was neither put away nor scored.
function clockOf(acts, held) {
  const undone = {has: id => !held.get(id).on};
  const start = acts.filter(each => each.kind === "start" && !undone.has(each.id)).at(-1);
  if (!start || Date.now() - start.at > 12 * 3600000) return null;
  const after = acts.filter(each => !undone.has(each.id) && (each.body.of === start.id || each.body.clock === start.id));
  if (after.some(each => each.kind === "away" || each.kind === "score")) return null;
  const stop = after.find(each => each.kind === "stop"), taps = after.filter(each => each.kind === "tap");
  return {
    id: start.id, piece: start.body.piece, step: start.body.step, zero: start.at + start.body.count_in * 1000,
    taps: taps.map(each => each.at), tapped: taps.length ? held.get(taps.at(-1).id).by : "",
    stopped: stop ? stop.at : null, stop: stop ? held.get(stop.id).by : "",
  };
}

// What a clock shows at a moment: everything from time stamps, so that a page that slept is right when it wakes.
export function reading(clock, plan, now) {
  const each = plan.each && plan.intervals, taps = clock.taps || [];
  const stopped = clock.stopped ?? (each && taps.length >= plan.intervals ? taps[plan.intervals - 1] : null);
  const moment = stopped ?? now, past = (moment - clock.zero) / 1000;
  if (past < 0 && stopped === null) return {phase: "ready", shown: Math.ceil(-past), past: 0, interval: 0};
  const ends = plan.length ?? Infinity, at = Math.max(0, Math.min(past, ends));
  if (each && stopped === null) {
    const began = taps.length ? (taps.at(-1) - clock.zero) / 1000 + (plan.rest || 0) : 0;
    return past < began ? {phase: "rest", shown: Math.ceil(began - past), past, interval: taps.length - 1} : {phase: "work", shown: past - began, past, interval: taps.length};
  }
  const whole = (plan.work || 0) + (plan.rest || 0);
  const interval = plan.work && plan.intervals ? Math.min(Math.floor(at / whole), plan.intervals - 1) : 0;
  if (stopped !== null || past >= ends) return {phase: "over", shown: at, past: at, interval};
  if (plan.work && plan.intervals) {
    const inside = at - interval * whole, rests = inside >= plan.work;
    return {phase: rests ? "rest" : "work", shown: Math.ceil((rests ? whole : plan.work) - inside), past: at, interval};
  }
  return {phase: "work", shown: at, past: at, interval};
}

// Where the clock of sets stands at a moment: its interval from 1, what is left of it, and what it has run of it.
export function interval(clock, now) {
  const past = Math.max(0, (now - clock.zero) / 1000), n = Math.floor(past / clock.every_s), into = past - n * clock.every_s;
  return {n: n + 1, into, left: Math.max(0, Math.ceil(clock.every_s - into)), over: n >= clock.sets};
}
export const runs = (clock, now) => !interval(clock, now).over;

// What each interval took that was ended by a tap; the rest after it is none of it.
export function eachTime(clock, plan) {
  const starts = [clock.zero, ...clock.taps.map(each => each + (plan.rest || 0) * 1000)];
  return clock.taps.map((each, n) => time(Math.max(1, Math.round((each - starts[n]) / 1000))));
}

// The time of each interval: as typed, else as the clock has it. One that nobody timed keeps its place, as a dash.
const MOST_FIELDS = 12;
export const eachField = piece => Boolean(piece.clock.each && piece.clock.intervals <= MOST_FIELDS);
export function eachSaid(piece, clock, fields) {
  const told = clock ? eachTime(clock, piece.clock) : [];
  const said = Array.from({length: piece.clock.intervals}, (_, n) => String(fields[`each_${n}`] ?? told[n] ?? "").trim());
  return said.map(each => each || "-").join(", ").replace(/[-, ]+$/, "");
}

// The cap ended it and no hand did: nothing says yet whether it was finished, or how far it went.
export function cutOff(clock, piece, now) {
  return Boolean(clock && piece.capped && clock.stopped === null && reading(clock, piece.clock, now).phase === "over");
}

export function time(seconds) {
  const whole = Math.max(0, Math.floor(seconds)), two = number => String(number).padStart(2, "0");
  const hours = Math.floor(whole / 3600), minutes = Math.floor(whole / 60) % 60;
  return hours ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}

// Why so many repetitions of a movement can't be, and what was meant where the next round is not gone past; else nothing.
export function tooMany(piece, round, at, more) {
  const [asked, name] = round.reps[at];
  if (!Number.isInteger(more) || more < 0) return `Write how many ${name} were done, as a whole number. Nothing is logged yet.`;
  if (asked < 1 || asked > 99999 || more < asked) return "";
  const row = round.reps.reduce((sum, each) => sum + each[0], 0), words = `${more} are ${more === asked ? "all of" : "more than"} the ${asked} ${name} of this round. `;
  let left = more, of = round, n = at;
  while (of && left >= of.reps[n][0] && more < row + asked) {
    left -= of.reps[n][0];
    n += 1;
    if (n === of.reps.length) [of, n] = [piece.rounds.find(each => each.n === of.n + 1), 0];
  }
  if (!of || more >= row + asked) return `${words}Write at most ${asked - 1}, or touch what was finished. Nothing is logged yet.`;
  const then = n ? `, ${of.moves[n][1]}` : "", count = left ? `, plus ${left}${of.reps.length > 1 ? ` ${of.reps[n][1]}` : ""}` : "";
  return `${words}Probably meant: ${of.words}${then}${count}. Nothing is logged yet.`;
}

// What a set beside the plan starts from: the newest one of its lift of today, else what the plan brings.
export function besides(plan, now, wanted) {
  const lift = plan.lifts.find(each => each.id === wanted) || plan.lifts[0], row = newest(now, lift.id);
  if (!row || lift.note || now.hurts.has(lift.id)) return lift;
  return {...lift, load: row.load, unit: row.unit, reps: Math.max(row.reps, 1), said: row.outcome === "done"};
}
const newest = (now, lift) => now.sets.filter(each => each.lift === lift).at(-1);

// A planned set without a load starts from the set of today that was asked the same, or that was done beside the plan.
export function asLast(line, session, now) {
  const row = line.load === null && !line.test && !line.withheld?.length && !now.hurts.has(line.lift) && newest(now, line.lift);
  if (!row || row.outcome !== "done" || Number(row.load) > (line.most ?? Infinity)) return line;
  const of = session.lines.find(each => each.done && each.done.id === row.id);
  return of && of.asked !== line.asked ? line : {...line, load: row.load, unit: row.unit, reps: line.reps ?? null, like: `As in the last set today: ${row.said}`};
}

// Repetitions before a load: `5 × `, or `8 each side × `, which are sixteen.
export const times = (of, reps = of.reps) => `${reps}${of.each_side ? " each side" : ""} × `;

// Where the log would ask about a load of a lift, and nobody has said yet that it is meant: what it usually is; else nothing.
export function farFrom(plan, lift, {load, unit}) {
  const asked = plan.asked_about?.[lift];
  return asked && asked[unit].some(([low, high]) => Number(load) >= low && (high === null || Number(load) <= high)) ? asked.usual : "";
}

// A load as it was typed, with a point or a comma, and with its own unit where one is typed; null where it is none.
export function typedLoad(text, unit) {
  const found = /^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(kgs?|lbs?)?$/i.exec(String(text ?? "").trim());
  if (!found) return null;
  const load = found[1].replace(",", ".").replace(/^\+/, "").replace(/\.$/, "").replace(/^(-?)\./, "$10.");
  return {load, unit: found[2] ? found[2].toLowerCase().replace(/s$/, "") : unit};
}

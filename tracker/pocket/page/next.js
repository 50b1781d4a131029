// What is next, from the plan and from what was touched since: the plan brings every load, here is only the order of things.

export function dayOf(moment = new Date()) {
  const two = number => String(number).padStart(2, "0");
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}

// plan: as the log gave it; acts: those of this phone in their order, kept or saved; today: the phone's own day; passed: the
// keys of lines without an offer here that somebody went past: nothing is logged of them, and on Today they still stand.
export function stand(plan, acts, today, passed) {
  const day = structuredClone({sessions: plan.sessions, sets: plan.sets});
  const mine = acts.filter(each => each.user === plan.member.id && !bad(each));
  const undone = new Set(mine.filter(each => each.kind === "undo").map(each => each.body.of));
  const since = mine.filter(each => !plan.touches[each.id]);
  for (const line of day.sessions.flatMap(each => each.lines)) if (line.withheld?.length && passed.has(line.key)) line.left = true;
  const lines = new Map(day.sessions.flatMap(each => each.lines.map(line => [line.key, line])));
  const pieces = new Map(day.sessions.flatMap(each => each.pieces.map(piece => [`${each.id} ${piece.id}`, piece])));
  const sessions = new Map(day.sessions.map(each => [each.id, each]));
  let on = plan.day === today ? plan.on : null;
  if (plan.day !== today) day.sets = [];

  for (const [id, touch] of Object.entries(plan.touches))  // taken back on this phone, and the plan does not know it yet
    if (undone.has(id) && !touch.undone) for (const made of touch.made) forget(day, made);

  const done = new Map(day.sets.map(each => [each.id, each]));
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
        id: act.id, act: act.id, kept: !act.result, words: body.words, said: body.said, outcome: body.outcome, reps: body.reps,
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
    } else if (act.kind === "begin" && session) { on = body.step; session.due = today; }
    else if (act.kind === "after" && session) { for (const line of session.lines) if (line.lift === body.lift && !line.done) line.left = true; }
    else if (act.kind === "skip" && session) session.skipped = true;
    else if (act.kind === "end" && session) {
      if (body.planned) for (const line of session.lines.filter(each => each.planned === body.planned)) line.done = {words: "ended", said: "ended"};
      else { session.over = true; session.to_end = false; }
    } else if (act.kind === "warm" && session && session.warm_up) session.warm_up.done = true;
    else if (act.kind === "score") {
      const piece = pieces.get(`${body.step} ${body.piece}`);
      if (piece) { piece.done = true; piece.score = body.said; piece.act = act.id; }
    } else if ((act.kind === "rate" || act.kind === "leave") && session) { session.answered = true; session.rating = body.rating ?? null; }
  }
  for (const act of since)
    if (act.kind === "set" && act.body.outcome === "missed" && act.date === today && !undone.has(act.id))
      for (const session of day.sessions) for (const line of session.lines) if (line.lift === act.body.lift && !line.done) hold(line, act.body);
  const open = day.sessions.filter(each => !each.skipped);
  const finished = each => !set(each) && !piece(each) && (each.answered || empty(each));
  let now = open.find(each => each.id === on);
  const due = open.filter(each => each.due === today);
  if (!now || finished(now)) now = due.find(each => !finished(each) && each.id !== on) || now || (plan.day !== today ? due[0] : undefined);
  const next = of(now);
  const touched = mine.filter(each => !undone.has(each.id) && each.kind !== "undo" && each.date === today && UNDO.has(each.kind));
  return {
    stale: new Set(since.filter(each => each.kind === "set" && each.body.outcome === "missed" && !undone.has(each.id)).map(each => each.body.lift)),
    next, on: now || null, sets: day.sets, last: touched.at(-1) || null, clock: clockOf(mine, undone),
    then: now ? then(now, next) : [],
    ahead: open.filter(each => each !== now && each.due >= today && !finished(each)),
    missed: open.filter(each => each !== now && each.due < today),
  };
}

const UNDO = new Set(["set", "change", "score", "rate", "begin", "warm", "end", "skip", "leave", "after"]);
const bad = act => act.result && (act.result.r === "parked" || act.result.r === "clash");
const pick = (from, names) => Object.fromEntries(names.filter(each => each in from).map(each => [each, from[each]]));
const set = each => each.over ? undefined : each.lines.find(line => !line.done && !line.left);
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
  for (const line of session.over ? [] : session.lines.filter(each => !each.done && !each.left && each !== next.line)) {
    const last = found.at(-1);
    if (last && last.title === line.title && last.words === line.asked) last.times += 1;
    else found.push({title: line.title, words: line.asked, times: 1});
  }
  for (const one of session.over ? [] : session.pieces.filter(each => !each.done && each !== next.piece)) found.push({title: one.title, words: one.scheme, times: 1});
  if (next.kind !== "rating" && next.kind !== "nothing" && !session.answered) found.push({title: "How hard it was", words: "0 to 10", times: 1});
  return found;
}

// Nothing heavier than what was missed is offered for the rest of the day, as the log holds it once it has the miss.
function hold(line, missed) {
  const top = Number(missed.load), within = each => each.unit !== missed.unit || Number(each.load) <= top;
  if (line.load === null || line.load === undefined || line.load === "" || within(line)) { line.near = line.near.filter(within); return; }
  const most = line.near.filter(within).at(-1) || {load: missed.load, unit: missed.unit, words: `${missed.load} ${missed.unit}`, discs: [], made: "", chance: ""};
  line.held = `Planned: ${line.load_words}. Nothing heavier than what was missed.`;
  line.near = line.near.filter(within);
  Object.assign(line, {load: most.load, unit: most.unit, load_words: most.words, discs: most.discs, made: most.made, chance: most.chance, asked: `${line.reps} × ${most.words}`});
}

function forget(day, id) {
  day.sets = day.sets.filter(each => each.id !== id);
  for (const session of day.sessions) for (const line of session.lines) if (line.done && line.done.id === id) line.done = null;
}

// The clock of this phone: the newest start that was neither put away nor scored.
function clockOf(acts, undone) {
  const start = acts.filter(each => each.kind === "start" && !undone.has(each.id)).at(-1);
  if (!start || Date.now() - start.at > 12 * 3600000) return null;
  const after = acts.filter(each => !undone.has(each.id) && (each.body.of === start.id || each.body.clock === start.id));
  if (after.some(each => each.kind === "away" || each.kind === "score")) return null;
  const stop = after.find(each => each.kind === "stop");
  return {
    id: start.id, piece: start.body.piece, step: start.body.step, zero: start.at + start.body.count_in * 1000,
    taps: after.filter(each => each.kind === "tap").map(each => each.at), stopped: stop ? stop.at : null,
  };
}

// What a clock shows at a moment: everything from time stamps, so that a page that slept is right when it wakes.
export function reading(clock, plan, now) {
  const moment = clock.stopped ?? now, past = (moment - clock.zero) / 1000;
  if (past < 0 && clock.stopped === null) return {phase: "ready", shown: Math.ceil(-past), past: 0, interval: 0};
  const ends = plan.length ?? Infinity, at = Math.max(0, Math.min(past, ends));
  const whole = (plan.work || 0) + (plan.rest || 0);
  const interval = plan.work && plan.intervals ? Math.min(Math.floor(at / whole), plan.intervals - 1) : 0;
  if (clock.stopped !== null || past >= ends) return {phase: "over", shown: at, past: at, interval};
  if (plan.work && plan.intervals) {
    const inside = at - interval * whole, rests = inside >= plan.work;
    return {phase: rests ? "rest" : "work", shown: Math.ceil((rests ? whole : plan.work) - inside), past: at, interval};
  }
  return {phase: "work", shown: at, past: at, interval};
}

export function time(seconds) {
  const whole = Math.max(0, Math.floor(seconds)), two = number => String(number).padStart(2, "0");
  const hours = Math.floor(whole / 3600), minutes = Math.floor(whole / 60) % 60;
  return hours ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}

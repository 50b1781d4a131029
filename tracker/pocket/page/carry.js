// A load that was changed goes on to the sets that follow. What each of them is then done with, the plan says for every load
// that the kit makes around what is asked; here it is only looked up. Whoever did what the plan has no word on goes on with
// no more than the nearest of it.

const FIELDS = ["reps", "asked", "load", "unit", "load_words", "made", "discs", "chance", "part"];
const from = (record, names) => Object.fromEntries(names.map(each => [each, record[each]]));
const near = (session, line) => new Map(Object.values(line.after || {}).flatMap(each => Object.values(each)).map(n => [Number(session.after[n].load), session.after[n]]));

// As it stands where no load was changed.
export function reset(session) {
  for (const line of session.lines) if (line.base && line.base.asked) Object.assign(line, from(line.base, FIELDS), {notes: line.base.notes});
}

// Nothing heavier than what was missed is offered for the rest of the day, as the log holds it once it has the miss.
export function hold(session, line, missed) {
  const top = Number(missed.load), within = each => each.unit !== missed.unit || Number(each.load) <= top;
  const held = !(line.load === null || line.load === undefined || line.load === "" || within(line));
  line.near = line.near.filter(within);
  line.most = Math.min(line.most ?? Infinity, top);
  if (!held) return;
  const known = [...near(session, line).values()].filter(within).sort((one, other) => one.load - other.load).at(-1);
  const most = line.near.at(-1), words = `Planned: ${line.load_words}. Nothing heavier than what was missed.`;
  if (known && (!most || Number(known.load) >= Number(most.load))) Object.assign(line, from(known, FIELDS), {part: ""});
  else {
    const one = most || {load: missed.load, unit: missed.unit, words: `${missed.load} ${missed.unit}`, discs: [], made: "", chance: ""};
    Object.assign(line, {load: one.load, unit: one.unit, load_words: one.words, discs: one.discs, made: one.made, chance: one.chance, asked: `${line.reps} × ${one.words}`, part: ""});
  }
  line.held = words;
  around(session, line);
}

// says: what the member said of changed loads of this session, the newest last. Returns by lift what its newest set changed.
export function carry(session, says, isToday) {
  const found = new Map();
  for (const lift of new Set(session.lines.map(each => each.lift))) {
    const lines = session.lines.filter(each => each.lift === lift && !each.test);
    const newest = lines.filter(each => each.done && each.done.at).sort((one, other) => Date.parse(one.done.at) - Date.parse(other.done.at)).at(-1);
    const row = newest && newest.done;
    if (!row || row.outcome !== "done" || !isToday(row.at) || row.unit !== newest.unit || newest.load === null) continue;
    const most = Math.min(...lines.map(each => each.most ?? Infinity)), asked = Math.min(Number(newest.load), most), load = Number(row.load);
    if (load === asked) continue;
    const said = says.filter(each => each.lift === lift && each.unit === row.unit && Number(each.load) === load).at(-1);
    const change = {asked, load: row.load, unit: row.unit, words: `${row.load} ${row.unit}`, down: load < asked, taken: said ? said.carry === "take" : load < asked, said: Boolean(said), moves: false};
    for (const line of lines) {
      const then = line.done || line.left || line.load === null ? null : after(session, line, asked, row);
      if (!then || Number(then.load) > (line.most ?? Infinity)) continue;
      change.moves = true;
      Object.assign(line, {ways: {asked: line.load_words, then: then.load_words}});
      if (change.taken) take(session, line, then);
    }
    found.set(lift, change);
  }
  return found;
}

// What a set is done with after another load; null where it stays as it is.
function after(session, line, asked, row) {
  const load = Number(row.load), own = Number(line.load), down = load < asked;
  const known = line.base && own === Number(line.base.load) ? line.after[Object.keys(line.after).find(each => Number(each) === asked)] : null;
  if (known) {
    const loads = Object.keys(known).sort((one, other) => one - other), exact = loads.find(each => Number(each) === load);
    if (exact) return session.after[known[exact]];
    if (own !== asked && (own <= Math.min(load, asked) || !down)) return null;
    const below = loads.filter(each => Number(each) < load).at(-1), record = below && session.after[known[below]];
    if (record && down && Number(record.load) !== Number(below)) return record;
  } else if (own === load || (own < asked ? !down || own <= load : own > asked && !down)) return null;
  const others = session.lines.filter(each => each.lift === line.lift).map(each => near(session, each).get(load)).find(Boolean);
  const lifted = near(session, line).get(load) || others && {...others, chance: ""} || line.near.map(each => ({...each, load_words: each.words})).find(each => Number(each.load) === load);
  const words = lifted ? lifted.load_words : `${row.load} ${row.unit}`;
  return {
    reps: line.reps, asked: `${line.reps} × ${words}`, load: row.load, unit: row.unit, load_words: words, made: lifted?.made || "", discs: lifted?.discs || [],
    chance: lifted?.chance || "", part: "", why: `${line.load_words} was asked; you went on with ${words}.`,
  };
}

function take(session, line, then) {
  Object.assign(line, from(then, FIELDS), {notes: [...line.notes, then.why], held: undefined});
  around(session, line);
}

// The loads that are offered are those around the one that is done now.
function around(session, line) {
  const all = near(session, line), own = Number(line.load);
  for (const each of line.near) if (!all.has(Number(each.load))) all.set(Number(each.load), {...each, load_words: each.words});
  const loads = [...all.keys()].filter(each => each <= (line.most ?? Infinity)).sort((one, other) => one - other);
  line.near = [...loads.filter(each => each < own).slice(-3), ...loads.filter(each => each >= own).slice(0, 4)].map(each => all.get(each))
    .map(each => ({load: each.load, unit: each.unit, words: each.load_words, made: each.made, discs: each.discs, chance: each.chance}));
}

// Draws the day as HTML text; every word of a person or a coach goes through `esc`.

import {cutOff, dayOf, reading, time, told} from "./next.js";

const SIGNS = {"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"};
export const esc = text => String(text ?? "").replace(/[&<>"']/g, sign => SIGNS[sign]);
const p = (kind, words) => words ? `<p class="${kind}">${esc(words)}</p>` : "";
const button = (label, data, kind = "", more = "") => `<button type="button" class="${kind}" ${data} ${more}>${esc(label)}</button>`;
const pills = (label, name, rows, chosen, id) => `<div class="pills" role="group" aria-label="${esc(label)}">${rows.map(([value, words, more]) =>
  `<button type="button" id="${id}_${value}" data-${name}="${esc(value)}" aria-pressed="${String(chosen) === String(value)}" ${more || ""}>${esc(words)}</button>`).join("")}</div>`;

// One end of the bar: height and thickness follow the mass; no colour is to be known by heart.
export function discs(row) {
  if (!row.length) return "";
  const share = kg => Math.min(1, Math.sqrt(kg / 25)), wide = 48 + 36 * row.length + 30, units = new Set(row.map(each => each[1]));
  const marks = row.map(([amount, unit, kg], at) => {
    const tall = 20 + 58 * share(kg), thick = 9 + 14 * share(kg), left = 50 + 36 * at, label = units.size > 1 ? `${amount} ${unit}` : amount;
    return `<rect class="disc" x="${left + (34 - thick) / 2}" y="${44 - tall / 2}" width="${thick}" height="${tall}" rx="3.5"/>` +
      `<text x="${left + 17}" y="101" text-anchor="middle">${esc(label)}</text>`;
  }).join("");
  const said = `One end of the bar: ${row.map(each => `${each[0]} ${each[1]}`).join(", ")}`;
  return `<svg class="discs" viewBox="0 0 ${wide} 108" style="max-width:${wide * 1.25}px" role="img" aria-label="${esc(said)}">` +
    `<rect class="bar" x="0" y="41" width="48" height="6" rx="2"/><rect class="bar" x="40" y="33" width="7" height="22" rx="2"/>` +
    `<rect class="sleeve" x="48" y="39" width="${wide - 52}" height="10" rx="3"/>${marks}</svg>`;
}

export function top(view) {
  const {plan, ui} = view, many = (plan && plan.members || []).length > 1;
  const who = plan ? esc(plan.member.name) : "Tidemark";
  return `<div class="bar-top"><svg class="mark" viewBox="0 0 24 24" aria-hidden="true"><path d="M2 7q2.5-3 5 0t5 0 5 0 5 0M2 13q2.5-3 5 0t5 0 5 0 5 0M2 19q2.5-3 5 0t5 0 5 0 5 0"/></svg>` +
    `<p class="who">${who}</p>${button("Menu", `id="menu" data-do="menu" aria-expanded="${Boolean(ui.menu)}" aria-controls="menu_box"`, "plain")}</div>${state(view)}` +
    `<nav id="menu_box" aria-label="More" ${ui.menu ? "" : "hidden"}>${ui.menu ? menu(view, many) : ""}</nav>`;
}

function menu({plan, ui, kept, can}, many) {
  const id = plan ? plan.member.id : "", at = name => `/${name}${id ? `?member=${encodeURIComponent(id)}` : ""}`;
  const pages = [["", "Today, in full"], ["trend", "Trend"], ["weights", "Weights"], ["sheet", "Sheet"], ["conditioning", "Pieces"], ["journal", "Journal"], ["kit", "Kit"], ["preferences", "Preferences"]];
  return `${many ? `<p class="over" id="whose">Whose day</p><ul class="links" aria-labelledby="whose">${plan.members.map(each => `<li><a href="/day/?member=${encodeURIComponent(each)}" data-member="${esc(each)}" ${each === plan.member.name ? 'aria-current="page"' : ""}>${esc(each)}</a></li>`).join("")}</ul>` : ""}` +
    `<p class="over" id="pages">Other pages</p><ul class="links" aria-labelledby="pages">${pages.map(([name, words]) => `<li><a href="${at(name)}">${words}</a></li>`).join("")}</ul>` +
    `<p class="over" id="phone">This phone</p><div class="col" role="group" aria-labelledby="phone">${button("Sound", `id="sound" data-do="sound" aria-pressed="${ui.sound}"`)}${button("Vibration", `id="vibration" data-do="vibration" aria-pressed="${ui.vibration}"`)}` +
    `${button("A phone opens this page first", `id="first" data-do="first" aria-pressed="${ui.first}"`)}${button(`Save what waits as a file (${kept})`, 'id="to_file" data-do="to_file"')}<label class="file">Take in such a file<input type="file" id="from_file" accept="application/json,.json"></label>` +
    `${plan && plan.sign_in ? button("Sign out", 'id="sign_out" data-do="sign_out"') : ""}</div>` +
    `<p class="small">${can.worker ? "This page opens without a connection, too." : "Over plain http the phone can't open this page without a connection: leave it open in the basement. What you touch is kept in this browser, and the screen may go dark while a clock runs."}` +
    ` ${ui.lasting === false ? "The browser does not promise to keep things for long: hand over within a week." : ""}</p>`;
}

export function state({kept, line, storeBroken, refusedActs, plan, ui, unkept}) {
  const n = kept, some = n === 1 ? "1 touch" : `${n} touches`;
  const kind = storeBroken || refusedActs.length || unkept ? "refused" : n ? "kept" : "saved";
  let words = n ? `${some} kept on this phone` : "All saved";
  if (storeBroken) words = "This browser keeps nothing: each touch goes straight to the log, and counts only where that is reached";
  else if (line.trouble === "sign in") words = n ? `${some} kept: sign in to hand over` : "Sign in to see your day";
  else if (line.trouble === "other user") words = `${some} kept for whoever made them: they go to the log once that person is back`;
  else if (line.trouble === "reload") words = `${some} kept: reload this page to hand over`;
  else if (refusedActs.length) words = `${refusedActs.length} not taken in, see below${n ? `; ${some} kept` : ""}`;
  else if (n && line.reached === false) words = `${some} kept on this phone. The log is not reached: sent by itself once it is`;
  else if (n) words = `${some} kept, on the way to the log`;
  else if (line.reached === false) words = `No connection: touches are kept here. Plan as of ${plan ? clockTime(plan.as_of) : "never"}`;
  else if (line.at) words = `All saved ${clockTime(line.at)}`;
  const way = line.trouble === "sign in" ? ' <a href="/">Sign in</a>' : "";
  return `<p id="state" class="state ${kind}" data-kept="${n}" data-state="${kind}"><i aria-hidden="true"></i><span>${esc(words)}${way}</span></p>` +
    (ui.fresh ? `<p class="state kept"><span>A new version is here. ${button("Take it", 'id="fresh" data-do="fresh"', "plain")}</span></p>` : "");
}

const clockTime = moment => { const at = new Date(moment), same = at.toDateString() === new Date().toDateString(); return at.toLocaleString("en-GB", same ? {hour: "2-digit", minute: "2-digit"} : {weekday: "short", hour: "2-digit", minute: "2-digit"}); };

export function main(view) {
  const {plan, now} = view;
  if (!plan) return nobody(view);
  return [asks(view), refusals(view), stale(view), head(view), warm(view), rest(view), next(view), effort(view), undo(view), doneList(view), thenList(view), free(view), missed(view), ahead(view), allPages(view), back(view)].join("");
}

function nobody({line, trouble}) {
  if (line.trouble === "sign in") return `<section class="card" data-next="nothing" data-title=""><h1>Sign in first</h1><p>Whose day this is, only the log says.</p><a class="go" href="/">Sign in</a></section>`;
  const why = trouble || (line.reached === false ? "The log is not reached, and this phone has no plan of yours yet. Open this page once with a connection." : "Nobody is in this log yet.");
  return `<section class="card" data-next="nothing" data-title=""><h1>No day yet</h1><p>${esc(why)}</p><a class="go" href="/">Go to the log</a></section>`;
}

// Whoever goes there stays there: the bare address opens the pages from then on, until this page is chosen again.
const allPages = ({plan}) => `<p class="foot"><a class="go" id="all_pages" href="/?member=${encodeURIComponent(plan.member.id)}" data-do="all_pages">All pages</a></p>`;

function stale({plan, today, line}) {
  const old = plan.day !== today, hours = (Date.now() - Date.parse(plan.as_of)) / 3600000;
  if (!old && (hours < 6 || line.reached)) return "";
  return `<p class="note">The plan on this phone is of ${esc(clockTime(plan.as_of))}. It may have changed since: loads after a miss, or a session that was moved.</p>`;
}

function head({plan, now}) {
  const session = now.on;
  const ticks = session ? session.lines.map(each => `<i class="${each.done ? (each.done.outcome === "missed" ? "missed" : "done") : each === now.next.line ? "now" : ""}"></i>`).join("") : "";
  const count = session && session.lines.length ? `${session.lines.filter(each => each.done).length} of ${session.lines.length} sets done` : "";
  return `<div class="head"><h1>${esc(session ? session.title : "Today")}</h1>${p("place", plan.place)}` +
    `${ticks ? `<div class="ticks" role="img" aria-label="${count}">${ticks}</div>` : ""}${plan.cautions.map(each => p("note", each)).join("")}` +
    `${session && session.notes.length ? `<details id="coach"><summary>Coach's words</summary>${session.notes.map(each => p("", each)).join("")}</details>` : ""}</div>`;
}

function asks({plan, answered}) {
  return plan.asks.filter(each => !answered.has(each.key)).map((each, at) => `<section class="card ask" aria-label="A question"><p>${esc(each.words)}</p><div class="row">` +
    each.answers.map((one, n) => button(one.words, `id="ask_${at}_${n}" data-do="answer" data-ask="${esc(each.key)}" data-n="${n}"`)).join("") + "</div></section>").join("");
}

function refusals({refusedActs, unkept, trouble}) {
  return (trouble ? `<section class="card ask" role="alert"><p>${esc(trouble)}</p></section>` : "") + (unkept ? `<section class="card ask" role="alert"><p><b>Not kept, not logged:</b> ${esc(unkept.words)}. ${esc(unkept.why)}</p><div class="row">${button("Try again", 'id="retry" data-do="retry"', "main")}${button("Leave it", 'id="leave_it" data-do="drop_unkept"')}</div></section>` : "") +
    refusedActs.map(each => `<section class="card ask"><p><b>Not taken in:</b> ${esc(each.body.words || each.kind)}. ${esc(each.result.words)}</p><div class="row">` +
    `${each.result.slip ? button("Log it as it is", `id="sure_${each.id}" data-do="sure" data-id="${each.id}"`) : ""}${button("Put away", `id="drop_${each.id}" data-do="drop" data-id="${each.id}"`)}</div></section>`).join("");
}

function warm({now}) {
  const session = now.on, up = session && session.warm_up;
  if (!up || up.done || session.over || session.lines.some(each => each.done)) return "";
  return `<section class="card soft" aria-labelledby="warm_head"><h2 id="warm_head">Warm-up first</h2>${up.lines.map(each => p("", each)).join("")}${button("Warm-up done", `id="warm" data-do="warm" data-step="${session.id}"`)}</section>`;
}

function next(view) {
  const {kind, title} = view.now.next;
  const inner = {set: setCard, piece: pieceCard, rating: ratingCard, nothing: nothingCard}[kind](view);
  return `<section class="card next" data-next="${kind}" data-title="${esc(title)}" aria-label="What is next">${inner}</section>`;
}

export function picked(line, ui) {
  const at = ui.pick[line.key];
  const near = at === undefined ? null : line.near[at];
  return near ? {...line, load: near.load, unit: near.unit, load_words: near.words, discs: near.discs, chance: near.chance, made: near.made, asked: `${line.reps} × ${near.words}`, other: true} : line;
}

function setCard(view) {
  const {now, ui} = view, session = now.next.session, asked = now.next.line, line = picked(asked, ui);
  const which = asked.which;
  if (asked.withheld?.length) return withheldCard(view, asked, which);
  const before = session.lines.filter(each => each.done && each.lift === asked.lift).at(-1);
  const lost = before && before.done.outcome === "missed";
  const small = line.asked.length > 12 ? " small" : "";
  const parts = [`<p class="over">${esc(which)}</p><h2 class="lift">${esc(line.title)}</h2><p class="big${small}">${esc(line.asked)}</p>`, discs(line.discs), p("made", line.made), p("chance", now.stale.has(asked.lift) ? "" : line.chance), p("note", asked.held), p("note", asked.proposal?.words), weigh(view, asked)];
  if (lost) parts.push(afterMiss(asked, line, now.stale.has(asked.lift), before.done, view.plan));
  if (session.ramp.length && !session.lines.some(each => each.done)) parts.push(`<p class="ramp"><b>Up to it:</b> ${session.ramp.map(esc).join(", ")}</p>`);
  if (ui.open === "missed") parts.push(missedBox(line));
  else if (ui.open === "change" || asked.open) parts.push(editor(view, asked, line));
  else parts.push(button(`Done: ${line.reps} × ${line.load_words}`, 'id="done" data-act="done"', "main"),
    `<div class="row">${button("Missed", 'id="missed" data-act="missed"')}${button("Change it", 'id="change" data-act="change"')}</div>`);
  parts.push(more(view, asked));
  parts.push(...(line.last || []).map(each => p("small", each)), p("small", line.other ? "" : line.part), ...line.notes.map(each => p("note", each)), cautions(line));
  return parts.join("");
}

// The body mass, where the body is lifted and it is not known or is old; kept here like any touch.
function weigh({plan, ui, now}, line) {
  if (!line.body || now.weighed || plan.body_known && !plan.ask_body) return "";
  return `<div class="ask-body"><p class="note">${esc(plan.ask_body || "No body mass is known: type it once.")}</p><div class="row"><input id="body_mass" data-field="body_mass" inputmode="decimal" autocomplete="off" aria-label="Body mass, ${plan.member.unit}" placeholder="${plan.member.unit}" value="${esc(ui.fields.body_mass ?? "")}">${button("Keep it", 'id="weigh" data-do="weigh"')}</div>${p("note", ui.bodyWants)}</div>`;
}

// Ways beside what is next: none of them is in the way of the next touch.
function more({plan, now}, line) {
  const session = now.next.session, left = session.lines.filter(each => !each.done && !each.left), same = left.every(each => !line || each.lift === line.lift);
  const done = line && session.lines.filter(each => each.done && each.done.id && each.lift === line.lift).at(-1), piece = session.pieces.some(each => !each.done);
  const days = Array.from({length: 7}, (_, n) => { const day = new Date(); day.setDate(day.getDate() + n + 1); return dayOf(day); });
  const ways = [
    line && !(same && !piece) ? button(`${title(line)} later`, 'id="later" data-do="later"') : "",
    line && piece ? button("The piece first", 'id="piece_first" data-do="piece_first"') : "",
    !line && left.length ? button(`Back to the sets: ${left.length} left`, 'id="to_sets" data-do="to_sets"') : "",
    done && done.done.outcome !== "missed" ? button(`Enough of ${bare(line)} today`, `id="enough" data-do="enough" data-how="stop" data-id="${done.done.id}"`) + button("It hurts: no more of it", `id="hurts" data-do="enough" data-how="hurt" data-id="${done.done.id}"`) : "",
    button("End the session here", `id="end_here" data-do="end" data-step="${session.id}"`),
  ];
  return `<details id="more" class="more"><summary>Not as planned</summary><div class="col">${ways.join("")}</div>` +
    `<p class="label" id="move_label">Move the session to another day; those behind it move along</p><div class="pills" role="group" aria-labelledby="move_label">${days.map(day => button(dayWords(day).replace(/ \w+$/, ""), `id="move_${day}" data-do="move" data-to="${day}"`)).join("")}</div></details>`;
}
const bare = line => line.title.split(",")[0], title = line => bare(line).replace(/^./, sign => sign.toUpperCase());

// No load and no touch that logs one: what keeps it from that is answered on Today's page, or gone past here.
function withheldCard({plan}, line, which) {
  return `<p class="over">${esc(which)}</p><h2 class="lift">${esc(line.title)}</h2><p class="big small">${esc(line.asked)}</p>${line.withheld.map(each => p("note", each)).join("")}` +
    `<p>Other ways, and answers, are on Today's page.</p><a class="go" id="to_today" href="${todayOf(plan)}">Go to Today's page</a>` +
    `<div class="row">${button("Go on without it", 'id="pass" data-do="pass"')}</div>${line.notes.map(each => p("note", each)).join("")}${cautions(line)}${signs(plan)}`;
}

const todayOf = plan => `/?member=${encodeURIComponent(plan.member.id)}`;
const signs = plan => plan.signs?.length ? `<details id="signs"><summary>When to stop, and when to see a clinician</summary>${plan.signs.map(each => p("", each)).join("")}</details>` : "";

function afterMiss(asked, line, stale, row, plan) {
  const told = plan.after_miss && plan.after_miss.set === row.id ? plan.after_miss.words : ["The last one was missed: less, the same again, or enough of this lift; not more today."];
  const top = Number(asked.load), lower = asked.near.map((each, at) => ({...each, at})).filter(each => Number(each.load) < top).slice(-2).reverse();
  const ways = lower.map(each => button(`Less: ${each.words}${each.chance && !stale ? `, ${each.chance}` : ""}`, `id="less_${each.at}" data-do="pick" data-at="${each.at}" aria-pressed="${line.load === each.load}"`));
  return `<div class="after"><p class="note">${esc(told.join(" "))}${stale ? " How likely each is, the log says once it has the miss." : ""} If something hurts, stop: that is for a clinician.</p><div class="col">${ways.join("")}${line.other ? button(`As planned: ${asked.load_words}`, 'id="less_none" data-do="pick" data-at=""') : ""}${button("Enough of this lift today", `id="enough" data-do="enough" data-how="stop" data-id="${row.id}"`)}${button("It hurts: no more of it", `id="hurts" data-do="enough" data-how="hurt" data-id="${row.id}"`)}</div></div>`;
}

function missedBox(line) {
  const rows = Array.from({length: line.reps}, (_, n) => n).reverse();
  return `<div class="missed-box" role="group" aria-labelledby="how_many"><p id="how_many"><b>Missed at ${esc(line.load_words)}. How many went up?</b></p><div class="pills">${rows.map(n => `<button type="button" id="reps_${n}" data-reps="${n}">${n ? n : "none"}</button>`).join("")}</div>${button("Not missed", 'id="close" data-do="close"', "plain")}</div>`;
}

function stepper(id, label, value, unit = "", mode = "decimal") {
  return `<div class="stepper"><label for="${id}">${esc(label)}</label><div>${button("−", `id="${id}_less" data-step-of="${id}" data-by="-1" aria-label="Less: ${esc(label)}"`)}<input id="${id}" data-field="${id}" inputmode="${mode}" autocomplete="off" value="${esc(value)}" placeholder="${unit ? "" : "?"}">${unit ? `<span>${esc(unit)}</span>` : ""}${button("+", `id="${id}_more" data-step-of="${id}" data-by="1" aria-label="More: ${esc(label)}"`)}</div></div>`;
}

function editor({ui, now}, asked, line) {
  const f = ui.fields, test = asked.test;
  const left = [["", "not said"], ...LEFT];
  return `<div class="editor">${stepper("load", "Load", f.load ?? line.load ?? "", asked.unit)}${stepper("reps_done", "Repetitions", f.reps_done ?? line.reps, "", "numeric")}` +
    (test ? "" : `<p class="label" id="left_label">Repetitions left in reserve</p>${pills("Repetitions left in reserve", "rir", left, f.rir ?? "", "rir")}`) +
    `<label class="label" for="note">Note</label><input id="note" data-field="note" value="${esc(f.note ?? "")}" maxlength="300" autocomplete="off">` +
    button(test ? "Made: log this attempt" : "Log this set", 'id="done" data-act="done"', "main") +
    `<div class="row">${button("Missed", 'id="missed" data-act="missed"')}${test ? button("End the test", `id="end_test" data-do="end_test" data-step="${now.next.session.id}"`) : asked.open ? "" : button("As planned", 'id="close" data-do="close"', "plain")}</div></div>`;
}

const cautions = line => line.cautions.length ? `<details id="care"><summary>Signs to stop at</summary>${line.cautions.map(each => `<p>${esc(each.text)} ${esc(each.advice)}</p><p class="small">${esc(each.basis)}</p>`).join("")}</details>` : "";

function pieceCard(view) {
  const {now, ui} = view, piece = now.next.piece, clock = now.clock && now.clock.piece === piece.id ? now.clock : null;
  const parts = [`<p class="over">Piece</p><h2 class="lift">${esc(piece.title)}</h2><p class="scheme">${esc(piece.scheme)}</p>`];
  if (piece.sore?.length) parts.push(...piece.sore.map(each => p("note", each)), signs(view.plan));
  if (clock) parts.push(clockFace(piece, clock));
  parts.push(`<ul class="moves">${piece.movements.map((each, at) => `<li><span>${esc(each.words)}</span>${options(each, at, ui)}</li>`).join("")}</ul>`, ...piece.notes.map(each => p("note", each)));
  if (piece.sides.length) parts.push(`<p class="label">Which of the two numbers is yours?</p>`, pills("Which number is yours", "side", piece.sides, ui.fields.side, "side"));
  if (!clock && !piece.clock.none) parts.push(`<p class="label">Count-in</p>${pills("Count-in", "count", [["0", "none"], ["3", "3 s"], ["10", "10 s"]], ui.fields.count ?? "10", "count")}`, button("Start the clock", 'id="start" data-act="start"', "second"));
  parts.push(score(view, piece, clock), more(view, null));
  return parts.join("");
}

const options = (movement, at, ui) => movement.options.length < 2 && !movement.unit ? "" : `<details id="swap_${at}"><summary>${movement.options.length < 2 ? "Another load" : movement.unit ? "Instead, or another load" : "Instead"}</summary>${movement.unit ? load(movement, at, ui) : ""}${movement.options.length < 2 ? "" : pills(`Instead of ${movement.name}`, `swap-${at}`, movement.options.map(([name, words]) => [name, words ? `${name}, ${words}` : name]), (ui.fields.swaps || {})[at] ?? movement.name, `swap_${at}`)}</details>`;
const load = (movement, at, ui) => `<label class="label" for="used_${at}">Load that you use, ${movement.unit}</label><input id="used_${at}" data-field="used_${at}" inputmode="decimal" autocomplete="off" value="${esc(ui.fields[`used_${at}`] ?? "")}" placeholder="as written">`;

function clockFace(piece, clock) {
  const at = reading(clock, piece.clock, Date.now()), over = at.phase === "over";
  const taps = !over && !piece.clock.work && piece.taps !== 0 && (piece.taps === null || clock.taps.length < piece.taps);
  const splits = clock.taps.map((each, n) => time((each - (n ? clock.taps[n - 1] : clock.zero)) / 1000));
  return `<div class="clock"><p class="phase" id="clock_phase">${at.phase}</p><p class="face" id="clock_face" role="timer" aria-live="off">${time(at.shown)}</p><p class="nowdo" id="clock_now"></p><p class="then" id="clock_then"></p>` +
    `${taps ? button(`Round ${clock.taps.length + 1} done`, 'id="tap" data-do="tap"', "main") : ""}${splits.length ? `<p class="small">Rounds: ${splits.join(", ")}</p>` : ""}` +
    `${splits.length ? button(`Take round ${splits.length} back`, `id="untap" data-do="back" data-of="${clock.tapped}"`, "plain") : ""}` +
    `${over ? `<div class="row">${clock.stop ? button("It goes on", `id="go_on" data-do="back" data-of="${clock.stop}"`) : ""}${button("Put the clock away", 'id="away" data-do="away"', "plain")}</div>` : button("Stop the clock", 'id="stop" data-act="stop"', "second stop")}</div>`;
}

function score({ui}, piece, clock) {
  const f = ui.fields, over = clock && reading(clock, piece.clock, Date.now()).phase === "over";
  const cut = cutOff(clock, piece, Date.now()), shown = clock && over && !cut ? time(reading(clock, piece.clock, Date.now()).shown) : "";
  const parts = [`<h3>Your score</h3>`];
  const field = (id, label, mode = "text", value = "", such = "") => `<label class="label" for="${id}">${esc(label)}</label><input id="${id}" data-field="${id}" inputmode="${mode}" value="${esc(f[id] ?? value)}" placeholder="${esc(such)}" autocomplete="off">`;
  const ways = piece.way === "time" ? [["finished", "Finished"], ...(piece.capped ? [["cap", "Ran into the cap"]] : []), ["stopped", "Stopped early"]] : [];
  const way = f.way ?? (ways.length && !cut ? "finished" : "");
  if (cut && !f.way) parts.push(p("label", "Time is up. Did you finish?"));
  if (ways.length) parts.push(pills("How it ended", "way", ways, way, "way"));
  if (piece.way === "time" && way && way !== "cap") parts.push(field("time", way === "stopped" ? "Stopped at" : "Time", "text", shown, "8:41"));
  if (piece.rounds && (piece.way === "rounds" || way && way !== "finished")) parts.push(rounds(piece, clock, f));
  if (piece.way === "number") parts.push(field("amount", {m: "Metres", cal: "Calories", s: "Seconds"}[piece.unit] || "Repetitions in all", "numeric"));
  if (piece.way === "load") parts.push(field("amount", "Load", "decimal", "", "92.5 kg"));
  if (piece.way === "each") parts.push(field("amount", `Each interval${piece.unit ? `, ${piece.unit}` : ""}`, "text", "", "57, 55, 54"));
  if (piece.way === "kept") parts.push(`<p class="label">Intervals done in full</p>`, pills("Intervals done in full", "finished", Array.from({length: (piece.most || 0) + 1}, (_, n) => [n, String(n)]), f.finished, "finished"));
  parts.push(field("note", "Note"), button("Log the score", 'id="score" data-act="score"', "main"), p("note", ui.scoreWants));
  return `<div class="score">${parts.join("")}</div>`;
}

function rounds(piece, clock, f) {
  const one = piece.rounds.length === 1 || piece.taps === 0, chosen = f.finished ?? (clock && clock.taps.length ? clock.taps.length : one ? 0 : null);
  const shown = piece.rounds.filter(each => f.moreRounds || each.n <= Math.max(11, Number(chosen ?? 0) + 3));
  const parts = one ? [] : [`<p class="label">Rounds finished</p>`, pills("Rounds finished", "finished", shown.map(each => [each.n, each.n < 0 ? each.words : String(each.n), `aria-label="${each.n < 0 ? "" : `${each.n}: `}${esc(each.words)}"`]), chosen, "finished"), shown.length < piece.rounds.length ? button("More rounds", 'id="more_rounds" data-do="more_rounds"', "plain") : ""];
  const round = piece.rounds.find(each => each.n === Number(chosen));
  if (!one && chosen !== null && round) parts.push(p("chance", round.words));
  if (chosen !== null && round && round.moves.length) {
    if (round.moves.length > 1) parts.push(`<p class="label">Then, of the next</p>`, pills("Movements done of the next round", "moves", round.moves, f.moves ?? 0, "moves"));
    const of = round.reps[Number(f.moves ?? 0)];
    if (of && of[0] !== 1) parts.push(stepper("more", `And of ${of[0] > 0 && of[0] < 100000 ? `the ${of[0]} ` : ""}${of[1]}`, f.more ?? 0, "", "numeric"));
  }
  return parts.join("");
}

function ratingCard({plan, now, ui}) {
  const f = ui.fields, rows = Array.from({length: 11}, (_, n) => [n, String(n)]);
  const word = f.rating === undefined ? "The session as a whole; best half an hour after it." : plan.anchors[f.rating] || `between ${plan.anchors[Math.max(...Object.keys(plan.anchors).map(Number).filter(n => n < f.rating))].toLowerCase()} and the next`;
  return `<p class="over">${esc(now.next.session.title)}</p><h2 class="lift">How hard was it?</h2>${pills("How hard, 0 to 10", "rating", rows, f.rating, "rating")}<p class="chance" aria-live="polite">${esc(word)}</p>` +
    `<label class="label" for="minutes">Minutes (may stay blank)</label><input id="minutes" data-field="minutes" inputmode="numeric" autocomplete="off" value="${esc(f.minutes ?? "")}"><label class="label" for="note">Note</label><input id="note" data-field="note" maxlength="300" autocomplete="off" value="${esc(f.note ?? "")}">` +
    `${button(f.rating === undefined ? "Log the rating" : `Log ${f.rating} of 10`, 'id="rate" data-act="rate"', "main")}<div class="row">${button("Leave it open", 'id="leave" data-do="leave"', "plain")}</div>${p("note", ui.rateWants)}`;
}

function nothingCard({now}) {
  const session = now.on, then = now.ahead[0];
  if (session && session.to_end) return `<h2 class="lift">${esc(session.title)}</h2><p>Your coach's words alone.</p>${button("It is done", `id="end" data-do="end" data-step="${session.id}"`, "main")}`;
  const words = session ? "All of it is done." : "Nothing is planned for today.";
  return `<h2 class="lift">${words}</h2>${session && session.rating !== null && session.answered ? `<p>Rated ${esc(session.rating)} of 10.</p>` : ""}${then ? `<p>Next: ${esc(then.title)}, ${esc(dayWords(then.due))}.</p>` : "<p>Log what you do below, or read a coach's sheet in on the page Sheet.</p>"}`;
}

export const dayWords = day => new Date(`${day}T12:00`).toLocaleDateString("en-GB", {weekday: "long", day: "numeric", month: "long"});

function rest() {
  return `<p class="rest" id="rest" role="timer" aria-live="off" hidden></p>`;
}

function undo({now}) {
  return now.last ? `<div class="undo">${button(`Undo: ${told(now.last)}`, `id="undo" data-act="undo" data-of="${now.last.of}"`)}</div>` : "";
}

// What a stray touch may have done is turned round where the hand is.
function back({now}) {
  if (!now.back) return "";
  const {of, stands, words, undid} = now.back, said = undid ? (stands ? `Put back: ${words}` : `Taken back: ${words}`) : words;
  return `<div class="back" role="group" aria-label="The last touch"><span>${esc(said)}</span>${button(undid && !stands ? "Put it back" : "Take it back", `id="back" data-do="back" data-of="${of}"`)}</div>`;
}

const LEFT = [0, 1, 2, 3, 4, 5].map(n => [String(n), n === 5 ? "5 or more" : String(n)]);

// One touch more says how hard the last set was; who does not say it goes on.
function effort({now, plan}) {
  const row = now.sets.at(-1);
  if (!row || row.rir !== null && row.rir !== "" || row.outcome !== "done" || row.kind === "test" || Date.now() - Date.parse(row.at) > 20 * 60000 || now.hurts.has(row.lift)) return "";
  if (now.on && now.on.lines.some(line => line.test && line.lift === row.lift)) return "";
  return `<section class="effort" aria-labelledby="effort_head"><p class="label" id="effort_head">Left in reserve after ${esc(row.said)}?</p><div class="pills" role="group" aria-labelledby="effort_head">${LEFT.map(([n, words]) => button(words, `id="effort_${n}" data-do="effort" data-id="${esc(row.id)}" data-n="${n}"`)).join("")}</div></section>`;
}

function doneList({now, ui}) {
  if (!now.sets.length) return "";
  const row = each => `<li class="${each.outcome}"><span>${esc(each.words)}</span>${each.kept ? '<em class="chip">kept</em>' : '<em class="chip saved">saved</em>'}${button("Mend", `id="mend_${each.id}" data-do="mend" data-id="${each.id}" aria-label="Mend: ${esc(each.words)}"`, "plain")}${ui.mend === each.id ? mend(each, ui) : ""}</li>`;
  return `<section class="list" aria-labelledby="done_head"><h2 id="done_head">Done today</h2><ul>${[...now.sets].reverse().map(row).join("")}</ul></section>`;
}

function mend(row, ui) {
  const f = ui.fields, left = [["", "not said"], ...LEFT];
  return `<div class="editor">${stepper("mend_load", "Load", f.mend_load ?? row.load, row.unit)}${stepper("mend_reps", "Repetitions", f.mend_reps ?? row.reps, "", "numeric")}<p class="label">Repetitions left in reserve</p>${pills("Repetitions left in reserve", "rir", left, f.rir ?? row.rir ?? "", "rir")}` +
    `<label class="label" for="note">Note</label><input id="note" data-field="note" maxlength="300" value="${esc(f.note ?? row.note)}" autocomplete="off">${button("Keep the change", `id="mend_keep" data-do="mend_keep" data-id="${row.id}"`, "main")}</div>`;
}

const thenList = ({now}) => now.then.length ? `<section class="list" aria-labelledby="then_head"><h2 id="then_head">Then</h2><ul>${now.then.map(each => `<li><span>${esc(each.title)}</span><span class="soft">${each.times > 1 ? `${each.times} sets of ` : ""}${esc(each.words)}</span></li>`).join("")}</ul></section>` : "";

function free({plan, ui, now}) {
  if (!plan.lifts.length) return "";
  const lift = plan.lifts.find(each => each.id === ui.fields.free_lift) || plan.lifts[0], f = ui.fields;
  return `<details id="free" class="list" ${ui.freeOpen ? "open" : ""}><summary>Another set, beside the plan</summary><div class="editor"><label class="label" for="free_lift">Lift</label><select id="free_lift" data-field="free_lift">${plan.lifts.map(each => `<option value="${esc(each.id)}" ${each === lift ? "selected" : ""}>${esc(each.title)}</option>`).join("")}</select>${p("note", lift.note)}${p("small", lift.last ? `Last time: ${lift.last}` : "")}` +
    `${now.next.line?.body ? "" : weigh({plan, ui, now}, {body: lift.body && !plan.body_known})}${stepper("free_load", lift.body ? "Added load" : "Load", f.free_load ?? lift.load, lift.unit)}${stepper("free_reps", "Repetitions", f.free_reps ?? lift.reps, "", "numeric")}${button("Log it", 'id="free_log" data-do="free_log"', "second")}</div></details>`;
}

const sessions = (head, id, rows, more) => rows.length ? `<section class="list" aria-labelledby="${id}"><h2 id="${id}">${head}</h2><ul>${rows.map(each => `<li class="session"><span><b>${esc(each.title)}</b><br><span class="soft">${esc(dayWords(each.due))}</span></span><div class="row">${button(more ? "Do it now" : "Begin", `id="begin_${each.id}" data-act="begin" data-session="${each.id}" aria-label="${more ? "Do it now" : "Begin"}: ${esc(each.title)}"`)}${more ? button("Skip it", `id="skip_${each.id}" data-do="skip" data-session="${each.id}" aria-label="Skip: ${esc(each.title)}"`, "plain") : ""}</div></li>`).join("")}</ul></section>` : "";
const missed = ({now}) => sessions("Missed", "missed_head", now.missed, true);
const ahead = ({now}) => sessions("Coming", "ahead_head", now.ahead, false);
